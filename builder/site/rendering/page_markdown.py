"""Reads the pages of a kit fast: whole pages, and blocks of ready HTML.

Python-Markdown parses every sign and tag of a page. A page in the small Markdown of our templates
is rendered by `plain_markdown`; any other page is read as MkDocs reads it, but for its blocks of
ready HTML, which stand between two comments. Any other generator reads either as the Markdown that
it is, only more slowly.
"""

from __future__ import annotations

import re
from typing import Any

from markdown import Markdown
from markdown.extensions import Extension
from markdown.extensions.toc import nest_toc_tokens
from markdown.preprocessors import Preprocessor
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import get_toc

from builder.site.rendering.plain_markdown import READY_BEGINS, READY_ENDS, NotPlain, render

_BLOCK = re.compile(
    rf"^{re.escape(READY_BEGINS)}\n(.*?)\n{re.escape(READY_ENDS)}$", re.DOTALL | re.MULTILINE
)
_ID = re.compile(r' id="([^"]+)"')
# The step in which MkDocs looks through raw HTML for what links can lead to.
_LOOKS = "mkdocs_raw_html"
# After line ends are made alike and before that step; and between it and the reading of raw HTML.
_BEFORE_LOOKING, _AFTER_LOOKING = 25.0, 20.5


def read_page(page: Page, config: MkDocsConfig, files: Files) -> None:
    """Let a page of the generator hold its HTML, its headings, and what links can lead to."""
    page.read_source(config)
    try:
        rendered = render(page.markdown or "")
    except NotPlain:
        page.render(config, files)
        return
    headings: Any = [
        {"level": each.level, "id": each.id, "name": each.name} for each in rendered.headings
    ]
    page.content = rendered.html
    page.toc = get_toc(nest_toc_tokens(headings))
    page.present_anchor_ids = set(rendered.ids)


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


class ReadyHtml(Extension):
    """The extension that pages are read with which only the generator itself may read."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Look for blocks before anything else does."""
        ids: set[str] = set()
        md.preprocessors.register(_ReadyBlocks(md, ids), "ready_blocks", _BEFORE_LOOKING)
        md.preprocessors.register(_ReadyIds(md, ids), "ready_ids", _AFTER_LOOKING)


def makeExtension(**config: Any) -> ReadyHtml:
    """Give the extension to who names this module."""
    return ReadyHtml(**config)
