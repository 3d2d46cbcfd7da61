"""The page of fuel and wood: what is likely burnt, what to take, and where it goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.formulas.embers import HAND_TEST
from builder.model.kit import Kit, KitDay, KitFuel
from builder.model.looks import ColdGas
from builder.pages import words
from builder.pages.charts import Chart, fuel_chart
from builder.pages.figures import Figures, figures_of, worked
from builder.pages.pieces import Cell, Fact, Piece, Table, filled, lines, link, stacked, table, text
from builder.pages.trip.addresses import at_cold_gas, at_day, at_fuel, at_meal, day_path
from builder.pages.trip.afterwards.learned import learned_cells
from builder.pages.trip.cautions import Box
from builder.pages.trip.dishes.soaking import minutes_between
from builder.pages.trip.placing import boxes_at
from builder.planning.looks import given_in_the_cold_g
from builder.record import dataclass
from builder.speech import later
from builder.units import rounded

_EMBERS = {"high": later("hot"), "medium": later("medium"), "low": later("weak")}


@dataclass(frozen=True, slots=True)
class FuelPage:
    """All the fuel of the trip."""

    facts: tuple[Fact, ...]
    by_day: Table | None
    chart: Chart | None
    boxes: tuple[Box, ...]
    wood: bool
    reserve: str
    lids: str
    snow: Table | None
    cold: tuple[Cell, ...]  # what a can gives at each cold camp
    too_little: str  # where cold cans give less than is likely burnt
    embers: Table | None
    irons: Table | None
    learned: tuple[Cell, ...]  # of earlier trips


def containers(fuels: Sequence[KitFuel], figures: Figures) -> str:
    """Give the containers to take, with what is in them: `2 × 230 g of propane-butane mix`."""
    say = figures.say
    return say.listed(
        say("{sizes} of {fuel}", sizes=_sizes(each, figures), fuel=say.inside(each.name))
        for each in fuels
        if each.carry_g
    )


def container_sizes(fuels: Sequence[KitFuel], figures: Figures) -> str:
    """Give the containers to take: `2 × 230 g`; of several fuels, of which."""
    return _sizes(fuels[0], figures) if len(fuels) == 1 else containers(fuels, figures)


def _sizes(fuel: KitFuel, figures: Figures) -> str:
    say = figures.say
    sizes = [
        f"{say.number(each.count)} × {figures.plain(each.holds_g, 'mass_g')}"
        for each in fuel.containers
    ]
    return say.listed(sizes) or figures.plain(fuel.carry_g, "mass_g")


def fuel_page(kit: Kit) -> FuelPage:
    """Give the fuel of the trip."""
    figures = figures_of(kit)
    say = figures.say
    facts = [
        fact
        for number, each in enumerate(kit.fuels)
        for fact in _of_fuel(each, at_fuel(number), figures)
    ]
    if kit.wood_g:
        facts.append(Fact(say("Dry wood"), likely_wood(kit, figures)))
    burnt = bool(kit.fuels or kit.wood_g)
    has_irons = any(meal.irons for day in kit.days for meal in day.meals)
    return FuelPage(
        tuple(facts),
        _by_day(kit, figures) if burnt else None,
        fuel_chart(kit),
        boxes_at(kit, "fuel.md"),
        bool(kit.wood_g),
        figures.percent(kit.fuel.reserve_share) if kit.fuel else "",
        _lids(kit.fuels, figures) if kit.likely_fuel_g else "",
        _snow(kit, figures) if any(day.snow for day in kit.days) else None,
        tuple(
            _cold(figures, day, each, at_cold_gas(day, number))
            for day in kit.days
            for number, each in enumerate(day.cold_gases)
        ),
        " ".join(filter(None, (_too_little(each, kit.days, figures) for each in kit.fuels))),
        _embers(figures) if has_irons or _bakes(kit) else None,
        _irons(kit, figures) if has_irons else None,
        learned_cells(kit, figures, "fuel", "wood"),
    )


def _of_fuel(fuel: KitFuel, at: str, figures: Figures) -> Iterator[Fact]:
    """Give how much of a fuel to take, for which stoves, and how well these burn."""
    say = figures.say
    yield Fact(say.of("an amount", "Take"), text(containers([fuel], figures)))
    yield Fact(say.of("a stove", "For"), text(say.listed(each.name for each in fuel.stoves)))
    yield Fact(say("Likely burnt"), _likely(fuel, at, figures))
    yield Fact(say("With the reserve"), figures.both(fuel.carry_g, "mass_g", f"{at}.carry_g"))
    held_g = sum(each.holds_g * each.count for each in fuel.containers)
    if fuel.containers and fuel.high_g > held_g:
        says = say(
            "up to {high}, and you take {held}: take a container more, or soak cold what can be",
            high=figures.plain(fuel.high_g, "mass_g"),
            held=figures.plain(held_g, "mass_g"),
        )
        yield Fact(say("In the worst case"), text(says))
    if len(fuel.stoves) == 1:
        yield Fact(say("Stove efficiency"), _efficiency(fuel, at, figures))
        return
    for number, each in enumerate(fuel.stoves):
        where = f"{at}.stoves.{number}"
        name = Piece(each.name)
        burns = figures.both(each.likely_g, "mass_g", f"{where}.likely_g")
        yield Fact(say("Likely burnt"), (*burns, Piece(" "), name))
        share = Piece(
            figures.percent(each.efficiency_share), href=figures.how(f"{where}.efficiency_share")
        )
        yield Fact(say("Stove efficiency"), (share, Piece(" "), name))


def likely_fuels(fuels: Sequence[KitFuel], figures: Figures) -> Cell:
    """Give the fuel likely burnt, with its range by the fuel and the wind; of several, each."""
    if len(fuels) == 1:
        return _likely(fuels[0], at_fuel(0), figures)
    cells: list[Piece] = []
    for number, each in enumerate(fuels):
        likely = figures.both(each.likely_g, "mass_g", f"{at_fuel(number)}.likely_g")
        cells += [*([Piece(", ")] if cells else []), *likely, Piece(" "), Piece(each.name)]
    return tuple(cells)


def _likely(fuel: KitFuel, at: str, figures: Figures) -> Cell:
    likely = figures.both(fuel.likely_g, "mass_g", f"{at}.likely_g")
    return (*likely, *range_of(fuel.low_g, fuel.high_g, figures))


def likely_wood(kit: Kit, figures: Figures) -> Cell:
    """Give the wood, with its range."""
    likely = figures.both(kit.wood_g, "mass_g", "wood.likely_g")
    return (*likely, *range_of(kit.wood_low_g, kit.wood_high_g, figures))


def likely_fuel_of_day(day: KitDay, figures: Figures) -> Cell:
    """Give a day's likely fuel with its range."""
    likely = figures.both(day.fuel.fuel_g, "mass_g", f"{at_day(day)}.fuel_g")
    return (*likely, *range_of(day.fuel.low_g, day.fuel.high_g, figures))


