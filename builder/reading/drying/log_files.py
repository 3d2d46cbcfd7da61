"""Adds a batch to a file of the drying log, or completes one, as YAML or in a table."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence

from builder.reading.text.layout import (
    first_key,
    last_offset,
    line_end,
    margin_of_items,
    with_items,
    with_keys,
    with_value,
)
from builder.reading.text.spelling import Edit, Words, in_flow, words_in_flow
from builder.reading.text.tables import BETWEEN, LISTS, LISTS_OF_RECORDS, Table
from builder.reading.text.yaml_door import Entry, Node

Record = Mapping[str, Words]

# -- YAML -----------------------------------------------------------------------------------------


def added_to_yaml(text: str, root: Node | None, record: Record) -> Iterator[Edit]:
    """Add a record to a file; one that holds a single record becomes a list of two."""
    if root is None or root.value is None:
        yield _at_end(text, _block(record))
    elif root.is_list and root.flow:
        yield from with_items(text, root, [words_in_flow(record)])
    elif root.is_list:
        last = root.items[-1]
        margin = margin_of_items(text, root)
        said = f"{margin}- {words_in_flow(record)}\n" if last.flow else _block(record, margin)
        yield _at_end(text, _parted(text, root) + said)
    else:
        yield from _as_item(text, root)
        yield _at_end(text, "\n" + _block(record))


def _block(record: Record, margin: str = "") -> str:
    """Give a record as an item of a list, each key on a line."""
    lines = [f"{key}: {words_in_flow(value)}\n" for key, value in record.items()]
    return f"{margin}- " + f"{margin}  ".join(lines)


def _at_end(text: str, said: str) -> Edit:
    """Add lines behind all others, before the dots that end a document."""
    bare = text.rstrip()
    at = len(bare) - 3 if bare.endswith("\n...") else len(text)
    lead = "" if at == 0 or text[at - 1] == "\n" else "\n"
    return Edit(at, at, lead + said)


def _parted(text: str, root: Node) -> str:
    """Give the blank line that parts the records of this file, where they are parted by one."""
    if len(root.items) < 2:
        return ""
    before, last = root.items[-2:]
    between = text[line_end(text, last_offset(before)) : last.start].split("\n")[:-1]
    return "\n" if any(not line.strip() for line in between) else ""


def _as_item(text: str, root: Node) -> Iterator[Edit]:
    """Make the one record of a file an item of a list: it moves to the right by a dash."""
    yield Edit(root.start, root.start, "- ")
    at = line_end(text, root.start + 1)
    while at < len(text):
        end = line_end(text, at + 1)
        line = text[at:end]
        if line.startswith("..."):
            return
        if line.strip("\n"):
            yield Edit(at, at, "  ")
        at = end


# Behind which key a new one goes, where the record has that one; else it goes to the end.
_BEHIND = {"started": "planned", "done": "started", "dried": "fresh", "ice": "fresh"}


def completed_in_yaml(text: str, record: Node, changes: Record, gone: str = "") -> list[Edit]:
    """Set keys of a record; the first new one takes the place of the key that is to go."""
    edits: list[Edit] = []
    new: dict[str, dict[str, str]] = {}  # by the key that they go behind
    old = record.entries.get(gone)
    for key, value in changes.items():
        entry = record.entries.get(key)
        said = words_in_flow(value)
        if entry is not None and not entry.merged:
            edits += _set(text, entry, value)
        elif key == "id":
            edits.insert(0, first_key(text, record, key, said))
        elif old is not None and not old.merged:
            edits.append(Edit(old.start, old.node.end, f"{key}: {said}"))
            old = None
        else:
            new.setdefault(_BEHIND.get(key, ""), {})[key] = said
    return [*edits, *(with_keys(text, record, said, behind) for behind, said in new.items())]


def _set(text: str, entry: Entry, value: Words) -> Iterator[Edit]:
    """Set a key that stands there; of a mapping only what is told changes, a list gets longer."""
    entries = entry.node.entries
    if isinstance(value, Sequence) and not isinstance(value, str) and entry.node.is_list:
        there = [in_flow(item) for item in entry.node.items]
        new_items = [each for each in map(words_in_flow, value) if each not in there]
        if entry.node.alias:
            yield with_value(text, entry, f"[{', '.join([*there, *new_items])}]")
        else:
            yield from with_items(text, entry.node, new_items)
        return
    if not (isinstance(value, Mapping) and entries) or entry.node.alias:
        yield with_value(text, entry, words_in_flow(value))
        return
    new = {}
    for name, inner in value.items():
        if name in entries and not entries[name].merged:
            yield with_value(text, entries[name], words_in_flow(inner))
        else:
            new[name] = words_in_flow(inner)
    if new:
        yield with_keys(text, entry.node, new)


# -- tables ---------------------------------------------------------------------------------------


def added_to_table(text: str, table: Table | None, record: Record) -> list[Edit]:
    """Add a row; keys that no column is for become columns, empty in all other rows."""
    cells = _cells(record)
    lead = "" if not text or text.endswith("\n") else "\n"
    if table is None:
        header = _row(",", list(cells))
        return [Edit(len(text), len(text), f"{lead}{header}\n{_row(',', list(cells.values()))}\n")]
    names = [cell.text for cell in table.header]
    new = [name for name in cells if name not in names]
    row = _row(table.delimiter, [cells.get(name, "") for name in [*names, *new]])
    return [
        *_with_columns(table, dict.fromkeys(new, "")),
        Edit(len(text), len(text), f"{lead}{row}\n"),
    ]


def completed_in_table(table: Table, number: int, changes: Record, gone: str = "") -> list[Edit]:
    """Set cells of a row, and empty the one that is to go."""
    told = {gone: "", **_cells(changes)}
    names = [cell.text for cell in table.header]
    for name, cell in zip(names, table.rows[number], strict=False):
        if cell.text and told.get(name) and name.partition(".")[0] in LISTS | LISTS_OF_RECORDS:
            told[name] = f"{cell.text}{BETWEEN} {told[name]}"
    edits = [
        Edit(cell.start, cell.end, _row(table.delimiter, [told[name]]))
        for name, cell in zip(names, table.rows[number], strict=False)
        if name in told
    ]
    new = {name: text for name, text in told.items() if name not in names and text}
    return [*edits, *_with_columns(table, new, number)]


def _with_columns(table: Table, new: Mapping[str, str], number: int = -1) -> list[Edit]:
    """Add columns at the right; one row tells something in them, all others nothing."""
    if not new:
        return []
    last = len(table.header) - 1
    at = table.header[last].end
    edits = [Edit(at, at, "".join(table.delimiter + name for name in new))]
    for row_number, row in enumerate(table.rows):
        told = [*new.values()] if row_number == number else [""] * len(new)
        put_in = table.delimiter + _row(table.delimiter, told)
        edits.append(Edit(row[last].end, row[last].end, put_in))
    return edits


def _cells(record: Record) -> dict[str, str]:
    """Give a record as the cells of a row, by column."""
    cells: dict[str, str] = {}
    for key, value in record.items():
        if isinstance(value, Mapping):
            cells |= {f"{key}.{name}": _cell(inner) for name, inner in value.items()}
        elif key in LISTS_OF_RECORDS and not isinstance(value, (str, int, float)):
            rows = [_cells(each) for each in value if isinstance(each, Mapping)]
            for name in dict.fromkeys(name for each in rows for name in each):
                parts = [each.get(name, "") for each in rows]
                cells[f"{key}.{name}"] = f"{BETWEEN} ".join(parts)
        else:
            cells[key] = _cell(value)
    return cells


def _cell(value: Words) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (str, int, float)):
        return str(value)
    return f"{BETWEEN} ".join(str(each) for each in value)


def _row(delimiter: str, cells: Sequence[str]) -> str:
    out = io.StringIO()
    # The writer puts quotes round what holds a line end only if it ends lines so itself.
    csv.writer(out, delimiter=delimiter, lineterminator="\r\n").writerow(cells)
    return out.getvalue().removesuffix("\r\n") if any(cells) else delimiter * (len(cells) - 1)
