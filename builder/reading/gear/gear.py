"""What one cooks with: the keys of stoves, fuels, pots and irons."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated

from builder.model.gear import (
    FUEL_KINDS,
    GASES,
    MATERIALS,
    Container,
    Fuel,
    FuelKind,
    Iron,
    Material,
    Pot,
    Stove,
    StoveTest,
)
from builder.model.place import Place
from builder.problems import Problem
from builder.reading.checks.plausible import check_container, check_fuel_energy
from builder.reading.declared.declaring import Check, Here, Record, key
from builder.reading.declared.measures import Quantity, count
from builder.reading.declared.vocabulary import Choice, Flag, Id, Items, Line
from builder.reading.declared.which_keys import at_least_one
from builder.reading.gear.stove_tests import BoilingTest
from builder.reading.notes import Notes, refuse
from builder.reading.text.yaml_door import Node

MIX_SUM_MAY_BE_OFF = 0.011  # labels print whole percent


class WrittenGear(Record):
    """A thing that has an id, of which planning's record can be made."""

    def made(self) -> object:
        """Give what planning reckons with."""
        raise NotImplementedError


def _the_flame_turns_down(here: Here) -> None:
    power_w = here.above.get("power")
    if power_w is not None and here.value > power_w:
        refuse(
            "lowest",
            f"lowest: {here.value:g} W is more than the power of {power_w:g} W",
            "write how small the flame can be turned, or swap the two",
        )


class WrittenStove(
    WrittenGear, title="stove", json_schema_extra=at_least_one("efficiency", "boiled")
):
    """A burner."""

    id: Annotated[str, Id()] = key("By which trips name it.", required=True, example="top-burner")
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Small gas burner"
    )
    burns: Annotated[str, Line()] = key(
        "The id of its fuel.", required=True, example="gas-mix", stub="gas-mix"
    )
    power: Annotated[float, Quantity("power_w", positive=True)] = key(
        "Its heat at full flame.", required=True, example="2600 W"
    )
    lowest: Annotated[float, Quantity("power_w"), Check(_the_flame_turns_down)] = key(
        "Its heat at the smallest flame.", default="0 W", example="500 W"
    )
    efficiency: Annotated[float | None, Quantity("share", positive=True)] = key(
        "The share of its heat that reaches the pot; needed where no `boiled` tells it.",
        example="55 %",
    )
    boiled: Annotated[StoveTest | None, BoilingTest()] = key(
        "Your own test, which goes before the efficiency.",
        example="1 l from 9 degC with 14 g at 640 m",
    )
    mass: Annotated[float, Quantity("mass_g")] = key(
        "What it weighs.", required=True, example="75 g"
    )
    liquid_feed: Annotated[bool, Flag()] = key(
        "Whether the canister stands upside down, so that cold gas reaches it.",
        default=False,
        example="true",
    )

    @classmethod
    def amiss_among(cls, told: Mapping[str, Node], place: Place, notes: Notes) -> Iterator[Problem]:
        """Ask for the efficiency, or a test that tells it."""
        if not {"efficiency", "boiled"} & told.keys():
            says = "this stove tells neither its `efficiency` nor a test of your own"
            mend = (
                "write `efficiency: 55 %`, or what it boiled: `boiled: 1 l from 9 degC with 14 g`"
            )
            yield Problem(place, "missing", says, mend)

    def made(self) -> Stove:
        """Give what planning reckons with."""
        return Stove(
            id=self.id,
            name=self.name,
            burns=self.burns,
            power_w=self.power,
            efficiency_share=self.efficiency,
            mass_g=self.mass,
            lowest_w=self.lowest,
            liquid_feed=self.liquid_feed,
            test=self.boiled,
            places=self.places(),
        )


def _a_container_weighs_what_such_weigh(here: Here) -> None:
    holds_g = here.above.get("holds")
    if holds_g:
        check_container(here.judging(here.value), holds_g, here.value)


class WrittenContainer(Record, title="container"):
    """A size in which a fuel is sold or carried."""

    holds: Annotated[float, Quantity("mass_g", positive=True)] = key(
        "The fuel in it.", required=True, example="230 g"
    )
    empty: Annotated[float, Quantity("mass_g"), Check(_a_container_weighs_what_such_weigh)] = key(
        "What it weighs empty.", default="0 g", example="150 g"
    )


class WrittenMix(Record, title="gas mix"):
    """The mass share of each gas; they add up to 100 %."""

    propane: Annotated[float, Quantity("share")] = key("Propane.", default="0 %", example="30 %")
    isobutane: Annotated[float, Quantity("share")] = key(
        "Isobutane.", default="0 %", example="20 %"
    )
    butane: Annotated[float, Quantity("share")] = key("Butane.", default="0 %", example="50 %")

    def shares(self) -> tuple[tuple[str, float], ...]:
        """Give each gas that is in it, with its share."""
        shares = ((gas, getattr(self, gas)) for gas in GASES)
        return tuple((gas, share) for gas, share in shares if share)


