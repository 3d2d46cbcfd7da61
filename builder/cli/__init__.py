"""The `tripkit` command: read, stop on problems, call one function, say what was done."""

from __future__ import annotations

# Each of these modules adds its commands to the group.
from builder.cli import (
    after,
    ask,
    build,
    check,
    fields,
    fill,
    find,
    join,
    labels,
    log,
    new,
    preview,
    runs,
    ways,
)
from builder.cli.base import main

__all__ = [
    "after",
    "ask",
    "build",
    "check",
    "fields",
    "fill",
    "find",
    "join",
    "labels",
    "log",
    "main",
    "new",
    "preview",
    "runs",
    "ways",
]
