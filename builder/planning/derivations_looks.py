"""How the figures of the second looks came about."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from builder.formulas.embers import EMBER_KW_M2, PLATE_C
from builder.formulas.gas import BURNER_WANTS_KPA, CANISTER_COOLS_K
from builder.model.content import Content
from builder.model.gear import Iron
from builder.model.kit import Derivation, Input, Kit
from builder.model.looks import (
    ColdGas,
    DryerLoad,
    IronHeat,
    NeedMore,
    PackOxygen,
    PersonFood,
    SnowWork,
    Standing,
    UnderPressure,
)
from builder.model.trip import Trip
from builder.planning.cooking import Hearth
from builder.planning.looks import FIRM_SNOW_KG_M3, FLUFFY_SNOW_KG_M3
from builder.planning.stock import Judged
from builder.speech import Speech


def look_figures(
    say: Speech,
    kit: Kit,
    trip: Trip,
    content: Content,
    judged: Mapping[str, Judged],
    hearth: Hearth,
) -> Iterator[Derivation]:
    """Give the derivations of the second looks that a page shows as figures."""
    looks = kit.looks
    for number, person in enumerate(looks.people):
        yield _protein(say, f"looks.people.{number}", person, trip)
    for number, more in enumerate(looks.needs_more):
        yield _more(say, f"looks.needs_more.{number}", more, trip)
    for number, standing in enumerate(looks.standing):
        yield _standing(say, f"looks.standing.{number}", standing, kit)
    for number, snow in enumerate(looks.snow):
        yield _snow(say, f"looks.snow.{number}", snow)
    for number, oxygen in enumerate(looks.oxygen):
        yield _oxygen(say, f"looks.oxygen.{number}", oxygen, kit, judged, content)
    for number, load in enumerate(looks.loads):
        yield from _load(say, f"looks.loads.{number}", load, kit, judged, content)
    for number, gas in enumerate(looks.cold_gas):
        yield from _cold_gas(say, f"looks.cold_gas.{number}", gas, hearth)
    irons = [content.gear.irons[name] for name in trip.fire.irons] if trip.fire else []
    for number, iron in enumerate(looks.irons):
        yield _iron(say, f"looks.irons.{number}", iron, kit, irons)
    for number, pressure in enumerate(looks.pressure):
        yield _pressure(say, f"looks.pressure.{number}", pressure, kit, hearth)


def _protein(say: Speech, at: str, look: PersonFood, trip: Trip) -> Derivation:
    person = trip.person(look.name)
    return Derivation(
        f"{at}.protein_need_g",
        say("Protein that {name} needs in a day", name=look.name),
        look.protein_need_g,
        "g",
        say("0.83 · body mass, and what pregnancy and nursing add"),
        (Input(say("body mass"), person.mass_kg, "kg", str(person.places.record)),),
        ("efsa-protein-2012",),
    )


def _more(say: Speech, at: str, look: NeedMore, trip: Trip) -> Derivation:
    formulas = {
        "pregnant": say("the highest of the published additions for the last third"),
        "nursing": say("the highest of the published additions"),
        "cold": say("0.21 of the need, mean of the days with frost"),
        "height": say("0.10 of the basal rate from 3500 m, 0.28 from 4300 m, mean of those days"),
    }
    person = trip.person(look.name)
    return Derivation(
        f"{at}.kcal.1",
        say("What {name} may need more, at most", name=look.name),
        look.kcal[1],
        "kcal",
        formulas[look.why],
        (Input(say("days"), look.days, "", str(person.places.record)),),
        look.sources,
    )


def _standing(say: Speech, at: str, look: Standing, kit: Kit) -> Derivation:
    meal = next(
        each
        for each in kit.days[look.day - 1].meals
        if (each.meal, each.title) == (look.meal, look.title)
    )
    here, likely_c = meal.conditions, look.bare_c[1]
    cooled = (likely_c - here.air_low_c) / (here.boiling_point_c - here.air_low_c)
    return Derivation(
        f"{at}.bare_c.1",
        say("Heat left in {meal} after it stood, day {n}", meal=look.title, n=look.day),
        likely_c,
        "°C",
        say("air + (boiling point − air) · e^(−minutes / τ), τ = mass · specific heat / loss"),
        (
            Input(say("boiling point"), here.boiling_point_c, "°C", say("height of that camp")),
            Input(say("coldest air"), here.air_low_c, "°C", say("air of that camp")),
            Input(say("minutes"), look.minutes, "min", meal.place),
            Input("τ", look.minutes / -math.log(cooled), "min", say("size of the pot, and wind")),
        ),
        ("incropera", "siebel1892"),
    )


def _snow(say: Speech, at: str, look: SnowWork) -> Derivation:
    usual = say("usual for such snow")
    return Derivation(
        f"{at}.fluffy_l",
        say("Snow to melt, at most, day {n}", n=look.day),
        look.fluffy_l,
        "l",
        say("water / density of fluffy snow; firm snow takes less room"),
        (
            Input(say("all water"), look.water_ml, "ml", f"days.{look.day - 1}.water.total_ml"),
            Input(say("density of fluffy snow"), FLUFFY_SNOW_KG_M3, "kg/m³", usual),
            Input(say("density of firm snow"), FIRM_SNOW_KG_M3, "kg/m³", usual),
        ),
        ("ams-glossary", "paterson"),
    )


def _oxygen(
    say: Speech,
    at: str,
    look: PackOxygen,
    kit: Kit,
    judged: Mapping[str, Judged],
    content: Content,
) -> Derivation:
    number, batch = next(
        (number, each) for number, each in enumerate(kit.batches) if each.id == look.batch
    )
    packaging = content.gear.packaging[batch.packaging or ""]
    return Derivation(
        f"{at}.oxygen_ml",
        say("Oxygen in a pack of {batch}", batch=look.batch),
        look.oxygen_ml,
        "ml",
        say("0.2095 · (room − solids / 1.5 − water)"),
        (
            Input(say("room of a pack"), packaging.holds_ml or 0.0, "ml",
                  str(packaging.places.of("holds"))),
            Input(say("food in a pack"), batch.pack_g, "g", f"batches.{number}.pack_g"),
            Input(say("moisture"), judged[look.batch].residual_share, "",
                  f"batches.{number}.residual_moisture"),
        ),
        ("us-atmosphere-1976", "fellows"),
    )  # fmt: skip


def _load(
    say: Speech,
    at: str,
    look: DryerLoad,
    kit: Kit,
    judged: Mapping[str, Judged],
    content: Content,
) -> Iterator[Derivation]:
    batch = judged[look.batch].batch
    dryer = content.gear.dryers[batch.dryer or ""]
    number = next(number for number, each in enumerate(kit.batches) if each.id == look.batch)
    fresh = Input(say("fresh"), batch.fresh_g or 0.0, "g", str(batch.places.of("fresh")))
    takes = Input(say("dryer takes"), dryer.load_g, "g", str(dryer.places.of("load")))
    ice = (
        Input(say("water drawn out"), kit.batches[number].water_removed_g, "g",
              f"batches.{number}.water_removed_g"),
        Input(say("dryer takes as ice"), dryer.ice_g or 0.0, "g", str(dryer.places.of("ice"))),
    )  # fmt: skip
    yield Derivation(
        f"{at}.of_limit",
        say("How full {dryer} was with {batch}", dryer=look.dryer, batch=look.batch),
        look.of_limit,
        "",
        say("the larger of fresh / load and water / ice") if dryer.ice_g else say("fresh / load"),
        (fresh, takes, *(ice if dryer.ice_g else ())),
        ("common-practice",),
    )
    if look.layer_mm:
        density = judged[look.batch].substance.density_g_ml or 0.0
        yield Derivation(
            f"{at}.layer_mm",
            say("How thick {batch} lies in {dryer}", dryer=look.dryer, batch=look.batch),
            look.layer_mm,
            "mm",
            say("10 · fresh / density / area of the trays"),
            (
                fresh,
                Input(say("density"), density, "g/ml", say("food list")),
                Input(say("area of the trays"), dryer.trays_cm2 or 0.0, "cm²",
                      str(dryer.places.of("trays"))),
            ),
            ("common-practice",),
        )  # fmt: skip
    if look.freezing_kwh:
        yield Derivation(
            f"{at}.freezing_kwh",
            say("Heat that freezing {batch} takes out", batch=look.batch),
            look.freezing_kwh,
            "kWh",
            say("fresh · (warmth above 0 °C + 333.55 · water + cold below 0 °C) / 3600"),
            (
                fresh,
                Input(say("loaded at"), batch.loaded_at_c or 0.0, "°C",
                      str(batch.places.of("loaded_at"))),
            ),
            ("siebel1892",),
        )  # fmt: skip


def _cold_gas(say: Speech, at: str, look: ColdGas, hearth: Hearth) -> Iterator[Derivation]:
    fuel = hearth.fuel
    mix = ", ".join(f"{gas} {say.show(share, 'share')}" for gas, share in fuel.mix) if fuel else ""
    origin = str(fuel.places.of("mix")) if fuel else ""
    can = Input(
        say("can, colder than the coldest air"),
        look.air_low_c - CANISTER_COOLS_K,
        "°C",
        say("air of that camp"),
    )
    gases = Input(say("gases by mass"), mix, "", origin)
    yield Derivation(
        f"{at}.can_kpa",
        say("Pressure in a full can, day {n}", n=look.day),
        look.can_kpa,
        "kPa",
        say("sum over the gases: share of the moles · vapour pressure"),
        (gases, can),
        ("reid1987",),
    )
    if not look.usable_share:
        return
    yield Derivation(
        f"{at}.usable_share",
        say("What a full can gives, day {n}", n=look.day),
        look.usable_share,
        "",
        say("the share burnt after which what is left has only the wanted pressure"),
        (
            gases,
            can,
            Input(
                say("wanted: air outside and {kpa} more", kpa=say.number(BURNER_WANTS_KPA)),
                look.wanted_kpa,
                "kPa",
                say("height of that camp"),
            ),
        ),
        ("reid1987", "common-practice"),
    )


def _iron(say: Speech, at: str, look: IronHeat, kit: Kit, irons: list[Iron]) -> Derivation:
    meal = kit.days[look.day - 1].meals[look.place]
    told = [each for each in irons if each.face_cm2]
    return Derivation(
        f"{at}.heats_min.1",
        say("Irons for {meal} get hot, at most, day {n}", meal=meal.title, n=look.day),
        look.heats_min[1],
        "min",
        say("mass · 0.46 · ({plate} − air) / (heat of dull embers · face) / 60, the slowest iron",
            plate=say.number(PLATE_C)),
        (
            *(Input(each.name, each.mass_g, "g", str(each.places.of("mass"))) for each in told),
            *(
                Input(each.name, each.face_cm2 or 0.0, "cm²", str(each.places.of("face")))
                for each in told
            ),
            Input(say("heat of dull embers"), EMBER_KW_M2[0], "kW/m²", "common-practice"),
            Input(say("coldest air"), meal.conditions.air_low_c, "°C", say("air of that camp")),
        ),
        ("crc-handbook", "common-practice"),
    )  # fmt: skip


def _pressure(say: Speech, at: str, look: UnderPressure, kit: Kit, hearth: Hearth) -> Derivation:
    meal = kit.days[look.day - 1].meals[look.place]
    pot = next(each for each in hearth.pots if each.id == meal.pot)
    return Derivation(
        f"{at}.minutes",
        say("Simmering {meal} under pressure, day {n}", meal=meal.title, n=look.day),
        look.minutes,
        "min",
        say("minutes at sea level · 10^((99.97 − T) / z), z by what takes longest"),
        (
            Input(say("minutes at sea level"), meal.steps[look.step].minutes_at_sea_level, "min",
                  meal.place),
            Input(say("pressure of the cooker"), pot.gauge_kpa or 0.0, "kPa",
                  str(pot.places.of("pressure"))),
            Input(say("boiling point T"), look.boils_c, "°C", say("height of that camp")),
        ),
        ("iapws-if97", "mansfield1962"),
    )  # fmt: skip
