"""The charts of a kit in bars: energy, packs, water and fuel by day."""

from __future__ import annotations

from builder.model.kit import Kit, KitFuel, PersonLoad
from builder.pages import words
from builder.pages.charts.bars import Row, draw
from builder.pages.charts.drawing import Chart, Fill
from builder.pages.figures import figures_of
from builder.pages.pieces import Cell, stacked, table, text
from builder.speech import later


def energy_chart(kit: Kit) -> Chart:
    """Draw the food energy of each day against what the day asks for."""
    figures = figures_of(kit)
    say = figures.say
    rows = [
        Row(
            words.day_name(say, day),
            say(
                "{eaten} eaten, {needed} needed",
                eaten=figures.plain(day.nutrition.energy_kcal, "energy_kcal"),
                needed=figures.plain(day.energy_need_kcal, "energy_kcal"),
            )
            if day.energy_need_kcal or day.nutrition.energy_kcal
            else say("all meals at home"),
            ((day.nutrition.energy_kcal, "lines"),),
            day.energy_need_kcal,
        )
        for day in kit.days
    ]
    behind = [
        (
            text(words.day_name(say, day)),
            text(figures.plain(day.nutrition.energy_kcal, "energy_kcal")),
            text(figures.plain(day.energy_need_kcal, "energy_kcal")),
        )
        for day in kit.days
    ]
    return draw(
        "energy-chart",
        _energy_shows(kit),
        rows,
        names=(("lines", say("in the food")),),
        mark=say("needed"),
        behind=table((say("Day"), say("Food"), say("Needed")), behind, "lrr"),
    )


def _energy_shows(kit: Kit) -> str:
    """Say which day has least food for what it asks for."""
    figures = figures_of(kit)
    shares = {
        day.day: day.nutrition.energy_kcal / day.energy_need_kcal
        for day in kit.days
        if day.energy_need_kcal
    }
    if len(shares) < 2:
        return figures.say("Food energy by day, for all")
    least = min(shares, key=lambda number: shares[number])
    return figures.say(
        "Food energy by day, for all: day {n} has least, {share} of what is needed",
        n=least,
        share=figures.percent(shares[least]),
    )


def packs_chart(kit: Kit) -> Chart | None:
    """Draw each one's pack on every morning, a thin bar for a day."""
    figures = figures_of(kit)
    say = figures.say
    rows = []
    for person in kit.weights.people:
        shown = [figures.plain(mass, "mass_g") for mass in person.by_day_g]
        if shown:
            told = ", ".join(
                say("day {n} {mass}", n=day, mass=mass) for day, mass in enumerate(shown, start=1)
            )
            says = f"{shown[0]} → {shown[-1]}" if shown[0] != shown[-1] else shown[0]
            rows.append(Row(person.name, says, thin=person.by_day_g, told=told))
    if not rows:
        return None
    _, number, name = max(
        (mass, -day, person.name)
        for person in kit.weights.people
        for day, mass in enumerate(person.by_day_g, start=1)
    )
    title = say(
        "Each pack, morning by morning, the first day on top: {name}'s is heaviest, on day {n}",
        name=name,
        n=-number,
    )
    return draw("packs-chart", title, rows)


_KINDS: tuple[tuple[str, Fill, str, str], ...] = (  # as a bar and as a column calls it
    ("own", "open", later("own gear"), later("Own gear")),
    ("gear", "solid", later("shared gear"), later("Shared gear")),
    ("fuel", "dots", later("fuel"), later("Fuel")),
    ("food", "lines", later("food"), later("Food")),
    ("water", "cross", later("water"), later("Water")),
)


