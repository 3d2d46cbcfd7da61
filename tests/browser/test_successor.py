"""A kit by the generator that will take MkDocs' place opens from disk, and is searched there."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from builder.site.assemble import build_site
from builder.site.rendering.generators import SUCCESSOR
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site

from .looking import offline_page, pages_of, search_for, too_wide


@pytest.fixture(scope="module")
def kits_by_successor(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("by-successor")
    build_site(sample_site(), out, ASSETS, BASE_CONFIG, generator=SUCCESSOR)
    return out


def test_it_works_from_disk_with_no_network_under_its_policy(
    browser: Browser, kits_by_successor: Path
) -> None:
    kit = kits_by_successor / "lake-walk"
    with offline_page(browser, width=360) as (page, seen):
        for file in pages_of(kits_by_successor):
            page.goto(file.as_uri(), wait_until="load")
            page.wait_for_timeout(100)
            assert page.locator("h1").count() == 1, file
        page.goto((kit / "cook/bean-pot.html").as_uri())
        search_for(page, "carbon")
        result = page.locator(".md-search-result__item a").first
        expect(result).to_be_visible()
        result.click()
        expect(page.get_by_role("heading", name="Carbon monoxide")).to_be_visible()
        assert page.url.startswith(kit.as_uri())
        assert too_wide(page, kits_by_successor) == {}
    assert seen.outside == []
    assert seen.complaints == []
