"""Blocks of ready HTML reach the page as they are, and links into them are known."""

from __future__ import annotations

import markdown
import pytest

from builder.site.ready_html import ReadyHtml

BLOCK = '<ul>\n<li id="how-a">a &lt; *b*</li>\n</ul>'
PAGE = f"# Head\n\n<!-- ready -->\n{BLOCK}\n<!-- /ready -->\n\nWords *after*.\n"


class Looks(markdown.preprocessors.Preprocessor):
    """Stands for the step in which MkDocs looks for ids."""

    present_anchor_ids: set[str]

    def run(self, lines: list[str]) -> list[str]:
        self.present_anchor_ids = {"seen"} if any("how-a" in line for line in lines) else set()
        return lines


def test_a_block_is_handed_through_untouched() -> None:
    html = markdown.markdown(PAGE, extensions=[ReadyHtml(), "md_in_html", "attr_list"])
    assert BLOCK in html
    assert "Words <em>after</em>" in html
    assert "ready" not in html


@pytest.mark.parametrize("page", [PAGE, PAGE + PAGE.replace("how-a", "how-b")])
def test_links_into_a_block_are_known_though_nobody_looked_into_it(page: str) -> None:
    md = markdown.Markdown(extensions=[ReadyHtml()])
    looks = Looks(md)
    md.preprocessors.register(looks, "mkdocs_raw_html", 21)
    md.convert(page)
    assert looks.present_anchor_ids == {"how-a", "how-b"} & set(page.replace('"', " ").split())


def test_other_generators_read_the_same_block_as_html() -> None:
    without = markdown.markdown(PAGE, extensions=["md_in_html", "attr_list"])
    assert BLOCK in without
