"""How large the words of a label may be, so that none is cut: measured on the safe side.

Nobody knows which font a reader's machine has. So every letter is taken to be as wide as in the
widest of the common ones, and a browser's own measure, in the tests, must never come out larger.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.pages.home.label_words import GIVEN_UP, LabelWords, Part
from builder.record import dataclass
from builder.units import rounded

MM_PER_PT = 25.4 / 72
# An x-height of 1.2 mm, as labels on food must have (Regulation (EU) No 1169/2011, Article 13,
# from memory), takes 6.6 pt in the usual fonts, whose small letters are 0.52 as high as the type.
LEAST_PT = 6.6
SIZES_PT = (11.0, 10.0, 9.0, 8.5, 8.0, 7.5, 7.0, LEAST_PT)
LINE_HEIGHT = 1.2
NAME_FACTOR = 1.15  # the name is set larger
RAW_FACTOR = 1.3
PAD_MM = 2.0  # printers and knives miss by as much
OUT_OF_REACH_MM = 5.0  # of the paper's edge, for most printers (common practice, no source)
GAP_MM = 1.0  # between the words and the code
ABOVE_CODE_MM = 0.5
# Five, six and seven dots of a printer of 300 dpi: a phone's camera wants 0.4 mm and more.
MODULES_MM = (0.593, 0.508, 0.423)
QUIET_MODULES = 4
BOLD_FACTOR = 1.13
_WIDE, _USUAL = 1.0, 0.65
_WIDTHS: Mapping[str, float] = {  # in ems
    **dict.fromkeys("ijl'|", 0.29),
    **dict.fromkeys(" .,:;!/I\u00a0", 0.34),
    **dict.fromkeys("ft()-r", 0.42),
    **dict.fromkeys("scvxyzkJ", 0.6),
    **dict.fromkeys("wCDGNOQRHUBAKXVYZ&", 0.83),
    **dict.fromkeys("mMW%@=+×–—", _WIDE),
}
_BOLD: frozenset[Part] = frozenset({"raw", "name", "allergens", "best"})


@dataclass(frozen=True, slots=True)
class Room:
    """What the narrowest label of a sheet leaves to words alone, and to words beside a code."""

    wide_mm: float
    wide_with_code_mm: float  # for both
    high_mm: float  # for words, and for the dark dots of a code
    code_high_mm: float


def plain_room(width_mm: float, height_mm: float) -> Room:
    """Give the room on a label that lies far enough from the paper's edge."""
    return Room(
        width_mm - 2 * PAD_MM,
        width_mm - PAD_MM - beside_code_mm(PAD_MM),
        height_mm - 2 * PAD_MM,
        height_mm - 2 * ABOVE_CODE_MM,
    )


def beside_code_mm(beside_mm: float) -> float:
    """Give what is left blank beside a code, whose own quiet modules are blank as well."""
    return max(PAD_MM / 2, rounded(beside_mm - QUIET_MODULES * MODULES_MM[-1], 2))


def above_code_mm(above_mm: float) -> float:
    """Give what is left blank above or below a label's code; its words stand in the middle."""
    return max(ABOVE_CODE_MM, above_mm - (PAD_MM - ABOVE_CODE_MM))


@dataclass(frozen=True, slots=True)
class Fit:
    """How a label is set: its type, its code, and what had to go."""

    size_pt: float
    module_mm: float  # 0: no room for the code
    parts: tuple[tuple[Part, str], ...]
    gone: frozenset[Part]


def fit_of(words: LabelWords, modules: int, room: Room) -> Fit | None:
    """Give the best way to set a label of a size; None where it has no room for what matters.

    The code goes before any word does, and small type comes before both.
    """
    sides = [
        module
        for module in MODULES_MM
        if code_side_mm(modules, module) <= room.code_high_mm and modules * module <= room.high_mm
    ]
    for gone in _given_up():
        parts = words.without(gone)
        for module_mm in (*sides, 0.0) if not gone else (0.0,):
            wide_mm = room.wide_mm
            if module_mm:
                wide_mm = room.wide_with_code_mm - code_side_mm(modules, module_mm) - GAP_MM
            for size_pt in SIZES_PT:
                # A larger code is worth a little of the type, not all of it.
                if module_mm > MODULES_MM[-1] and size_pt < SIZES_PT[2]:
                    break
                if _height_mm(parts, wide_mm, size_pt) <= room.high_mm:
                    return Fit(size_pt, module_mm, parts, gone)
    return None


def _given_up() -> Iterator[frozenset[Part]]:
    """Give what may be left out: nothing first, then one thing more each time."""
    for count in range(len(GIVEN_UP) + 1):
        yield frozenset(GIVEN_UP[:count])


def with_quiet(modules: int) -> int:
    """Give the modules along a side of a code with the quiet ones around it."""
    return modules + 2 * QUIET_MODULES


def code_side_mm(modules: int, module_mm: float) -> float:
    """Give how long a side of a code is with its quiet modules."""
    return with_quiet(modules) * module_mm


def _height_mm(parts: tuple[tuple[Part, str], ...], room_mm: float, size_pt: float) -> float:
    """Give how high all lines stand; without end where a word is wider than the room."""
    height_mm = 0.0
    for part, words in parts:
        type_mm = size_pt * factor_of(part) * MM_PER_PT
        lines = _lines(words, room_mm / type_mm, part in _BOLD)
        height_mm += lines * type_mm * LINE_HEIGHT
    return height_mm


def factor_of(part: Part) -> float:
    """Give how much larger than the rest a part is set."""
    return {"raw": RAW_FACTOR, "name": NAME_FACTOR}.get(part, 1.0)


def _lines(words: str, room_em: float, bold: bool) -> float:
    """Count the lines that words take in a room; without end where one word is too wide."""
    lines, used = 1, 0.0
    for word in words.split(" "):
        wide = width_em(word, bold)
        if wide > room_em:
            return float("inf")
        with_space = used + width_em(" ", bold) + wide if used else wide
        if with_space > room_em:
            lines, used = lines + 1, wide
        else:
            used = with_space
    return lines


def width_em(words: str, bold: bool) -> float:
    """Give how wide words may be in ems, in any common font."""
    wide = sum(_WIDTHS.get(sign, _USUAL if sign.isascii() else _non_ascii(sign)) for sign in words)
    return wide * BOLD_FACTOR if bold else wide


def _non_ascii(sign: str) -> float:
    """Give a letter with an accent the room of a wide one, and signs of other scripts more."""
    return 0.85 if ord(sign) < 0x250 else 1.1
