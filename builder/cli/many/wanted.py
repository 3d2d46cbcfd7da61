"""What is asked of one build."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from builder.clock import today
from builder.problems import as_told
from builder.record import dataclass
from builder.site.rendering.generators import USUAL_GENERATOR

_MOST_DIGITS = 6  # more parts than anybody has trips


@dataclass(frozen=True, slots=True)
class Part:
    """One of several parts that together build all trips."""

    number: int
    count: int

    def __str__(self) -> str:
        """Give it as one writes it."""
        return f"{self.number}/{self.count}"

    def of(self, names: Sequence[str]) -> list[str]:
        """Give the names of this part: each belongs to one part, whatever machine asks."""
        return list(names[self.number - 1 :: self.count])


def part_told(ctx: click.Context, param: click.Parameter, told: str | None) -> Part | None:
    """Read I/N as an option tells it, before anything else is read."""
    if told is None:
        return None
    words = told.split("/")
    digits = [word for word in words if word.isascii() and word.isdecimal()]
    if len(words) != 2 or len(digits) != 2 or max(map(len, digits)) > _MOST_DIGITS:
        raise click.BadParameter("write it like 1/4", ctx, param)
    part = Part(int(words[0]), int(words[1]))
    if not 1 <= part.number <= part.count:
        raise click.BadParameter("the first number runs from 1 to the second", ctx, param)
    return part


class FolderOrUrl(click.Path):
    """A folder, or a URL as it was typed."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """Leave a URL alone: a path would lose one of its slashes."""
        if isinstance(value, str) and "://" in value:
            return value
        return super().convert(value, param, ctx)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked of one build."""

    out: Path
    trips: Sequence[str] = ()  # none named: all
    public: bool = False
    part: Part | None = None
    address: str = ""
    jobs: int | None = None
    strict: bool = False
    force: bool = False
    since: Path | None = None  # the kit that the companions have
    large_pictures: bool = False  # however much they weigh together
    generator: str = USUAL_GENERATOR
    shown: str = ""  # what people know `out` by, where that is not its path

    @property
    def told_out(self) -> str:
        """Give where the kits go, fit to be printed."""
        return self.shown or as_told(self.out)

    @property
    def with_home(self) -> bool:
        """Whether the site of the home is wanted too: it tells of all trips, and is private."""
        return not self.trips and not self.public and self.part is None

    @property
    def keeps_plans(self) -> bool:
        """Whether plans of this build may be kept for the next, and those of the last one hold."""
        return not self.public and self.since is None

    @property
    def makes(self) -> object:
        """Give what of it the kits depend on; the home is told of as of its day."""
        day = today().isoformat() if self.with_home else ""
        since = None
        if self.since is not None and self.since.is_file():
            since = (str(self.since), self.since.stat().st_mtime_ns)
        how = (self.public, str(self.part), self.address, self.large_pictures, self.generator)
        return sorted(self.trips), *how, day, since
