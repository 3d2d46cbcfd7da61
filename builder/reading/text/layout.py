"""Edits of lists and mappings in a file that leave all else of it as it was written.

Text is changed by offsets, not read and written anew: what no edit touches, comments, anchors,
blank lines and line ends included, stays byte for byte because nobody wrote it again.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping

from builder.reading.text.spelling import Edit
from builder.reading.text.yaml_door import Entry, Node

_ANCHOR = re.compile(r"&[^\s,\[\]{}]+\s+")
_KEY = re.compile(r""" (?: "(?:[^"\\]|\\.)*" | '(?:[^']|'')*' | [^:\n]+ ) \s* : """, re.VERBOSE)
_COMMENT = re.compile("#.*")
_NO_MATTER = re.compile(r"(?:[ \n]|#[^\n]*\n)*")  # blank lines, comments, indentation
_REST_OF_LINE = re.compile(r" *,? *(?:#[^\n]*)?\n")


# -- places ---------------------------------------------------------------------------------------


def last_offset(node: Node) -> int:
    """Give where a node's last value ends; a block's own end lies behind trailing comments."""
    if node.flow or node.alias or not (node.is_map or node.is_list):
        return node.end
    own = [entry.node for entry in node.entries.values() if not entry.merged]
    ends = [last_offset(child) for child in own or node.items]
    return max([*ends, *(node.merge or ())], default=node.end)


def line_end(text: str, offset: int) -> int:
    """Give the start of the next line; an offset that is one already stays."""
    if offset > 0 and text[offset - 1 : offset] == "\n":
        return offset
    end = text.find("\n", offset)
    return len(text) if end < 0 else end + 1


def comments_above(text: str, line_start: int) -> int:
    """Give where the comments right above a line begin; the line itself where there are none."""
    while line_start > 0:
        above = text.rfind("\n", 0, line_start - 1) + 1
        if not text[above : line_start - 1].lstrip().startswith("#"):
            break
        line_start = above
    return line_start


# -- values ---------------------------------------------------------------------------------------


def with_text(text: str, node: Node, value: str) -> Edit:
    """Put another value in the place of one on a line; a name (`&name`) that it bears stays."""
    anchor = None if node.alias else _ANCHOR.match(text, node.start)
    start = anchor.end() if anchor else node.start
    # Nothing at all stands right behind the colon of its key.
    lead = " " if start == node.end and text[start - 1 : start] == ":" else ""
    # A text in a block ends where the next line begins.
    tail = "\n" if text[start : node.end].endswith("\n") else ""
    return Edit(start, node.end, lead + value + tail)


def with_value(text: str, entry: Entry, value: str) -> Edit:
    """Put another value behind a key, on the line of the key."""
    node = entry.node
    if node.flow or node.alias or not (node.is_map or node.is_list):
        return with_text(text, node, value)
    key = _KEY.match(text, entry.start)
    start = key.end() if key else node.start
    return Edit(start, last_offset(node), f" {value}")


# -- mappings -------------------------------------------------------------------------------------


def own_entries(parent: Node) -> list[Entry]:
    """Give the entries that stand in a mapping itself, none that `<<` put in."""
    return [entry for entry in parent.entries.values() if not entry.merged]


def without_key(text: str, parent: Node, key: str) -> Edit:
    """Take a key out of a mapping, with its line or the comma that parted it from the others."""
    entry = parent.entries[key]
    end = last_offset(entry.node)
    if parent.flow:
        return _out_of_flow(text, entry.start, end)
    return _without_lines(text, entry.start, end)


def with_keys(text: str, parent: Node, said: Mapping[str, str], behind: str = "") -> Edit:
    """Put keys into a mapping that lacks them, behind another of its keys or at its end."""
    before = parent.entries.get(behind)
    if before is None or before.merged:
        before = max(own_entries(parent), key=lambda each: each.start, default=None)
    if before is None:
        return Edit(parent.end - 1, parent.end - 1, ", ".join(_lines(said)))
    end = last_offset(before.node)
    if parent.flow:
        return Edit(end, end, "".join(f", {each}" for each in _lines(said)))
    end = line_end(text, end)
    margin = " " * column_of(text, before.start)
    lines = "".join(f"{margin}{each}\n" for each in _lines(said))
    return Edit(end, end, _new_line(text, end) + lines)


def _lines(said: Mapping[str, str]) -> list[str]:
    return [f"{key}: {value}" for key, value in said.items()]


def first_key(text: str, parent: Node, key: str, value: str) -> Edit:
    """Put a key before all others of a mapping."""
    at = min(entry.start for entry in own_entries(parent))
    between = ", " if parent.flow else "\n" + " " * column_of(text, at)
    return Edit(at, at, f"{key}: {value}{between}")


