"""A small made-up kit by hand: two days, two people, a pot, an iron, and a bag of nuts."""

from __future__ import annotations

import datetime

from builder.model.batch import Weighing
from builder.model.gear import Iron, StoveTest
from builder.model.kit import (
    Carried,
    Conditions,
    ContainerCount,
    DryingRun,
    FuelDay,
    Kit,
    KitBatch,
    KitCaution,
    KitDay,
    KitFuel,
    KitPerson,
    KitStove,
    NutritionTotals,
    PersonDay,
    PersonLoad,
    PlannedIngredient,
    PlannedMeal,
    PlannedStep,
    Refused,
    ShoppingLine,
    StockProposal,
    WaterDay,
    WaterHeating,
    Weights,
)
from builder.model.looks import (
    ColdGas,
    DryerLoad,
    DryingGuide,
    EnergyLook,
    IronHeat,
    KeepsHot,
    MealLabel,
    NeedMore,
    PackOxygen,
    PersonFood,
    SnowWork,
    Soaking,
    Sweating,
    Treating,
)
from builder.model.source import CautionText, Source
from builder.model.trip import DefaultUsed, Travel
from builder.planning.cooking.hearth import Burner, Hearth
from builder.planning.cooking.order_of_work import orders_of_work
from builder.planning.menu import eaten_kcal
from builder.record import replace

IRONS = (Iron("iron", "iron", 1500.0, presses=2),)
HEARTH = Hearth(Burner("stove", 2600, 500, 0.55), (), (), IRONS, 14.0)
START = datetime.date(2031, 9, 4)
LOW_CAMP = Conditions(640, 938.8, 97.85, 1.16, 4, 16, "sheltered", "stream", "chemical", 8)
HIGH_CAMP = Conditions(1900, 805.0, 93.65, 1.55, -2, 9, "breezy", "snow", "boil", 0)


def ingredient(item: str, name: str, amount_g: float, **more: object) -> PlannedIngredient:
    """Give an ingredient with usual values for all that is not told."""
    given: dict[str, object] = {
        "id": item,
        "name": name,
        "food": item,
        "recipe": None,
        "amount_g": amount_g,
        "dried_by": None,
        "batch": None,
        "packs": 0,
        "density_g_ml": None,
        "piece_g": None,
        "is_raw_animal": False,
        "energy_kcal": 3.5 * amount_g,
        "water_ml": 0.1 * amount_g,
    }
    return PlannedIngredient(**{**given, **more})  # type: ignore[arg-type]


def step(do: str, *ingredients: PlannedIngredient, **more: object) -> PlannedStep:
    """Give a step with nothing in it but what is told."""
    given: dict[str, object] = {
        "do": do,
        "ingredients": ingredients,
        "water_ml": 0.0,
        "minutes": 0.0,
        "minutes_at_sea_level": 0.0,
        "stir": False,
        "lid": False,
        "hot": False,
        "say": "",
        "each_side_min": 0.0,
        "presses": 0,
        "pieces": 0.0,
    }
    return PlannedStep(**{**given, **more})  # type: ignore[arg-type]


def meal(when: str, title: str, *ingredients: PlannedIngredient, **more: object) -> PlannedMeal:
    """Give a meal for both, with nothing cooked but what is told."""
    mass_g = sum(each.amount_g for each in ingredients)
    given: dict[str, object] = {
        "meal": when,
        "title": title,
        "recipe": None,
        "food": None,
        "eaters": ("Ash", "Rowan"),
        "heads": 2.0,
        "plate_shares": (0.45, 0.55),
        "cook_in": None,
        "conditions": LOW_CAMP,
        "cooked_on": None,
        "pot": None,
        "ingredients": ingredients,
        "steps": (),
        "mass_g": mass_g,
        "packaging_g": 7.0,
        "nutrition": NutritionTotals(3.5 * mass_g, 40, 30, 0.5 * mass_g, 12, 800),
        "water_ml": 0.0,
        "soak_water_ml": 0.0,
        "unboiled_water_ml": 0.0,
        "food_water_ml": 0.1 * mass_g,
        "drain_ml": 0.0,
        "potfuls": 0,
        "presses": 0,
        "heat_kj": 0.0,
        "fuel_heat_kj": 0.0,
        "wood_g": 0.0,
        "minutes": 0.0,
        "reach_c": None,
        "serves": 2.0,
        "note": "",
        "place": "trips/sample.yaml:20",
    }
    return PlannedMeal(**{**given, **more})  # type: ignore[arg-type]


