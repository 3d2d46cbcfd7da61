"""The one door for YAML: text → a bounded tree of plain values, each with its place.

YAML 1.1 as PyYAML reads it turns `16:30` into 990, `no` into False, `012` into 10 and lets a
repeated key win silently. Here only plain numbers, true, false and null are more than text, a
repeated key is a problem, and depth, size and alias expansion are bounded. `<<` puts in the keys
of other mappings, as YAML 1.1 has it. The tree is built from parser events without recursion, so
that no nesting can exhaust the stack.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any, Final

import yaml

from builder.model.place import Place
from builder.problems import Problem
from builder.reading.files import LARGEST_BYTES
from builder.record import dataclass, replace
from builder.units import both_readings

DEEPEST = 40
MOST_NODES = 200_000  # with aliases expanded

# The C parser where libyaml is there; both give the same events.
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

_INT = re.compile(r"-?(?:0|[1-9][0-9]{0,14})")
_FLOAT = re.compile(r"-?(?:0|[1-9][0-9]{0,14})\.[0-9]{1,17}")
_NAMED = {"true": True, "false": False, "null": None, "~": None, "": None}
_LONGEST_NAMED = max(map(len, _NAMED))
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
LONGEST_KEY = 200
MERGE = "<<"

Plain = str | int | float | bool | None


# Final, not frozen: nothing changes one either, and to make one takes a fifth of the time.
@dataclass(slots=True)
class Entry:
    """One key of a mapping, its place, and what stands behind it."""

    place: Final[Place]
    node: Final[Node]
    merged: Final[bool] = False  # put in by `<<`: it stands elsewhere in the file
    start: Final[int] = 0  # where its key starts, as an offset


@dataclass(slots=True)
class Node:
    """A value, list or mapping, with where it starts and ends in the text."""

    place: Final[Place]
    value: Final[Plain | tuple[Node, ...] | dict[str, Entry]]
    start: Final[int]  # character offsets, for cutting a record out of its file
    end: Final[int]
    size: Final[int] = 1  # nodes below it, itself included
    flow: Final[bool] = False
    depth: Final[int] = 0  # how many lists and mappings lie in one another, aliases written out
    written: Final[str] = ""  # a plain number as it stands in the file: 1.50, not 1.5
    alias: Final[bool] = False  # here stands *name, and what it holds elsewhere in the file
    merge: Final[tuple[int, int] | None] = None  # where its `<<: *name` starts and ends

    @property
    def text(self) -> str:
        """A plain value as it was written."""
        return self.written or str(self.value)

    @property
    def is_text(self) -> bool:
        """Whether it can be read as a text or a number."""
        return isinstance(self.value, (str, int, float)) and not isinstance(self.value, bool)

    @property
    def is_map(self) -> bool:
        """Whether it is a mapping."""
        return isinstance(self.value, dict)

    @property
    def is_list(self) -> bool:
        """Whether it is a list."""
        return isinstance(self.value, tuple)

    @property
    def entries(self) -> dict[str, Entry]:
        """The entries of a mapping; none for anything else."""
        return self.value if isinstance(self.value, dict) else {}

    @property
    def items(self) -> tuple[Node, ...]:
        """The items of a list; none for anything else."""
        return self.value if isinstance(self.value, tuple) else ()

    def at(self, path: Iterable[str | int]) -> Node:
        """Give the node that keys, and numbers of items, lead to."""
        node = self
        for step in path:
            node = node.items[step] if isinstance(step, int) else node.entries[step].node
        return node

    def items_of(self, key: str) -> tuple[Node, ...]:
        """Give the items of the list behind a key; none where it is not told."""
        entry = self.entries.get(key)
        return entry.node.items if entry else ()

    def described(self) -> str:
        """Say what was found, in few words."""
        if self.is_map:
            return "`key: value` lines"
        if self.is_list:
            return "a list"
        if self.value is None:
            return "nothing"
        if isinstance(self.value, bool):
            return "true" if self.value else "false"
        return quoted(self.text)


def as_json(node: Node) -> Any:
    """Give what stands in a node as plain lists, mappings and values."""
    if node.is_map:
        return {key: as_json(entry.node) for key, entry in node.entries.items()}
    return [as_json(item) for item in node.items] if node.is_list else node.value


def quoted(text: str) -> str:
    """Give a text in quotes, on one line, and not more of it than fits one."""
    return repr(text if len(text) <= 60 else text[:57] + "…")


class _Stop(Exception):
    """Ends the reading of one document with one problem."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem


