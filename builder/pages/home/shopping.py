"""What to buy for all trips ahead: a list by shelf to tick and send on, and the same as a table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from builder.pages.bought import by_shelf, csv_of
from builder.pages.figures import Figures
from builder.pages.home.showing import figures_of_home, titles_of_trips
from builder.pages.pieces import Cell, Piece, filled, link, text
from builder.planning.home import HomePlan, TripShopping
from builder.planning.year import Purchase, TakenFromStock
from builder.record import dataclass

CSV_NAME = "shopping.csv"


@dataclass(frozen=True, slots=True)
class ShoppingPage:
    """What goes into the dryer first, then the rest by shelf, then what the stock gives."""

    trip: str  # the title of the one trip it is for; "" for all
    csv_path: str
    of_trips: tuple[Cell, ...]  # links to the lists of single trips
    to_dry: tuple[Cell, ...]
    shelves: Mapping[str, tuple[Cell, ...]]  # by title
    from_stock: tuple[Cell, ...]


def shopping_page(plan: HomePlan) -> ShoppingPage:
    """Give the list for all trips ahead."""
    of_trips = tuple(link(each.title, f"{path_of(each)}.md") for each in lists_of_trips(plan))
    return _page(plan, "", CSV_NAME, plan.shopping, plan.from_stock, of_trips=of_trips)


def trip_page(plan: HomePlan, trip: TripShopping) -> ShoppingPage:
    """Give the list for one trip alone."""
    return _page(plan, trip.title, f"{path_of(trip)}.csv", trip.shopping, trip.from_stock)


def lists_of_trips(plan: HomePlan) -> tuple[TripShopping, ...]:
    """Give the trips that have a list of their own; a single one has the list of all."""
    return plan.trip_shopping if len(plan.trips) > 1 else ()


def path_of(trip: TripShopping) -> str:
    """Give where the list of a trip lies, without its ending."""
    return f"shopping/{trip.trip}"


def _page(
    plan: HomePlan,
    title: str,
    csv_path: str,
    shopping: Sequence[Purchase],
    from_stock: Sequence[TakenFromStock],
    *,
    of_trips: tuple[Cell, ...] = (),
) -> ShoppingPage:
    figures = figures_of_home(plan.home)
    titles = titles_of_trips(plan)
    knows_shelves = any(each.shelf for each in shopping)
    untold = figures.say("No shelf given") if knows_shelves else figures.say("To buy")
    shelves = by_shelf((each for each in shopping if not each.to_dry), untold)
    return ShoppingPage(
        title,
        csv_path,
        of_trips,
        tuple(_line(figures, each, titles) for each in shopping if each.to_dry),
        {
            shelf: tuple(_line(figures, each, titles) for each in lines)
            for shelf, lines in shelves.items()
        },
        tuple(_from_stock(figures, from_stock, titles)),
    )


def _line(figures: Figures, bought: Purchase, titles: Mapping[str, str]) -> Cell:
    """Give one thing: how much, what, and in small by when and for which trips."""
    say = figures.say
    pieces = [*_amount(figures, bought), Piece(" "), Piece(bought.name)]
    trips = say.listed(titles.get(each, each) for each in bought.trips)
    if bought.needed_on:
        told = say("by {date}, for {trips}", date=say.short_date(bought.needed_on), trips=trips)
    else:
        told = say("for {trips}", trips=trips)
    return (*pieces, Piece(" "), Piece(told, small=True))


def _amount(figures: Figures, bought: Purchase) -> Cell:
    if bought.packets:
        return (Piece(figures.packets(bought.packets, bought.packet_g), strong=True),)
    first, *others = figures.both(bought.buy_g, "mass_g")
    return (Piece(first.text, strong=True), *others)


def _from_stock(
    figures: Figures, from_stock: Iterable[TakenFromStock], titles: Mapping[str, str]
) -> Iterable[Cell]:
    say = figures.say
    for each in from_stock:
        yield filled(
            say("{food}: {packs} for {trip}"),
            food=(Piece(each.name, strong=True),),
            packs=text(say.count("{n} pack", "{n} packs", each.packs)),
            trip=text(titles.get(each.trip, each.trip)),
        )


def shopping_csv(shopping: Iterable[Purchase]) -> bytes:
    """Give the list as a table for other programs."""
    return csv_of(
        shopping,
        {
            "needed_on": lambda each: each.needed_on.isoformat() if each.needed_on else "",
            "to_dry": lambda each: "yes" if each.to_dry else "no",
            "trips": lambda each: " ".join(each.trips),
        },
    )
