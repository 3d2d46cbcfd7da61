"""Records as text that somebody approves, and what of it is otherwise now.

A record is a line with what it holds of words and numbers; the records in it stand below, a step
further in. What is left out, zero, or as it is by default is not told, and what was told before is
only named.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Iterator, Mapping, Sized
from pathlib import Path
from typing import Any

import pytest

from builder.model.place import Place
from builder.record import MISSING, dataclass, field, fields, is_dataclass

_CLOSE = 2e-6  # numbers are written with seven digits, and libraries differ in the sixteenth
_LONGEST = 120  # letters of a text: what longer ones say, golden pages hold


def as_text(value: Any, leave_out: frozenset[str] = frozenset()) -> str:
    """Give a record as text, without fields of some names."""
    return "\n".join(_Telling(leave_out).lines("", value)) + "\n"


@dataclass(slots=True)
class _Telling:
    """What was told already."""

    leave_out: frozenset[str]
    told: set[tuple[str, ...]] = field(default_factory=set)

    def lines(self, name: str, value: Any) -> list[str]:
        """Give a record and what is in it."""
        own = [(each, at) for each, at in _parts(value) if each not in self.leave_out]
        plain = {each: _word(at) for each, at in own}
        words = [f"{each}={word}" for each, word in plain.items() if word is not None]
        below = [
            f" {line}" for each, at in own if plain[each] is None for line in self.lines(each, at)
        ]
        whole = (" ".join(words), *below)
        if len(whole) + len(words) > 3 and is_dataclass(type(value)):
            if whole in self.told:
                return [f"{name} as above, {words[0] if words else below[0].strip()}".strip()]
            self.told.add(whole)
        return [f"{name} {whole[0]}".strip(), *below]


def _parts(value: Any) -> Iterator[tuple[str, Any]]:
    if is_dataclass(type(value)):
        for each in fields(value):
            at = getattr(value, each.name)
            if not _is_nothing(at, each.default):
                yield each.name, at
    elif isinstance(value, Mapping):
        yield from ((str(_word(key)), at) for key, at in value.items())
    else:
        yield from ((str(number), at) for number, at in enumerate(value))


def _is_nothing(value: Any, default: Any) -> bool:
    """Tell whether there is nothing to tell of a field."""
    if value is None or (isinstance(value, Sized) and not len(value)):
        return True
    if default is MISSING:
        return isinstance(value, (int, float)) and not value
    return bool(value == default)


def _word(value: Any) -> str | None:
    """Give what is told within a line; None for what has lines of its own."""
    if isinstance(value, bool) or value is None:
        return str(value)
    if isinstance(value, enum.Enum):
        return str(value.name)
    if isinstance(value, (int, float)):
        return f"{float(value):.7g}"
    if isinstance(value, (frozenset, set)):
        return "{" + ",".join(sorted(str(_word(each)) for each in value)) + "}"
    if isinstance(value, (tuple, list)):
        words = [_word(each) for each in value]
        return None if None in words else "(" + ",".join(map(str, words)) + ")"
    if isinstance(value, Place):
        return str(value)
    if isinstance(value, Mapping) or is_dataclass(type(value)):
        return None
    words_of_it = "_".join(str(value).split())
    return words_of_it if len(words_of_it) <= _LONGEST else words_of_it[:_LONGEST] + "…"


def otherwise(approved: str, now: str) -> list[str]:
    """Give the lines that are not what they were; numbers are held by their worth."""
    before, after = approved.splitlines(), now.splitlines()
    found = [
        f"{number}: {one.strip()} → {other.strip()}"
        for number, (one, other) in enumerate(zip(before, after, strict=False), start=1)
        if one != other and not _are_close(one, other)
    ]
    if len(before) != len(after):
        found.append(f"{len(before)} lines → {len(after)}")
    return found


def _are_close(one: str, other: str) -> bool:
    before, after = _split(one), _split(other)
    return len(before) == len(after) and all(map(_is_close, before, after))


def _split(line: str) -> list[str]:
    for sign in "=(),{}":
        line = line.replace(sign, f" {sign} ")
    return line.split(" ")


def _is_close(one: str, other: str) -> bool:
    if one == other:
        return True
    try:
        return math.isclose(float(one), float(other), rel_tol=_CLOSE, abs_tol=1e-9)
    except ValueError:
        return False


def hold(golden: Path, now: str, rewrite: bool) -> None:
    """Hold what is now against what was approved; write it anew where that was asked for."""
    if rewrite:
        golden.parent.mkdir(exist_ok=True)
        golden.write_text(now, encoding="utf-8", newline="\n")
    found = otherwise(golden.read_text(encoding="utf-8"), now)
    if found:
        pytest.fail("\n".join([f"{golden.name} is otherwise:", *found[:20]]), pytrace=False)


def hold_part(golden: Path, name: str, now: str, rewrite: bool) -> None:
    """Hold a part of a file against what was approved: what stands below its name."""
    parts = parts_of(golden)
    if rewrite:
        parts[name] = now
        golden.parent.mkdir(exist_ok=True)
        whole = "".join(f"# {each}\n{text}" for each, text in sorted(parts.items()))
        golden.write_text(whole, encoding="utf-8", newline="\n")
    found = otherwise(parts.get(name, ""), now)
    if found:
        pytest.fail("\n".join([f"{name} is otherwise:", *found[:20]]), pytrace=False)


def parts_of(golden: Path) -> dict[str, str]:
    """Give the parts of a file by their names."""
    found: dict[str, str] = {}
    name = ""
    told = golden.read_text(encoding="utf-8") if golden.exists() else ""
    for line in told.splitlines(keepends=True):
        if line.startswith("# "):
            name = line[2:].strip()
            found[name] = ""
        else:
            found[name] += line
    return found