def decode(raw: bytes, file: str) -> tuple[str, list[Problem]]:
    """Turn a file's bytes into text, or say why it is no YAML text of ours."""
    start = Place(file, 1, 1)
    if len(raw) > LARGEST_BYTES:
        says = f"the file has more than {LARGEST_BYTES // 1_000_000} MB"
        return "", [Problem(start, "file-too-large", says, "split it")]
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # The codec counts from behind a byte order mark, and what lies before is good UTF-8.
        good = bytes(error.object)[: error.start].decode("utf-8")
        place = _place_at(good.replace("\r\n", "\n"), len(good.replace("\r\n", "\n")), file)
        return "", [Problem(place, "not-utf8", "this is no UTF-8 text", "save the file as UTF-8")]
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if found := _CONTROL.search(text):
        place = _place_at(text, found.start(), file)
        says = f"a control character stands here (U+{ord(found[0]):04X})"
        return "", [Problem(place, "control-character", says, "delete it")]
    return text, []


def _place_at(text: str, offset: int, file: str) -> Place:
    line = text.count("\n", 0, offset) + 1
    return Place(file, line, offset - text.rfind("\n", 0, offset))


def read_yaml(text: str, file: str) -> tuple[Node | None, list[Problem]]:
    """Read one document; None with problems where it cannot be read, None alone where empty."""
    if _MEMORY is None:
        return _read(text, file)
    node, problems = _MEMORY.read(text, file)
    return node, list(problems)