def _out_of_flow(text: str, start: int, end: int) -> Edit:
    """Take one entry out of a flow mapping, with the comma that parted it from the others."""
    if lines := _own_lines(text, start, end):
        return lines
    before = start
    while before > 0 and text[before - 1] in " \n":
        before -= 1
    if before > 0 and text[before - 1] == ",":
        return Edit(before - 1, end, "")
    after = end
    while after < len(text) and text[after] in " \n":
        after += 1
    if after < len(text) and text[after] == ",":
        after += 1
        while after < len(text) and text[after] == " ":
            after += 1
    return Edit(start, after, "")


def _without_lines(text: str, start: int, end: int) -> Edit:
    """Take the lines out that something stands on; behind a dash the next moves up to it."""
    line = text.rfind("\n", 0, start) + 1
    end = line_end(text, end)
    if not text[line:start].strip():
        return Edit(line, end, "")
    rest = text[end:]
    return Edit(start, end + len(rest) - len(rest.lstrip()), "")


def _own_lines(text: str, start: int, end: int) -> Edit | None:
    """Take out what stands in brackets on lines of its own, its comma and comment with it."""
    line = text.rfind("\n", 0, start) + 1
    rest = _REST_OF_LINE.match(text, end)
    return Edit(line, rest.end(), "") if rest and not text[line:start].strip() else None


# -- lists ----------------------------------------------------------------------------------------


def without_items(text: str, parent: Node, gone: Collection[int]) -> Iterator[Edit]:
    """Take items out of a list, each with the comments that belong to it; some must stay."""
    items = parent.items
    first_kept = next(number for number in range(len(items)) if number not in gone)
    for number in sorted(gone):
        item = items[number]
        if not parent.flow:
            edit = _without_lines(text, dash_of(text, parent, number), last_offset(item))
            at_margin = text[edit.start - 1 : edit.start] in ("", "\n")
            yield Edit(comments_above(text, edit.start), edit.end, "") if at_margin else edit
        elif lines := _own_lines(text, item.start, item.end):
            yield Edit(comments_above(text, lines.start), lines.end, "")
        elif number > first_kept:
            yield Edit(items[number - 1].end, item.end, "")
        else:
            yield Edit(item.start, items[number + 1].start, "")


def with_items(text: str, parent: Node, written: Collection[str]) -> Iterator[Edit]:
    """Put items, each on one line, behind the last of a list; a block list has one."""
    if not written:
        return
    if not parent.flow:
        margin = margin_of_items(text, parent)
        yield behind_items(text, parent, "".join(f"{margin}- {each}\n" for each in written))
        return
    closing = parent.end - 1
    end = parent.items[-1].end if parent.items else parent.start + 1
    bare = _COMMENT.sub(lambda comment: " " * len(comment[0]), text[end:closing])
    comma = bare.find(",")
    if bare.rstrip(" ").endswith("\n"):  # the bracket closes on a line of its own
        if parent.items and comma < 0:
            yield Edit(end, end, ",")
        at = text.rfind("\n", 0, closing) + 1
        margin = " " * _margin(text, parent)
        said = ",\n".join(f"{margin}{each}" for each in written)
        yield Edit(at, at, f"{said}{',' if comma >= 0 else ''}\n")
    elif not parent.items:
        yield Edit(closing, closing, ", ".join(written))
    elif comma < 0:
        yield Edit(end, end, "".join(f", {each}" for each in written))
    else:
        yield Edit(end + comma + 1, end + comma + 1, " " + ", ".join(written))


def behind_items(text: str, parent: Node, lines: str) -> Edit:
    """Put lines behind the last item of a block list."""
    end = line_end(text, last_offset(parent.items[-1]))
    return Edit(end, end, _new_line(text, end) + lines)


def margin_of_items(text: str, parent: Node) -> str:
    """Give what stands in front of the dashes of a block list."""
    return " " * column_of(text, dash_of(text, parent, len(parent.items) - 1))


def dash_of(text: str, parent: Node, number: int) -> int:
    """Give where the dash stands that an item of a block list stands behind."""
    if number == 0:
        before = _ANCHOR.match(text, parent.start)
        at = before.end() if before else parent.start
    else:
        at = line_end(text, last_offset(parent.items[number - 1]))
    between = _NO_MATTER.match(text, at)
    return between.end() if between else at


def _margin(text: str, parent: Node) -> int:
    """Give how far the lines inside `[…]` are indented."""
    if not parent.items:
        return 2
    line = text.rfind("\n", 0, parent.items[-1].start) + 1
    return len(text[line:]) - len(text[line:].lstrip(" "))


def column_of(text: str, offset: int) -> int:
    """Give how many characters stand before a place on its line."""
    return offset - text.rfind("\n", 0, offset) - 1


def _new_line(text: str, at: int) -> str:
    """Give the line break that is missing where a file does not end its last line."""
    return "" if at == 0 or text[at - 1] == "\n" else "\n"