def bean_pot() -> PlannedMeal:
    """Give a pot meal that soaks, boils, simmers, rests and serves."""
    beans = ingredient(
        "beans",
        "Black beans, cooked and freeze-dried",
        160,
        food="black-beans-cooked",
        dried_by="freeze-dryer",
        batch="black-beans-spring",
        packs=1,
        density_g_ml=0.43,
    )
    rice = ingredient("rice", "Rice, instant", 240, density_g_ml=0.8)
    oil = ingredient("oil", "Olive oil", 20)
    return meal(
        "dinner",
        "Smoky bean pot",
        beans,
        rice,
        oil,
        recipe="smoky-bean-pot",
        cook_in="pot",
        cooked_on="stove",
        pot="pot-2l",
        steps=(
            step(
                "soak", beans, water_ml=290.5, minutes=10, minutes_at_sea_level=10,
                soaking=Soaking(
                    "Black beans, cooked and freeze-dried", (5, 30), (174, 261), 2.0, True
                ),
            ),
            step("boil", beans, rice, oil, water_ml=520, lid=True),
            step("simmer", minutes=9.26, minutes_at_sea_level=8, stir=True),
            step(
                "rest", minutes=5.8, minutes_at_sea_level=5, lid=True,
                keeps_hot=KeepsHot((57.6, 64.7, 69.8), (79.6, 84.4, 87.0), 13.5, 44.0),
            ),
            step("serve", say="Split <beans> by eye; salt to taste."),
        ),
        water_ml=810.5,
        soak_water_ml=290.5,
        potfuls=2,
        heat_kj=310.4,
        fuel_heat_kj=620.7,
        minutes=29.7,
        note="Tastes better with lime.",
    )  # fmt: skip


def toasties() -> PlannedMeal:
    """Give an iron meal with raw egg, which has a temperature to reach."""
    bread = ingredient("bread", "Bread", 280, piece_g=35.0)
    egg = ingredient("egg", "Egg, raw", 100, is_raw_animal=True)
    return meal(
        "dinner",
        "Egg toasties",
        bread,
        egg,
        recipe="egg-toasties",
        cook_in="iron",
        conditions=HIGH_CAMP,
        cooked_on="fire",
        steps=(
            step("mix", egg, water_ml=40, say="Beat until smooth."),
            step("press", bread, egg, each_side_min=4, presses=2, pieces=4),
            step("serve"),
        ),
        water_ml=40,
        presses=2,
        irons=IronHeat((7.6, 23.9), (16.6, 32.9)),
        wood_g=3600.0,
        minutes=18,
        reach_c=72.0,
        plate_shares=(0.5, 0.5),
    )


