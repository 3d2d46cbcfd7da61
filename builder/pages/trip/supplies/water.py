"""The page of water: by day, what it is for, and for each person."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.sweat import CAUTIOUS_ML_H
from builder.formulas.treatment import EPA_HIGH_ABOVE_M, SLOW_CONTACT_MIN, bleach_drops
from builder.formulas.water import MOST_ML_DAY, MOST_ML_H
from builder.model.kit import Kit, KitDay, PersonDay
from builder.model.looks import Sweating, Treating
from builder.pages import words
from builder.pages.charts import Chart, water_chart
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Piece, Table, filled, link, stacked, table, text
from builder.pages.trip.addresses import at_day, day_path
from builder.pages.trip.afterwards.learned import learned_cells
from builder.pages.trip.cautions import Box
from builder.pages.trip.placing import boxes_at
from builder.planning.looks import BLEACH_SHARE
from builder.record import dataclass, replace
from builder.speech import Speech, later
from builder.units import rounded

_NOTICED_ML = 50.0  # less of it nobody tells apart


@dataclass(frozen=True, slots=True)
class WaterPage:
    """All the water of the trip."""

    by_day: Table
    carry: Table
    dry: tuple[Cell, ...]  # what is carried to camps without water, and what for
    people: Table | None  # None in a public kit
    chart: Chart
    boxes: tuple[Box, ...]
    melts: bool
    treat: tuple[Cell, ...]
    cloudy: str  # drops for a litre that is not clear
    sweat: Table | None
    most: str  # to drink in an hour
    most_easy: str  # at an easy pace
    most_day: str
    slow_wait: str  # for chlorine dioxide against what chlorine does not kill
    learned: tuple[Cell, ...]  # of earlier trips


def water_page(kit: Kit) -> WaterPage:
    """Give the water of the trip."""
    figures = figures_of(kit)
    places = [day.conditions for day in kit.days if not day.ends_home]
    return WaterPage(
        _by_day(kit, figures),
        _carry(kit, figures),
        tuple(_dry(kit, figures)),
        _people(kit, figures) if any(day.people for day in kit.days) else None,
        water_chart(kit),
        boxes_at(kit, "water.md"),
        any(here.water_source == "snow" for here in places),
        tuple(_treat(kit, figures)),
        _cloudy(figures.say) if any(_is_chemical(day) for day in kit.days) else "",
        _sweat(kit, figures),
        figures.plain(MOST_ML_H, "volume_ml"),
        figures.plain(CAUTIOUS_ML_H, "volume_ml"),
        figures.plain(MOST_ML_DAY, "volume_ml"),
        figures.plain(SLOW_CONTACT_MIN, "duration_min"),
        learned_cells(kit, figures, "water"),
    )


def _dry(kit: Kit, figures: Figures) -> Iterator[Cell]:
    """Say what for so much is carried to a camp without water."""
    say = figures.say
    for day in kit.days:
        if day.conditions.water_source != "none" or day.ends_home:
            continue
        told = later(": a dry camp. Carry {water}: for the way there, the evening and the night.")
        if day is not kit.days[-1]:
            told = later(
                ": a dry camp. Carry {water}: for the way there, the evening, the night, "
                "breakfast and the way on to the next water."
            )
        water = figures.alone(day.water.carry_ml, "volume_ml", f"{at_day(day)}.water.carry_ml")
        when = Piece(words.day_name(say, day), strong=True)
        yield (when, *filled(say(told), water=water))


def _is_chemical(day: KitDay) -> bool:
    return day.treating is not None and day.conditions.treat == "chemical"


def _cloudy(say: Speech) -> str:
    return _drops(say, bleach_drops(1000.0, BLEACH_SHARE, cloudy_or_cold=True))


def _drops(say: Speech, drops: int) -> str:
    return say.count("{n} drop", "{n} drops", drops)


def _treat(kit: Kit, figures: Figures) -> Iterator[Cell]:
    """Say how the water is made safe; days with the same rule are told together."""
    say = figures.say
    alike: dict[str, list[int]] = {}
    stricter: dict[str, str] = {}
    for day in kit.days:
        if (each := day.treating) is None:
            continue
        if day.conditions.treat == "boil":
            says = _boil(figures, each)
            if each.strict_boil_min > each.boil_min:
                stricter[says] = _boil_longer(figures, each)
        else:
            says = _bleach(figures, each)
        alike.setdefault(says, []).append(day.day)
    for says, days in alike.items():
        when = say.listed(words.numbered_day(say, day) for day in days)
        strict = stricter.get(says, "")
        yield (Piece(when, strong=True), Piece(f": {says} {strict}".rstrip()))
    for day in kit.days:
        onward_ml = day.water.boil_ml - day.water.treat_ml
        if day.water.boil_ml and onward_ml > _NOTICED_ML:
            when = words.day_name(say, day)
            water = figures.alone(day.water.boil_ml, "volume_ml", f"{at_day(day)}.water.boil_ml")
            told = say(": boil {water} there. What you carry on the next day is in it.")
            yield (Piece(when, strong=True), *filled(told, water=water))


def _boil(figures: Figures, treating: Treating) -> str:
    held = figures.plain(treating.boil_min, "duration_min")
    return figures.say("bring the water to a rolling boil and hold it for {time}.", time=held)


def _boil_longer(figures: Figures, treating: Treating) -> str:
    return figures.say(
        "{time} by the stricter rule, which begins at {height}.",
        time=figures.plain(treating.strict_boil_min, "duration_min"),
        height=figures.plain(EPA_HIGH_ABOVE_M, "altitude_m"),
    )


def _bleach(figures: Figures, treating: Treating) -> str:
    say = figures.say
    wait = figures.plain(treating.contact_min, "duration_min")
    drops = _drops(say, treating.drops_per_litre)
    if treating.cold:
        return say(
            "{drops} of bleach for each litre (the dose for cold water). Stir, then wait {time}.",
            drops=drops,
            time=wait,
        )
    return say("{drops} of bleach for each litre. Stir, then wait {time}.", drops=drops, time=wait)


def _sweat(kit: Kit, figures: Figures) -> Table | None:
    """Set an hour's planned drinking beside the sweat of a published equation, on hot days.

    Of each person only the day with the most sweat is told.
    """
    say = figures.say
    most: dict[str, tuple[int, PersonDay, Sweating]] = {}
    for day in kit.days:
        for own in day.people:
            known = most.get(own.name)
            if own.sweat and (not known or own.sweat.damp_ml_h > known[2].damp_ml_h):
                most[own.name] = (day.day, own, own.sweat)
    if not most:
        return None
    rows = [
        (
            (Piece(own.name), Piece(" "), Piece(say("day {n}", n=on_day), small=True)),
            text(figures.plain(own.rate_ml_h, "volume_ml")),
            text(_sweat_span(figures, sweat)),
        )
        for on_day, own, sweat in most.values()
    ]
    heads = (say("Each hour"), say("Plan to drink"), say("Sweat, estimate"))
    return _in_room(kit, table(heads, rows, "lrr"))


def _sweat_span(figures: Figures, each: Sweating) -> str:
    """Give an hour's sweat, rounded as far as anyone can rely on it."""
    low, high = sorted(rounded(end, -1) for end in (each.dry_ml_h, each.damp_ml_h))
    return figures.span(low, high, "volume_ml")


