"""Words written from right to left, kept from turning round what stands beside them."""

from __future__ import annotations

import re

_LETTER = "\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc\U00010800-\U00010fff\U0001e800-\U0001efff"
_ANY = re.compile(f"[{_LETTER}]")
# Bytes that begin none of these letters in UTF-8: to leave them out takes a tenth of a search.
_OF_OTHERS = bytes(
    byte for byte in range(256) if not (0xD6 <= byte <= 0xE0 or byte in (0xEF, 0xF0))
)
# A run of such words; what is between two of them belongs to it, unless it is a list's sign.
_RUN = rf"[{_LETTER}]+(?:[ \-'\u2019.]+[{_LETTER}]+)*"
# Tags, and what may hold no tag of ours: they come first, and stay as they are.
_KEPT = r"<(?P<raw>script|style|title|svg|textarea)\b.*?</(?P=raw)>|<[^>]*>|<!--.*?-->"
_EITHER = re.compile(f"(?P<kept>{_KEPT})|(?P<run>{_RUN})", re.S)


def isolated(html: str) -> str:
    """Put each run of words from right to left into an element of its own.

    Without that, two names in a list change places, and numbers land on the wrong side.
    """
    if not html.encode().translate(None, _OF_OTHERS) or not _ANY.search(html):
        return html
    return _EITHER.sub(lambda found: found["kept"] or f"<bdi>{found['run']}</bdi>", html)