def sample_kit() -> Kit:
    """Give the kit that the tests of the pages look at."""
    nuts = meal(
        "snacks",
        "Nut mix",
        ingredient("nut-mix", "Nut mix", 120),
        food="nut-mix",
        label=MealLabel(60, 2510, 600, 0, 0, 0, 0, 0, 360, 0, 6.0, True),
    )
    oats = meal(
        "breakfast",
        "Apple oats",
        ingredient("oats", "Oats", 180, density_g_ml=0.4),
        recipe="apple-oats",
        cook_in="pot",
        cooked_on="stove",
        pot="pot-2l",
        steps=(
            step("boil", water_ml=500),
            step("mix", ingredient("oats", "Oats", 180, density_g_ml=0.4), say="Stir in <oats>."),
        ),
        water_ml=500,
        potfuls=1,
        heat_kj=190.0,
        fuel_heat_kj=380.0,
        minutes=7.2,
        label=MealLabel(90, 1568, 375, 17, 40, 7.9, 12, 1.4, 760, 1110, 3.9),
    )
    days = (
        _day(1, LOW_CAMP, (oats, nuts, bean_pot()), "Road end to the low camp"),
        _day(2, HIGH_CAMP, (oats, toasties()), "Up to the snow"),
    )
    return Kit(
        id="sample",
        title="Sample hill",
        start=START,
        units="metric",
        language="en",
        mug_ml=300,
        shelter="tent",
        notes="Meet at the road end at nine.",
        party=(
            KitPerson(
                "Ash", 0.9, 5850, ("nuts",), (Refused(1, 1, "Nut mix", True),),
                food=PersonFood(2680.1, 88.8, 53.1, (76.8, 128.0), 7.04),
                energy_by_method=EnergyLook(
                    (("schofield1985", 2497.5), ("nasem2023", 2386.3), ("mifflin1990", 2485.3)),
                    0.045,
                ),
                needs_more=(NeedMore("height", 2, (330, 505), ("iso2533",)),),
            ),
            KitPerson(
                "Rowan", 1.1, 7150, (),
                food=PersonFood(3229.7, 108.3, 68.1, (98.4, 164.0), 8.57),
                energy_by_method=EnergyLook(
                    (("schofield1985", 3019.5), ("nasem2023", 3133.9)), 0.037
                ),
                needs_more=(NeedMore("cold", 1, (178.8, 750.8), ("iso2533",)),),
            ),
        ),
        days=days,
        nutrition=NutritionTotals(12160, 400, 350, 1500, 120, 9000),
        energy_need_kcal=13000,
        fuels=(
            KitFuel(
            "gas-mix",
            "Propane-butane mix",
            "Small gas burner",
            45.8,
            58.25,
            0.15,
            66.99,
            (ContainerCount(100, 90, 1),),
            efficiency_share=0.48,
            low_g=52.4,
            high_g=64.1,
            test=StoveTest(1000, 9, 14),
            no_lid_low_g=64.7,
            no_lid_high_g=72.8,
            stoves=(KitStove("top-burner", "Small gas burner", 0.48, 58.25),),
        ),),
        wood_g=3600,
        irons=("Square iron",),
        pots=(("pot-2l", "Two-litre pot", 1500),),
        batches=(_beans(), _wet_apples()),
        weights=_weights(),
        cautions=_cautions(),
        standing=CautionText(
            "standing",
            "note",
            "Estimates",
            "Local rules and official or licensed advice come first. All numbers are estimates.",
        ),
        shopping=(
            ShoppingLine("rice", "Rice, instant", 240, None, 0, ("Smoky bean pot",), buy_g=240),
            ShoppingLine(
                "apple-raw", "Apple, raw", 600, "dehydrator", 95.5, ("Apple oats",), buy_g=666.7
            ),
        ),
        proposals=(
            StockProposal("oats", "Oats", "oats-winter", 180, datetime.date(2032, 1, 9), 2),
        ),
        sources=(
            Source("iso2533", "Standard Atmosphere", "memory", "ISO", "", 1975),
            Source("field", "Wood for embers", "practice", url="https://example.org/wood_fires"),
        ),
        defaults=(DefaultUsed("wind", "sheltered", "not told for day 1"),),
        density_kcal_g=3.5,
        bags_swell_times=1.2587,
        guides=(
            DryingGuide(
                "Apple, raw", "dehydrator", "fruit", "slices", (3, 6), (54.4, 60), (6, 12),
                None, None, None, ("iso2533", "not-in-the-list"),
            ),
            DryingGuide(
                "Carrot, raw", "dehydrator", "vegetable", "slices", (3, 6), (54.4, 60), (6, 10),
                (3, 4), (3, 3.5), None, ("field",),
            ),
        ),
    )  # fmt: skip


