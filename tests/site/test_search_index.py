"""The search index lies in a kit once, where the theme's bundle can be told so."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.site.search_index import AS_JSON, AS_SCRIPT, keep_one_index

CHOOSES = 'return location.protocol==="file:"?t(`${new URL("search/search_index.js",b)}`):u()'


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for name, text in ((AS_SCRIPT, "var __index = {}"), (AS_JSON, "{}")):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text)
    (tmp_path / "assets/javascripts").mkdir(parents=True)
    return tmp_path


def bundle(site: Path, text: str) -> Path:
    made = site / "assets/javascripts/bundle.12ab.min.js"
    made.write_text(text)
    return made


def test_a_bundle_that_chooses_takes_the_script_everywhere(site: Path) -> None:
    made = bundle(site, f'if(location.protocol==="file:")x();{CHOOSES}')
    keep_one_index(site)
    assert made.read_text() == (
        'if(location.protocol==="file:")x();'
        'return !0?t(`${new URL("search/search_index.js",b)}`):u()'
    )
    assert (site / AS_SCRIPT).is_file()
    assert not (site / AS_JSON).exists()


@pytest.mark.parametrize("text", ["fetch('search/search_index.json')", CHOOSES + CHOOSES])
def test_any_other_bundle_keeps_both(site: Path, text: str) -> None:
    made = bundle(site, text)
    keep_one_index(site)
    assert (site / AS_JSON).is_file()
    if text != CHOOSES + CHOOSES:
        assert made.read_text() == text
