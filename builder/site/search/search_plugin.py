"""Gives the theme's search what it finds on each page, so that it need not read the page itself."""

from __future__ import annotations

from typing import Any

from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from builder.site.rendering.plain_markdown import NotPlain
from builder.site.search.search_sections import sections

# Before the theme's plugin looks at the page.
_FIRST = 100


class NoSettings(Config):
    """The plugin has nothing to set."""


class SearchSections(BasePlugin[NoSettings]):
    """Adds the entries of plain pages to the theme's index; it reads every other page itself."""

    name = "kit-search"

    @event_priority(_FIRST)
    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, **_: object
    ) -> TemplateContext:
        """Add a page's entries, and ask the theme's plugin to leave it alone."""
        asked = page.meta.setdefault("search", {})
        if asked:
            return context
        try:
            found = sections(page.content or "")
        except NotPlain:
            return context
        search: Any = config.plugins["material/search"]
        search.search_index.entries += [
            {
                "location": f"{page.url}#{section.id}" if section.id else page.url,
                "title": "".join(section.title).strip(),
                "text": "".join(section.text).strip(),
            }
            for section in found
        ]
        asked["exclude"] = True
        return context
