"""All rows of published numbers, and which formulas a test over rows calls."""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType
from typing import Any

import builder.formulas

from .published import Published

HERE = Path(__file__).parent
FORMULAS = Path(builder.formulas.__file__).parent
_IN_HERE, _IN_FORMULAS = f"{HERE}{os.sep}", f"{FORMULAS}{os.sep}"

RowTest = Callable[[Published], None]


def row_tests() -> Iterator[tuple[str, RowTest, tuple[Published, ...]]]:
    """Every test over rows, by its name, with its rows."""
    for path in sorted(HERE.glob("test_*.py")):
        module = importlib.import_module(f"{__package__}.{path.stem}")
        for name, test in sorted(vars(module).items()):
            for mark in getattr(test, "pytestmark", ()):
                if mark.name == "parametrize" and mark.args[0] == "row":
                    rows = tuple(each.values[0] for each in mark.args[1])
                    yield f"{path.stem}.{name}", test, rows


def called_by(run: Callable[[], None]) -> tuple[str, ...]:
    """Formulas that the tests here call themselves, in order; not those that formulas call."""
    called: list[str] = []

    def note(frame: FrameType, event: str, _: Any) -> None:
        if event != "call" or frame.f_back is None:
            return
        # Of each of millions of calls: names of files are compared as they are.
        path, caller = frame.f_code.co_filename, frame.f_back.f_code.co_filename
        if path.startswith(_IN_FORMULAS) and caller.startswith(_IN_HERE):
            called.append(f"{Path(path).stem}.{frame.f_code.co_name}")

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        run()
    finally:
        sys.setprofile(before)
    return tuple(called)
