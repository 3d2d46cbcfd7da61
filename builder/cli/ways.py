"""The ways to dry a food, side by side: `tripkit ways`."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.base import json_option, main, refuse_unknown, say_problems
from builder.cli.places import content_option, place_asked, read_place
from builder.cli.told import read_mass
from builder.clock import today
from builder.model.batch import UNTOLD_KEPT_AT_C
from builder.problems import counted, errors, in_order

if TYPE_CHECKING:
    from builder.planning.ways import Pays, Way, Ways

NOT_TOLD = "not told"


@main.command()
@click.argument("food")
@click.argument("mass")
@content_option
@json_option
def ways(food: str, mass: str, content: Path | None, as_json: bool) -> None:
    """Tell the ways to dry FOOD, side by side. MASS goes into the dryer, peeled and cored.

    A dryer at home stands for its way; where none does, one of the usual gear. Prices are those
    that you wrote: `price:` of foods, packaging and dryers, `dried_price:` of foods, and
    `electricity:` of home.yaml. A price that is missing is shown as missing, and never counts as 0.

    \b
    For example:
      tripkit ways apple-raw "3 kg"
    """
    from builder.planning.stock import check as check_content
    from builder.planning.ways import ways_to_dry

    folder = read_place(place_asked(content))
    known = folder.content
    refuse_unknown("food", food, [*known.foods, *known.recipes])
    fresh_g = read_mass("MASS", mass)
    if fresh_g <= 0:
        raise click.BadParameter("it must be above nothing", param_hint="MASS")
    stock, problems = check_content(known)
    say_problems(in_order([*folder.problems, *problems]))
    found = ways_to_dry(food, fresh_g, known, stock, today())
    if as_json:
        click.echo(json.dumps(found.data(), indent=2))
    else:
        for line in _lines(found):
            click.echo(line)
    if errors(problems) or errors(folder.problems):
        sys.exit(1)


def _lines(found: Ways) -> Iterator[str]:
    from builder.units import show

    yield f"{found.name}, {show(found.fresh_g, 'mass_g')} into the dryer"
    for way in found.ways:
        yield ""
        yield from _way_lines(way, found.currency)
    told = [each for each in found.pays if each.runs is not None or not each.not_told]
    if told:
        yield ""
    names = {way.dryer: way.dryer_name for way in found.ways}
    for each in told:
        yield _pays_line(each, names)


def _way_lines(way: Way, currency: str) -> Iterator[str]:
    from builder.speech import with_capital
    from builder.units import show

    yield with_capital(way.dryer_name)
    yield f"    dried:         {show(way.dried_g, 'mass_g')}"
    yield f"    room:          {_shown(way.room_ml, 'volume_ml')}"
    if way.water_back_ml is not None:
        back = f"    water back:    {show(way.water_back_ml, 'volume_ml')}"
        if way.takes_up_share is not None:
            back += f"; of what it lost {way.takes_up_share:.0%} comes back"
        yield back
    if way.soak_min:
        yield f"    soaks:         {way.soak_min[0]:g} to {way.soak_min[1]:g} min"
    if way.hours is not None and way.runs is not None:
        yield f"    dries:         {counted(way.runs, 'run')} of {way.hours:g} h"
    if way.energy_kwh is not None:
        yield f"    current:       {way.energy_kwh:.1f} kWh"
    yield from _money_lines(way, currency)
    if way.method != "bought":
        until = way.keeps_until.isoformat() if way.keeps_until else "not to be kept"
        if way.keeps_until and not way.kept_at_told:
            until += f" if kept at {show(UNTOLD_KEPT_AT_C, 'temperature_c')} (not told)"
        yield f"    keeps until:   {until}"
    if way.heat_first_c is not None:
        heat = show(way.heat_first_c, "temperature_c")
        yield f"    first:         heat it to {heat} in the middle; the date rests on that"
    if way.vitamin_c:
        kept = way.vitamin_c
        yield (
            f"    vitamin C:     {kept.least_share:.0%} to {kept.most_share:.0%} is left "
            f"({kept.source})"
        )
    for text in way.cannot:
        yield f"    mind:          {text}"


def _money_lines(way: Way, currency: str) -> Iterator[str]:
    money = f" {currency}" if currency else ""
    if way.cost is None or way.portion_cost is None:
        yield f"    costs:         {NOT_TOLD} ({', '.join(way.not_told)})"
    else:
        yield f"    costs:         {way.cost:.2f}{money}, a portion {way.portion_cost:.2f}{money}"


def _shown(value: float | None, quantity: str) -> str:
    from builder.units import show

    return NOT_TOLD if value is None else show(value, quantity)


def _pays_line(each: Pays, names: dict[str | None, str]) -> str:
    own = names.get(each.dryer, each.dryer)
    other = "buying dried" if each.against == "bought" else names.get(each.against, each.against)
    if each.runs is None:
        return f"{own} never pays against {other}"
    years = "" if each.years is None else f", {each.years:.1f} years"
    return f"{own} has paid against {other} after {counted(each.runs, 'run')}{years}"
