"""Mendable mistakes: where, what is wrong, what was found, and what would do."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from builder.model.place import Place

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
    return tuple(
        sorted(
            set(problems),
            key=lambda p: (p.place, p.severity, p.kind, p.says, p.mend),
        )
    )


def errors(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Give only those problems that stop the work."""
    return tuple(problem for problem in problems if problem.severity == "error")


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Give the known word most like a misspelt one, or None when none is near."""
    found = difflib.get_close_matches(word, sorted(known), n=1, cutoff=0.6)
    return found[0] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Give a hint for an unknown word: the nearest known one, or the whole list when short."""
    names = sorted(known)
    near = nearest(word, names)
    if near:
        return f"did you mean {near}?"
    if not names:
        return "there is none yet"
    if len(names) <= 20:
        return "known are: " + ", ".join(names)
    return "see `tripkit find` for those that exist"


def printable(path: str) -> str:
    """Give a path that can be printed; a name may hold line breaks, or bytes that are no text."""
    return "".join(sign if sign.isprintable() else "\ufffd" for sign in path)
