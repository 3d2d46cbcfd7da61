"""What charts are drawn of: bars, marks, lines and words, laid out for the narrowest screen.

A page shows them as wide as its column: what is across is a share of the width, what is down is in
heights of letters, and letters stay as large as the text.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from typing import Literal

from builder.pages.pieces import Table
from builder.record import dataclass

# Laid out for the narrowest screen: where words have room on it, they have more on any other.
WIDTH = 296
LONGEST_NAME = 22  # letters that leave room for the numbers beside them
LETTERS = 12  # px high at WIDTH
BAR_WIDTH = 292.0
LEFT = 2.0
WORDS_AT = 12.0
BAR_AT = 17.0
BAR = 13.0
LINE = 15.0  # from one line of words to the next
GAP = 6.0  # between words beside each other
# How wide letters are, in parts of their height. Fonts differ: these are the widths of one of the
# widest that systems bring along, so that words have room in all of them.
_LETTERS_WIDE = {
    letter: wide
    for wide, letters in (
        (0.30, "ijlIJ'"),
        (0.318, ".,· \u00a0\u202f"),
        (0.34, "/:;|\\"),
        (0.42, "frt-()[]!"),
        (0.55, "csz*–°?"),
        (0.60, "FLkvxy"),
        (0.636, "abdeghnopqu0123456789EPSTYßø"),
        (0.79, "ABCDGHKNOQRUVXZ&Ø"),
        (0.975, "mwM%½¼¾"),
        (1.07, "WæÆœŒ@…—"),
    )
    for letter in letters
}
_SIGN_WIDE = 0.84  # + = → − ×, and letters of other scripts
_ROOMY_WIDE = 1.1  # emoji, and scripts whose letters fill a square
Fill = Literal["solid", "lines", "dots", "cross", "open"]


@dataclass(frozen=True, slots=True)
class _Placed:
    """What has a place: by how much it is drawn from the left and from the top."""

    x: str
    y: str

    @property
    def left(self) -> str:
        """Say where it is across."""
        return across(self.x)

    @property
    def top(self) -> str:
        """Say how far down it is."""
        return down(self.y)


@dataclass(frozen=True, slots=True)
class Bar(_Placed):
    """A rectangle of one hatching."""

    width: str
    height: str
    fill: str

    @property
    def wide(self) -> str:
        """Say how far it reaches."""
        return across(self.width)

    @property
    def high(self) -> str:
        """Say how high it is."""
        return down(self.height)


@dataclass(frozen=True, slots=True)
class _Upright:
    """What stands upright: where, and from where to where."""

    x: str
    top: str
    bottom: str

    @property
    def left(self) -> str:
        """Say where it stands."""
        return across(self.x)

    @property
    def begins(self) -> str:
        """Say how far down it begins."""
        return down(self.top)

    @property
    def ends(self) -> str:
        """Say how far down it ends."""
        return down(self.bottom)


@dataclass(frozen=True, slots=True)
class Mark(_Upright):
    """An upright line across a bar."""


@dataclass(frozen=True, slots=True)
class Lead(_Upright):
    """A thin line from what is named to its name."""


@dataclass(frozen=True, slots=True)
class Level:
    """A line straight across."""

    y: str
    dashed: bool

    @property
    def top(self) -> str:
        """Say how far down it lies."""
        return down(self.y)


@dataclass(frozen=True, slots=True)
class Words(_Placed):
    """Words beside or over a bar."""

    anchor: str
    text: str


@dataclass(frozen=True, slots=True)
class Dot(_Placed):
    """A point of a line."""


@dataclass(frozen=True, slots=True)
class Chart:
    """A drawing with its own words; `behind` is its table where the page has no other."""

    id: str
    title: str
    told: str  # what it shows, without the last stop
    tall: float
    bars: tuple[Bar, ...] = ()
    marks: tuple[Mark, ...] = ()
    words: tuple[Words, ...] = ()
    lines: tuple[str, ...] = ()  # the points of each
    dots: tuple[Dot, ...] = ()
    behind: Table | None = None
    levels: tuple[Level, ...] = ()
    leads: tuple[Lead, ...] = ()

    @property
    def text(self) -> str:
        """Say what it shows."""
        return f"{self.told}."

    @property
    def width(self) -> str:
        """Give how wide it is laid out."""
        return str(WIDTH)

    @property
    def height(self) -> str:
        """Give how high it is laid out."""
        return px(self.tall)

    @property
    def hatchings(self) -> tuple[str, ...]:
        """Give the hatchings that its bars have, in the order of their names."""
        return tuple(sorted({bar.fill for bar in self.bars} - {"solid", "open"}))

    @property
    def high(self) -> str:
        """Say how high it is."""
        return down(self.height)


def across(x: str) -> str:
    """Give a coordinate as a share of the width."""
    return f"{float(x) / WIDTH * 100:.2f}".rstrip("0").removesuffix(".") + "%"


def down(y: str) -> str:
    """Give a coordinate in heights of letters."""
    return f"{float(y) / LETTERS:.3f}".rstrip("0").removesuffix(".") + "em"


def words_wide(words: str) -> float:
    """Give how wide words are in a chart, roughly and rather too wide than too narrow."""
    return LETTERS * sum(map(_letter_wide, unicodedata.normalize("NFD", words)))


def _letter_wide(letter: str) -> float:
    if letter in _LETTERS_WIDE:
        return _LETTERS_WIDE[letter]
    if unicodedata.combining(letter):
        return 0.0
    roomy = unicodedata.east_asian_width(letter) in "WF"
    return _ROOMY_WIDE if roomy else _SIGN_WIDE


def short(name: str, longest: int = LONGEST_NAME, room: float = BAR_WIDTH) -> str:
    """Cut a name that is too long, or too wide for the picture."""
    if len(name) <= longest and words_wide(name) <= room:
        return name
    kept = name[: longest - 1]
    while kept and words_wide(f"{kept}…") > room:
        kept = kept[:-1]
    return f"{kept}…"


def in_lines(said: str, room: float) -> list[str]:
    """Break words into lines that have room; a word wider than a whole line is cut."""
    lines: list[str] = []
    for word in said.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and words_wide(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(short(word, len(word), room))
    return lines


def px(value: float) -> str:
    """Give a coordinate, to a tenth."""
    return f"{value:.1f}".removesuffix(".0")


def points(of: Iterable[tuple[float, float]]) -> str:
    """Give the points of a line."""
    return " ".join(f"{px(x)},{px(y)}" for x, y in of)


def mark_at(x: float, bar_top: float) -> Mark:
    """Give a mark across a bar."""
    return Mark(px(x), px(bar_top - 3), px(bar_top + BAR + 3))