class Memory:
    """What was read in this round and in the one before; what neither asked for is let go."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self._now: dict[tuple[str, str], tuple[Node | None, list[Problem]]] = {}
        self._before = self._now

    def next_round(self) -> None:
        """Begin a round: what is read in it, or was in the round before, is not read again."""
        self._before, self._now = self._now, {}

    def read(self, text: str, file: str) -> tuple[Node | None, list[Problem]]:
        """Give what the document says: nothing goes into it but its text and its name."""
        key = (text, file)
        found = self._now.get(key) or self._before.get(key) or _read(text, file)
        self._now[key] = found
        return found


_MEMORY: Memory | None = None


@contextmanager
def remembering() -> Iterator[Memory]:
    """Remember meanwhile what is read, for whoever reads a folder over and over."""
    global _MEMORY
    before, _MEMORY = _MEMORY, Memory()
    try:
        yield _MEMORY
    finally:
        _MEMORY = before


def _read(text: str, file: str) -> tuple[Node | None, list[Problem]]:
    problems: list[Problem] = []
    try:
        return _compose(text, file, problems), problems
    except _Stop as stop:
        return None, [*problems, stop.problem]
    except yaml.MarkedYAMLError as error:
        return None, [*problems, _as_problem(error, text, file)]
    except (yaml.YAMLError, ValueError, OverflowError) as error:
        # The parser in Python lets an escape such as "\U00110000" fail in chr().
        says = f"this file is no YAML ({str(error).splitlines()[0]})"
        mend = "look for characters that cannot be shown, and for \\U in quotes"
        return None, [*problems, Problem(Place(file, 1, 1), "yaml", says, mend)]


# What the parser says (libyaml's words and those of the parser in Python) → what people read.
_PLAINLY: tuple[tuple[str, str, str], ...] = (
    ("nesting depth", "", ""),  # told as too-deep
    (
        "mapping values are not allowed",
        "a colon does not belong here",
        "put quotes round a text that holds a colon, or mend the indentation",
    ),
    ("unexpected end of stream", "a quote is opened here and never closed", "close it"),
    (
        "expected ',' or",
        "a comma or a closing bracket is missing before this",
        "put a comma between two things, close each bracket, and quote a text that holds either",
    ),
    (
        "expected ':'",
        "this line is no `key: value`",
        "write a colon and a space behind the key, or mend the indentation",
    ),
    (
        "cannot start any token",
        "a text cannot start with this character",
        "put the text in quotes",
    ),
    (
        "escape c",
        "a backslash stands before something it does not go with",
        "write the text in single quotes",
    ),
    ("expected key", "this line does not fit those above it", ""),
    ("expected <block end>", "this line does not fit those above it", ""),
    ("expected '-' indicator", "this line does not fit those above it", ""),
)
_MEND = "look for wrong indentation, a missing quote, bracket or colon here or just above"


def _as_problem(error: yaml.MarkedYAMLError, text: str, file: str) -> Problem:
    what = (error.problem or error.context or "it cannot be read").strip()
    says, mend = f"this line is no YAML ({what})", ""
    for part, plainly, would_do in _PLAINLY:
        if part in what:
            says, mend = plainly, would_do
            break
    mark = error.problem_mark or error.context_mark
    if "end of stream" in what:
        mark = error.context_mark or mark
    place = Place(file, mark.line + 1, mark.column + 1) if mark else Place(file, 1, 1)
    if not says:
        return _too_deep(place)
    lines = text.split("\n")
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    is_of_colons = "mapping values" in what or "expected ':'" in what
    if is_of_colons and (stuck := _stuck_colon(lines[: place.line - 1])):
        number, at = stuck
        says, mend = "no space stands behind this colon", "write `key: value`, with a space"
        return Problem(Place(file, number, at), "yaml", says, mend)
    if line[place.column - 2 : place.column - 1] == "'" and line[place.column - 1 :][:1].isalpha():
        says, mend = "the text in quotes ends before this", 'put a text with \' in it in "…"'
    for number in (place.line - 1, place.line):
        above = lines[number - 1] if 0 < number <= len(lines) else ""
        if _HARD_SPACE in above[: len(above) - len(above.lstrip())]:
            says, mend = "a no-break space stands in front", "indent with plain spaces"
            return Problem(Place(file, number, 1), "yaml", says, mend)
    if "\t" in line[: place.column]:
        says, mend = "a tab stands here", "indent with spaces, not with a tab"
    return Problem(place, "yaml", says, mend or _MEND)


_HARD_SPACE = "\u00a0"
_STUCK_COLON = re.compile(r" *(?:- +)*[a-z_]+:(?=[^\s:/])")


def _stuck_colon(above: Sequence[str]) -> tuple[int, int] | None:
    """Give line and column of `key:value` in the last line that is written above another."""
    for number in range(len(above), 0, -1):
        written = above[number - 1].partition("#")[0].rstrip()
        if written:
            match = _STUCK_COLON.match(written)
            return (number, match.end()) if match else None
    return None


@dataclass(slots=True)
class _Open:
    """A list or mapping that is still being filled."""

    event: Any
    place: Place
    is_map: bool
    nodes: list[Node]
    pairs: dict[str, Entry]
    key: tuple[str, Place] | None = None
    key_start: int = 0
    merging: int | None = None  # where the `<<` starts whose value is next
    merges: Node | None = None  # what stands behind `<<`
    merge: tuple[int, int] | None = None


def _compose(text: str, file: str, problems: list[Problem]) -> Node | None:
    """Build the tree from parser events."""
    anchors: dict[str, Node] = {}
    stack: list[_Open] = []
    node: Node
    root: Node | None = None
    documents = written = merged = 0
    event: Any
    for event in _events(text):
        kind = type(event)
        if kind is yaml.ScalarEvent:  # most are
            node = _scalar(event, file, problems)
            place, anchor = node.place, event.anchor
            written += 1
            if written > MOST_NODES:
                raise _Stop(_too_large(stack[0].place))
        elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
            place = _place_of(event, file)
            _refuse_tag(event, place)
            if len(stack) >= DEEPEST:
                raise _Stop(_too_deep(place))
            stack.append(_Open(event, place, kind is yaml.MappingStartEvent, [], {}))
            written += 1
            continue
        elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            place = _place_of(event, file)
            opened = stack.pop()
            merged += _merge(opened)
            # Each merge copies keys: many of them cost room, whatever they add up to.
            if merged > MOST_NODES:
                raise _Stop(_too_large(opened.place))
            node = _closed(opened, _span(event)[1])
            anchor = opened.event.anchor
        elif kind is yaml.DocumentStartEvent:
            documents += 1
            if documents > 1:
                place = _place_of(event, file)
                mend = "keep one document in a file, or write a list"
                raise _Stop(Problem(place, "second-document", "a second document starts", mend))
            continue
        elif kind is yaml.AliasEvent:
            place = _place_of(event, file)
            if event.anchor not in anchors:
                says = f"*{event.anchor} names nothing that stands complete above it"
                mend = f"write &{event.anchor} above, or put a text that begins with * in quotes"
                raise _Stop(Problem(place, "alias", says, mend))
            named, anchor = anchors[event.anchor], None
            if len(stack) + named.depth > DEEPEST:
                raise _Stop(_too_deep(place))
            start, end = _span(event)
            node = replace(named, start=start, end=end, alias=True)
        else:
            continue
        if anchor:
            anchors[anchor] = node
        if not stack:
            root = node
        else:
            into = stack[-1]
            _put(into, node, place, problems)
            if kind is yaml.ScalarEvent and _is_merge_key(event, into):
                into.merging = node.start
    return root


def _is_merge_key(event: Any, into: _Open) -> bool:
    """Tell whether the key just put in is `<<` without quotes, which YAML 1.1 reads as a merge."""
    return event.value == MERGE and event.implicit[0] and into.key is not None


def _merge(opened: _Open) -> int:
    """Put in the keys behind `<<`; a mapping's own keys win, then the first that has one."""
    behind = opened.merges
    if behind is None:
        return 0
    before = len(opened.pairs)
    for each in behind.items if behind.is_list else (behind,):
        for key, entry in each.entries.items():
            if key not in opened.pairs:
                opened.pairs[key] = Entry(entry.place, entry.node, merged=True, start=entry.start)
    return len(opened.pairs) - before + len(behind.items)


