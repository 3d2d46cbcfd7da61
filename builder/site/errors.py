"""What stops a kit from being built, said so that a person can mend it."""

from __future__ import annotations

from collections.abc import Sequence

from builder.problems import Problem


class SiteError(Exception):
    """A kit that could not be built; the kit that was there before is untouched."""

    def __init__(
        self, message: str, hints: Sequence[str] = (), problems: Sequence[Problem] = ()
    ) -> None:
        """Keep what is wrong, what would help, and the single problems behind it."""
        super().__init__(message)
        self.message = message
        self.hints = tuple(hints)
        self.problems = tuple(problems)
