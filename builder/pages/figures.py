"""Numbers as a page shows them: the trip's units first, the other ones in small."""

from __future__ import annotations

import math
import re
from functools import lru_cache

from builder.model.batch import UNTOLD_KEPT_AT_C
from builder.model.kit import Kit
from builder.pages.pieces import Cell, Piece, Scale
from builder.record import dataclass
from builder.speech import Speech, speech_of
from builder.units import System, other_system, parted, rounded

_KINDS = {"mass_g": "g", "volume_ml": "ml"}
_SPOONS_BELOW_ML = 14.7  # below this the other units are teaspoons
_DAY = re.compile(
    r"days\.(\d+)\.|weights\.(?:people\.\d+\.)?(?:by_day|food_left|fuel_left)_g\.(\d+)$"
)
# The address of a figure of one person, counted from 0.
PERSON = re.compile(r"(?:days\.\d+|weights|trip)\.(?:people|party)\.(\d+)\.")
PEOPLE_A_PAGE = 10  # how each one's numbers came about: more would be long to load
_NOT_FOR_AN_ADDRESS = re.compile(r"[^A-Za-z0-9_.]")


@lru_cache(maxsize=65_536)  # asked for at each place that tells a figure or leads to it
def anchor(figure: str) -> str:
    """Give the address, on the page of numbers, of how a figure came about.

    A figure may hold a person's name: signs that no address takes are written by their number.
    """
    if figure.startswith("#"):
        return f"n{figure[1:]}"
    plain = _NOT_FOR_AN_ADDRESS.sub(lambda sign: f"_{ord(sign[0]):x}_", figure)
    return f"how-{plain.replace('.', '-')}"


@lru_cache(maxsize=65_536)
def numbers_of(figure: str) -> str:
    """Give the page of numbers that tells how a figure came about: its day's, or the trip's.

    In a large party those who come after the first ten are told on further pages.
    """
    day, person = _DAY.match(figure), PERSON.match(figure)
    further = int(person[1]) // PEOPLE_A_PAGE if person else 0
    parts = [f"day-{int(day[1] or day[2]) + 1}"] if day else []
    parts += [f"people-{further + 1}"] if further else []
    return f"numbers/{'-'.join(parts)}.md" if parts else "numbers.md"