def _too_deep(place: Place) -> Problem:
    return Problem(
        place, "too-deep", f"this is nested more than {DEEPEST} deep", "write it flatter"
    )


def _too_large(place: Place) -> Problem:
    says = f"this holds more than {MOST_NODES} values, with its aliases written out"
    return Problem(place, "too-large", says, "split the file")


def _events(text: str) -> Iterator[Any]:
    loader = _LOADER(text)
    try:
        yield from iter(loader.get_event, None)
    finally:
        loader.dispose()


def _place_of(event: Any, file: str) -> Place:
    mark = event.start_mark
    return Place(file, mark.line + 1, mark.column + 1)


def _span(event: Any) -> tuple[int, int]:
    return event.start_mark.index, event.end_mark.index


def _refuse_tag(event: Any, place: Place) -> None:
    if event.tag and event.tag not in ("!", "tag:yaml.org,2002:str"):
        says = f"the tag {event.tag!r} is not read"
        raise _Stop(Problem(place, "tag", says, "delete it; write plain text, numbers and lists"))


def _scalar(event: Any, file: str, problems: list[Problem]) -> Node:
    """Resolve a scalar: quoted text stays text; only plain numbers and names are more."""
    text: str = event.value
    place, start, end = _place_of(event, file), event.start_mark.index, event.end_mark.index
    if event.tag:
        _refuse_tag(event, place)
    value: Plain = text
    if not event.style and event.implicit[0]:
        value = plain_value(text)
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            return Node(place, value, start, end, written=text)
    elif event.style == '"' and (found := _CONTROL.search(text)):
        # Written as an escape, so that it was not in the file's own text.
        says = f"this text holds a control character (U+{ord(found[0]):04X})"
        problems.append(Problem(place, "control-character", says, "take its \\ escape out"))
        value = _CONTROL.sub("", text)
    return Node(place, value, start, end)


def plain_value(text: str) -> Plain:
    """Give what a text without quotes stands for: a number, true, false, nothing, or itself."""
    if len(text) <= _LONGEST_NAMED and text.lower() in _NAMED:
        return _NAMED[text.lower()]
    if text[-1].isdecimal():  # which few texts end in
        if _INT.fullmatch(text):
            return int(text)
        if _FLOAT.fullmatch(text):
            return float(text)
    return text


def _closed(opened: _Open, end: int) -> Node:
    value: tuple[Node, ...] | dict[str, Entry]
    if opened.is_map:
        value = opened.pairs
        below = [entry.node for entry in opened.pairs.values()]
    else:
        value = tuple(opened.nodes)
        below = opened.nodes
    size = 1 + sum([node.size for node in below])
    if size > MOST_NODES:
        raise _Stop(_too_large(opened.place))
    depth = 1 + max([node.depth for node in below], default=0)
    start = opened.event.start_mark.index
    flow = bool(opened.event.flow_style)
    return Node(opened.place, value, start, end, size, flow, depth, merge=opened.merge)


