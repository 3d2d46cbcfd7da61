"""What changed since an older kit: menu, amounts, who carries what, fuel, cautions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from builder.model.kit import Kit
from builder.model.since import Change, OldKit

# A tenth of a gram is no change that anybody weighs.
_NOTICED_SHARE = 0.02


def changes_since(old: OldKit, kit: Kit) -> tuple[Change, ...]:
    """Give what the new kit tells otherwise than the old one."""
    return (*_start(old, kit), *_menu(old, kit), *_carried(old, kit), *_cautions(old, kit))


def _start(old: OldKit, kit: Kit) -> Iterator[Change]:
    start = kit.start.isoformat() if kit.start else ""
    if start and start != old.start:
        yield Change("start", start)


def _menu(old: OldKit, kit: Kit) -> Iterator[Change]:
    """Tell dishes that are new or gone, day by day, and what of a dish weighs otherwise."""
    before: dict[tuple[int, str], float] = {}
    for each in old.meals:
        key = (each.day, each.title)
        before[key] = before.get(key, 0.0) + each.mass_g
    now: dict[tuple[int, str], float] = {}
    for day in kit.days:
        for meal in day.meals:
            key = (day.day, meal.title)
            now[key] = now.get(key, 0.0) + float(meal.mass_g)
    for (number, title), mass_g in sorted(now.items()):
        if (number, title) not in before:
            yield Change("dish-new", title, number, now=mass_g)
        elif _differ(before[number, title], mass_g):
            yield Change("amount", title, number, before=before[number, title], now=mass_g)
    for (number, title), mass_g in sorted(before.items()):
        if (number, title) not in now:
            yield Change("dish-gone", title, number, before=mass_g)
    taken = dict(old.fuels)
    for fuel in kit.fuels:
        before_g, now_g = taken.pop(fuel.name, 0.0), float(fuel.carry_g)
        if _differ(before_g, now_g):
            yield Change("fuel", fuel.name, before=before_g, now=now_g)
    for name, before_g in taken.items():
        if _differ(before_g, 0.0):
            yield Change("fuel", name, before=before_g, now=0.0)


def _differ(before: float, now: float) -> bool:
    return abs(now - before) > _NOTICED_SHARE * max(abs(before), abs(now))


def _carried(old: OldKit, kit: Kit) -> Iterator[Change]:
    """Tell what somebody carries now and did not, and the other way round."""
    before = Counter(old.carried)
    now = Counter(
        (load.name, thing.what)
        for load in kit.weights.people
        for thing in load.carries
        if thing.kind not in ("water", "own")
    )
    for who, what in sorted((now - before).keys()):
        yield Change("carries", what, who=who)
    for who, what in sorted((before - now).keys()):
        yield Change("carries-no-more", what, who=who)


def _cautions(old: OldKit, kit: Kit) -> Iterator[Change]:
    before = dict(old.cautions)
    now = {each.id: each.title for each in kit.cautions}
    for name, title in now.items():
        if name not in before:
            yield Change("caution-new", title)
    for name, title in before.items():
        if name not in now:
            yield Change("caution-gone", title)
