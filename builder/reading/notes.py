"""What is noted while a folder is read: problems, and which numbers were told to be odd."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NoReturn, Protocol

from builder.model.food import Food
from builder.model.gear import Dryer
from builder.model.place import Place
from builder.problems import Problem, Severity
from builder.reading.beside import Beside
from builder.reading.checks.usual import Range
from builder.reading.text.yaml_door import quoted
from builder.reading.trips.at_hand import AtHand

UNUSUAL, IMPOSSIBLE = "unusual", "out-of-range"  # kinds of problem: the warning and the error
_ODD = (UNUSUAL, IMPOSSIBLE)

# Words for a part of a record that read better without "a".
NO_ARTICLE = frozenset(
    {"air", "water", "travel", "meals", "packs", "without", "every_day", "review"}
)


class Amiss(ValueError):
    """What is wrong with one value; who holds the value knows its place."""

    def __init__(self, kind: str, says: str, mend: str) -> None:
        """Keep the stable kind, what is wrong, and what would do."""
        super().__init__(f"{says} — {mend}")
        self.kind, self.says, self.mend = kind, says, mend

    def at(self, place: Place, severity: Severity = "error") -> Problem:
        """Give the problem that it is at a place."""
        return Problem(place, self.kind, self.says, self.mend, severity)


class Notes(list[Problem]):
    """The problems of a folder in the order they were found; each odd number is told once."""

    def __init__(self) -> None:
        """Begin with none."""
        super().__init__()
        # Read before what names them.
        self.foods: Mapping[str, Food] = {}
        self.dryers: Mapping[str, Dryer] = {}
        # Of the recipe that is read, each with whether it is dried; None where a line is wrong.
        self.ingredients: Mapping[str, bool] | None = None
        self.at_hand = AtHand()  # what the trip that is read is held against
        self.beside: Beside | None = None  # what lies beside the file that is read
        self.helpings_g: dict[tuple[Place, str, bool], float] = {}  # amounts that were read
        self._odd: dict[Place, int] = {}
        self._unused: dict[tuple[str, str], list[Place]] = {}

    def append(self, problem: Problem) -> None:
        """Note a problem."""
        if problem.kind in _ODD:
            self._odd.setdefault(problem.place, len(self))
        super().append(problem)

    def odd_at(self, place: Place) -> int | None:
        """Give where the note stands that a number at a place is odd."""
        return self._odd.get(place)

    def not_used_yet(self, what: str, key: str, place: Place) -> None:
        """Note a key that is read and kept, and that nothing is made of yet."""
        self._unused.setdefault((what, key), []).append(place)

    def unused(self, folder: str) -> list[Problem]:
        """Give a warning for each key that nothing is made of yet, with its places in a folder."""
        found = []
        for (what, key), places in self._unused.items():
            own = sorted(place for place in set(places) if place.file.startswith(folder))
            if own:
                found.append(_unused(what, key, own))
        return found


class Judge(Protocol):
    """Holds the value at one place against a range."""

    def __call__(self, among: Range, value: float, found: str, usual: str) -> bool:
        """Warn of what is unusual, refuse what cannot be; tell whether it was either."""


def judge(
    problems: list[Problem], among: Range, value: float, place: Place, said: tuple[str, str]
) -> bool:
    """Warn of an unusual value, refuse one that cannot be; tell whether it was either.

    `said` are what was found and what is usual, in words.
    """
    judged = among.judge(value)
    if not judged:
        return False
    told = _odd_at(problems, place)
    if told is None:
        if judged == UNUSUAL:
            problems.append(unusual(*said).at(place, "warning"))
        else:
            problems.append(impossible(*said).at(place))
    elif judged != UNUSUAL and problems[told].kind == UNUSUAL:
        problems[told] = impossible(*said).at(place)  # told once, by what is graver
    return True


def _odd_at(problems: list[Problem], place: Place) -> int | None:
    if isinstance(problems, Notes):
        return problems.odd_at(place)
    among = (n for n, each in enumerate(problems) if each.place == place and each.kind in _ODD)
    return next(among, None)


def with_article(what: str) -> str:
    """Put the article before a word."""
    if what in NO_ARTICLE:
        return what
    return f"{'an' if what[0] in 'aeiou' else 'a'} {what}"


_PLACES_TOLD = 4


def _unused(what: str, key: str, places: list[Place]) -> Problem:
    says = f"`{key}` of {with_article(what)} is read and kept, but this version does not use it yet"
    if len(places) > 1:
        told = ", ".join(map(str, places[1 : _PLACES_TOLD + 1]))
        more = ", …" if len(places) > _PLACES_TOLD + 1 else ""
        says += f"; it stands {len(places)} times, also at {told}{more}"
    return Problem(places[0], "not-used-yet", says, "it may stay", "warning")


def unusual(found: str, usual: str) -> Amiss:
    """Say that a value is outside the usual."""
    mend = "check the number and its unit; if it is meant, leave it"
    return Amiss(UNUSUAL, f"{found} is unusual: usual is {usual}", mend)


def impossible(found: str, usual: str) -> Amiss:
    """Say that a value is outside what can be."""
    return Amiss(
        IMPOSSIBLE, f"{found} cannot be", f"check the number and its unit: usual is {usual}"
    )


def refuse(kind: str, says: str, mend: str) -> NoReturn:
    """Raise what is wrong with the value that is being read."""
    raise Amiss(kind, says, mend)


def refuse_quantities(odd: Iterable[str], more: str = "") -> None:
    """Refuse the first of what stands for a quantity in a text and is not told in both systems."""
    for each in odd:
        refuse(
            "quantity",
            f"{quoted(each)} is no quantity told in metric and in US units",
            f"write one as {{74 degC|165 degF}}, the same in both{more}",
        )