def without_looks(kit: Kit) -> Kit:
    """Give a kit of which no other method says anything."""
    party = (
        replace(person, food=None, energy_by_method=None, needs_more=()) for person in kit.party
    )
    days = (
        replace(
            day,
            treating=None,
            snow=None,
            cold_gases=(),
            people=tuple(replace(own, sweat=None) for own in day.people),
            meals=tuple(_plain(meal) for meal in day.meals),
        )
        for day in kit.days
    )
    batches = (replace(batch, oxygen=None, load=None) for batch in kit.batches)
    return replace(
        kit,
        party=tuple(party),
        days=tuple(days),
        batches=tuple(batches),
        guides=(),
        density_kcal_g=0.0,
        bags_swell_times=1.0,
    )


def _plain(meal: PlannedMeal) -> PlannedMeal:
    steps = (replace(step, keeps_hot=None, soaking=None) for step in meal.steps)
    return replace(meal, label=None, irons=None, steps=tuple(steps))


def _day(number: int, here: Conditions, meals: tuple[PlannedMeal, ...], title: str) -> KitDay:
    fed = sum(each.nutrition.energy_kcal for each in meals)
    return KitDay(
        day=number,
        date=START + datetime.timedelta(days=number - 1),
        title=title,
        conditions=here,
        ends_home=False,
        home=("lunch",) if number == 1 else (),
        legs=(Travel("walking", 5, 13000, 560, 90),),
        travel_by="walking",
        travel_hours=5,
        distance_m=13000,
        ascent_m=560,
        descent_m=90,
        between_water_h=3,
        meals=meals,
        people=(
            PersonDay(
                "Ash",
                2925,
                1450,
                1200,
                11800,
                2000,
                500,
                3700,
                600,
                3100,
                5,
                1140,
                1470,
                53.1,
                830,
                eaten_kcal(meals, "Ash"),
                41,
                Sweating(351, 353) if number == 1 else Sweating(586.5, 721.3),
            ),
            PersonDay(
                "Rowan",
                3575,
                1800,
                1500,
                14200,
                2500,
                500,
                4100,
                750,
                3350,
                5,
                None,
                None,
                68.1,
                990,
                eaten_kcal(meals, "Rowan"),
                49,
            ),
        ),
        nutrition=NutritionTotals(fed, 90, 80, 350, 30, 2200),
        energy_need_kcal=6500,
        water=WaterDay(1310.5, 600, 5850, 1000, 8760.5, 3000, 6140.5),
        fuel=FuelDay(1000, 0, 0, 29.125, 0)
        if number == 1
        else FuelDay(
            380,
            900,
            0,
            29.125,
            3600,
            melting=WaterHeating(2000, "pot", 900, 12.4),
            water_minutes=12.4,
        ),
        minutes=37,
        notes="The bridge may be out." if number == 1 else "",
        orders=orders_of_work(meals, HEARTH),
        treating=Treating(4, True, 60, 1, 1 if number == 1 else 3),
        snow=SnowWork(25.03, 125.15, 17, 84) if number == 2 else None,
        cold_gases=(
            ColdGas(230.2, 123.9, 0.582, "gas-mix")
            if number == 1
            else ColdGas(80.1, 110.5, 0.0, "gas-mix"),
        ),
    )


