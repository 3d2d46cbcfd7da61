"""Lets the generator read the pages of a kit fast: whole pages, and blocks of ready HTML.

Python-Markdown parses every sign and tag of a page. A page in the small Markdown of our templates
is rendered by `plain_markdown`; any other page is read as ever, but for its blocks of ready HTML,
which stand between two comments. Any other generator reads either as the Markdown that it is, only
more slowly.
"""

from __future__ import annotations

import re
from typing import Any
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.extensions.toc import nest_toc_tokens
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor

from builder.site.rendering.plain_markdown import (
    READY_BEGINS,
    READY_ENDS,
    Heading,
    NotPlain,
    render,
)

_BLOCK = re.compile(
    rf"^{re.escape(READY_BEGINS)}\n(.*?)\n{re.escape(READY_ENDS)}$", re.DOTALL | re.MULTILINE
)
_ID = re.compile(r' id="([^"]+)"')
# The step in which MkDocs looks through raw HTML for what links can lead to.
_LOOKS = "mkdocs_raw_html"
# After line ends are made alike and before that step; and between it and the reading of raw HTML.
_WHOLE_PAGE, _BEFORE_LOOKING, _AFTER_LOOKING = 26.0, 25.0, 20.5
# After the generator has listed the headings that it saw.
_AFTER_CONTENTS = 1.0


class _PlainPage(Preprocessor):
    """Renders a page that is in our own small Markdown, and leaves every other as it is."""

    def __init__(self, md: Markdown, ids: set[str]) -> None:
        super().__init__(md)
        self.ids = ids
        self.headings: tuple[Heading, ...] | None = None

    def run(self, lines: list[str]) -> list[str]:
        """Put a mark in place of a page's text, and note its headings and ids."""
        self.headings = None
        try:
            rendered = render("\n".join(lines))
        except NotPlain:
            return lines
        self.headings = rendered.headings
        self.ids.update(rendered.ids)
        # Two line ends after it, as after every block: else one would be taken for its own.
        return [self.md.htmlStash.store(rendered.html), "", ""]


class _Contents(Treeprocessor):
    """Tells the headings of a page that was rendered whole."""

    def __init__(self, md: Markdown, page: _PlainPage) -> None:
        super().__init__(md)
        self.page = page

    def run(self, root: Element) -> None:
        """Nest the headings as the generator does its own."""
        if self.page.headings is not None:
            told: Any = self.md
            told.toc_tokens = nest_toc_tokens(
                [
                    {"level": each.level, "id": each.id, "name": each.name}
                    for each in self.page.headings
                ]
            )


class _ReadyBlocks(Preprocessor):
    """Keeps the blocks aside until the page is written."""

    def __init__(self, md: Markdown, ids: set[str]) -> None:
        super().__init__(md)
        self.ids = ids

    def run(self, lines: list[str]) -> list[str]:
        """Put a mark in place of each block, and note what links can lead to in it."""
        return _BLOCK.sub(self._kept, "\n".join(lines)).split("\n")

    def _kept(self, block: re.Match[str]) -> str:
        self.ids.update(_ID.findall(block[1]))
        return f"\n{self.md.htmlStash.store(block[1])}\n"


class _ReadyIds(Preprocessor):
    """Tells MkDocs what links can lead to in what was kept aside."""

    def __init__(self, md: Markdown, ids: set[str]) -> None:
        super().__init__(md)
        self.ids = ids

    def run(self, lines: list[str]) -> list[str]:
        """Add the ids to those that were found in the rest of the page."""
        if _LOOKS in self.md.preprocessors:
            looks: Any = self.md.preprocessors[_LOOKS]
            looks.present_anchor_ids |= self.ids
        return lines


class PageMarkdown(Extension):
    """The extension that the pages of a kit are read with."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Look for whole pages first, then for blocks."""
        ids: set[str] = set()
        page = _PlainPage(md, ids)
        md.preprocessors.register(page, "plain_page", _WHOLE_PAGE)
        md.preprocessors.register(_ReadyBlocks(md, ids), "ready_blocks", _BEFORE_LOOKING)
        md.preprocessors.register(_ReadyIds(md, ids), "ready_ids", _AFTER_LOOKING)
        md.treeprocessors.register(_Contents(md, page), "plain_contents", _AFTER_CONTENTS)


def makeExtension(**config: Any) -> PageMarkdown:
    """Give the extension to who names this module."""
    return PageMarkdown(**config)