def kinds_chart(kit: Kit) -> Chart | None:
    """Draw what each pack is made of at its heaviest."""
    if not kit.weights.people:
        return None
    figures = figures_of(kit)
    say = figures.say
    rows = []
    behind: list[tuple[Cell, ...]] = []
    for person in kit.weights.people:
        masses = _by_kind(person)
        told = ", ".join(
            f"{say(name)} {figures.plain(mass, 'mass_g')}"
            for (_, _, name, _), mass in zip(_KINDS, masses, strict=True)
            if mass
        )
        parts = tuple((mass, fill) for (_, fill, _, _), mass in zip(_KINDS, masses, strict=True))
        says = figures.plain(person.total_g, "mass_g")
        rows.append(Row(person.name, says, parts, told=f"{says}: {told}" if told else says))
        shown = (text(figures.plain(mass, "mass_g") if mass else "–") for mass in masses)
        behind.append((text(person.name), *shown))
    heads = (say("Who"), *(say(head) for _, _, _, head in _KINDS))
    of_all = [sum(masses) for masses in zip(*map(_by_kind, kit.weights.people), strict=True)]
    most = max(range(len(of_all)), key=lambda place: of_all[place])
    title = say("What each pack is made of, at its heaviest")
    if sum(of_all):
        title = say(
            "What each pack is made of, at its heaviest: most is {kind}, {share} of all",
            kind=say(_KINDS[most][2]),
            share=figures.percent(of_all[most] / sum(of_all)),
        )
    return draw(
        "kinds-chart",
        title,
        rows,
        names=tuple((fill, say(name)) for _, fill, name, _ in _KINDS),
        behind=stacked(table(heads, behind, "lrrrrr")),
    )


def _by_kind(person: PersonLoad) -> list[float]:
    return [
        sum(thing.mass_g for thing in person.carries if thing.kind == kind)
        for kind, _, _, _ in _KINDS
    ]


def water_chart(kit: Kit) -> Chart:
    """Draw what the water of each day is for, and the most that is carried at once."""
    figures = figures_of(kit)
    say = figures.say
    rows = [
        Row(
            words.day_name(say, day),
            say(
                "{water}; carry {most}",
                water=figures.plain(day.water.total_ml, "volume_ml"),
                most=figures.plain(day.water.carry_ml, "volume_ml"),
            ),
            (
                (day.water.drinking_ml, "open"),
                (day.water.drinks_ml, "dots"),
                (day.water.cooking_ml, "lines"),
                (day.water.washing_ml, "solid"),
            ),
            day.water.carry_ml,
        )
        for day in kit.days
    ]
    driest = max(kit.days, key=lambda day: day.water.carry_ml)
    names: tuple[tuple[Fill, str], ...] = (
        ("open", say("to drink")),
        ("dots", say("hot drinks")),
        ("lines", say("to cook with")),
        ("solid", say("to wash with")),
    )
    return draw(
        "water-chart",
        say(
            "Water by day: most is carried on day {n}, {water}",
            n=driest.day,
            water=figures.plain(driest.water.carry_ml, "volume_ml"),
        ),
        rows,
        names=names,
        mark=say("the most carried at once"),
    )


def fuel_chart(kit: Kit) -> Chart | None:
    """Draw the fuel that is left at the end of each day, against what is carried."""
    if not kit.likely_fuel_g:
        return None
    figures = figures_of(kit)
    say = figures.say
    taken = sum(_taken_g(each) for each in kit.fuels)
    start, whole = say.of("trip", "Start"), figures.plain(taken, "mass_g")
    rows = [Row(start, whole, ((taken, "lines"),))]
    shown = whole
    behind: list[tuple[Cell, ...]] = [(text(start), text(whole))]
    for day, left in zip(kit.days, fuel_left_g(kit, taken), strict=True):
        shown = figures.plain(left, "mass_g")
        parts: tuple[tuple[float, Fill], ...] = ((left, "lines"), (taken - left, "open"))
        when = say("After day {n}", n=day.day)
        rows.append(Row(when, say("{mass} left", mass=shown), parts))
        behind.append((text(when), text(shown)))
    return draw(
        "fuel-chart",
        say("Fuel left, of what you carry: {mass} at the end", mass=shown),
        rows,
        names=(("lines", say.of("fuel", "left")), ("open", say.of("fuel", "burnt"))),
        behind=table((say("When"), say("Fuel left")), behind, "lr"),
    )


def _taken_g(fuel: KitFuel) -> float:
    """Give how much of a fuel is carried: what its containers hold."""
    return sum(each.holds_g * each.count for each in fuel.containers) or fuel.carry_g


def fuel_left_g(kit: Kit, taken_g: float) -> list[float]:
    """Give what is left of the fuel at the end of each day."""
    left = []
    for day in kit.days:
        taken_g -= day.fuel.fuel_g
        left.append(max(taken_g, 0.0))
    return left
