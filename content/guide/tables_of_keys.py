"""Puts the table of keys where a page of the guide has `<!-- keys of KIND -->`."""

from __future__ import annotations

import re

from builder.reading.declared.telling import tables

_MARK = re.compile(r"<!-- keys of (\S+) -->")


def on_page_markdown(markdown: str, **_: object) -> str:
    """Take the tables from the declarations that `tripkit fields` tells."""
    made = dict(tables())
    return _MARK.sub(lambda mark: made[mark[1]], markdown)
