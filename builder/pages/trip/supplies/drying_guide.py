"""How to dry what the trip eats: warm air food by food, what goes before and after, and ice."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from builder.formulas.freeze_drying import hours_range as ice_gone_range_h
from builder.formulas.freeze_drying import ice_temperature_c
from builder.formulas.heat_drying import (
    BLANCH_LONGER_ABOVE_M,
    CONDITIONING_DAYS,
    FREEZING_C,
    FREEZING_H,
    JERKY_OVEN_C,
    JERKY_OVEN_MIN,
    JERKY_WARM_AIR_C,
    PASTEURISING_C,
    PASTEURISING_MIN,
    SUN_AIR_C,
    SUN_HUMIDITY_SHARE,
)
from builder.formulas.safety import HEATED_BEFORE_DRYING_C, POULTRY_HEATED_BEFORE_DRYING_C
from builder.model.kit import Kit
from builder.model.looks import DryerLoad, DryingGuide, Span
from builder.pages.citing import citation_in_short
from builder.pages.figures import Figures, figures_of, worked
from builder.pages.pieces import Cell, Piece, Table, filled, join, table, text
from builder.planning.drying import NOTES_BY, topics
from builder.record import dataclass
from builder.speech import Speech, later
from builder.units import rounded

_MM_PER_INCH = 25.4
_LAYERS_MM = (6.0, 12.5, 20.0)
_CHAMBER_PA = (20.0, 50.0, 100.0)
_MILLITORR_PER_PA = 7.50062
_LAID = {
    "halves": later("Halve it, take the stone or core out, and lay it cut side up."),
    "whole": later("Leave it whole."),
    "single": later("Spread it in one layer."),
}


@dataclass(frozen=True, slots=True)
class GuideLine:
    """How one food is dried, or what holds for many, and where that is from."""

    title: str
    says: str
    sources: Cell  # their numbers, each leading to the list of all sources


@dataclass(frozen=True, slots=True)
class DryingGuides:
    """What the page of drying says on how to dry."""

    foods: tuple[GuideLine, ...]
    notes: tuple[GuideLine, ...]
    sources: tuple[Cell, ...]  # of all of them, in the order of their numbers
    layers: Table | None  # freeze-drying: how long by thickness
    chamber: Table | None  # and how cold the ice is by pressure


def drying_guides(kit: Kit) -> DryingGuides:
    """Give how the foods of the trip are dried."""
    figures = figures_of(kit)
    say = figures.say
    guides = kit.guides
    freezes = any(each.method == "freeze-dryer" for each in kit.batches) or any(
        line.dry_by == "freeze-dryer" for line in kit.shopping
    )
    about = topics(guides)
    known = {each.id: each for each in kit.sources}
    cited = (source for guide in guides for source in guide.sources)
    noted = (source for topic in about for source in NOTES_BY[topic])
    numbers = _numbered((*cited, *noted), known)
    return DryingGuides(
        tuple(
            GuideLine(
                each.name,
                " ".join(_sentences(figures, each)),
                _cited(say, each.sources, numbers),
            )
            for each in guides
        ),
        tuple(
            GuideLine("", " ".join(_notes(figures, topic)), _cited(say, NOTES_BY[topic], numbers))
            for topic in about
        ),
        tuple(
            (Piece(citation_in_short(say, known[source]), href=f"numbers.md#source-{source}"),)
            for source in numbers
        ),
        _layers(say) if freezes else None,
        _chamber(figures) if freezes else None,
    )


def _numbered(cited: Iterable[str], known: Collection[str]) -> dict[str, int]:
    """Number the sources in the order they are cited."""
    named = [source for source in dict.fromkeys(cited) if source in known]
    return {source: number for number, source in enumerate(named, start=1)}


def _cited(say: Speech, sources: Sequence[str], numbers: Mapping[str, int]) -> Cell:
    """Give the numbers of sources, each leading to the list of all."""
    found = [
        (Piece(say.number(numbers[source]), href=f"numbers.md#source-{source}"),)
        for source in sorted(sources, key=lambda source: numbers.get(source, 0))
        if source in numbers
    ]
    return filled(say("Sources: {numbers}"), numbers=join(found)) if found else ()


def _sentences(figures: Figures, guide: DryingGuide) -> Iterator[str]:
    """Say one food's way through the kitchen, in the order it is done."""
    say = figures.say
    if guide.pieces_mm and guide.form == "layer":
        yield say("Spread it {thickness} thin.", thickness=_thick(figures, guide.pieces_mm))
    elif guide.pieces_mm:
        yield say("Cut it {thickness} thin.", thickness=_thick(figures, guide.pieces_mm))
    else:
        yield say(_LAID[guide.form])
    if guide.steam_min and guide.boil_min:
        yield say(
            "Blanch it {steam} in steam or {boil} in boiling water.",
            steam=_minutes(say, guide.steam_min),
            boil=_minutes(say, guide.boil_min),
        )
    elif guide.steam_min:
        yield say("Blanch it {steam} in steam.", steam=_minutes(say, guide.steam_min))
    if guide.heat_to_c:
        yield say(
            "Heat it to {temperature} all through before it goes in.",
            temperature=figures.least(guide.heat_to_c)[0].text,
        )
    if guide.method != "sun":
        yield say(
            "Dry it at {air} for {hours}.",
            air=figures.span(*guide.air_c, "temperature_c"),
            hours=figures.span(*guide.hours, "hours"),
        )
    elif guide.kind == "fruit":
        yield say(
            "Dry it in the sun for some days, or at {air} in a dryer.",
            air=figures.span(*guide.air_c, "temperature_c"),
        )
    else:
        yield say(
            "Not in the sun: dry it at {air} in a dryer.",
            air=figures.span(*guide.air_c, "temperature_c"),
        )


