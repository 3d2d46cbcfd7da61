"""Reads stoves, fuels, pots, irons, packaging and dryers."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import cast

from builder.model.batch import METHODS, Method
from builder.model.figure import Figure, Told, nothing
from builder.model.gear import (
    BARRIERS,
    FUEL_KINDS,
    GASES,
    MATERIALS,
    Barrier,
    Container,
    Dryer,
    Fuel,
    FuelKind,
    Iron,
    Material,
    Packaging,
    Pot,
    Stove,
    StoveTest,
)
from builder.reading.fields import Fields, told_name
from builder.reading.plausible import check_container, check_fuel_energy
from builder.reading.usual import USUAL
from builder.reading.yaml_door import quoted
from builder.units import QuantityError, range_like, read_quantity

_TEST = re.compile(r"(?P<water>.+?) from (?P<cold>.+?) with (?P<fuel>.+?)(?: at (?P<height>.+?))?")

_TEST_PARTS = {
    "water": "volume_ml",
    "cold": "water_c",
    "fuel": "mass_g",
    "height": "altitude_m",
}

MIX_SUM_MAY_BE_OFF = 0.011  # labels print whole percent


def read_stove(fields: Fields) -> Stove | None:
    """Read a stove; None where it has errors."""
    if not fields.has("efficiency") and not fields.has("boiled") and fields.node.is_map:
        fields.problem(
            fields.node.place,
            "missing",
            "this stove tells neither its `efficiency` nor a test of your own",
            "write `efficiency: 55 %`, or what it boiled: `boiled: 1 l from 9 degC with 14 g`",
        )
    stove = Stove(
        id=fields.id(),
        name=fields.line("name", required=True),
        burns=fields.line("burns", required=True, example="gas-mix"),
        power_w=fields.quantity("power", "power_w", required=True, positive=True, default=1.0),
        efficiency_share=fields.maybe_quantity("efficiency", "share", positive=True),
        mass_g=fields.quantity("mass", "mass_g", required=True),
        lowest_w=fields.quantity("lowest", "power_w"),
        liquid_feed=fields.flag("liquid_feed"),
        test=read_stove_test(fields),
        places=fields.places(),
    )
    if fields.has("power") and stove.lowest_w > stove.power_w:
        fields.problem(
            fields.place("lowest"),
            "lowest",
            f"lowest: {stove.lowest_w:g} W is more than the power of {stove.power_w:g} W",
            "write how small the flame can be turned, or swap the two",
        )
    return stove if fields.done() else None


def read_stove_test(fields: Fields) -> StoveTest | None:
    """Read one's own test, such as `boiled: 1 l from 9 degC with 14 g at 640 m`."""
    node = fields.value("boiled")
    if node is None:
        return None
    match = _TEST.fullmatch(fields.text_of(node, "boiled"))
    if match is None:
        fields.problem(
            node.place,
            "stove-test",
            f"boiled: {node.described()} tells no test",
            "write `boiled: 1 l from 9 degC with 14 g`, and the height where it was: `at 640 m`",
        )
        return None
    read: dict[str, float] = {}
    for part, quantity in _TEST_PARTS.items():
        text, name = match[part], told_name(part, quantity)
        if not text:  # where no height is told
            read[part] = nothing(name, "not told")
            continue
        try:
            read[part] = Figure(read_quantity(text, quantity), Told(node.place, name))
        except QuantityError as error:
            fields.problem(node.place, error.kind, f"boiled: {error.says}", error.mend)
            return None
        among = USUAL["stove test", part]
        shown = range_like(text, quantity, *among.usual)
        fields.judge(among, read[part], node.place, f"boiled: {quoted(text)}", shown)
    return StoveTest(read["water"], read["cold"], read["fuel"], read["height"])