def _by_day(kit: Kit, figures: Figures) -> Table:
    say = figures.say
    rows = []
    for day in kit.days:
        water = day.water
        rows.append(
            (
                link(words.day_name(figures.say, day), day_path(day)),
                _drink(figures, day),
                _alone(figures, day, "cooking_ml", water.cooking_ml),
                _alone(figures, day, "washing_ml", water.washing_ml),
                _of(figures, day, "total_ml", water.total_ml),
            )
        )
    heads = (say("Day"), say("Drink"), say("Cook"), say("Wash"), say("All"))
    return _in_room(kit, table(heads, rows, "lrrrr"))


def _drink(figures: Figures, day: KitDay) -> Cell:
    """Give what is drunk cold, and under it the hot drinks."""
    cold = _alone(figures, day, "drinking_ml", day.water.drinking_ml)
    if not day.water.drinks_ml:
        return cold
    (hot,) = _alone(figures, day, "drinks_ml", day.water.drinks_ml)
    warm = figures.say("+ {water} hot", water=hot.text)
    return (*cold, Piece(" "), replace(hot, text=warm, small=True))


def _alone(figures: Figures, day: KitDay, field: str, volume_ml: float) -> Cell:
    return figures.alone(volume_ml, "volume_ml", f"{at_day(day)}.water.{field}")


def _of(figures: Figures, day: KitDay, field: str, volume_ml: float) -> Cell:
    return figures.both(volume_ml, "volume_ml", f"{at_day(day)}.water.{field}")


def _carry(kit: Kit, figures: Figures) -> Table:
    say = figures.say
    rows = [
        (
            link(words.day_name(figures.say, day), day_path(day)),
            text(say("home") if day.ends_home else words.water_at(say, day.conditions)),
            _alone(figures, day, "carry_ml", day.water.carry_ml),
            _alone(figures, day, "treat_ml", day.water.treat_ml),
        )
        for day in kit.days
    ]
    heads = (say("Day"), say("At camp"), say("Carry at most"), say("Make safe"))
    return table(heads, rows, "llrr")


def _people(kit: Kit, figures: Figures) -> Table:
    rows = []
    for day in kit.days:
        drunk = {
            person.name: figures.alone(
                person.to_drink_ml, "volume_ml", f"{at_day(day)}.people.{place}.to_drink_ml"
            )
            for place, person in enumerate(day.people)
        }
        rows.append(
            (
                link(words.day_name(figures.say, day), day_path(day)),
                *(drunk[person.name] for person in kit.party),
            )
        )
    names = tuple(person.name for person in kit.party)
    drinks = table((figures.say("Day"), *names), rows, "l" + "r" * len(names))
    return _in_room(kit, drinks)


def _in_room(kit: Kit, told: Table) -> Table:
    """Let a table of volumes stack: cups and gallons need more room than a phone has."""
    return stacked(told) if kit.units == "us" and len(kit.party) <= words.FEW else told