def _thick(figures: Figures, span_mm: Span) -> str:
    """Give a thickness: in millimetres, or in inches where the trip measures so."""
    say, (low, high) = figures.say, span_mm
    if figures.units == "us":
        inches = (rounded(end / _MM_PER_INCH, 2) for end in (low, high))
        low, high = inches
    unit = "in" if figures.units == "us" else "mm"
    return say("{low} to {high}", low=worked(say, low), high=worked(say, high, unit))


def _minutes(say: Speech, span_min: Span) -> str:
    """Give minutes with their halves, which blanching counts."""
    low, high = span_min
    if low == high:
        return worked(say, low, "min")
    return say("{low} to {high}", low=worked(say, low), high=worked(say, high, "min"))


def _notes(figures: Figures, topic: str) -> Iterator[str]:
    """Say what holds for all foods of a kind."""
    say = figures.say
    if topic == "warm-air":
        yield say(
            "The hours are for a dryer with a fan and trays that are not too full. Pieces twice "
            "as thick take up to four times as long; damp air takes longer too."
        )
    elif topic == "vegetable":
        yield say(
            "Blanching keeps colour and taste, and the food softens sooner in camp. Above "
            "{height} it takes a minute longer. Onion, garlic, mushrooms, peppers and tomatoes "
            "need none; what was cooked before needs none either.",
            height=figures.plain(BLANCH_LONGER_ABOVE_M, "altitude_m"),
        )
    elif topic == "fruit":
        low, high = CONDITIONING_DAYS
        yield say(
            "Condition the fruit: put it, cool and loose, into a jar two thirds full. Shake the "
            "jar every day for {low} to {high} days. Drops on the glass? Dry it again.",
            low=say.number(low),
            high=say.number(high),
        )
    elif topic == "jerky":
        yield from _jerky(figures)
    else:
        yield from _sun(figures)


def _jerky(figures: Figures) -> Iterator[str]:
    say = figures.say
    yield say(
        "Raw meat and fish: the dryer alone does not make them safe. Steam or simmer them to "
        "{meat} in the middle, poultry and game to {poultry}, and measure. Then dry them at once.",
        meat=figures.least(HEATED_BEFORE_DRYING_C)[0].text,
        poultry=figures.least(POULTRY_HEATED_BEFORE_DRYING_C)[0].text,
    )
    yield say(
        "Or dry meat at {air}, then put it at once for {time} into an oven of {oven}.",
        air=figures.span(*JERKY_WARM_AIR_C, "temperature_c"),
        time=figures.plain(JERKY_OVEN_MIN, "duration_min"),
        oven=figures.plain(JERKY_OVEN_C, "temperature_c"),
    )


