"""Hands blocks of ready HTML through Markdown untouched, which else parses every tag in them.

A page marks such a block by two comments. Any other generator reads the block as the raw HTML that
it is, only more slowly.
"""

from __future__ import annotations

import re
from typing import Any

from markdown import Markdown
from markdown.extensions import Extension
from markdown.preprocessors import Preprocessor

_BLOCK = re.compile(r"^<!-- ready -->\n(.*?)\n<!-- /ready -->$", re.DOTALL | re.MULTILINE)
_ID = re.compile(r' id="([^"]+)"')
# The step in which MkDocs looks through raw HTML for what links can lead to.
_LOOKS = "mkdocs_raw_html"
# After line ends are made alike and before that step; and between it and the reading of raw HTML.
_BEFORE_LOOKING, _AFTER_LOOKING = 25.0, 20.5


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
    """Tells MkDocs what links can lead to in the blocks kept aside."""

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
    """The extension that the pages of a kit are written with."""

    def extendMarkdown(self, md: Markdown) -> None:
        """Look for the blocks first."""
        ids: set[str] = set()
        md.preprocessors.register(_ReadyBlocks(md, ids), "ready_html", _BEFORE_LOOKING)
        md.preprocessors.register(_ReadyIds(md, ids), "ready_ids", _AFTER_LOOKING)


def makeExtension(**config: Any) -> ReadyHtml:
    """Give the extension to who names this module."""
    return ReadyHtml(**config)
