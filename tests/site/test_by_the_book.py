"""What goes round MkDocs and its theme is what they make of the same pages, page by page."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Mapping
from functools import cache
from html import escape
from pathlib import Path
from typing import Any

import material
import pytest
from markupsafe import Markup
from mkdocs.commands.build import build
from mkdocs.config.defaults import MkDocsConfig

from builder.model.kit import Kit
from builder.pages.navigation import NavItem
from builder.pages.trip.book import write_book
from builder.record import replace
from builder.site.assemble import build_site
from builder.site.folder.kit_files import write_files
from builder.site.rendering import chrome, run_mkdocs
from builder.site.rendering.framing import put_together, taken_apart
from builder.site.rendering.renderer import Rendering, own_settings
from builder.site.site_input import SiteInput
from tests.benchmarks.measuring import demo_folder, demo_kits
from tests.site.sample import ASSETS, BASE_CONFIG, CHART, EPOCH, sample_site
from tests.site.test_plain_markdown import same

READY = re.compile(r"<!-- /?ready -->")
FROM_THE_RIGHT = "\u05e9\u05dc\u05d5\u05dd, \u0645\u0631\u062d\u0628\u0627"
ODD = f"A\u2028b  <i>&amp; {FROM_THE_RIGHT} `*_[x](y)_*` {{{{ 7 }}}} \\"


def asked(folder: Path, site: SiteInput, theme: Path = ASSETS / "theme") -> Rendering:
    """Ask for a site."""
    pages = {path: text.encode("utf-8") for path, text in site.pages.items()}
    files = {**pages, **site.files}
    return Rendering(site, files, folder / "ours", theme, BASE_CONFIG)


def by_mkdocs_alone(wanted: Rendering) -> Path:
    """Build with MkDocs, its theme and its search plugin, and nothing of ours but the settings."""
    alone = replace(wanted, into=wanted.into.with_name("theirs"))
    docs = wanted.into.with_name("docs")
    write_files(docs, wanted.files)
    config: Any = MkDocsConfig(config_file_path=str(BASE_CONFIG))
    with BASE_CONFIG.open("rb") as file:
        config.load_file(file)
    config.load_dict(own_settings(alone, config, as_title=lambda title: Markup(escape(title))))
    config["docs_dir"] = str(docs)
    config["strict"] = False
    assert config.validate() == ([], [])
    build(config)
    return alone.into


def holds_to_mkdocs(wanted: Rendering) -> None:
    """Hold frame, article and found words of each page to what MkDocs makes."""
    rendered = run_mkdocs.render(wanted)
    theirs = by_mkdocs_alone(wanted)
    assert rendered.doubts == ()
    pages = [Path(name) for name in wanted.files if name.endswith(".md")]
    assert {Path(name) for name in rendered.pages} == {each.with_suffix(".html") for each in pages}
    for name, page in rendered.pages.items():
        ours = taken_apart(put_together(page))
        other = taken_apart((theirs / name).read_text("utf-8"))
        assert ours.frame.before.split() == other.frame.before.split(), name
        assert ours.frame.after.split() == other.frame.after.split(), name
        assert same(ours.article) == same(READY.sub("", other.article)), name
    found = json.loads((theirs / "search/search_index.json").read_text("utf-8"))["docs"]
    assert [by_words(each._asdict(), "address") for each in rendered.parts] == [
        by_words(each, "location") for each in found
    ]


def by_words(part: Mapping[str, str], address: str) -> list[str]:
    """Give what is found without room between words."""
    return [part[address], *(" ".join(part[each].split()) for each in ("title", "text"))]


@cache
def kits() -> dict[str, Kit]:
    """Give the demo kits, planned."""
    return {kit.id: kit for kit in demo_kits(demo_folder())}


def site_of(trip: str, language: str) -> SiteInput:
    """Give the pages of a demo trip in a language."""
    kit = kits()[trip]
    book = write_book(replace(kit, language=language), ASSETS)
    return SiteInput(trip, kit.title, language, book.markdown, book.nav, book.files, "", EPOCH)


@pytest.mark.parametrize(
    ("trip", "language"),
    [("rindle-fen", "en"), ("graupel-ridge", "de"), ("lake-emmerin", "nb"), ("tarrow-tops", "en")],
)
def test_every_page_of_the_demo_is_what_mkdocs_makes(
    tmp_path: Path, trip: str, language: str
) -> None:
    holds_to_mkdocs(asked(tmp_path, site_of(trip, language)))


def odd_site() -> SiteInput:
    """Give a site of pages of every sort, with odd names, some of which only MkDocs may read."""
    site = sample_site(title=ODD)
    pages = {
        **site.pages,
        "day-3.md": f"# Three {{#day}}\n\n{CHART}",  # with no contents
        "day-4.md": "# Four {#day}\n\nWith `code`.\n\n## A\n\n### B\n\n## C\n",
        "cook/tea.md": "Words before.\n\n# Tea {#tea}\n\n# Two of the first rank\n\nBoil.\n",
        "cook/oats.md": "---\nsearch:\n  exclude: true\n---\n\n# Oats {#oats}\n\n## A *b* {#a}\n",
        "cook/none.md": "No heading at all.\n",
        "far/off/end.md": "# End {#end}\n\n[Back](../../day-1.md#day)\n",
    }
    days: tuple[NavItem, ...] = tuple(
        (f"{ODD} {number}", f"day-{number}.md") for number in range(1, 5)
    )
    cooked: tuple[NavItem, ...] = tuple(
        (f"{ODD} {name}", f"cook/{name}.md") for name in ("bean-pot", "tea", "oats", "none")
    )
    nav: tuple[NavItem, ...] = (
        (ODD, "index.md"),
        ("Days", (*days, (ODD, cooked))),
        ("Cautions", "cautions.md"),
        (ODD, "far/off/end.md"),
    )
    return replace(site, pages=pages, nav=nav, files={**site.files, "pocket.html": b"<p>All</p>"})


def test_odd_names_and_pages_of_every_sort_are_what_mkdocs_makes(tmp_path: Path) -> None:
    holds_to_mkdocs(asked(tmp_path, odd_site()))


def test_pages_alike_share_a_frame_and_few_go_through_the_theme(tmp_path: Path) -> None:
    pages = run_mkdocs.render(asked(tmp_path, site_of("tarrow-tops", "en"))).pages
    assert len({id(page.frame) for page in pages.values()}) <= len(pages) / 3


# Themes that make of a page what is not known: in its title, in its menu, beside its contents.
OTHER_THEMES = {
    "main.html": ("{{ page.title }}", "{{ page.title }} ({{ page.title | length }})"),
    "partials/nav-item.html": ("<li", "<div"),
    "partials/toc.html": ("{{ title }}", "{{ title }} {{ page.toc | first }}"),
    "partials/footer.html": ("{{ page.next_page.title }}", "{{ page.next_page.title | upper }}"),
}


@pytest.mark.parametrize("changed", OTHER_THEMES)
def test_with_a_theme_that_is_not_known_every_page_goes_through_it(
    tmp_path: Path, changed: str
) -> None:
    shutil.copytree(ASSETS / "theme", tmp_path / "theme")
    template = tmp_path / "theme" / changed
    if not template.exists():
        template.parent.mkdir(exist_ok=True)
        shutil.copyfile(Path(material.__file__).parent / "templates" / changed, template)
    text = template.read_text("utf-8")
    was, becomes = OTHER_THEMES[changed]
    assert was in text
    template.write_text(text.replace(was, becomes), "utf-8")
    wanted = asked(tmp_path, site_of("rindle-fen", "en"), tmp_path / "theme")
    rendered = run_mkdocs.render(wanted)
    assert [problem.kind for problem in rendered.doubts] == ["theme-unknown"]
    theirs = by_mkdocs_alone(wanted)
    for name, page in rendered.pages.items():
        other = taken_apart((theirs / name).read_text("utf-8"))
        assert page.frame.before.split() == other.frame.before.split(), name
        assert page.frame.after.split() == other.frame.after.split(), name


def test_a_build_warns_of_such_a_theme_and_ends_well(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def other(*_: object) -> dict[str, object]:
        raise chrome.NotLearned("the menu has no item for a page")

    monkeypatch.setattr(run_mkdocs, "framed_pages", other)
    doubts = build_site(sample_site(), tmp_path, ASSETS, BASE_CONFIG)
    assert [(each.kind, each.severity) for each in doubts] == [("theme-unknown", "warning")]
    monkeypatch.undo()
    build_site(sample_site(), tmp_path / "again", ASSETS, BASE_CONFIG)
    for page in (tmp_path / "again/lake-walk").rglob("*.html"):
        slow = tmp_path / page.relative_to(tmp_path / "again")
        assert page.read_bytes() == slow.read_bytes(), page.name