def _put(into: _Open, node: Node, place: Place, problems: list[Problem]) -> None:
    if not into.is_map:
        into.nodes.append(node)
        return
    if into.key is None:
        if node.is_map or node.is_list or node.value is None:
            says = f"a key must be a word, not {node.described()}"
            raise _Stop(Problem(place, "key", says, "write `key: value`"))
        key = node.text.lower() if isinstance(node.value, bool) else node.text
        if len(key) > LONGEST_KEY:
            says = f"a key has {len(key)} characters"
            raise _Stop(Problem(place, "key", says, "write `key: value`"))
        into.key, into.key_start = (key, place), node.start
        return
    key, key_place = into.key
    into.key = None
    if node.value is None and _is_rest_of_decimal(into, key, node):
        _put_back_decimal(into, key, node, problems)
        return
    if into.merging is not None:
        _put_merge(into, node, key_place, problems)
        into.merging = None
        return
    if key in into.pairs:
        first = into.pairs[key].place
        says = f"{quoted(key)} stands twice in one record (first on line {first.line})"
        mend = "keep one of them"
        if key == next(iter(into.pairs)) and not into.event.flow_style and key_place.column > 1:
            mend += ", or put `- ` before this one if it begins the next of a list"
        problems.append(Problem(key_place, "key-twice", says, mend))
        return
    into.pairs[key] = Entry(key_place, node, start=into.key_start)


_DECIMAL_START = re.compile(r"[-+−]?[0-9]{1,15}")
_DECIMAL_REST = re.compile(r"(?P<number>[0-9]{1,15})(?P<unit>(?![0-9]).*)", re.DOTALL)


def _is_rest_of_decimal(into: _Open, key: str, node: Node) -> bool:
    """Tell whether a key of no value is what stands behind the comma of `{mass: 1,5 kg}`: `5 kg`.

    Nothing but the comma stands between the two.
    """
    if not into.event.flow_style or node.end > node.start or not into.pairs:
        return False
    before = next(reversed(into.pairs.values())).node
    return (
        before.end + 1 == into.key_start
        and before.is_text
        and bool(_DECIMAL_START.fullmatch(before.text))
        and bool(_DECIMAL_REST.fullmatch(key))
    )


def _put_back_decimal(into: _Open, rest: str, node: Node, problems: list[Problem]) -> None:
    """Tell of a decimal comma in braces once, and read on with the value that is meant."""
    name, entry = next(reversed(into.pairs.items()))
    before = entry.node
    written = f"{before.text},{rest}"
    parts = _DECIMAL_REST.fullmatch(rest)
    number, unit = parts.groups() if parts else (rest, "")
    meant = [f"{before.text}.{rest}"]
    in_quotes = f', or put the value in quotes: `{name}: "{written}"`'
    if len(number) == 3 and before.text != "0":  # in thousands, or in thousandths
        meant = [f"{each}{unit}" for each in both_readings(f"{before.text}.{number}")]
        in_quotes = ""  # there it would be asked what is meant
    says = f"{quoted(f'{name}: {written}')} is two entries in {{ }}: a comma parts them"
    would_do = " or ".join(f"`{name}: {each}`" for each in meant)
    problems.append(Problem(before.place, "decimal-comma", says, f"write {would_do}{in_quotes}"))
    is_number = _FLOAT.fullmatch(meant[0]) is not None
    value = float(meant[0]) if is_number else meant[0]
    whole = replace(before, value=value, written=written if is_number else "", end=node.end)
    into.pairs[name] = replace(entry, node=whole)


def _put_merge(into: _Open, node: Node, place: Place, problems: list[Problem]) -> None:
    """Keep what stands behind `<<` until all keys of the mapping are known."""
    if into.merges is not None:
        says, mend = "`<<` stands twice in one record", "write `<<: [*one, *other]`"
        problems.append(Problem(place, "key-twice", says, mend))
    elif node.is_map or (node.is_list and all(each.is_map for each in node.items)):
        into.merges = node
        into.merge = (into.merging or 0, node.end)
    else:
        says = f"behind `<<` stand `key: value` lines or a list of them, not {node.described()}"
        problems.append(Problem(place, "merge", says, "write `<<: *name`, and &name above"))
