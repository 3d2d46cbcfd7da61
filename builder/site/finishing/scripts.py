"""The kit's own scripts: written in parts that one can read, a file for each kind of page."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from builder.pages.trip.origins.changing import shared_formulas
from builder.record import dataclass
from builder.site.finishing.script_words import words_of_parts
from builder.site.rendering.framing import mark
from builder.speech import Speech

PARTS_FOLDER = "kit"


@dataclass(frozen=True, slots=True)
class Script:
    """One file of scripts: its parts, each of which may use those before it, and what it starts.

    All scripts of a page share their names; the one that is on every page comes first.
    """

    name: str
    parts: tuple[str, ...]
    starts: tuple[str, ...]
    # What a page holds that needs it, one of these: none where every page does, None where it is
    # fetched later.
    wanted_by: tuple[str, ...] | None = ()
    at_once: bool = False  # whether it starts when it is there, not with the others of its page


_PARTY, _OTHERWISE = "data-party=", 'class="otherwise"'
_FOLLOW, _WAYS = 'class="follow"', 'class="ways-inputs"'
_LISTS = Script(
    "lists.js",
    ("ticks", "send", "more"),
    ("startTicks", "startSending", "startMore"),
    ('class="steps',),
)
_SEARCH = Script("search.js", ("search",), ("startFinding",), None, at_once=True)
KIT_SCRIPTS = (
    Script(
        "kit.js",
        (
            *("words", "keep", "clock", "awake", "timers"),
            *("settings", "tables", "menu", "opener", "start"),
        ),
        ("startTimers", "startSettings", "startTables", "startMenu", "startSearch"),
    ),
    _LISTS,
    _SEARCH,
    Script("day.js", ("day",), ("startNow",), ("data-date=",)),
    Script("orders.js", ("orders",), ("startOrders",), ('class="before"',)),
    Script("mine.js", ("mine",), ("startMine",), ("data-refused=",)),
    Script("since.js", ("since",), ("startSince",), ("data-since=",)),
    Script("review.js", ("review",), ("startReview",), ('class="review"',)),
    Script("reckon.js", ("minutes", "quantities", "evaluate", "typed"), (), (_PARTY, _OTHERWISE)),
    Script("party.js", ("party",), ("startParty",), (_PARTY,)),
    Script("otherwise.js", ("otherwise",), ("startOtherwise",), (_OTHERWISE,)),
)
HOME_SCRIPTS = (
    Script(
        "kit.js",
        ("words", "keep", "awake", "settings", "tables", "menu", "opener", "start"),
        ("startSettings", "startTables", "startMenu", "startSearch"),
    ),
    _LISTS,
    _SEARCH,
    Script("reckon.js", ("minutes", "quantities", "evaluate"), (), (_FOLLOW, _WAYS)),
    Script("follow.js", ("fit", "follow"), ("startFollowing",), (_FOLLOW,)),
    Script("ways.js", ("ways",), ("startWays",), (_WAYS,)),
)
POCKET_SCRIPT = Script(
    "",
    (
        *("words", "keep", "clock", "minutes", "awake", "ticks", "timers"),
        *("day", "orders", "tables", "pocket"),
    ),
    (
        *("startNight", "startSteps", "startTicks", "startTimers"),
        *("startNow", "startOrders", "startTables"),
    ),
    at_once=True,
)
# Behind the door of a sealed kit lies the pocket page, which starts once that is open.
SEALED_SCRIPT = Script("", (*POCKET_SCRIPT.parts, "sealed"), (), at_once=True)
# What people read and browsers do not: comments that have lines of their own, and indents.
BETWEEN = re.compile(r" ?([-+*/^,<>=]) ")  # signs of an expression, with the room around them
IDLE = re.compile(r"^ *(?:/\*(?:(?!\*/).)*\*/|//[^\n]*)\n|^ +", re.M | re.S)
KIT_TAG = re.compile(r'<script src="(?P<assets>[^"]*assets/)kit\.js"></script>')


def written(assets: Path, script: Script, say: Speech) -> str:
    """Give a script made of parts in the assets folder, with its words."""
    texts = (
        (assets / PARTS_FOLDER / f"{part}.js").read_text(encoding="utf-8").strip()
        for part in script.parts
    )
    packed = json.dumps(
        words_of_parts(say, script.parts), ensure_ascii=False, separators=(",", ":")
    )
    # Inside a page, nothing in a script may look like its end.
    said = packed.replace("<", "\\u003c")
    lines = (
        '"use strict";',
        f"const SAID = {said};" if "words" in script.parts else f"Object.assign(SAID, {said});",
        *_formulas(script.parts),
        *texts,
        *_starts(script),
    )
    return IDLE.sub("", "\n".join(lines) + "\n")


def scripts_wanted(html: str, scripts: Sequence[Script]) -> frozenset[str]:
    """Give the names of the scripts that a part of a page needs, besides that of every page."""
    return frozenset(
        script.name for script in scripts if any(sign in html for sign in script.wanted_by or ())
    )


def with_place_for_more(html: str, name: str) -> tuple[str, str]:
    """Give a frame with a mark behind the script of every page, and where scripts lie from there.

    A frame without that script has no place for more.
    """
    found = KIT_TAG.search(html)
    if found is None:
        return html, ""
    return html[: found.end()] + mark(name) + html[found.end() :], found["assets"]


def tags_of(scripts: Sequence[Script], assets: str) -> str:
    """Give the tags that load some scripts."""
    return "".join(f'<script src="{assets}{script.name}"></script>' for script in scripts)


def _starts(script: Script) -> Iterator[str]:
    """Give the lines that start a script, or leave it to start with the others."""
    if script.at_once:
        yield from (f"{start}();" for start in script.starts)
    elif script.starts:
        yield f"STARTS.push({', '.join(script.starts)});"


def _formulas(parts: Sequence[str]) -> Iterator[str]:
    """Give the formulas that every page with figures shares, where a script works them out."""
    if "evaluate" in parts:
        packed = BETWEEN.sub(r"\1", json.dumps(shared_formulas(), separators=(",", ":")))
        yield f"const FORMULAS = {packed};"
