"""The generator that will take MkDocs' place makes the same kit of the same pages."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from builder.problems import Problem
from builder.site.assemble import build_site
from builder.site.errors import SiteError
from builder.site.rendering.generators import SUCCESSOR
from tests.conftest import files_of, tripkit
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site

TRIP = "tarrow-tops"
ARTICLE = re.compile(r"<article\b[^>]*>(.*)</article>", re.DOTALL)
POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)"')
TITLE = re.compile(r"<title>([^<]*)</title>")
# The theme marks with the first where its link leads that passes over the frame, and takes the
# second away once it has read it.
OF_THE_THEME = re.compile(r'<a id="__skip"[^>]*></a>| data-search-exclude(?=[ >])')


@pytest.fixture(scope="module")
def kits(demo_kits: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Give one kit of both generators."""
    out = tmp_path_factory.mktemp("successor")
    said = tripkit("build", TRIP, "--generator", SUCCESSOR, "--out", str(out))
    assert said.exit_code == 0, said.output
    return demo_kits / TRIP, out / TRIP


def pages(kit: Path) -> dict[str, str]:
    found = {
        file.relative_to(kit).as_posix(): file.read_text("utf-8") for file in kit.rglob("*.html")
    }
    del found["pocket.html"]  # not rendered by any generator
    return found


def article(page: str) -> str:
    found = ARTICLE.search(page)
    assert found is not None
    return re.sub(r"\s+", " ", OF_THE_THEME.sub("", found[1])).strip()


def test_the_kits_hold_the_same_files(kits: tuple[Path, Path]) -> None:
    usual, successor = (set(files_of(kit)) for kit in kits)
    assert successor == usual


def test_every_article_title_and_policy_is_the_same(kits: tuple[Path, Path]) -> None:
    usual, successor = (pages(kit) for kit in kits)
    assert len(usual) > 30
    for name, page in usual.items():
        other = successor[name]
        assert article(other) == article(page), name
        assert POLICY.findall(other) == POLICY.findall(page) != [], name
        assert TITLE.findall(other) == TITLE.findall(page), name


def test_the_search_looks_through_the_same_words(kits: tuple[Path, Path]) -> None:
    usual, successor = ((kit / "search/search_index.js").read_text("utf-8") for kit in kits)
    assert successor == usual


def test_it_asks_nothing_of_anybody(kits: tuple[Path, Path]) -> None:
    """The checks on a kit hold it too; they stop a build that loads from elsewhere."""
    for name, page in pages(kits[1]).items():
        assert not re.search(r"<(?:script|link|img)[^>]*(?:src|href)=.(?:https?:)?//", page), name
        assert "canonical" not in page, name


def successor_of(into: Path, extra_page: str = "") -> tuple[Problem, ...]:
    site = sample_site(extra_page=extra_page)
    return build_site(site, into, ASSETS, BASE_CONFIG, generator=SUCCESSOR)


def test_the_same_pages_give_the_same_bytes_and_words_of_a_user_stay_words(tmp_path: Path) -> None:
    for name in "ab":
        successor_of(tmp_path / name)
    first, second = (files_of(tmp_path / name / "lake-walk") for name in "ab")
    assert first == second
    data = json.loads(first["kit.json"])
    assert data["trip"]["title"] == "Lake & <Shore> walk"
    front = first["index.html"].decode()
    assert TITLE.findall(front) == ["Lake &amp; &lt;Shore&gt; walk"]
    assert not re.search("<(Shore|more)>|&amp;(amp|lt);", front)


@pytest.mark.parametrize(
    ("link", "told"),
    [
        ("[on](gone.md)", "cautions.md:7:6: page does not exist"),
        ("[on](day-1.md#gone)", "cautions.md:7:15: anchor does not exist"),
    ],
)
def test_a_link_that_leads_nowhere_stops_the_kit(tmp_path: Path, link: str, told: str) -> None:
    with pytest.raises(SiteError) as stop:
        successor_of(tmp_path, f"\n{link}\n")
    assert list(stop.value.hints) == [told]
    assert not (tmp_path / "lake-walk").exists()


def test_without_it_one_is_told_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("builder.site.rendering.run_zensical.find_spec", lambda _: None)
    with pytest.raises(SiteError, match="zensical is not installed"):
        successor_of(tmp_path)