def _the_gases_add_up(here: Here) -> None:
    total_share = sum(share for _, share in here.value.shares())
    if abs(total_share - 1) > MIX_SUM_MAY_BE_OFF:
        says = f"the gases add up to {total_share * 100:.0f} %"
        refuse("mix-sum", says, "make them add up to 100 %")


def _a_fuel_gives_what_its_kind_gives(here: Here) -> None:
    kind: FuelKind | None = here.above.get("kind")
    if kind is not None:
        check_fuel_energy(here.judging(here.value), kind, here.value)


class WrittenFuel(WrittenGear, title="fuel"):
    """What a stove burns."""

    id: Annotated[str, Id()] = key("By which stoves name it.", required=True, example="gas-mix")
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Propane-butane mix"
    )
    kind: Annotated[FuelKind, Choice(FUEL_KINDS)] = key("What it is.", required=True, example="gas")
    energy: Annotated[
        float,
        Quantity("energy_mj_kg", positive=True),
        Check(_a_fuel_gives_what_its_kind_gives),
    ] = key("Its heating value, net.", required=True, example="45.8 MJ/kg")
    mix: Annotated[WrittenMix | None, Check(_the_gases_add_up)] = key(
        "Which gases are in it.", example="{propane: 30 %, butane: 70 %}"
    )
    lights_from: Annotated[float | None, Quantity("temperature_c")] = key(
        "Its flash point: the coldest at which a match lights it.", example="38 degC"
    )
    containers: Annotated[tuple[WrittenContainer, ...], Items()] = key(
        "The sizes in which you can carry it.",
        default=(),
        example="[{holds: 230 g, empty: 150 g}]",
    )

    def made(self) -> Fuel:
        """Give what planning reckons with."""
        return Fuel(
            id=self.id,
            name=self.name,
            kind=self.kind,
            energy_mj_kg=self.energy,
            containers=tuple(Container(each.holds, each.empty) for each in self.containers),
            mix=self.mix.shares() if self.mix else (),
            lights_from_c=self.lights_from,
            places=self.places(),
        )


class WrittenPot(WrittenGear, title="pot"):
    """A pot."""

    id: Annotated[str, Id()] = key("By which trips name it.", required=True, example="pot-2l")
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Two-litre pot"
    )
    holds: Annotated[float, Quantity("volume_ml", positive=True)] = key(
        "What it holds to the brim.", required=True, example="2 l"
    )
    fill_to: Annotated[float, Quantity("share", positive=True)] = key(
        "How full it may be.", default="75 %", example="75 %"
    )
    mass: Annotated[float, Quantity("mass_g")] = key(
        "What it weighs.", required=True, example="240 g"
    )
    material: Annotated[Material, Choice(MATERIALS)] = key(
        "What it is made of.", required=True, example="aluminium"
    )
    loss_at_boil: Annotated[float, Quantity("power_w")] = key(
        "The heat it loses while it boils.", default="100 W", example="100 W"
    )
    pressure: Annotated[float | None, Quantity("gauge_kpa", positive=True)] = key(
        "What a pressure cooker holds above the air outside; tells how long a simmer with the lid "
        "on takes in it.",
        example="0.8 bar",
    )
    diameter: Annotated[float | None, Quantity("length_cm", positive=True)] = key(
        "How wide its bottom is; tells how many embers a cast-iron pot is baked in.",
        example="18 cm",
    )

    def made(self) -> Pot:
        """Give what planning reckons with."""
        return Pot(
            id=self.id,
            name=self.name,
            holds_ml=self.holds,
            mass_g=self.mass,
            material=self.material,
            fill_share=self.fill_to,
            loss_at_boil_w=self.loss_at_boil,
            gauge_kpa=self.pressure,
            diameter_cm=self.diameter,
            places=self.places(),
        )


class WrittenIron(WrittenGear, title="iron"):
    """A campfire iron."""

    id: Annotated[str, Id()] = key("By which trips name it.", required=True, example="square-iron")
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Square iron"
    )
    presses: Annotated[int, count(at_least=1)] = key(
        "How many fillings it takes at once.", default=1, example="1"
    )
    mass: Annotated[float, Quantity("mass_g")] = key(
        "What it weighs.", required=True, example="1.9 kg"
    )
    material: Annotated[Material, Choice(MATERIALS)] = key(
        "What it is made of.", default="cast-iron", example="cast-iron"
    )
    face: Annotated[float | None, Quantity("area_cm2", positive=True)] = key(
        "The area of one plate; tells how long a cast-iron one heats up.", example="140 cm2"
    )

    def made(self) -> Iron:
        """Give what planning reckons with."""
        return Iron(
            id=self.id,
            name=self.name,
            mass_g=self.mass,
            presses=self.presses,
            material=self.material,
            face_cm2=self.face,
            places=self.places(),
        )
