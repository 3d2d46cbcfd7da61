"""Plain pages and blocks of ready HTML reach the site as they are; links into them are known."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import markdown
import pytest
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files, get_files
from mkdocs.structure.pages import Page

from builder.site.rendering.page_markdown import ReadyHtml, read_page

BLOCK = '<ul>\n<li id="how-a">a &lt; *b*</li>\n</ul>'
PLAIN = (
    f"# Head {{#top}}\n\n<!-- ready -->\n{BLOCK}\n<!-- /ready -->\n\nWords *after*.\n\n## Next\n"
)
NOT_PLAIN = PLAIN.replace("Words", "`Words`")


def read(folder: Path, text: str) -> Page:
    """Read one page as a build does."""
    docs = folder / "docs"
    docs.mkdir()
    (docs / "day-1.md").write_text(text, "utf-8")
    config = MkDocsConfig()
    extensions = ["attr_list", "md_in_html", ReadyHtml.__module__]
    config.load_dict({"site_name": "x", "docs_dir": str(docs), "markdown_extensions": extensions})
    config.validate()
    files: Files = get_files(config)
    page = Page("Day", next(iter(files)), config)
    read_page(page, config, files)
    return page


@pytest.mark.parametrize("text", [PLAIN, NOT_PLAIN])
def test_a_block_is_handed_through_untouched(tmp_path: Path, text: str) -> None:
    html = read(tmp_path, text).content or ""
    assert BLOCK in html
    assert html.startswith('<h1 id="top">')
    assert " <em>after</em>.</p>" in html
    assert "ready" not in html


@pytest.mark.parametrize(
    "text", [PLAIN, NOT_PLAIN, NOT_PLAIN + NOT_PLAIN.replace("how-a", "how-b")]
)
def test_links_into_a_page_are_known_though_nobody_looked_into_its_blocks(
    tmp_path: Path, text: str
) -> None:
    known = read(tmp_path, text).present_anchor_ids or set()
    assert {"how-a", "how-b"} & known == {"how-a", "how-b"} & set(text.replace('"', " ").split())
    assert {"top", "next"} <= known


@pytest.mark.parametrize("text", [PLAIN, NOT_PLAIN])
def test_the_headings_of_a_page_are_nested(tmp_path: Path, text: str) -> None:
    contents: Any = list(read(tmp_path, text).toc)
    assert [(each.id, each.title, each.level) for each in contents] == [("top", "Head", 1)]
    assert [(each.id, each.url) for each in contents[0].children] == [("next", "#next")]


def test_what_is_told_on_top_of_a_page_is_none_of_its_text(tmp_path: Path) -> None:
    page = read(tmp_path, f"---\nsearch:\n  exclude: true\n---\n\n{PLAIN}")
    assert page.meta == {"search": {"exclude": True}}
    assert "exclude" not in (page.content or "")


def test_other_generators_read_the_same_block_as_html() -> None:
    without = markdown.markdown(PLAIN, extensions=["md_in_html", "attr_list"])
    assert BLOCK in without
