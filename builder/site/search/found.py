"""What search finds on the pages of a kit, as the theme's own search would find it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page

from builder.site.rendering.plain_markdown import NotPlain
from builder.site.rendering.renderer import Part
from builder.site.search.search_sections import sections

# Told by the theme's plugin to pages; it takes them off once it has read them.
_TOLD_IN_PAGES = "data-search-"


def found_on(pages: Sequence[Page], config: MkDocsConfig, nav: Navigation) -> list[Part]:
    """Give what is found on all pages; those that are not plain are read by the theme's plugin."""
    theme: Any = config.plugins["material/search"]
    for page in pages:
        asked = page.meta.setdefault("search", {})
        if not asked:
            try:
                theme.search_index.entries += _entries(page)
            except NotPlain:
                pass
            else:
                asked["exclude"] = True
        if not asked or _TOLD_IN_PAGES in (page.content or ""):
            theme.on_page_context({}, page=page, config=config, nav=nav)
    entries = theme.search_index.entries
    return [Part(each["location"], each["title"], each["text"]) for each in entries]


def _entries(page: Page) -> Iterator[dict[str, str]]:
    for section in sections(page.content or ""):
        yield {
            "location": f"{page.url}#{section.id}" if section.id else page.url,
            "title": "".join(section.title).strip(),
            "text": "".join(section.text).strip(),
        }
