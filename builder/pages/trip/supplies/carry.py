"""The page of packs: who carries what, how heavy it is, how it gets lighter."""

from __future__ import annotations

from builder.model.kit import Kit, PersonLoad
from builder.pages import words
from builder.pages.charts import Chart, kinds_chart, packs_chart
from builder.pages.figures import PEOPLE_A_PAGE, Figures, figures_of
from builder.pages.pieces import Cell, Fact, Table, link, stacked, table, text
from builder.pages.trip.cautions import Box
from builder.pages.trip.people import (
    in_order,
    pack,
    person_paths,
    water_g,
)
from builder.pages.trip.placing import boxes_at, pack_line
from builder.pages.trip.supplies.depots import depot_said, waits_said
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Pack:
    """One person's pack."""

    anchor: str
    name: str
    href: str  # of their own page, "" where there is none
    total: Cell
    things: Table | None  # None for who carries nothing


@dataclass(frozen=True, slots=True)
class CarryPage:
    """All packs."""

    who: Table | None  # None in a public kit
    packs: tuple[Pack, ...]
    on_own_pages: bool  # what is in the packs
    facts: tuple[Fact, ...]
    by_day: Table
    packs_chart: Chart | None
    kinds_chart: Chart | None
    boxes: tuple[Box, ...]


def is_crowd(kit: Kit) -> bool:
    """Tell whether so many carry that what is in each pack stands on its owner's page alone."""
    return len(kit.weights.people) > PEOPLE_A_PAGE and bool(person_paths(kit))


def carry_page(kit: Kit, crowd: bool = False) -> CarryPage:
    """Give who carries what; of a crowd each pack's weight alone."""
    figures = figures_of(kit)
    say = figures.say
    weights = kit.weights
    facts = (
        Fact(say("Food"), figures.both(weights.food_g, "mass_g", "weights.food_g")),
        Fact(say("Packaging"), figures.both(weights.packaging_g, "mass_g", "weights.packaging_g")),
        Fact(say("Fuel and containers"), figures.both(weights.fuel_g, "mass_g", "weights.fuel_g")),
        Fact(say("Shared gear"), figures.both(weights.gear_g, "mass_g", "weights.gear_g")),
        Fact(
            say("Most water at once"),
            figures.both(weights.water_most_g, "mass_g", "weights.water_most_g"),
        ),
    )
    return CarryPage(
        short_carry(kit, figures) if crowd else _who(kit, figures, _on_this_page(kit)),
        ()
        if crowd
        else tuple(
            _pack(kit, figures, each, number, href)
            for number, (each, href) in enumerate(
                zip(weights.people, _own_pages(kit), strict=True), start=1
            )
        ),
        crowd,
        (*facts, *_depots(kit, figures)),
        _by_day(kit, figures),
        packs_chart(kit),
        kinds_chart(kit),
        boxes_at(kit, "carry.md"),
    )


def _depots(kit: Kit, figures: Figures) -> list[Fact]:
    """Say what waits at which camp."""
    return [
        Fact(
            figures.say("Waits at the camp of day {n}", n=each.camp),
            depot_said(figures, each, f"weights.depots.{number}.mass_g"),
        )
        for number, each in enumerate(kit.weights.depots)
    ]


def _by_day(kit: Kit, figures: Figures) -> Table:
    """Give each pack on every morning, and the load of all."""
    say = figures.say
    people = [person for person in kit.weights.people if person.by_day_g]
    rows = [
        (
            text(words.day_and_date(say, day)),
            *(text(figures.plain(person.by_day_g[place], "mass_g")) for person in people),
            figures.both(mass, "mass_g", f"weights.by_day_g.{place}"),
        )
        for place, (day, mass) in enumerate(zip(kit.days, kit.weights.by_day_g, strict=False))
    ]
    names = (person.name for person in people)
    heads = (say("Morning of"), *names, say("All, without own gear"))
    by_day = table(heads, rows, "l" + "r" * (len(people) + 1))
    return stacked(by_day) if len(people) <= words.FEW else by_day


def short_carry(kit: Kit, figures: Figures) -> Table | None:
    """Say what each one's pack weighs at its heaviest; the name leads to their own page."""
    own = [href or here for href, here in zip(_own_pages(kit), _on_this_page(kit), strict=True)]
    return _who(kit, figures, own)


def _own_pages(kit: Kit) -> list[str]:
    return list(person_paths(kit)) or ["" for _ in kit.weights.people]


def _on_this_page(kit: Kit) -> list[str]:
    return [f"carry.md#pack-{number}" for number, _ in enumerate(kit.weights.people, start=1)]


def _who(kit: Kit, figures: Figures, hrefs: list[str]) -> Table | None:
    if not kit.weights.people:
        return None
    say = figures.say
    rows = [
        (
            link(each.name, href),
            figures.both(each.total_g, "mass_g", f"weights.people.{place}.total_g"),
            text(_share(figures, each)),
        )
        for place, (each, href) in enumerate(zip(kit.weights.people, hrefs, strict=True))
    ]
    return table((say("Who"), say("Pack"), say("Of the limit")), rows, "lrr")


def _share(figures: Figures, each: PersonLoad) -> str:
    """Give the share of what someone can carry; nothing where no limit was told."""
    return figures.percent(each.of_limit) if each.limit_g > 0 else ""


def _pack(kit: Kit, figures: Figures, each: PersonLoad, number: int, href: str) -> Pack:
    say = figures.say
    rows = [
        (
            (*text(thing.what), *waits_said(say, thing), *pack_line(kit, thing)),
            figures.both(thing.mass_g, "mass_g"),
        )
        for thing in in_order(each)
    ]
    if water := water_g(each):
        rows.append((text(say("Water")), figures.both(water, "volume_ml")))
    return Pack(
        f"pack-{number}",
        each.name,
        href,
        pack(kit, figures, each),
        table((say("What"), say("Mass")), rows, "lr") if rows else None,
    )
