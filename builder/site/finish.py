"""Finishing touches on a rendered page that Markdown and the theme cannot make."""

from __future__ import annotations

import re

from builder.site.security import secure_page

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
PLAIN_TABLE = re.compile(r"<table>(?P<rows>.*?)</table>", re.S)


def finish_page(html: str) -> str:
    """Give the page with classes for styles, table regions, and its policy."""
    html = CELL_STYLE.sub(lambda cell: f"<{cell['cell']}{SIDE_CLASS[cell['side']]}>", html)
    html = SEARCH_DIALOG.sub(r'\g<dialog> aria-label="\g<name>"\g<between>', html)
    return secure_page(with_table_boxes(html))


def with_table_boxes(html: str) -> str:
    """Put each table into a box that scrolls by itself, so that the page never does."""
    return PLAIN_TABLE.sub(_table_box, html)


def _table_box(table: re.Match[str]) -> str:
    """Give one table in its box, its headers marked as heads of columns."""
    rows = (
        table["rows"]
        .replace("<th>", '<th scope="col">')
        .replace('<th class="', '<th scope="col" class="')
    )
    return f'<div class="wide"><table class="rows">{rows}</table></div>'
