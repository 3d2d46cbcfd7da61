"""What one build tells the next: small files of the tool's own folder, each whole or not there."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any, TypeVar

import msgspec

from builder.record import asdict

Told = TypeVar("Told")


def as_text(record: Any) -> str:
    """Give a record as JSON, the same each time, for `told_as` to read.

    By the standard library, which also writes what has no end, and signs that are half of one.
    """
    return json.dumps(asdict(record), sort_keys=True)


def told_as(told: str | bytes, kind: type[Told]) -> Told | None:
    """Give what JSON tells; None where it tells nothing of this kind, or is not whole."""
    try:
        return msgspec.convert(json.loads(told), kind)
    except (msgspec.MsgspecError, ValueError, RecursionError):
        return None


def told_in(file: Path, kind: type[Told]) -> Told | None:
    """Give what a file tells as JSON; None where it is not there, or tells nothing of this kind."""
    try:
        return told_as(file.read_bytes(), kind)
    except OSError:
        return None


def write_down(target: Path, text: str) -> None:
    """Write a small file that has to be whole, whatever happens next."""
    with target.open("w", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


def write_over(target: Path, text: str) -> None:
    """Write a small file anew; whatever happens, it is there whole, as it was or as it will be."""
    fresh = target.with_name(f"{target.name}.new")
    write_down(fresh, text)
    os.replace(fresh, target)
