"""What to do when it goes wrong, in the pocket: the few lines that one wants without the site."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.model.kit import Kit
from builder.model.mishaps import Mishap
from builder.pages.figures import figures_of
from builder.pages.pieces import Cell, text
from builder.pages.trip.afterwards.wrong import wrong_says, wrong_title
from builder.record import dataclass, replace


@dataclass(frozen=True, slots=True)
class WrongInShort:
    """One thing that goes wrong, and what to do."""

    title: str
    says: tuple[Cell, ...]


def wrong_in_short(kit: Kit) -> tuple[WrongInShort, ...]:
    """Give what to do without heat, at the driest camp, and without the bag one cooks out of."""
    return tuple(_in_short(kit))


def _in_short(kit: Kit) -> Iterator[WrongInShort]:
    figures = figures_of(kit)
    driest = _driest(kit.mishaps)
    for number, each in enumerate(kit.mishaps):
        if each.kind in ("no-fuel", "no-fire") or each is driest:
            # What is not to be eaten on one day is not told as fit on another.
            never = {_title(kit, at) for at in each.uneaten}
            cold = tuple(at for at in each.cold if _title(kit, at) not in never)
            only = replace(each, cold=cold)
            says = tuple(wrong_says(kit, only, number, figures, with_days=False))
            yield WrongInShort(wrong_title(figures.say, each), says)
        elif each.kind == "bag" and (each.cold or each.uneaten):
            # What is lost with it is told; what to eat then is what there is without fuel.
            lost = figures.say("With it go: {things}.", things=figures.say.listed(each.lost))
            yield WrongInShort(wrong_title(figures.say, each), (text(lost),))


def _title(kit: Kit, at: tuple[int, int]) -> str:
    day, place = at
    return kit.days[day - 1].meals[place].title


def _driest(mishaps: Iterable[Mishap]) -> Mishap | None:
    dry = [each for each in mishaps if each.drink_ml is not None]
    return min(dry, key=lambda each: each.drink_ml or 0.0, default=None)
