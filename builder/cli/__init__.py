"""The `tripkit` command: read, stop on problems, call one function, say what was done."""

from builder.cli.base import main

__all__ = ["main"]
