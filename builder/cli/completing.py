"""What a shell may complete: ids of the folder, read off its files without checking them.

A key was pressed and somebody waits: nothing is parsed, nothing is planned, and what cannot be
read is left out without a word.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.places import place_of
from builder.shipped import shipped_root

if TYPE_CHECKING:
    from click.shell_completion import CompletionItem

Completer = Callable[[click.Context, click.Parameter, str], "list[CompletionItem] | list[str]"]

_ID = re.compile(r"""(?:^|[-{,])[ \t]*id:[ \t]*["']?([a-z0-9][a-z0-9-]*)""", re.MULTILINE)
_SECTION = re.compile(r"^([a-z_]+):", re.MULTILINE)


def ids_of(*kinds: str) -> Completer:
    """Complete ids of some kinds: foods, recipes, batches, trips, or a list of the gear."""

    def complete(context: click.Context, _: click.Parameter, begun: str) -> list[str]:
        return _begun_so(_ids(context, kinds), begun)

    return complete


def first_id_of(*kinds: str) -> Completer:
    """Complete ids of some kinds as the first of several words; the others are weights."""

    def complete(context: click.Context, parameter: click.Parameter, begun: str) -> list[str]:
        before = context.params.get(parameter.name or "")
        return [] if before else _begun_so(_ids(context, kinds), begun)

    return complete


def words_to_find(context: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Complete what `find` knows: kinds, allergens, diets and ids."""
    from builder.model.food import ALLERGENS, KINDS
    from builder.model.trip import DIETS

    kinds = ("foods", "recipes", "batches", "trips", *_LISTS)
    return _begun_so([*KINDS, *ALLERGENS, *DIETS, *_ids(context, kinds)], begun)


def trip_or_file(context: click.Context, _: click.Parameter, begun: str) -> list[CompletionItem]:
    """Complete a trip of the folder, or else a file."""
    from click.shell_completion import CompletionItem

    trips = _begun_so(_ids(context, ("trips",)), begun)
    return [CompletionItem(name) for name in trips] or [CompletionItem(begun, type="file")]


def kinds_of_record(context: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Complete the kinds whose keys can be told."""
    from builder.reading.kinds import KINDS as WRITTEN

    return _begun_so([*WRITTEN], begun)


def keys_of_kind(context: click.Context, _: click.Parameter, begun: str) -> list[str]:
    """Complete the keys of the kind that was told before, each as its path."""
    from builder.reading.declared.telling import keys_said, paths_of
    from builder.reading.kinds import KINDS as WRITTEN

    kind = WRITTEN.get(context.params.get("kind") or "")
    return _begun_so([*paths_of(keys_said(kind.record))], begun) if kind else []


_LISTS = ("stoves", "fuels", "pots", "irons", "packaging", "dryers", "sheets")


def _begun_so(words: list[str], begun: str) -> list[str]:
    return sorted({word for word in words if word.startswith(begun)})


def _ids(context: click.Context, kinds: tuple[str, ...]) -> list[str]:
    try:
        place = place_of(context.params.get("content"))
        shipped = [] if place.is_demo else [shipped_root() / "content"]
        found = [name for kind in kinds for name in _in_folder(place.folder, kind)]
        # Trips, recipes and batches of the demo are not read beside a folder of one's own.
        for folder in shipped:
            for kind in kinds:
                if kind == "foods" or kind in _LISTS:
                    found += _in_folder(folder, kind)
    except Exception:  # whatever it is, a shell that completes is no place to tell it
        return []
    return found


def _in_folder(folder: Path, kind: str) -> Iterator[str]:
    if kind in ("trips", "recipes"):
        for path in sorted((folder / kind).rglob("*.yaml")):
            yield path.parent.name if path.stem == "trip" else path.stem
        return
    room = "gear" if kind in _LISTS else kind
    for path in sorted((folder / room).rglob("*.yaml")):
        text = path.read_text("utf-8", errors="replace")
        if kind in _LISTS:
            text = _section(text, kind)
        yield from _ID.findall(text)
    if kind == "batches":
        for path in sorted((folder / room).rglob("*.csv")):
            with path.open(encoding="utf-8", errors="replace", newline="") as file:
                yield from (row["id"] for row in csv.DictReader(file) if row.get("id"))


def _section(text: str, name: str) -> str:
    """Give what stands below one key of a file."""
    heads = [*_SECTION.finditer(text)]
    ends = [head.start() for head in heads[1:]] + [len(text)]
    return "".join(
        text[head.end() : end] for head, end in zip(heads, ends, strict=True) if head[1] == name
    )
