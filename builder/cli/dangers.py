"""What `build` and `check` end with: the dangers of each trip in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

import click

from builder.problems import counted
from builder.record import dataclass

if TYPE_CHECKING:
    from builder.model.kit import Kit, KitCaution


@dataclass(frozen=True, slots=True)
class Dangers:
    """What a build ends with, and whether `--strict` stops at it."""

    lines: list[str]
    of_a_trip: bool

    @classmethod
    def of(cls, kits: Sequence[Kit]) -> Dangers:
        """Give those of some kits."""
        # What is read aloud before any trip is none that a trip brings up itself.
        of_a_trip = any(_of_level(kit, "danger", aloud=False) for kit in kits)
        return cls(list(_lines_of(kits)), of_a_trip)

    @classmethod
    def together(cls, parts: Sequence[Dangers]) -> Dangers:
        """Give those of some kits that were asked one by one."""
        lines = [line for part in parts for line in part.lines]
        return cls(lines, any(part.of_a_trip for part in parts))


def _lines_of(kits: Iterable[Kit]) -> Iterator[str]:
    """Say each trip's own dangers with what brings them up, and how many cares and notes."""
    from builder.pages.trip.placing import REFUSED

    for kit in kits:
        own, aloud = (_of_level(kit, "danger", aloud) for aloud in (False, True))
        told = (
            f"{counted(len(own), 'danger')} of its own",
            counted(len(_of_level(kit, "care", aloud=False)), "care"),
            counted(len(_of_level(kit, "note", aloud=False)), "note"),
        )
        yield f"{kit.title} ({kit.id}): {', '.join(told)}."
        for each in own:
            yield f"  danger: {_in_words(each)}"
        if any(each.id == REFUSED for each in own):
            yield (
                "    to mend that: give the dish `for: [not nuts]`, or the like, and who avoids it "
                "a line of their own, with `swap:` or another dish"
            )
        if aloud:
            titles = dict.fromkeys(each.title for each in aloud)
            more = len({each.id for each in kit.cautions if each.aloud}) - len(titles)
            rest = f", and {more} more" if more else ""
            yield f"  to read aloud before you leave: {'; '.join(titles)}{rest}."


def say_lines(lines: Sequence[str]) -> None:
    """Print them at the end of a command."""
    for line in lines:
        click.echo(line)


def told(kit: Kit) -> dict[str, object]:
    """Give the same for a script."""
    dangers = _of_level(kit, "danger")
    return {
        "trip": kit.id,
        "dangers": [
            {"id": each.id, "text": _in_words(each), "aloud": each.aloud} for each in dangers
        ],
        "cares": len(_of_level(kit, "care")),
        "notes": len(_of_level(kit, "note")),
    }


def _of_level(kit: Kit, level: str, aloud: bool | None = None) -> list[KitCaution]:
    return [
        each
        for each in kit.cautions
        if each.level == level and (aloud is None or each.aloud == aloud)
    ]


def _in_words(caution: KitCaution) -> str:
    return f"{caution.title}. {caution.because}"
