"""Finishing touches on a rendered page that Markdown and the theme cannot make."""

from __future__ import annotations

import re

from builder.site.finishing.access import with_captions, with_row_heads
from builder.site.finishing.directions import isolated
from builder.site.finishing.grown import FOR_SCRIPTS, ungrown
from builder.site.finishing.styles import without_theme_links

# Markdown tells a column's side by a style attribute, which the policy forbids. Page text cannot
# look like this, because its "<" is escaped.
CELL_STYLE = re.compile(r'<(?P<cell>t[hd]) style="text-align: ?(?P<side>left|right|center);?">')
SIDE_CLASS = {"left": "", "right": ' class="num"', "center": ' class="mid"'}
# The theme's search box is a dialog without a name; the field in it has one, in the right language.
SEARCH_DIALOG = re.compile(
    r'(?P<dialog><div class="md-search"[^>]*role="dialog")(?P<between>>.*?<input[^>]*'
    r'class="md-search__input"[^>]*aria-label="(?P<name>[^"]*)")',
    re.S,
)
# Who made the page's frame is told in licences.txt.
GENERATOR = re.compile(r'<meta name="generator"[^>]*>\s*')
# A browser fetches the next page ahead, which the policy forbids in some; readers have the links.
NEIGHBOURS = re.compile(r'<link rel="(?:prev|next)"[^>]*>\s*')
LOGO = re.compile(r'(<img src="[^"]*)" alt="logo"')  # its link has the kit's name
# Places for what only the theme's own scripts would tell.
FOR_NOTICES = re.compile(
    r'<div data-md-component="announce">\s*</div>\s*'
    r'|<div class="md-dialog"[^>]*>\s*<div class="md-dialog__inner[^>]*>\s*</div>\s*</div>\s*'
)
# The theme lists a page's parts a second time inside the menu, where the kit's look never shows it.
PARTS_IN_MENU = re.compile(
    r'<input class="md-nav__toggle md-toggle" type="checkbox" id="__toc">\s*'
    r'<label class="md-nav__link md-nav__link--active" for="__toc">.*?</label>'
    r'(?P<page>\s*<a [^>]*>.*?</a>\s*)(?=<nav class="md-nav md-nav--secondary")',
    re.S,
)
NAV_TAG = re.compile(r"<(/?)nav\b")
AS_WRITTEN = re.compile(
    r"(<(?:script|pre|style|textarea)\b.*?</(?:script|pre|style|textarea)>)", re.S
)
BLANKS = re.compile(r"  +")
PLAIN_TABLE = re.compile(r'<table(?: class="(?P<also>nums)")?>(?P<rows>.*?)</table>', re.S)


def finish_article(html: str) -> str:
    """Give a page's text with classes for styles and table regions."""
    html = CELL_STYLE.sub(lambda cell: f"<{cell['cell']}{SIDE_CLASS[cell['side']]}>", html)
    return isolated(without_idle_space(with_table_boxes(html)))


def finish_frame(html: str) -> str:
    """Give what the theme puts around a page's text without what a kit has no use for."""
    # First of all the room that templates leave goes: there is more of it than of all else.
    html = SEARCH_DIALOG.sub(r'\g<dialog> aria-label="\g<name>"\g<between>', html)
    html = without_idle_space(_without_parts_in_menu(ungrown(html)))
    html = FOR_SCRIPTS.sub("", FOR_NOTICES.sub("", html))
    html = LOGO.sub(r'\1" alt=""', NEIGHBOURS.sub("", GENERATOR.sub("", html)))
    return isolated(without_theme_links(html))


def without_idle_space(html: str) -> str:
    """Give the page without the room that templates leave: runs of blanks say no more than one.

    What is kept as it was written stays so: scripts, and text set as it stands.
    """
    written, at = [], 0
    for kept in AS_WRITTEN.finditer(html):
        written += [_with_single_blanks(html[at : kept.start()]), kept[0]]
        at = kept.end()
    return "".join([*written, _with_single_blanks(html[at:])])


def _with_single_blanks(html: str) -> str:
    for sign in "\t\r\n":
        html = html.replace(sign, " ")
    return BLANKS.sub(" ", html)


def _without_parts_in_menu(html: str) -> str:
    """Leave the list of a page's parts out of the menu; it stays beside the page."""
    found = PARTS_IN_MENU.search(html)
    if found is None:
        return html
    depth = 0
    for tag in NAV_TAG.finditer(html, found.end()):
        depth += -1 if tag[1] else 1
        if depth == 0:
            return html[: found.start()] + found["page"] + html[html.index(">", tag.end()) + 1 :]
    return html


def with_table_boxes(html: str) -> str:
    """Put each table into a box that scrolls by itself, so that the page never does."""
    return PLAIN_TABLE.sub(_table_box, with_captions(html))


def _table_box(table: re.Match[str]) -> str:
    """Give one table in its box, its headers marked as heads of columns."""
    rows = (
        table["rows"]
        .replace("<th>", '<th scope="col">')
        .replace('<th class="', '<th scope="col" class="')
    )
    rows = with_row_heads(rows)
    classes = f"rows {table['also']}" if table["also"] else "rows"
    return f'<div class="wide"><table class="{classes}">{rows}</table></div>'
