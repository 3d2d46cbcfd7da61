"""Amounts of a dish: by weight, by the mug, in pieces; beside a step and inside its words."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from builder.model.kit import PlannedIngredient, PlannedMeal
from builder.pages import words
from builder.pages.figures import Figures, worked
from builder.pages.pieces import Cell, Piece, Scale, Table, filled, table, text
from builder.pages.trip.dishes.plates import are_uneven
from builder.pages.trip.placing import raw
from builder.record import replace
from builder.speech import Speech
from builder.units import rounded

_NAMED = re.compile(r"<([a-z0-9-]+)>")


def amounts_of(figures: Figures, meal: PlannedMeal, at: str) -> Table:
    """Give what goes into a dish, for all and for each."""
    say = figures.say
    party = len(meal.eaters)
    rows: list[tuple[Cell, ...]] = []
    for place, each in enumerate(meal.ingredients):
        id_ = f"{at}.ingredients.{place}"
        name = text(each.name)
        if each.is_raw_animal:
            name = (*raw(say), *name)
        if each.packs:
            packs = say.count("{n} pack", "{n} packs", each.packs)
            name = (*name, Piece(" "), Piece(packs, small=True))
        if each.piece_g:
            pieces = replace(_by_eye(figures, each, each.amount_g, id_)[0], small=True)
            name = (*name, Piece(" "), *filled(say("pieces: {n}"), small=True, n=(pieces,)))
        one = figures.both(each.amount_g / party, "mass_g")[:1]
        rows.append((name, _amount(figures, each, id_), one))
    if meal.water_ml:
        first, *other = figures.scaled(meal.water_ml, "volume_ml", f"{at}.water_ml")
        spooned = figures.spooned(meal.water_ml, f"{at}.water_ml")
        in_mugs = [each for piece in spooned for each in (Piece(" "), replace(piece, small=True))]
        one = figures.both(meal.water_ml / party, "volume_ml")[:1]
        rows.append((text(say("Water, all together")), (first, *in_mugs, *other), one))
    if are_uneven(figures, meal):  # a mean for each would deny the shares beside it
        return table((say("What"), say("For all")), [row[:2] for row in rows], "lr")
    return table((say("What"), say("For all"), say("Each")), rows, "lrr")


def _amount(figures: Figures, each: PlannedIngredient, id_: str) -> Cell:
    """Give an amount: by weight, by the mug, and in the other units; pieces stand by the name."""
    first, *other = figures.scaled(each.amount_g, "mass_g", f"{id_}.amount_g")
    by_eye = () if each.piece_g else _by_eye(figures, each, each.amount_g, id_)
    small = tuple(replace(piece, small=True) for piece in by_eye)
    return (first, Piece(" "), *small, *other) if small else (first, *other)


def _by_eye(
    figures: Figures,
    each: PlannedIngredient,
    amount_g: float,
    id_: str,
    before: str = "",
    *,
    after: str = "",
) -> Cell:
    """Give an amount without scales: in pieces, mugs or spoons, where the food tells how."""
    if each.piece_g:
        return pieces_said(figures.say, amount_g / each.piece_g, id_ and f"{id_}.pieces")
    if each.density_g_ml:
        volume = id_ and f"{id_}.volume_ml"
        return figures.spooned(amount_g / each.density_g_ml, volume, before, after)
    return ()


def measure(
    figures: Figures, each: PlannedIngredient, amount_g: float, id_: str, name: str
) -> Cell:
    """Give what to measure out for a step: `240 g rice, 1 mug`."""
    first, *other = figures.scaled(amount_g, "mass_g", id_ and f"{id_}.amount_g", strong=True)
    by_eye = _by_eye(figures, each, amount_g, id_, ", ")
    if each.piece_g:
        by_eye = filled(figures.say(", pieces: {n}"), n=by_eye)
    mark = raw(figures.say) if each.is_raw_animal else ()
    return (*mark, first, Piece(f" {name}"), *by_eye, *other)


def ids_of(meal: PlannedMeal, at: str) -> Mapping[str, str]:
    """Give the address in kit.json of each ingredient."""
    return {each.id: f"{at}.ingredients.{place}" for place, each in enumerate(meal.ingredients)}


def part(amount: float, parts: int) -> float:
    """Give an amount, or what each gets of it."""
    return amount if parts == 1 else amount / parts


def pieces_said(say: Speech, pieces: float, figure: str) -> Cell:
    """Give how many pieces, to the tenth."""
    scale = Scale("count", pieces, figure, step="0.1") if figure else None
    return (Piece(worked(say, rounded(pieces, 1)), scale=scale),)


def ids_named(told: str) -> frozenset[str]:
    """Give the ingredients whose amounts stand in the recipe's own words."""
    return frozenset(_NAMED.findall(told))


def amount_inside(
    figures: Figures, each: PlannedIngredient, amount_g: float, id_: str, name: str
) -> Iterator[Piece]:
    """Give an amount inside a sentence, by weight and by eye: `240 g rice (1 mug)`."""
    yield figures.scaled(amount_g, "mass_g", id_ and f"{id_}.amount_g", strong=True)[0]
    yield Piece(f" {name}")
    if by_eye := _by_eye(figures, each, amount_g, id_, "(", after=")"):
        yield Piece(" ")
        yield from (filled(figures.say("(pieces: {n})"), n=by_eye) if each.piece_g else by_eye)


def recipe_said(
    figures: Figures, meal: PlannedMeal, told: str, parts: int, ids: Mapping[str, str]
) -> Cell:
    """Give the recipe's own words, with amount and name in place of each `<id>`.

    Quantities in them are told in both units.
    """
    known = {each.id: each for each in meal.ingredients}
    names = words.short_names(figures.say, meal.ingredients)
    pieces: list[Piece] = []
    end = 0
    for match in _NAMED.finditer(told):
        if each := known.get(match[1]):
            pieces += figures.told(told[end : match.start()])
            if each.is_raw_animal:
                pieces += raw(figures.say)
            amount_g, id_ = part(each.amount_g, parts), ids.get(each.id, "")
            pieces += amount_inside(figures, each, amount_g, id_, names[each.id])
            end = match.end()
    return (*pieces, *figures.told(told[end:])) if told else ()
