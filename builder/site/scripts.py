"""The kit's own scripts: written in parts that one can read, sent as one file."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from builder.pages.trip.origins.changing import shared_formulas
from builder.site.script_words import script_words
from builder.speech import Speech

SCRIPT_NAME = "kit.js"
PARTS_FOLDER = "kit"
# Each part may use those before it; nothing of them is seen outside.
KIT_PARTS = (
    "words",
    "keep",
    "minutes",
    "quantities",
    "evaluate",
    "ticks",
    "timers",
    "party",
    "day",
    "settings",
    "tables",
    "menu",
    "start-kit",
)
HOME_PARTS = ("words", "keep", "ticks", "send", "settings", "tables", "menu", "start-home")
FOLLOW_PARTS = ("words", "keep", "minutes", "quantities", "evaluate", "fit", "follow")
POCKET_PARTS = ("words", "keep", "minutes", "ticks", "timers", "day", "tables", "start-pocket")
# Pages with a script of their own, which comes after the kit's.
OWN_SCRIPTS = {"review.md": "review.js", "follow.md": "follow.js"}
MADE_OF = {"follow.js": FOLLOW_PARTS}
# What people read and browsers do not: comments that have lines of their own, and indents.
BETWEEN = re.compile(r" ?([-+*/^,<>=]) ")  # signs of an expression, with the room around them
IDLE = re.compile(r"^ *(?:/\*(?:(?!\*/).)*\*/|//[^\n]*)\n|^ +", re.M | re.S)


def joined(assets: Path, parts: Sequence[str], say: Speech) -> str:
    """Give a script made of parts in the assets folder, with its words."""
    texts = (
        (assets / PARTS_FOLDER / f"{part}.js").read_text(encoding="utf-8").strip() for part in parts
    )
    whole = "\n".join((script_words(say, parts), *_formulas(parts), *texts))
    return _in_short('"use strict";\n(() => {\n' + whole + "\n})();\n")


def own_script(assets: Path, name: str, say: Speech) -> str:
    """Give the script that one page alone has."""
    if name in MADE_OF:
        return joined(assets, MADE_OF[name], say)
    return _in_short((assets / name).read_text(encoding="utf-8"))


def _in_short(script: str) -> str:
    """Give a script without what browsers do not read."""
    return IDLE.sub("", script)


def _formulas(parts: Sequence[str]) -> Iterator[str]:
    """Give the formulas that every page with figures shares, where a script works them out."""
    if "party" in parts:
        packed = BETWEEN.sub(r"\1", json.dumps(shared_formulas(), separators=(",", ":")))
        yield f"const FORMULAS = {packed};"
