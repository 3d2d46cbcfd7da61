# ruff: noqa: E501 - records stand whole, one a line
"""One spoiled input sent the whole way: no traceback, no hang, no file of anybody else touched."""

from __future__ import annotations

import os
import random
import re
import shutil
import tempfile
import time
import traceback
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from builder.cli import main
from builder.reading.text.yaml_door import as_json, read_yaml
from builder.record import dataclass
from tests.fuzz.spoiling import Files, spoiled_folder, spoiled_zip
from tests.reading.folder_builder import SMALL
from tests.reading.test_fuzz import RICH

# What the rich files do not hold: legs, several heats, depots, swaps, meals left open, reviews.
FEN = """\
title: Fen
start: 2031-09-10
language: de
learned: false
party:
  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg, carries_to: 14 kg}
  - {name: Wren, age: 9, mass: 30 kg, height: 135 cm, own_gear: 2 kg, carries_to: 3 kg, avoids: [vegetarian]}
stove: {use: burner, pots: [pot, billy], fuel_reserve: 15 %}
fire: {allowed: true, irons: [two], wood_moisture: 20 %}
times: {breakfast: "07:30", lunch: "12:30", dinner: "18:30"}
utc: +2
depots: [{camp: 1, holds: [2]}]
gear_shared: [{name: Tarp, mass: 780 g, carried_by: Ash}]
days:
  - camp_altitude: 640 m
    at: [57.0, 2.5]
    travel: [{by: paddling, hours: 3}, {by: walking, hours: 1, distance: 3 km, for: [Ash]}]
    meals:
      lunch: [{cook: bean-pot, for: [not vegetarian], swap: {rice: peas}}]
      dinner: [{cook: bean-pot, from: {beans: auto}, heat: fire, in: billy}]
  - camp_altitude: 640 m
    travel: {by: carried, hours: 2}
    meals: {snacks: [{eat: rice, from: shop, each: 30 g}]}
  - {ends: home, meals: {lunch: [{eat: rice, each: 40 g}]}}
"""
OPEN = """\
title: Tarn
start: 2031-09-20
party: [{name: Ash, mass: 64 kg}]
stove: {use: burner, pots: [pot]}
days:
  - camp_altitude: 640 m
    meals: {breakfast: open, lunch: [{eat: rice, each: 300 g}], dinner: open}
"""
REVIEWED = """\
title: Moss
start: 2030-06-10
party: [{name: Ash, mass: 64 kg}]
stove: {use: burner, pots: [pot]}
days:
  - {camp_altitude: 640 m, meals: {dinner: [{cook: bean-pot}], snacks: [{eat: rice, each: 30 g}]}}
review:
  fuel_used: 12 g
  water: [{day: 1, used: 4 l}]
  left: [{day: 1, meal: dinner, recipe: bean-pot, share: 20 %}, {food: rice, mass: 12 g}]
  took: [{recipe: bean-pot, minutes: 34}]
  marks: {bean-pot: 4}
  notes: Too salty
"""
# Some records of the rich files stand for small ones; both need their sources.
TEXTS: Mapping[str, str] = {
    **SMALL,
    **RICH,
    "sources.yaml": SMALL["sources.yaml"].strip()[:-1] + ", " + RICH["sources.yaml"].strip()[1:],
    "trips/fen.yaml": FEN,
    "trips/tarn.yaml": OPEN,
    "trips/moss.yaml": REVIEWED,
}


def _tree(text: str, name: str) -> Any:
    node, problems = read_yaml(text, name)
    assert node is not None and problems == []
    return as_json(node)


TREES: Mapping[str, Any] = {
    name: _tree(text, name) for name, text in TEXTS.items() if name.endswith(".yaml")
}
TRIP = "tarrow"
# Of processor time, which other work on the machine does not stretch: only a blow-up takes so long.
LONGEST_S = 20.0
# A traceback in what is said, or a sign that a terminal would obey.
NEVER_SAID = re.compile(
    r"Traceback \(most recent|[\x00-\x08\x0b-\x1a\x1c-\x1f\x7f\u202a-\u202e\u2066-\u2069]"
)