@dataclass(frozen=True, slots=True)
class Figures:
    """Shows numbers for one kit."""

    units: System
    mug_ml: float
    derived: frozenset[str]  # figures that a page of numbers tells the way of
    say: Speech

    def plain(self, value: float, quantity: str) -> str:
        """Give a number in the trip's units alone; a pinch that rounds to 0 in the other ones."""
        return self._shown(value, quantity)[0][0]

    def between(self, low: float, high: float, quantity: str) -> str:
        """Give a range behind its likely value: `, between 10 h and 12 h`; "" for no range."""
        first, last = self.plain(low, quantity), self.plain(high, quantity)
        return self.say(", between {low} and {high}", low=first, high=last) if first != last else ""

    def span(self, low: float, high: float, quantity: str) -> str:
        """Give a range, its unit once where both ends share it: `288 to 346 g`."""
        first, last = self.plain(low, quantity), self.plain(high, quantity)
        if first == last:
            return first
        number, _, unit = first.rpartition("\u00a0")
        # 1 h 30 min is not one number.
        shared = unit == last.rpartition("\u00a0")[2] and " " not in first + last
        return self.say("{low} to {high}", low=number if shared else first, high=last)

    def until(self, date: str, kept_at_told: bool) -> str:
        """Give a best-before date; where nobody told how warm it is kept, with what is counted."""
        if kept_at_told:
            return date
        warmth = self.plain(UNTOLD_KEPT_AT_C, "temperature_c")
        return self.say("{date} if kept at {warmth} (not given)", date=date, warmth=warmth)

    def alone(self, value: float, quantity: str, figure: str) -> Cell:
        """Give a number in the trip's units alone, leading to its derivation."""
        return (Piece(self.plain(value, quantity), href=self.how(figure)),)

    def both(self, value: float, quantity: str, figure: str = "") -> Cell:
        """Give a number in both units; where its derivation is known, it leads there."""
        first, *others = self._shown(value, quantity)
        pieces = [Piece(first[0], href=self.how(figure))]
        for other, _ in others:
            pieces += [Piece(" "), Piece(other, small=True)]
        return tuple(pieces)

    def _shown(self, value: float, quantity: str) -> list[tuple[str, System]]:
        """Give a number with its system, the trip's first; a pinch that rounds to 0 is left out.

        No mass and no water at all are said in a word, the same in all units.
        """
        if value == 0 and quantity in _KINDS:
            return [(self.say("none"), self.units)]
        systems = (self.units, other_system(self.units))
        texts = self.say.shown_both(value, quantity, self.units)
        shown = [pair for pair in zip(texts, systems, strict=True) if pair[0]]
        tells = [pair for pair in shown if not (value > 0 and _is_naught(pair[0]))]
        return tells or shown

    def how(self, figure: str) -> str:
        """Give where a figure's derivation stands; "" where the kit holds none."""
        return f"{numbers_of(figure)}#{anchor(figure)}" if figure in self.derived else ""

    def least(self, temperature_c: float) -> Cell:
        """Give a temperature to reach, rounded up in both units."""
        metric = self.say.show_at_least(temperature_c, "metric")
        us = self.say.show_at_least(temperature_c, "us")
        return _beside(us, metric) if self.units == "us" else _beside(metric, us)

    def told(self, words: str) -> Cell:
        """Give words with the quantities that they tell twice, in both units as all others."""
        pieces: list[Piece] = []
        for number, each in enumerate(parted(words)):
            if number % 2:
                systems = (self.units, other_system(self.units))
                pieces += _beside(*(self.say.in_units(each, units) for units in systems))
            else:
                pieces.append(Piece(each))
        return tuple(pieces)

    def packets(self, packets: int, packet_g: float) -> str:
        """Give how many packets of a size: `2 × 500 g`."""
        size = self.plain(packet_g, "mass_g")
        return self.say("{n} × {mass}", n=self.say.number(packets), mass=size)

    def percent(self, share: float) -> str:
        """Give a share in percent."""
        return self.say.show(share, "share")

    def mugs(self, volume_ml: float) -> str:
        """Give a volume in the trip's own mugs; "" where no quarter comes near enough."""
        return self.say.mugs(volume_ml, self.mug_ml)

    def scaled(self, value: float, quantity: str, figure: str, strong: bool = False) -> Cell:
        """Give an amount in both units that follows who eats; one that is no figure stays."""
        pieces: list[Piece] = []
        for shown, system in self._shown(value, quantity):
            scale = Scale(_KINDS[quantity], value, figure, system) if figure else None
            if pieces:
                pieces += [Piece(" "), Piece(shown, small=True, scale=scale)]
            else:
                pieces.append(Piece(shown, strong=strong, scale=scale))
        return tuple(pieces)

    def spooned(self, volume_ml: float, figure: str, before: str = "", after: str = "") -> Cell:
        """Give a volume in mugs or, where that is too little, in teaspoons; () for neither.

        What stands `before` and `after` it goes where other eaters leave nothing to show.
        """
        if volume_ml < _SPOONS_BELOW_ML:
            spoons = self.say.show(volume_ml, "volume_ml", "us")
            shown = "" if _is_naught(spoons) else spoons
            scale = Scale("ml", volume_ml, figure, "us", before=before, after=after)
        else:
            shown = self.mugs(volume_ml)
            mug = number(self.mug_ml)
            scale = Scale("mugs", volume_ml, figure, self.units, mug, before=before, after=after)
        if not shown:
            return ()
        return (Piece(f"{before}{shown}{after}", scale=scale if figure else None),)

    def water(self, volume_ml: float, figure: str, what: str = "") -> Cell:
        """Give water to measure: millilitres and mugs, following who eats."""
        first, *rest = self.scaled(volume_ml, "volume_ml", figure, strong=True)
        spooned = self.spooned(volume_ml, figure, ", ")
        return (first, Piece(f" {what or self.say('water')}"), *spooned, *rest)


def figures_of(kit: Kit) -> Figures:
    """Give what shows the numbers of a kit."""
    return Figures(kit.units, kit.mug_ml, kit.figures, speech_of(kit.language))


def _is_naught(shown: str) -> bool:
    return shown.startswith("0\u00a0")


def number(value: float) -> str:
    """Give a number for the script in the page, unrounded."""
    return str(int(value)) if value == int(value) else repr(float(value))


def worked(say: Speech, value: float, unit: str = "") -> str:
    """Give a number with enough digits to work on with by hand, in the unit it is computed in."""
    # The bare number: a figure that was remembered would keep all that it was worked out of.
    return _worked(say, float(value), unit)


@lru_cache(maxsize=16_384)  # a figure is told where it comes about and wherever it goes in
def _worked(say: Speech, value: float, unit: str) -> str:
    if not math.isfinite(value):
        return say("without limit")
    shown = say.signs(_digits(value))
    return f"{shown}\u00a0{say.unit(unit)}" if unit else shown


def _beside(first: str, other: str) -> Cell:
    """Put a quantity in other units, smaller, beside the first."""
    return (Piece(first), Piece(" "), Piece(other, small=True))


def _digits(value: float) -> str:
    whole = math.floor(math.log10(abs(value))) + 1 if value else 1
    decimals = max(0, 5 - whole)
    number = f"{rounded(value, min(decimals, 8)):,.{min(decimals, 8)}f}"
    if "." in number:
        number = number.rstrip("0").rstrip(".")
    return number.replace("-", "−")
