"""The smallest things a page is made of: pieces of text, tables, steps, caution boxes."""

from __future__ import annotations

import re
from collections.abc import Sequence

from builder.record import dataclass, field

_BLANK = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True, slots=True)
class Scale:
    """A figure that the script in the page tells anew for other eaters or another height.

    Two that read the same are the same, whichever figures they tell.
    """

    kind: str  # g, ml, m, celsius, min, mugs, count, whole or potfuls
    value: float = field(compare=False)  # the figure, unrounded
    figure: str = field(compare=False)  # its id
    units: str = ""  # metric or us
    mug: str = ""  # ml in a mug, where the kind is mugs
    step: str = ""  # what a count is rounded to
    before: str = ""  # what stands around it, and goes where there is nothing to show
    after: str = ""
    name: str = "scales"  # of its element


@dataclass(frozen=True, slots=True)
class Mark:
    """What a script in the page needs to tell a time or a caution by."""

    name: str  # before or raw
    data: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of text: plain, linked, strong, scaled with the party, or small beside another."""

    text: str
    href: str = ""  # from the top of the kit
    strong: bool = False
    small: bool = False
    scale: Scale | None = None
    mark: Mark | None = None


Cell = tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Column:
    """The head of a column; numbers stand right."""

    head: Cell
    right: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under heads, all as finished text."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    stacks: bool = False  # cells stand below each other where the screen is too narrow for it


@dataclass(frozen=True, slots=True)
class Fact:
    """A key figure with its name."""

    name: str
    value: Cell


def text(words: str) -> Cell:
    """Give plain words."""
    return (Piece(words),)


def link(words: str, href: str) -> Cell:
    """Give words that lead to a page of the kit."""
    return (Piece(words, href=href),)


def words_of(cell: Cell) -> str:
    """Give the words of a cell alone."""
    return "".join(piece.text for piece in cell)


def join(cells: Sequence[Cell], between: str = ", ") -> Cell:
    """Give cells one after the other."""
    joined: list[Piece] = []
    for number, each in enumerate(cells):
        if number:
            joined.append(Piece(between))
        joined.extend(each)
    return tuple(joined)


def filled(said: str, /, small: bool = False, **blanks: Cell) -> Cell:
    """Fill the {blanks} of a text, said without them, with runs of text that keep what they are.

    `filled(say("At least {heat}."), heat=figures.least(72))`. Small words stand in small, the
    spaces around them do not.
    """
    pieces: list[Piece] = []
    for number, part in enumerate(_BLANK.split(said)):
        if number % 2:
            pieces += blanks[part]
        elif small:
            pieces += [
                Piece(words, small=not words.isspace())
                for words in re.split(r"^(\s+)|(\s+)$", part)
                if words
            ]
        elif part:
            pieces.append(Piece(part))
    return tuple(pieces)


def stacked(wide: Table) -> Table:
    """Let a table stack on narrow screens: there each cell tells what its column is.

    Elsewhere the heads tell it, to the search too.
    """
    # With a value, so that the theme takes it off the page once the search has read it.
    apart = Mark("which", (("search-exclude", "1"),))
    heads = [words_of(column.head) for column in wide.columns]
    rows = tuple(
        (
            first,
            *(
                (Piece(head, mark=apart), Piece(" "), *cell)
                for head, cell in zip(heads[1:], rest, strict=True)
            ),
        )
        for first, *rest in wide.rows
    )
    return Table(wide.columns, rows, stacks=True)


def lines(said: str) -> Cell:
    """Give the lines of a said text in small, each of them kept on one line of the page."""
    return tuple(
        piece for part in said.splitlines() for piece in (Piece(" "), Piece(part, small=True))
    )


def table(heads: tuple[str, ...], rows: Sequence[tuple[Cell, ...]], right: str = "") -> Table:
    """Give a table; `right` has an `r` for each column of numbers, such as `"lrr"`."""
    sides = right or "l" * len(heads)
    return Table(
        tuple(Column(text(head), side == "r") for head, side in zip(heads, sides, strict=True)),
        tuple(rows),
    )
