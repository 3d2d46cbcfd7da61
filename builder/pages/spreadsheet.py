"""Tables for other programs: lists as CSV that a spreadsheet shows and does not run."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

# What a spreadsheet would run instead of showing it.
_RUN = ("=", "+", "-", "@", "\t", "\r")


def written_csv(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Give a table under its heads; words in it are made harmless by whoever gives them."""
    target = io.StringIO(newline="")
    writer = csv.writer(target, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return target.getvalue().encode("utf-8")


def harmless(words: str) -> str:
    """Give a text that a spreadsheet shows and does not run."""
    return f"'{words}" if words.startswith(_RUN) else words
