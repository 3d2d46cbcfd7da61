"""The door for tables: a drying log kept in a spreadsheet becomes the same tree as YAML gives.

The first line names the keys, those inside others with a dot (`packs.count`). Columns are parted
by commas, or by semicolons where the first line shows them; a semicolon inside a cell parts the
things of a list. Each cell keeps its line and column, so that mistakes are told where they stand.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Sequence

from builder.model.place import Place
from builder.problems import Problem
from builder.reading.declared.declaring import keys_of
from builder.reading.declared.shapes import ByShape
from builder.reading.declared.vocabulary import Items, Takes, Words
from builder.reading.drying.batches import WrittenBatch
from builder.reading.text.yaml_door import MOST_NODES, Entry, Node, plain_value, quoted
from builder.record import dataclass

MOST_COLUMNS = 100
BETWEEN = ";"  # parts the things of a list inside one cell


def _keys_with(*kinds: type[Takes]) -> frozenset[str]:
    return frozenset(
        name
        for name, field in keys_of(WrittenBatch).items()
        if any(isinstance(each, kinds) for each in field.metadata)
    )


LISTS = _keys_with(Words)
LISTS_OF_RECORDS = _keys_with(Items, ByShape)  # as `weighings.at` beside `weighings.mass`

# In a table parted by semicolons a bare number may have a decimal comma.
_DECIMAL_COMMA = re.compile(r"-?[0-9]+,[0-9]+")


@dataclass(frozen=True, slots=True)
class Cell:
    """What one column of one row holds, without quotes, and where it stands in the text."""

    text: str
    place: Place
    start: int
    end: int  # behind its closing quote, where it has one
    in_quotes: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table as it is written: its first line, then its rows, blank ones left out."""

    delimiter: str
    header: tuple[Cell, ...]
    rows: tuple[tuple[Cell, ...], ...]


def read_table(text: str, file: str) -> tuple[Node | None, list[Problem]]:
    """Give a table as a list of records; None where there is no first line."""
    table, problems = table_of(text, file)
    if table is None:
        return None, problems
    rows = []
    for cells in table.rows:
        beyond = cells[len(table.header) :]
        if len(cells) < len(table.header) or any(cell.text for cell in beyond):
            problems.append(_ragged(cells, len(table.header)))
        else:
            rows.append(_record(table, cells))
    size = 1 + sum(row.size for row in rows)
    if size > MOST_NODES:
        says = f"this table holds more than {MOST_NODES} values"
        return None, [*problems, Problem(Place(file, 1, 1), "too-large", says, "split the file")]
    depth = 1 + max((row.depth for row in rows), default=0)
    return Node(table.header[0].place, tuple(rows), 0, len(text), size, depth=depth), problems


def table_of(text: str, file: str) -> tuple[Table | None, list[Problem]]:
    """Take a table apart; None where there is none, or where no row of it can be trusted."""
    first = next((line for line in text.split("\n") if line.strip()), "")
    delimiter = BETWEEN if BETWEEN in first else ","
    if delimiter not in first and "\t" in first:
        says = "the columns of this table are parted by tabs"
        mend = "save it with commas or semicolons between them"
        return None, [Problem(Place(file, 1, 1), "table", says, mend)]
    rows: list[tuple[Cell, ...]] = []
    try:
        rows.extend(row for row in _rows(text, file, delimiter) if any(c.text for c in row))
    except csv.Error as error:
        line = text.count("\n", 0, rows[-1][-1].end) + 2 if rows else 1
        says = f"this row is no row of a table ({error})"
        mend = 'put a cell that holds quotes into quotes, and write each of its own twice: ""'
        return None, [Problem(Place(file, line, 1), "table", says, mend)]
    if not rows:
        return None, []
    header = list(rows[0])
    while header and not header[-1].text:
        header.pop()
    problems = list(_wrong_columns(header))
    if problems:
        return None, problems
    return Table(delimiter, tuple(header), tuple(rows[1:])), []


def _rows(text: str, file: str, delimiter: str) -> Iterator[tuple[Cell, ...]]:
    """Give the rows that hold anything, each cell with its place."""
    lines = _lines(text)
    reader = csv.reader(lines, delimiter=delimiter, skipinitialspace=True, strict=True)
    offset, first_line = 0, 1
    for values in reader:
        record = "".join(lines[first_line - 1 : reader.line_num])
        spans = _spans(record.rstrip("\n"), delimiter)
        if values:
            cells = []
            for value, (start, end) in zip(values, spans, strict=True):
                line = first_line + record.count("\n", 0, start)
                column = start - record.rfind("\n", 0, start)
                place = Place(file, line, column)
                in_quotes = record[start : start + 1] == '"'
                span = (offset + start, offset + end)
                cells.append(Cell(value.strip(), place, *span, in_quotes))
            yield tuple(cells)
        offset += len(record)
        first_line = reader.line_num + 1


def _lines(text: str) -> list[str]:
    """Give the lines of a text; only a line feed ends one."""
    lines = [f"{line}\n" for line in text.split("\n")]
    lines[-1] = lines[-1][:-1]
    return lines if lines[-1] else lines[:-1]


def _spans(record: str, delimiter: str) -> list[tuple[int, int]]:
    """Give where each cell of a row starts and ends, as the csv module parts them."""
    spans = []
    at = 0
    while True:
        while record[at : at + 1] == " ":
            at += 1
        start = at
        if record[at : at + 1] == '"':
            at = _behind_quotes(record, at)
        found = record.find(delimiter, at)
        at = len(record) if found < 0 else found
        spans.append((start, at))
        if found < 0:
            return spans
        at += 1


