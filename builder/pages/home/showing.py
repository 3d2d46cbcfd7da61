"""Numbers, dates and meals as the pages of the home show them."""

from __future__ import annotations

from builder.model.home import Home
from builder.pages.figures import Figures
from builder.pages.pieces import Cell, Piece
from builder.planning.home import HomePlan
from builder.planning.year import PackLabel
from builder.speech import Speech, speech_of
from builder.units import rounded

NO_TRIP = frozenset[str]()  # the home's figures stand on no page of numbers


def figures_of_home(home: Home) -> Figures:
    """Give what shows numbers in the units and the language of the home."""
    return Figures(home.units, home.mug_ml, NO_TRIP, speech_of(home.language))


def titles_of_trips(plan: HomePlan) -> dict[str, str]:
    """Give what the trips ahead are called, by their ids."""
    return {each.trip: each.title for each in plan.trips}


def why_waste(say: Speech, why: str) -> Cell:
    """Say why a batch is thrown out, behind what names it; nothing where its date alone does."""
    return (Piece(f" ({say(why)})"),) if why else ()


def asking(say: Speech, name: str, act: str, why: str) -> Cell:
    """Name a batch, then what it asks for."""
    if waste := why_waste(say, why):
        return (Piece(name, strong=True), *waste, Piece(f": {act}"))
    return (Piece(f"{name}: ", strong=True), Piece(act))


def minutes_said(say: Speech, span: tuple[float, float]) -> str:
    """Say a range of minutes; from two hours on in hours."""
    fewest, most = span
    if fewest >= 120:
        return say("{low} to {high} h", low=say.number(fewest / 60), high=say.number(most / 60))
    return say("{low} to {high} min", low=say.number(fewest), high=say.number(most))


def water_said(figures: Figures, label: PackLabel) -> str:
    """Say the water that puts a pack back, in ml and in mugs; "" where none is known."""
    if label.water_ml <= 0:
        return ""
    volume = figures.plain(label.water_ml, "volume_ml")
    mugs = figures.mugs(label.water_ml)
    return f"{volume} = {mugs}" if mugs else volume


def money(say: Speech, amount: float, currency: str, decimals: int = 2) -> str:
    """Give an amount of money, with the currency where it is told."""
    number = say.number(rounded(amount, decimals), decimals).replace("-", "−")
    return f"{number}\u00a0{currency}" if currency else number