def likely_wood_of_day(day: KitDay, figures: Figures) -> Cell:
    """Give a day's likely wood with its range."""
    likely = figures.both(day.fuel.wood_g, "mass_g", f"{at_day(day)}.wood_g")
    return (*likely, *range_of(day.fuel.wood_low_g, day.fuel.wood_high_g, figures))


def range_of(low_g: float, high_g: float, figures: Figures) -> Cell:
    """Give a range under its likely figure; nothing where both ends read the same."""
    low, high = figures.plain(low_g, "mass_g"), figures.plain(high_g, "mass_g")
    if low == high:
        return ()
    return lines(figures.say("between {low}\nand {high}", low=low, high=high))


def _efficiency(fuel: KitFuel, at: str, figures: Figures) -> Cell:
    """Give the stove's efficiency and where it is from."""
    say = figures.say
    share = Piece(
        figures.percent(fuel.efficiency_share), href=figures.how(f"{at}.efficiency_share")
    )
    test = fuel.test
    if test is None:
        return (share, *lines(say("as listed for it")))
    said = say(
        "your own test:\n{boiled} from {temperature}\nwith {burnt}",
        boiled=figures.plain(test.boiled_ml, "volume_ml"),
        temperature=figures.plain(test.from_c, "temperature_c"),
        burnt=figures.plain(test.fuel_g, "mass_g"),
    )
    return (share, *lines(said))


def _lids(fuels: Sequence[KitFuel], figures: Figures) -> str:
    low_g = sum(each.no_lid_low_g for each in fuels)
    return figures.span(low_g, sum(each.no_lid_high_g for each in fuels), "mass_g")


def _cold(figures: Figures, day: KitDay, each: ColdGas, at: str) -> Cell:
    """Say what a full can gives at the coldest of a camp, and why."""
    say = figures.say
    said = say(
        "{day}, at {cold}: a full canister gives about {share} of its gas, and {rest} stay in it "
        "until you warm it. It begins with {pressure}; the burner wants {wanted}."
    )
    if not each.usable_share:
        said = say(
            "{day}, at {cold}: a canister gives no gas until you warm it. A full one has "
            "{pressure}, and the burner wants {wanted}."
        )
    pressure = worked(say, rounded(each.can_kpa), "kPa")
    share = figures.percent(each.usable_share)
    return filled(
        said,
        day=text(words.numbered_day(say, day.day)),
        cold=text(figures.plain(day.conditions.air_low_c, "temperature_c")),
        share=(Piece(share, href=figures.how(f"{at}.usable_share")),),
        rest=text(figures.percent(1 - each.usable_share)),
        pressure=(Piece(pressure, href=figures.how(f"{at}.can_kpa")),),
        wanted=text(worked(say, rounded(each.wanted_kpa), "kPa")),
    )