def _beans() -> KitBatch:
    return KitBatch(
        id="black-beans-spring",
        name="Black beans, cooked and freeze-dried",
        method="freeze-dryer",
        food="black-beans-cooked",
        recipe=None,
        fresh_g=1850,
        dried_g=655,
        listed_water_share=0.657,
        water_share=0.653,
        water_removed_g=1195,
        water_back_ml=1195,
        taken_up_ml=1075.5,
        residual_moisture=0.02,
        dry_limit=0.05,
        dry_enough=True,
        target_g=675.7,
        to_go_g=0,
        verdict="dry",
        act="",
        dried_on=datetime.date(2031, 3, 14),
        planned=False,
        best_before=datetime.date(2041, 3, 14),
        months=120,
        reasons=("freeze-dried plant food in foil with an absorber: at most 120 months",),
        packs_used=1,
        packs_left=3,
        pack_g=163.75,
        packaging="foil-pouch",
        notes=("Wetter than listed: the weighings were kept.",),
        residual_low=0.02,
        residual_high=0.0606,
        loaded_at_c=-18,
        sublimation_kwh=0.9421,
        oxygen=PackOxygen(176.9, 200),
        load=DryerLoad("Cold box", 0.34, 30, 5.51, (2.72, 3.5), None),
    )


def _wet_apples() -> KitBatch:
    return KitBatch(
        id="apple-autumn",
        name="Apple, raw",
        method="dehydrator",
        food="apple-raw",
        recipe=None,
        fresh_g=2000,
        dried_g=420,
        listed_water_share=0.856,
        water_share=0.856,
        water_removed_g=1580,
        residual_moisture=0.314,
        dry_limit=0.2,
        dry_enough=False,
        target_g=360,
        to_go_g=60,
        verdict="not-dry",
        act="Throw it out.",
        dried_on=datetime.date(2030, 10, 2),
        planned=False,
        best_before=None,
        months=None,
        reasons=("not dry enough to keep",),
        packs_used=1,
        packs_left=0,
        pack_g=420,
        packaging=None,
        notes=(),
        residual_low=0.2667,
        residual_high=0.3619,
        water_activity=0.716,
        water_activity_low=0.662,
        water_activity_high=0.755,
        run=apple_run(),
    )


def apple_run() -> DryingRun:
    """Give a run that would be dry enough after some 12 hours."""
    weighed = (Weighing(120, 1402), Weighing(240, 846), Weighing(360, 561))
    return DryingRun(
        "page", 0.004, 1.05, 360, 716, 662, 770, weighed,
        (Weighing(0, 2000), *weighed, Weighing(716, 360)),
    )  # fmt: skip


def _weights() -> Weights:
    return Weights(
        food_g=1260, packaging_g=51, fuel_g=190, gear_g=2715, water_most_g=3000,
        people=(
            PersonLoad("Ash", 11800, 14000, 11800 / 14000, (
                Carried("Own gear", 7000, "own"),
                Carried("Day 1 dinner: Smoky bean pot", 436, "food", (1, 2)),
                Carried("Water", 3000, "water"),
            ), (11800, 11371)),
            PersonLoad("Rowan", 14200, 18000, 14200 / 18000, (
                Carried("Day 2 dinner: Egg toasties", 387, "food", (2, 1)),
                Carried("Square iron", 1900, "gear"),
                Carried("Own gear", 9000, "own"),
            ), (14200, 14200)),
        ),
        food_left_g=(3000, 1800),
        fuel_left_g=(380, 300),
        by_day_g=(26000, 24800),
    )  # fmt: skip


def _cautions() -> tuple[KitCaution, ...]:
    return (
        KitCaution(
            "gas-in-the-cold", "care", "Gas burns weakly in the cold",
            "Keep the canister warm in your coat. Do not heat it.",
            "the night is −2 °C", "day-2", ("field",),
        ),
        KitCaution(
            "not-dry-enough", "danger", "Not dry enough",
            "Dry it further before you pack it. Throw it out if it smells or shows mould.",
            "Apple, raw holds 31 % water, 20 % is the most", "drying", (),
        ),
        KitCaution(
            "raw-animal-food", "danger", "Raw animal food",
            "Keep it cold. Wash your hands after touching it. Measure the middle.",
            "Egg, raw is in this meal", "cook/egg-toasties", ("field", "iso2533"),
        ),
        KitCaution(
            "clean-hands", "note", "Clean hands", "Wash your hands before you cook.",
            "food is cooked on this trip", "index", (),
        ),
    )  # fmt: skip
