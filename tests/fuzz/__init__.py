"""Spoiled folders, files and kits sent the whole way: `python -m tests.fuzz --help`."""