def _irons(kit: Kit, figures: Figures) -> Table:
    """Give how long the irons of each meal heat up, and a first press in cold ones."""
    say = figures.say
    rows = []
    pressed = (
        (day, place, meal, meal.irons)
        for day in kit.days
        for place, meal in enumerate(day.meals)
        if meal.irons
    )
    for day, place, meal, each in pressed:
        hot = minutes_between(say, each.heats_min)
        rows.append(
            (
                (
                    *link(words.day_name(say, day), day_path(day)),
                    Piece(" "),
                    Piece(meal.title, small=True),
                ),
                (Piece(hot, href=figures.how(f"{at_meal(day, place)}.irons.heats_min.1")),),
                text(minutes_between(say, each.cold_press_min)),
            )
        )
    heads = (say("Day"), say("Irons get hot"), say("First press, irons cold"))
    return stacked(table(heads, rows, "lrr"))


def _too_little(fuel: KitFuel, days: Sequence[KitDay], figures: Figures) -> str:
    """Warn where the cans, as cold as at the coldest camp, give less than is likely burnt."""
    given_g = given_in_the_cold_g(fuel, days)
    if given_g is None or given_g >= fuel.likely_g:
        return ""
    return figures.say(
        "As cold as at the coldest camp, the gas you take would give {given} of the {likely} you "
        "are likely to burn. Warm the canisters in your jacket, or take more.",
        given=figures.plain(given_g, "mass_g"),
        likely=figures.plain(fuel.likely_g, "mass_g"),
    )


def _bakes(kit: Kit) -> bool:
    """Tell whether anything is baked in embers."""
    return any(step.do == "bake" for day in kit.days for meal in day.meals for step in meal.steps)


def _embers(figures: Figures) -> Table:
    """Give the hand test: how long a palm stands it, and how hot it is for food."""
    say = figures.say
    rows = []
    begins = 1.0
    for most_s, name, low_c, high_c in HAND_TEST:
        seconds = say("{low} to {high}", low=say.number(begins), high=worked(say, most_s, "s"))
        heat = figures.span(low_c, high_c, "temperature_c")
        rows.append((text(seconds), text(say(_EMBERS[name])), text(heat)))
        begins = most_s + 1
    return table((say("Palm held"), say("Embers"), say("Heat at the food")), rows, "llr")


def _snow(kit: Kit, figures: Figures) -> Table:
    """Give how much snow the water of a day takes, from firm to fluffy, and in potfuls."""
    say = figures.say
    rows = []
    for day in kit.days:
        if (each := day.snow) is None:
            continue
        firm_ml, fluffy_ml = (rounded(litres) * 1000 for litres in (each.firm_l, each.fluffy_l))
        potfuls = say(
            "{low} to {high}",
            low=say.number(each.potfuls_firm),
            high=say.number(each.potfuls_fluffy),
        )
        water = figures.plain(day.water.total_ml, "volume_ml")
        rows.append(
            (
                (
                    *link(words.day_name(say, day), day_path(day)),
                    *lines(say("{water} water", water=water)),
                ),
                (
                    Piece(
                        figures.span(firm_ml, fluffy_ml, "volume_ml"),
                        href=figures.how(f"{at_day(day)}.snow.fluffy_l"),
                    ),
                ),
                text(potfuls if each.potfuls_firm else "–"),
            )
        )
    return table((say("Day"), say("Snow for it"), say("Potfuls")), rows, "lrr")


def _by_day(kit: Kit, figures: Figures) -> Table:
    """Give fuel and wood by day, leaving out a column that no day has."""
    say = figures.say
    heads, right = [say("Day")], "l"
    if kit.fuels:
        heads.append(say("Fuel"))
    if kit.wood_g:
        heads.append(say("Wood"))
    heads.append(say("At the pot"))
    right += "r" * (len(heads) - 1)
    rows = []
    for day in kit.days:
        cells = [link(words.day_name(say, day), day_path(day))]
        at = at_day(day)
        if kit.fuels:
            cells.append(likely_fuel_of_day(day, figures))
        if kit.wood_g:
            cells.append(likely_wood_of_day(day, figures))
        cells.append(figures.alone(day.minutes, "duration_min", f"{at}.minutes"))
        rows.append(tuple(cells))
    return table(tuple(heads), rows, right)
