"""Lets `python -m builder` stand for the `tripkit` command."""

from builder.cli import main

main()
