"""Mendable mistakes: where, what is wrong, what was found, and what would do."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from pathlib import PurePath
from typing import Literal

from builder.called import foods_called
from builder.meant import folded, meant_by
from builder.model.place import Place
from builder.record import dataclass

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake that a person can mend."""

    place: Place
    kind: str  # a stable word for tests and scripts, such as "unit-missing"
    says: str
    mend: str = ""
    severity: Severity = "error"

    def __str__(self) -> str:
        """Give the line that is shown: place, grade, what is wrong, what would do."""
        mend = f" — {self.mend}" if self.mend else ""
        return f"{self.place}: {self.severity}: {self.says}{mend} [{self.kind}]"


class ProblemsFound(Exception):
    """Raised when work cannot go on; carries every problem that was found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        """Keep the problems in their stable order."""
        self.problems = in_order(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Give the problems once each, by file, line and column."""
    return tuple(sorted(set(problems), key=in_order_key))


def in_order_key(problem: Problem) -> tuple[object, ...]:
    """Give what problems are ordered by."""
    return problem.place, problem.severity, problem.kind, problem.says, problem.mend


def errors(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Give only those problems that stop the work."""
    return tuple(problem for problem in problems if problem.severity == "error")


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Give the known word that is meant by one, or most like it, or None when none is near."""
    return next(iter(_near(word, sorted(known))), None)


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Give a hint for an unknown word: what is meant or near, or the whole list when short."""
    names = sorted(known)
    near = _near(word, names)
    if near:
        return f"did you mean {listed(near, 'or')}?"
    if not names:
        return "there is none yet"
    if len(names) <= 24:
        return "known are: " + ", ".join(names)
    return "see `tripkit find` for those that exist"


def as_id(text: str, longest: int) -> str:
    """Give the id that is nearest to a text."""
    return re.sub(r"[^a-z0-9]+", "-", folded(text))[:longest].strip("-") or "some-id"


def record_meant(word: str, names: Mapping[str, str]) -> str:
    """Give a hint for an unknown id, which may be what one of the known is called."""
    called = sorted(each for each, name in names.items() if folded(name) == folded(word))
    return f"write its id, {listed(called, 'or')}" if called else did_you_mean(word, names)


def food_meant(word: str, foods: Iterable[str]) -> str:
    """Give a hint for an unknown food; where none is near, it may be one that nobody wrote yet."""
    names = sorted(foods)
    hint = did_you_mean(word, names)
    if near_words(word, names) or foods_called(word, names):
        return hint
    return or_else(hint, "start one of your own: `tripkit new food`")


def or_else(hint: str, would_do: str) -> str:
    """Add to a hint what else would do."""
    return f"{hint}{'' if hint.endswith('?') else '.'} Or {would_do}"


_RATHER_NEAR, _MUCH_FARTHER = 72.0, 10.0
_MOST_MEANT = 4  # foods that others call by one word: more is for `tripkit find`
_ALMOST, _NEAR = 88.0, 60.0  # of 100: `bean` is almost `beans`; two letters in five may be wrong


def _near(word: str, names: Sequence[str]) -> list[str]:
    """Give the known word that is almost this one, else those that mean the same, else a near one.

    Of two that are as near the last is given, so that the order of the known words does not matter.
    """
    if not names:
        return []
    alike = [each for each in names[::-1] if _may_be_a_slip(word, each)]
    # Needed for mistakes only, and slow to load.
    from rapidfuzz import fuzz, process, utils

    found = process.extractOne(
        word, alike, scorer=fuzz.ratio, processor=utils.default_process, score_cutoff=_NEAR
    )
    if found and found[1] >= _ALMOST:
        return [found[0]]
    meant = [each for each in meant_by(word) if each in names]
    meant += foods_called(word, names)[:_MOST_MEANT]
    return meant or ([found[0]] if found else [])


def _may_be_a_slip(word: str, known: str) -> bool:
    """Tell whether one word may stand for another that it is spelt like.

    One twice as long is no slip, though it holds all letters of the other (`heat`, `at`), but may
    be the whole of what was written in short.
    """
    shorter, longer = sorted((word.lower(), known.lower()), key=len)
    return 2 * len(shorter) > len(longer) or longer.startswith(shorter)


def near_words(word: str, known: Iterable[str], most: int = 4) -> list[str]:
    """Give the known words that are spelt most like one, the nearest first."""
    # Needed for mistakes only, and slow to load.
    from rapidfuzz import fuzz, process

    names = sorted(known)
    found = process.extract(word, names, scorer=fuzz.ratio, score_cutoff=_RATHER_NEAR, limit=most)
    nearest_score = found[0][1] if found else 0.0
    return [name for name, score, _ in found if score >= nearest_score - _MUCH_FARTHER]


def counted(count: int, word: str, many: str = "") -> str:
    """Say how many there are of something."""
    return f"{count} {word}" if count == 1 else f"{count} {many or word + 's'}"


def listed(words: Sequence[str], last: str = "and") -> str:
    """Give words as a sentence has them: `a, b and c`."""
    return f" {last} ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def printable(path: str) -> str:
    """Give a path that can be printed; a name may hold line breaks, or bytes that are no text."""
    return "".join(sign if sign.isprintable() else "\ufffd" for sign in path)


def as_told(path: PurePath) -> str:
    """Give a path as it was told, fit to be printed."""
    return printable(path.as_posix())
