"""What it takes to make a day's water safe, and how much snow it is melted from."""

from __future__ import annotations

from builder.formulas.boiling import boil_hold_min
from builder.formulas.cookware import SNOW_KG_M3, snow_l, snow_potfuls
from builder.formulas.treatment import bleach_drops, contact_min, strict_boil_min
from builder.model.figure import largest, named, none, smallest
from builder.model.kit import Conditions, WaterDay, is_treated
from builder.model.looks import SnowWork, Treating
from builder.planning.cooking import Hearth
from builder.planning.tracing import count, work

# Plain household bleach, 5 to 6 % (read in a copy: EPA gives the same drops for both).
BLEACH_SHARE = named(0.06, "bleach_share", "epa-emergency-disinfection")
COLD_WATER_C = 10.0
WARMEST_WATER_C = named(50.0, "warmest_water_c", "epa-emergency-disinfection")
# The ends one meets: packed by wind, and newly fallen.
FIRM_SNOW_KG_M3 = named(SNOW_KG_M3["wind-packed"][0], "firm_snow_kg_m3", "paterson")
FLUFFY_SNOW_KG_M3 = named(70.0, "fluffy_snow_kg_m3", "ams-glossary")
_A_LITRE_ML = named(1000.0, "a_litre_ml", "epa-emergency-disinfection")


def treating(at: Conditions, water: WaterDay) -> Treating | None:
    """Say what treating the water of a day takes, chemically or by boiling."""
    if at.treat not in ("chemical", "boil") or not is_treated(at, water):
        return None
    cold = at.water_c < COLD_WATER_C
    return Treating(
        drops_per_litre=count(bleach_drops, _A_LITRE_ML, BLEACH_SHARE, cold),
        cold=cold,
        contact_min=work(contact_min, "chlorine", smallest(at.water_c, WARMEST_WATER_C)),
        boil_min=work(boil_hold_min, at.altitude_m),
        strict_boil_min=work(strict_boil_min, at.altitude_m),
    )


def snow_work(at: Conditions, water: WaterDay, hearth: Hearth) -> SnowWork | None:
    """Say how much snow the water of a day takes; None where it is not melted."""
    if at.water_source != "snow":
        return None
    water_ml = water.total_ml
    rooms = [pot.room_ml for pot in hearth.pots if pot.room_ml]
    firm, fluffy = (
        count(snow_potfuls, water_ml, density, largest(*rooms)) if rooms else none("potfuls")
        for density in (FIRM_SNOW_KG_M3, FLUFFY_SNOW_KG_M3)
    )
    return SnowWork(
        firm_l=work(snow_l, water_ml, FIRM_SNOW_KG_M3),
        fluffy_l=work(snow_l, water_ml, FLUFFY_SNOW_KG_M3),
        potfuls_firm=firm,
        potfuls_fluffy=fluffy,
    )
