"""The page above all kits: one plain HTML file that lists them, newest trip first."""

from __future__ import annotations

import os
import re
from collections.abc import Sequence
from html import escape
from pathlib import Path
from typing import TypeVar

from msgspec import MsgspecError, Raw, json

from builder.model.home import AT_HOME
from builder.model.trip import ENGLISH, LANGUAGES
from builder.record import dataclass
from builder.site.errors import of_the_system
from builder.site.finishing.security import inline_styles, policy, with_policy
from builder.site.folder.kit_files import DATA_NAME, HOME_DATA_NAME
from builder.site.folder.made import OWN_FOLDER, refused, sha256_of
from builder.site.folder.memory import write_down
from builder.site.folder.swap import INDEX, kit_lock
from builder.site.footer import RULES_FIRST
from builder.speech import Speech, speech_of

INDEX_NAME = "index.html"
MARK = '<meta name="generator" content="trip kits">'
# The mark stands near the top; a page of somebody else's may be long.
MARKED_BYTES = 4096
LARGEST_DATA_BYTES = 16_000_000
Told = TypeVar("Told")
ISO_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
STYLE = """
:root { color-scheme: light dark; --paper: #fbfaf6; --ink: #1b2a26; --soft: #3b4945;
  --link: #0d4a3e; --accent: #7d3108; --line: #6c7874; }
@media (prefers-color-scheme: dark) { :root { --paper: #101917; --ink: #e9ece4; --soft: #c0cac5;
  --link: #a3dcc8; --accent: #f4ba74; --line: #84938d; } }
body { max-width: 42rem; margin: 0 auto; padding: 1.2rem; background: var(--paper);
  color: var(--ink); font: 1.1rem/1.5 system-ui, "Segoe UI", "Noto Sans", sans-serif;
  overflow-wrap: anywhere; }
h1 { border-bottom: 2px solid var(--accent); line-height: 1.2; }
ul { padding: 0; list-style: none; }
li { padding: .8rem 0; border-bottom: 1px solid var(--line); }
li > a { font-size: 1.25rem; font-weight: 700; }
p { margin: .2rem 0; }
.facts, footer { color: var(--soft); }
a { color: var(--link); }
p a { display: inline-block; padding: .3rem 1rem .3rem 0; }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }
footer { margin-top: 2rem; font-size: .95rem; }
@media print { :root { --paper: #fff; --ink: #000; --soft: #000; --link: #000; } }
"""


@dataclass(frozen=True, slots=True)
class KitEntry:
    """What the list says of one kit."""

    folder: str
    title: str
    start: str  # ISO date, or "" where the trip has none or does not tell
    day_count: int
    people_count: int
    language: str = ENGLISH


def write_index(out: Path) -> str:
    """Write the page that lists every kit of the folder, when it is not so already; give its hash.

    A page of that name that is somebody else's is refused.
    """
    try:
        with kit_lock(out, INDEX):
            refuse_foreign_index(out)
            index, fresh = out / INDEX_NAME, out / OWN_FOLDER / f"{INDEX}.html.new"
            page = index_page(find_kits(out), (out / AT_HOME / HOME_DATA_NAME).is_file())
            if not index.exists() or index.read_bytes() != page.encode("utf-8"):
                write_down(fresh, page)
                os.replace(fresh, index)
            return sha256_of(index)
    except OSError as error:
        raise of_the_system(error, "the list of kits", out, out / OWN_FOLDER) from error


def refuse_foreign_index(out: Path) -> None:
    """Refuse to write over a page of the same name that is no list of kits."""
    index = out / INDEX_NAME
    if not os.path.lexists(index):
        return
    if index.is_symlink() or not index.is_file():
        raise refused([index])
    with index.open("rb") as file:
        begins = file.read(MARKED_BYTES)
    if begins and MARK.encode() not in begins:
        raise refused([index])


