"""The page for when it goes wrong: what is still eaten and drunk, and what would mend it."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.kit import Kit
from builder.model.mishaps import MendedBy, Mishap
from builder.pages import words
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Piece, Table, filled, table, text
from builder.pages.trip.afterwards.otherwise import OtherwisePage, otherwise_page
from builder.planning.naming import days_said
from builder.record import dataclass, replace
from builder.speech import Speech, later

WRONG = "if-it-goes-wrong.md"
# Less of one's need is told to all who look at the table.
LITTLE_SHARE = 0.9
# Where the tables hold more figures no way is told: the page of numbers would be long to load.
_MOST_LEADING = 300
_MENDS: dict[MendedBy, str] = {
    "food": later("To make up for it, take {mass} more of the richest food that needs no cooking."),
    "fuel": later("To be ready for it, carry {mass} of fuel in another bag, and a second stove."),
    "wood": later("To make up for it, find {mass} of dry wood, or take a stove."),
    "water": later("To be ready for it, carry {mass} more water there."),
}


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing that goes wrong, with all there is to say of it."""

    title: str
    anchor: str
    says: tuple[Cell, ...]
    still: Table | None
    of_many: str  # whom the table tells of, where it is not everybody


@dataclass(frozen=True, slots=True)
class WrongPage:
    """All that can go wrong."""

    each: tuple[Wrong, ...]
    otherwise: OtherwisePage | None


def wrong_page(kit: Kit) -> WrongPage:
    """Give the page of what can go wrong."""
    figures = figures_of(kit)
    told = sum(len(person.kcal) for each in kit.mishaps for person in each.still)
    if told > _MOST_LEADING:
        figures = replace(figures, derived=frozenset())
    return WrongPage(
        tuple(
            Wrong(
                wrong_title(figures.say, each),
                f"wrong-{number + 1}",
                tuple(wrong_says(kit, each, number, figures)),
                _still(each, f"mishaps.{number}", figures),
                _of_many(each, figures.say),
            )
            for number, each in enumerate(kit.mishaps)
        ),
        otherwise_page(kit),
    )


def wrong_title(say: Speech, each: Mishap) -> str:
    """Name what goes wrong."""
    if each.kind == "bag":
        return say("The bag of {name} is lost", name=each.who)
    if each.kind == "dry":
        return say("No water at the camp of day {n}", n=each.day)
    said = {
        "day-more": later("One day more"),
        "no-fuel": later("No fuel, or the stove breaks"),
        "no-fire": later("No fire"),
    }
    return say(said[each.kind])


def wrong_says(
    kit: Kit, each: Mishap, number: int, figures: Figures, *, with_days: bool = True
) -> Iterable[Cell]:
    """Say what is left and what to do, of what goes wrong in that place of the list.

    Without their days dishes are told once each.
    """
    say, at = figures.say, f"mishaps.{number}"
    if each.lost:
        yield text(say("With it go: {things}.", things=say.listed(each.lost)))
    if each.fuel_left_g is not None:
        yield filled(
            say("{left} of fuel are left, and {likely} are likely burnt."),
            left=figures.alone(each.fuel_left_g, "mass_g", f"{at}.fuel_left_g"),
            likely=figures.alone(kit.likely_fuel_g, "mass_g", "fuel.likely_g"),
        )
    if each.no_water_days:
        days = days_said(say, each.no_water_days)
        yield _strong(
            say("Nothing melts snow on {days}: turn back while you have water.", days=days)
        )
    if each.unsafe_days:
        days = days_said(say, each.unsafe_days)
        yield _strong(
            say(
                "Nothing boils the water of {days}: make it safe another way, or do not drink it.",
                days=days,
            )
        )
    if each.cold:
        said = say(
            "Soak in cold water until soft, then eat at once, within 2 hours of wetting: {dishes}."
        )
        yield filled(said, dishes=text(_dishes(kit, each.cold, figures.say, with_days)))
    if each.uneaten:
        said = say("Needs heat, or may not be safe without it: {dishes}.")
        yield filled(said, dishes=text(_dishes(kit, each.uneaten, figures.say, with_days)))
    if each.drink_ml is not None:
        said = say("Each has {water} left of what is carried, for the way, the camp and the night.")
        left = figures.alone(each.drink_ml, "volume_ml", f"{at}.drink_ml")
        if kit.public:
            said = say(
                "All have {water} left of what is carried, for the way, the camp and the night."
            )
            carry_ml, day = kit.days[each.day - 1].water.carry_ml, f"days.{each.day - 1}"
            left = figures.alone(carry_ml, "volume_ml", f"{day}.water.carry_ml")
        yield filled(said, water=left)
    elif each.kind == "bag":
        yield text(
            say("Was your filter or water treatment in it? Make the water safe another way.")
        )
    elif each.kind != "day-more" and not each.no_water_days and not each.unsafe_days:
        yield text(say("Cold water to drink is as planned. There are no hot drinks."))
    if each.mend_g:
        mass = figures.alone(each.mend_g, "mass_g", f"{at}.mend_g")
        yield filled(say(_MENDS[each.mended_by]), mass=mass)


def _strong(said: str) -> Cell:
    return (Piece(said, strong=True),)


def _dishes(kit: Kit, places: Iterable[tuple[int, int]], say: Speech, with_days: bool) -> str:
    days: dict[str, list[int]] = {}
    for day, place in places:
        days.setdefault(kit.days[day - 1].meals[place].title, []).append(day)
    if not with_days:
        return ", ".join(days)
    return ", ".join(
        say("{dish} ({days})", dish=title, days=days_said(say, on)) for title, on in days.items()
    )


def _of_many(each: Mishap, say: Speech) -> str:
    """Say whom a table of many tells of: all in one, and the one who is worst off."""
    if not each.still or each.still[0].name:
        return ""
    needy = each.still[1:]
    if not needy:
        return say("You are many: the table tells what all eat together.")
    return say(
        "You are many: the table tells what all eat together, and below it {name}, who of all has "
        "least of what they need.",
        name=needy[0].name,
    )


def _still(each: Mishap, at: str, figures: Figures) -> Table | None:
    """Give what each still eats of every day, as energy; too little of it stands out."""
    say = figures.say
    if not each.still:
        return None
    days = len(each.still[0].kcal)
    heads = (
        [words.numbered_day(say, day + 1) for day in range(days)]
        if days > 1 or each.kind != "day-more"
        else [say("Each day")]
    )
    rows = []
    for place, person in enumerate(each.still):
        cells = [
            (
                Piece(
                    say.number(kcal),
                    strong=kcal < LITTLE_SHARE * need,
                    href=figures.how(f"{at}.still.{place}.kcal.{day}"),
                ),
            )
            for day, (kcal, need) in enumerate(zip(person.kcal, person.need_kcal, strict=True))
        ]
        rows.append((text(person.name or say("All together")), *cells))
    return table((say("Still eaten, kcal"), *heads), rows, "l" + "r" * len(heads))