def read_fuel(fields: Fields) -> Fuel | None:
    """Read a fuel; None where it has errors."""
    containers = []
    for node in fields.list("containers"):
        record = Fields(node, fields.problems, "container")
        container = Container(
            holds_g=record.quantity("holds", "mass_g", required=True, positive=True),
            empty_g=record.quantity("empty", "mass_g"),
        )
        check_container(record, container)
        containers.append(container)
        record.done()
    mix = []
    record_mix = fields.record("mix", "gas mix")
    if record_mix is not None:
        for gas in GASES:
            share = record_mix.quantity(gas, "share")
            if share:
                mix.append((gas, share))
        if record_mix.done() and abs(sum(share for _, share in mix) - 1) > MIX_SUM_MAY_BE_OFF:
            total = sum(share for _, share in mix) * 100
            record_mix.problem(
                record_mix.node.place,
                "mix-sum",
                f"the gases add up to {total:.0f} %",
                "make them add up to 100 %",
            )
    energy_mj_kg = fields.maybe_quantity("energy", "energy_mj_kg", required=True, positive=True)
    fuel = Fuel(
        id=fields.id(),
        name=fields.line("name", required=True),
        kind=cast(FuelKind, fields.choice("kind", FUEL_KINDS, required=True)),
        energy_mj_kg=energy_mj_kg or 1.0,
        containers=tuple(containers),
        mix=tuple(mix),
        lights_from_c=fields.maybe_quantity("lights_from", "temperature_c"),
        places=fields.places(),
    )
    if fuel.kind and energy_mj_kg is not None:
        check_fuel_energy(fields, fuel.kind, energy_mj_kg)
    return fuel if fields.done() else None


def read_pot(fields: Fields) -> Pot | None:
    """Read a pot; None where it has errors."""
    pot = Pot(
        id=fields.id(),
        name=fields.line("name", required=True),
        holds_ml=fields.quantity("holds", "volume_ml", required=True, positive=True, default=1.0),
        mass_g=fields.quantity("mass", "mass_g", required=True),
        material=cast(Material, fields.choice("material", MATERIALS, required=True)),
        fill_share=fields.quantity("fill_to", "share", default=0.75, positive=True),
        loss_at_boil_w=fields.quantity("loss_at_boil", "power_w", default=100.0),
        gauge_kpa=fields.maybe_quantity("pressure", "gauge_kpa", positive=True),
        places=fields.places(),
    )
    return pot if fields.done() else None


def read_iron(fields: Fields) -> Iron | None:
    """Read a campfire iron; None where it has errors."""
    iron = Iron(
        id=fields.id(),
        name=fields.line("name", required=True),
        mass_g=fields.quantity("mass", "mass_g", required=True),
        presses=fields.count("presses", default=1, at_least=1),
        material=cast(Material, fields.choice("material", MATERIALS, default="cast-iron")),
        face_cm2=fields.maybe_quantity("face", "area_cm2", positive=True),
        places=fields.places(),
    )
    return iron if fields.done() else None


def read_packaging(fields: Fields) -> Packaging | None:
    """Read a kind of packaging; None where it has errors."""
    packaging = Packaging(
        id=fields.id(),
        name=fields.line("name", required=True),
        mass_g=fields.quantity("mass", "mass_g", required=True),
        barrier=cast(Barrier, fields.choice("barrier", BARRIERS, required=True)),
        holds_ml=fields.maybe_quantity("holds", "volume_ml", positive=True),
        places=fields.places(),
    )
    return packaging if fields.done() else None


def read_dryer(fields: Fields) -> Dryer | None:
    """Read a dryer; None where it has errors."""
    dryer = Dryer(
        id=fields.id(),
        name=fields.line("name", required=True),
        method=cast(
            Method,
            fields.choice("method", [m for m in METHODS if m != "bought"], required=True),
        ),
        load_g=fields.quantity("load", "mass_g", required=True, positive=True),
        hours=fields.number("hours", required=True, more_than=0, at_most=500),
        ice_g=fields.maybe_quantity("ice", "mass_g", positive=True),
        trays_cm2=fields.maybe_quantity("trays", "area_cm2", positive=True),
        places=fields.places(),
    )
    return dryer if fields.done() else None


SECTIONS: dict[str, Callable[[Fields], object | None]] = {
    "stoves": read_stove,
    "fuels": read_fuel,
    "pots": read_pot,
    "irons": read_iron,
    "packaging": read_packaging,
    "dryers": read_dryer,
}