def find_kits(out: Path) -> list[KitEntry]:
    """Give the kits of a folder, newest trip first; those without a date come last, by title."""
    found = [
        entry
        for folder in sorted(out.iterdir())
        if not folder.name.startswith(".") and (entry := _read_entry(folder)) is not None
    ]
    found.sort(key=lambda entry: (entry.title.casefold(), entry.folder))
    found.sort(key=lambda entry: entry.start, reverse=True)
    return found


def index_page(kits: Sequence[KitEntry], with_home: bool = False) -> str:
    """Give the page for some kits, and for the site of the home where there is one.

    It speaks the language of the kits; of kits in several, English.
    """
    languages = {kit.language for kit in kits}
    language = languages.pop() if len(languages) == 1 else ENGLISH
    say = speech_of(language)
    items = [*([_home_item(say)] if with_home else []), *(_item(kit, say) for kit in kits)]
    none = f"<p>{escape(say('No kit has been built yet.'))}</p>"
    title = escape(say("Trip kits"))
    rules = escape(say(RULES_FIRST))
    body = "<ul>\n" + "\n".join(items) + "\n</ul>" if items else none
    page = (
        f'<!doctype html>\n<html lang="{language}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width,initial-scale=1">\n'
        f"{MARK}\n<title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n"
        f"<h1>{title}</h1>\n{body}\n</main>\n<footer>{rules}</footer>\n</body>\n</html>\n"
    )
    return with_policy(page, policy([], inline_styles(page), alone=True))


def _home_item(say: Speech) -> str:
    """Give the home, which comes before all kits."""
    told = say("What to do this week, stock, labels, shopping. Private: not to hand around.")
    return (
        f'<li><a href="{AT_HOME}/index.html">{escape(say.of("page", "At home"))}</a>\n'
        f'<p class="facts">{escape(told)}</p></li>'
    )


def _item(kit: KitEntry, say: Speech) -> str:
    """Give one kit of the list."""
    facts = [
        kit.start,
        say.count("{n} day", "{n} days", kit.day_count) if kit.day_count else "",
        say.count("{n} person", "{n} people", kit.people_count) if kit.people_count else "",
    ]
    page, zipped = escape(say("On one page")), escape(say("As a zip to hand around"))
    title, folder = escape(kit.title), escape(kit.folder)
    return (
        f'<li><a href="{folder}/index.html">{title}</a>\n'
        f'<p class="facts">{" · ".join(escape(fact) for fact in facts if fact)}</p>\n'
        f'<p><a href="{folder}/pocket.html" aria-label="{page}: {title}">{page}</a>'
        f'<a href="{folder}.zip" aria-label="{zipped}: {title}">'
        f"{zipped}</a></p></li>"
    )


def _read_entry(folder: Path) -> KitEntry | None:
    """Read what a kit says of itself; a folder that is no kit gives None."""
    source = folder / DATA_NAME
    try:
        # A folder may be anybody's: neither wait for a pipe nor read what no kit is as large as.
        if not source.is_file() or source.stat().st_size > LARGEST_DATA_BYTES:
            return None
        data = _read(source.read_bytes(), dict[str, Raw])
    except OSError:
        return None
    if data is None or _read(data.get("format"), str) != "trip-kit":
        return None
    trip = _read(data.get("trip"), dict[str, Raw]) or {}
    start = str(_read(trip.get("start"), object) or "")
    language = str(_read(trip.get("language"), object) or "")
    return KitEntry(
        folder=folder.name,
        title=str(_read(trip.get("title"), object) or folder.name),
        start=start if ISO_DATE.fullmatch(start) else "",
        day_count=len(_read(data.get("days"), list[Raw]) or ()),
        people_count=len(_read(trip.get("party"), list[Raw]) or ()),
        language=language if language in LANGUAGES else ENGLISH,
    )


def _read(told: bytes | Raw | None, kind: type[Told]) -> Told | None:
    """Read JSON of a kind, None where it is of another; what is `Raw` in it is not looked into.

    Of the megabyte of each of a thousand kits nearly all is passed over so.
    """
    try:
        return None if told is None else json.decode(told, type=kind)
    except (MsgspecError, ValueError, RecursionError):
        return None