# Commands that only read; some of them, as often as they stand here.
READING: Sequence[Sequence[str]] = (
    ("check",),
    ("check",),
    ("check",),
    ("check", "--json"),
    ("stock",),
    ("stock", "--json"),
    ("runs",),
    ("runs", "--json"),
    ("labels", "--out", "../labels.html"),
    ("explain", "fen", "fuel.likely_g"),
    ("explain", TRIP, "weights.food_g", "--deep"),
    ("find", "bean"),
    ("ways", "beans", "2 kg", "--json"),
    ("fill", "tarn"),
    ("fill", "tarn", "--json"),
    ("dry", "peas", "2 kg", "--now", "500 g"),
)
WRITING: Sequence[Sequence[str]] = (
    ("log", "peas", "2 kg", "500 g", "--method", "dehydrator", "--done", "2031-08-01"),
    ("runs", "--write"),
    ("fill", "tarn", "--write", "1"),
    ("new", "trip", "next", "--from", TRIP),
)


@dataclass(frozen=True, slots=True)
class Fault:
    """What went wrong with one input, which its number makes again."""

    number: int
    command: Sequence[str]
    what: str


def send(number: int) -> Fault | None:
    """Spoil an input, run a command on it, and tell what went wrong."""
    rng = random.Random(number)
    with _folder() as folder:
        beside = _beside(folder)
        if rng.random() < 0.12:
            (folder / "old.zip").write_bytes(spoiled_zip(rng, kit_zip()))
            beside |= {"old.zip"}
            write(folder / "content", {name: text.encode() for name, text in TEXTS.items()})
            command: Sequence[str] = ("new", "trip", "next", "--from", "../old.zip")
        else:
            write(folder / "content", spoiled_folder(rng, TEXTS, TREES))
            command = rng.choice(WRITING if rng.random() < 0.15 else READING)
            if rng.random() < 0.03:
                command = ("build", TRIP, "--out", "../kits")
        what = run(folder, command, beside)
    return Fault(number, command, what) if what else None


def run(folder: Path, command: Sequence[str], beside: set[str]) -> str:
    """Run a command within the content folder's own folder; give what went wrong, or nothing."""
    content = folder / "content"
    before, other = _state(content), _state(folder, beside)
    start = time.process_time()
    with _inside(content):
        result = CliRunner().invoke(main, [*command, "--content", "."])
    took_s = time.process_time() - start
    fault = result.exception
    if fault is not None and not isinstance(fault, SystemExit):
        return "".join(traceback.format_exception(fault)[-3:])
    if found := NEVER_SAID.search(result.output):
        return f"said {found[0]!r}: {result.output[max(0, found.start() - 80) : found.end() + 80]}"
    if result.exit_code not in (0, 1, 2):
        return f"ended with {result.exit_code}"
    if took_s > LONGEST_S:
        return f"took {took_s:.0f} s"
    if _state(folder, beside) != other:
        return "a file beside the content folder was touched"
    if command not in WRITING and command[0] != "new" and _state(content) != before:
        return "a command that reads has written"
    lost = before.keys() - _state(content).keys()
    return f"a file was lost: {sorted(lost)[0]}" if lost else ""


@cache
def kit_zip() -> bytes:
    """Give the zip of a whole kit."""
    with _folder() as folder:
        write(folder / "content", {name: text.encode() for name, text in TEXTS.items()})
        with _inside(folder):
            result = CliRunner().invoke(main, ["build", TRIP])
        assert result.exit_code == 0, result.output
        return (folder / "kits" / f"{TRIP}.zip").read_bytes()


@contextmanager
def _folder() -> Iterator[Path]:
    folder = Path(tempfile.mkdtemp(prefix="spoiled-"))
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def _inside(folder: Path) -> Iterator[None]:
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


def write(folder: Path, files: Files) -> None:
    """Write files into a folder."""
    for name, content in files.items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)


def _beside(folder: Path) -> set[str]:
    """Put files of somebody else beside the content folder."""
    (folder / "mine.txt").write_text("mine")
    (folder / "out.yaml").write_text("mine")
    return {"mine.txt", "out.yaml", "x.yaml"}


def _state(folder: Path, only: set[str] | None = None) -> dict[str, bytes]:
    """Give all files of a folder, or some of them, by name."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and (only is None or path.relative_to(folder).as_posix() in only)
    }
