"""Plain pages and blocks of ready HTML reach the site as they are; links into them are known."""

from __future__ import annotations

from typing import Any

import markdown
import pytest

from builder.site.rendering.page_markdown import PageMarkdown

BLOCK = '<ul>\n<li id="how-a">a &lt; *b*</li>\n</ul>'
PLAIN = (
    f"# Head {{#top}}\n\n<!-- ready -->\n{BLOCK}\n<!-- /ready -->\n\nWords *after*.\n\n## Next\n"
)
NOT_PLAIN = PLAIN.replace("Words", "`Words`")


class Looks(markdown.preprocessors.Preprocessor):
    """Stands for the step in which MkDocs looks for ids."""

    present_anchor_ids: set[str]

    def run(self, lines: list[str]) -> list[str]:
        self.present_anchor_ids = {"seen"} if any("how-a" in line for line in lines) else set()
        return lines


@pytest.mark.parametrize("page", [PLAIN, NOT_PLAIN])
def test_a_block_is_handed_through_untouched(page: str) -> None:
    html = markdown.markdown(page, extensions=[PageMarkdown(), "md_in_html", "attr_list", "toc"])
    assert BLOCK in html
    assert html.startswith('<h1 id="top">')
    assert " <em>after</em>.</p>" in html
    assert "ready" not in html


@pytest.mark.parametrize("page", [NOT_PLAIN, NOT_PLAIN + NOT_PLAIN.replace("how-a", "how-b")])
def test_links_into_a_block_are_known_though_nobody_looked_into_it(page: str) -> None:
    md = markdown.Markdown(extensions=[PageMarkdown()])
    looks = Looks(md)
    md.preprocessors.register(looks, "mkdocs_raw_html", 21)
    md.convert(page)
    assert looks.present_anchor_ids == {"how-a", "how-b"} & set(page.replace('"', " ").split())


def test_links_into_a_plain_page_and_its_headings_are_known() -> None:
    md: Any = markdown.Markdown(extensions=["toc", "attr_list", PageMarkdown()])
    looks = Looks(md)
    md.preprocessors.register(looks, "mkdocs_raw_html", 21)
    md.convert(PLAIN)
    assert looks.present_anchor_ids == {"top", "how-a", "next"}
    assert [(each["id"], each["name"]) for each in md.toc_tokens] == [("top", "Head")]
    assert [each["id"] for each in md.toc_tokens[0]["children"]] == ["next"]


def test_nothing_of_a_plain_page_stays_for_the_next() -> None:
    md: Any = markdown.Markdown(extensions=["toc", "attr_list", PageMarkdown()])
    md.convert(PLAIN)
    md.reset()
    html = md.convert("`code`\n\n# Other {#other}\n")
    assert "Head" not in html
    assert [each["id"] for each in md.toc_tokens] == ["other"]


def test_other_generators_read_the_same_block_as_html() -> None:
    without = markdown.markdown(PLAIN, extensions=["md_in_html", "attr_list"])
    assert BLOCK in without