def _sun(figures: Figures) -> Iterator[str]:
    say = figures.say
    yield say(
        "Sun: only fruit, on days of {air} and more with less than {humidity} humidity, covered "
        "against flies, and under a roof at night. Never meat, fish or vegetables.",
        air=figures.plain(SUN_AIR_C, "temperature_c"),
        humidity=figures.percent(SUN_HUMIDITY_SHARE),
    )
    yield say(
        "What lay in the sun may hold eggs of insects. Freeze it at {cold} or colder for {hours}, "
        "or heat it in an oven of {oven} for {time}.",
        cold=figures.plain(FREEZING_C, "temperature_c"),
        hours=figures.plain(FREEZING_H, "hours"),
        oven=figures.plain(PASTEURISING_C, "temperature_c"),
        time=figures.plain(PASTEURISING_MIN, "duration_min"),
    )


# -- freeze-drying --------------------------------------------------------------------------------


def _layers(say: Speech) -> Table:
    rows = []
    for thick in _LAYERS_MM:
        low, high = (rounded(hours) for hours in ice_gone_range_h(thick))
        hours = say("{low} to {high}", low=say.number(low), high=worked(say, high, "h"))
        rows.append((text(worked(say, thick, "mm")), text(hours)))
    return table((say("Layer"), say("Without ice after")), rows, "rr")


def _chamber(figures: Figures) -> Table:
    say = figures.say
    rows = []
    for pressure_pa in _CHAMBER_PA:
        millitorr = say.number(rounded(pressure_pa * _MILLITORR_PER_PA / 10) * 10)
        rows.append(
            (
                (
                    Piece(worked(say, pressure_pa, "Pa")),
                    Piece(" "),
                    Piece(f"{millitorr}\u00a0mTorr", small=True),
                ),
                figures.both(ice_temperature_c(pressure_pa), "temperature_c"),
            )
        )
    return table((say("In the chamber"), say("The ice is at")), rows, "rr")


def load_said(figures: Figures, load: DryerLoad, at: str) -> Cell:
    """Say how much of a dryer a load takes, how thick it lies, and what freezing it costs."""
    say = figures.say
    share = Piece(figures.percent(load.of_limit), href=figures.how(f"{at}.of_limit"))
    said = list(
        filled(
            say("{share} of what it takes at once ({dryer})"),
            share=(share,),
            dryer=text(load.dryer),
        )
    )
    if load.of_limit > 1:
        said = [Piece(say("TOO MUCH"), strong=True), Piece(": "), *said]
    for more in _layer_and_ice(figures, load, at):
        said += [Piece(". "), *more]
    return tuple(said)


def _layer_and_ice(figures: Figures, load: DryerLoad, at: str) -> Iterator[Cell]:
    say = figures.say
    if load.layer_mm:
        shown = worked(say, rounded(load.layer_mm), "mm")
        thick = (Piece(shown, href=figures.how(f"{at}.layer_mm")),)
        if load.ice_gone_h:
            low, high = (rounded(hours) for hours in load.ice_gone_h)
            yield filled(
                say(
                    "It lies about {thick} thick; in a laboratory the ice of such a slab is gone "
                    "after {low} to {high}"
                ),
                thick=thick,
                low=text(say.number(low)),
                high=text(worked(say, high, "h")),
            )
        else:
            yield filled(say("It lies about {thick} thick"), thick=thick)
    if load.freezing_kwh:
        energy = worked(say, rounded(load.freezing_kwh, 2), "kWh")
        yield filled(
            say("To freeze it the machine had to take out {energy} of heat"),
            energy=(Piece(energy, href=figures.how(f"{at}.freezing_kwh")),),
        )
