"""The pocket page: the whole kit in one file, with nothing beside it."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Mapping
from html import escape
from pathlib import Path

from builder.site.finishing.directions import isolated
from builder.site.finishing.finish import with_table_boxes
from builder.site.finishing.scripts import POCKET_SCRIPT, written
from builder.site.finishing.security import inline_scripts, inline_styles, policy, with_policy
from builder.site.finishing.styles import squeezed
from builder.speech import speech_of

# All that are inside together: a phone opens the page at once, and the zip holds each twice.
MOST_PICTURES_BYTES = 40_000
PICTURE = re.compile(r'<figure class="?picture"?><img src="?(?P<path>[^" >]+).*?</figure>', re.S)
WHOLE_PAGE = re.compile(r"\s*<!doctype html", re.I)
# A whole page may name these two beside it; here they are inside.
PLACEHOLDER = re.compile(r'<script[^>]* src="assets/pocket\.js"[^>]*></script>', re.I)
# What every reader of HTML knows without being told: ends of elements in which that which follows
# cannot stand, and quotes round a plain word.
IDLE_END = re.compile(r"</(?:td|th|tr|thead|tbody|li|dt|dd|p)>\n*")
IDLE_BREAK = re.compile(r">\n+<")
TAG = re.compile(r"<[a-z][^>]*>")
QUOTED_WORD = re.compile(r'(?<==)"([\w.#-]+)"(?=[ >])')
BODY = re.compile(r"<body[^>]*>(?P<body>.*)</body>", re.S | re.I)
LAST_SCRIPT = re.compile(r"<script>(?:(?!<script).)*</script>\s*\Z", re.S)


def pocket_page(
    html: str,
    *,
    trip_id: str,
    title: str,
    language: str,
    assets: Path,
    last: str = "",
    pictures: Mapping[str, bytes] | None = None,
) -> str:
    """Give the one-file page for a body, its style and script inside and their hashes on top.

    `last` is put at the end of the body; of the pictures, by their paths, those go inside that
    have room.
    """
    if WHOLE_PAGE.match(html):
        found = BODY.search(html)
        html = found["body"] if found else html
    html = slimmed(isolated(with_table_boxes(PLACEHOLDER.sub("", html))))
    html = with_pictures(html, pictures or {})
    style = squeezed((assets / "pocket.css").read_text(encoding="utf-8"))
    tail = f"<script>{written(assets, POCKET_SCRIPT, speech_of(language))}</script>\n"
    page = (
        f'<!doctype html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width,initial-scale=1">\n'
        f'<meta name="kit" content="{escape(trip_id)}">\n'
        f"<title>{escape(title)}</title>\n<style>{style}</style>\n</head>\n"
    )
    # Only the script put in here is named in the policy: one in the body would be page text.
    content = policy(inline_scripts(tail), inline_styles(page), alone=True)
    return with_policy(page, content) + f"<body>\n{html}\n{last}{tail}</body>\n</html>\n"


def with_pictures(html: str, pictures: Mapping[str, bytes]) -> str:
    """Put pictures inside, first come first served; for the others the site is there."""
    room = MOST_PICTURES_BYTES

    def inside(found: re.Match[str]) -> str:
        nonlocal room
        picture = pictures.get(found["path"])
        if picture is None or len(picture) > room:
            return ""
        room -= len(picture)
        data = b64encode(picture).decode("ascii")
        return found[0].replace(found["path"], f"data:image/webp;base64,{data}", 1)

    return PICTURE.sub(inside, html)


def body_of(page: str) -> str:
    """Give the body of a finished pocket page, without the script at its end."""
    found = BODY.search(page)
    if found is None:
        raise ValueError("a pocket page without a body")
    return LAST_SCRIPT.sub("", found["body"])


def slimmed(html: str) -> str:
    """Give the same page in fewer letters."""
    html = IDLE_END.sub("", html).replace("</small> <small>", " ")
    html = IDLE_BREAK.sub("><", html)
    return TAG.sub(lambda tag: QUOTED_WORD.sub(r"\1", tag[0]), html)