def _behind_quotes(record: str, start: int) -> int:
    """Give the place behind the quote that closes a cell; a quote written twice closes none."""
    at = start + 1
    while True:
        at = record.index('"', at) + 1
        if record[at : at + 1] != '"':
            return at
        at += 1


def _wrong_columns(header: Sequence[Cell]) -> Iterator[Problem]:
    """Tell of names in the first line that no row could be read by."""
    if len(header) > MOST_COLUMNS:
        says = f"this table has {len(header)} columns"
        yield Problem(header[0].place, "table", says, f"keep it under {MOST_COLUMNS}")
        return
    seen: dict[str, Cell] = {}
    for cell in header:
        if not cell.text:
            says = "this column has no name"
            yield Problem(cell.place, "column-name", says, "name its key, such as `notes`")
            continue
        if cell.text in seen:
            says = f"{quoted(cell.text)} stands twice in the first line"
            yield Problem(cell.place, "key-twice", says, "keep one of them")
            continue
        above = cell.text.rpartition(".")[0]
        if above in seen:
            says = f"{quoted(above)} and {quoted(cell.text)} are both columns"
            yield Problem(cell.place, "key-twice", says, f"leave {quoted(above)} out")
        seen[cell.text] = cell


def _ragged(cells: Sequence[Cell], columns: int) -> Problem:
    says = f"this row has {len(cells)} cells, and the first line names {columns}"
    return Problem(
        cells[0].place, "ragged", says, "leave a cell empty for what is not told; quote commas"
    )


def _record(table: Table, cells: Sequence[Cell]) -> Node:
    """Give a row as a mapping; keys stand in the first line."""
    entries: dict[str, Entry] = {}
    inner: dict[str, list[tuple[str, Place, Cell]]] = {}
    for column, cell in zip(table.header, cells, strict=False):
        outer, dot, name = column.text.partition(".")
        if dot:
            inner.setdefault(outer, []).append((name, column.place, cell))
        else:
            entries[outer] = Entry(column.place, _value(table, outer, cell))
    for outer, parts in inner.items():
        told = [cell for _, _, cell in parts if cell.text]
        if told:
            node = _inner(table, outer, parts, told[0])
            entries[outer] = Entry(parts[0][1], node)
    return _mapping(cells[0], entries, cells[-1].end)


def _value(table: Table, key: str, cell: Cell) -> Node:
    """Give a cell as a value, or as a list where its key takes one."""
    if key not in LISTS or not cell.text:
        return _scalar(table, cell)
    return _list(cell, [_scalar(table, part) for part in _parts(cell)])


def _inner(table: Table, outer: str, parts: Sequence[tuple[str, Place, Cell]], first: Cell) -> Node:
    """Give the columns `outer.…` as a mapping, or as a list of them."""
    if outer not in LISTS_OF_RECORDS:
        return _mapping(
            first,
            {name: Entry(place, _scalar(table, cell)) for name, place, cell in parts},
            first.end,
        )
    columns = [(name, place, _parts(cell)) for name, place, cell in parts]
    items = []
    for number in range(max(len(each) for _, _, each in columns)):
        told = {
            name: Entry(place, _scalar(table, each[number]))
            for name, place, each in columns
            if number < len(each)
        }
        at = next(each[number] for _, _, each in columns if number < len(each))
        items.append(_mapping(at, told, at.end))
    return _list(first, items)


def _parts(cell: Cell) -> list[Cell]:
    """Give the things of a list inside one cell."""
    found = []
    at = 0
    for text in cell.text.split(BETWEEN):
        if part := text.strip():
            before = cell.text[: at + text.index(part)]
            start = cell.start + cell.in_quotes + len(before)
            place = _place_behind(cell, before)
            found.append(Cell(part, place, start, start + len(part)))
        at += len(text) + 1
    return found


def _place_behind(cell: Cell, before: str) -> Place:
    """Give the place inside a cell behind so much of its text."""
    file, line, column = cell.place.file, cell.place.line, cell.place.column
    breaks = before.count("\n")
    if breaks:
        return Place(file, line + breaks, len(before) - before.rfind("\n"))
    return Place(file, line, column + cell.in_quotes + len(before))


def _scalar(table: Table, cell: Cell) -> Node:
    text = cell.text
    if table.delimiter == BETWEEN and _DECIMAL_COMMA.fullmatch(text):
        text = text.replace(",", ".")
    value = plain_value(text)
    if value is None and text:
        value = text  # an empty cell says nothing; a word for it is a word
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    return Node(cell.place, value, cell.start, cell.end, written=text if number else "")


def _mapping(first: Cell, entries: dict[str, Entry], end: int) -> Node:
    below = [entry.node for entry in entries.values()]
    size = 1 + sum(node.size for node in below)
    depth = 1 + max((node.depth for node in below), default=0)
    return Node(first.place, entries, first.start, end, size, depth=depth)


def _list(cell: Cell, items: Sequence[Node]) -> Node:
    size = 1 + sum(node.size for node in items)
    depth = 1 + max((node.depth for node in items), default=0)
    return Node(cell.place, tuple(items), cell.start, cell.end, size, depth=depth)
