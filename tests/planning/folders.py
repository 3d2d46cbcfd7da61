"""A small made-up content folder, written to disk, read, checked and planned."""

from __future__ import annotations

import copy
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from iapws.iapws97 import _TSat_P

from builder.model.content import Content
from builder.model.kit import Kit, KitBatch, KitDay, PlannedMeal
from builder.planning.kit import plan_trip
from builder.planning.menu import with_parts
from builder.planning.stock.checks import check
from builder.planning.stock.choosing import with_chosen_packs
from builder.planning.stock.packs import Stock
from builder.problems import Problem, errors
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.record import dataclass

SHIPPED = Path(__file__).parents[2] / "content"
# Shipped foods take long to read and no test here names one.
QUICK_ROOMS = tuple(room for room in ALWAYS_SHIPPED if room != "foods")

Record = dict[str, Any]


def food(
    name: str,
    kind: str,
    state: str,
    per_100g: str,
    **more: object,
) -> Record:
    """Give a food; `per_100g` is told like "water 60 g, energy 160 kcal"."""
    parts = dict(part.split(" ", 1) for part in per_100g.split(", "))
    return {"id": name, "name": name, "kind": kind, "state": state, "per_100g": parts, **more}


FOODS: list[Record] = [
    food("pulse", "legume", "cooked", "water 60 g, energy 160 kcal, protein 10 g, fat 1 g, "
         "carbohydrate 28 g, fibre 8 g, sodium 10 mg"),
    food("leaf", "vegetable", "raw", "water 90 g, protein 2 g, carbohydrate 7 g, fibre 3 g"),
    food("gourd", "vegetable", "raw", "water 90 g, protein 2 g, carbohydrate 7 g, fibre 3 g",
         takes_up="20 %"),
    food("berry", "fruit", "raw", "water 80 g, energy 75 kcal, protein 1 g, carbohydrate 18 g"),
    food("kernel", "grain", "dried", "water 12 g, energy 350 kcal, protein 10 g, fat 2 g, "
         "carbohydrate 75 g, fibre 5 g"),
    food("oil", "fat", "ready", "water 0 g, energy 900 kcal, fat 100 g"),
    food("kernel-nut", "nut", "ready", "water 5 g, energy 600 kcal, protein 20 g, fat 50 g, "
         "carbohydrate 22 g"),
    food("mint", "herb", "raw", "water 80 g, energy 45 kcal, protein 4 g, carbohydrate 14 g"),
    food("tea-leaf", "drink", "dried", "water 10 g, energy 200 kcal, carbohydrate 88 g"),
    food("curd", "dairy", "ready", "water 75 g, energy 110 kcal, protein 12 g, fat 5 g, "
         "carbohydrate 4 g"),
    food("hard-cheese", "dairy", "ready", "water 40 g, energy 390 kcal, protein 26 g, fat 31 g, "
         "carbohydrate 1 g"),
    food("stew-meat", "meat", "cooked", "water 60 g, energy 200 kcal, protein 32 g, fat 7 g"),
    food("lean-meat", "meat", "cooked", "water 68 g, energy 136 kcal, protein 30 g, fat 1 g"),
    food("mince-raw", "meat", "raw", "water 70 g, energy 150 kcal, protein 22 g, fat 7 g",
         cut="minced"),
    food("steak-raw", "meat", "raw", "water 74 g, energy 110 kcal, protein 23 g, fat 2 g",
         cut="whole"),
    food("deer-raw", "meat", "raw", "water 74 g, energy 110 kcal, protein 23 g, fat 2 g",
         cut="whole", game=True),
    food("hen-raw", "poultry", "raw", "water 74 g, energy 110 kcal, protein 23 g, fat 2 g"),
    food("trout-raw", "fish", "raw", "water 76 g, energy 100 kcal, protein 21 g, fat 2 g"),
    food("trout-cooked", "fish", "cooked", "water 70 g, energy 130 kcal, protein 26 g, fat 3 g"),
    food("egg-raw", "egg", "raw", "water 76 g, energy 140 kcal, protein 13 g, fat 10 g"),
    food("egg-cooked", "egg", "cooked", "water 76 g, energy 140 kcal, protein 13 g, fat 10 g"),
    food("oily-nut", "nut", "raw", "water 40 g, energy 380 kcal, protein 12 g, fat 32 g, "
         "carbohydrate 14 g"),
    food("soft-fruit", "fruit", "raw", "water 80 g, energy 75 kcal, protein 1 g, "
         "carbohydrate 18 g", keeps="4 months"),
    food("rich-paste", "other", "cooked", "water 50 g, energy 320 kcal, protein 10 g, fat 20 g, "
         "carbohydrate 19 g"),
]  # fmt: skip

GEAR: Record = {
    "stoves": [
        {"id": "burner", "name": "Burner", "burns": "gas", "power": "2000 W", "lowest": "400 W",
         "efficiency": "50 %", "mass": "100 g"},
        {"id": "spirit-burner", "name": "Spirit burner", "burns": "alcohol", "power": "1000 W",
         "lowest": "100 W", "efficiency": "40 %", "mass": "250 g"},
    ],
    "fuels": [
        {"id": "gas", "name": "Gas", "kind": "gas", "energy": "46 MJ/kg",
         "mix": {"propane": "30 %", "butane": "70 %"},
         "containers": [{"holds": "100 g", "empty": "90 g"}, {"holds": "250 g", "empty": "150 g"}]},
        {"id": "alcohol", "name": "Alcohol", "kind": "alcohol", "energy": "25 MJ/kg"},
    ],
    "pots": [
        {"id": "small", "name": "Small pot", "holds": "1 l", "fill_to": "80 %", "mass": "200 g",
         "material": "aluminium", "loss_at_boil": "90 W"},
        {"id": "large", "name": "Large pot", "holds": "2.5 l", "fill_to": "80 %", "mass": "400 g",
         "material": "steel", "loss_at_boil": "240 W"},
        {"id": "copper-pot", "name": "Copper pot", "holds": "2.5 l", "fill_to": "80 %",
         "mass": "380 g", "material": "copper", "loss_at_boil": "240 W"},
        {"id": "iron-pot", "name": "Iron pot", "holds": "1 l", "fill_to": "80 %",
         "mass": "3 kg", "material": "cast-iron", "loss_at_boil": "120 W", "diameter": "24 cm"},
        {"id": "old-iron-pot", "name": "Old iron pot", "holds": "1 l", "fill_to": "80 %",
         "mass": "3 kg", "material": "cast-iron", "loss_at_boil": "120 W"},
    ],
    "irons": [
        {"id": "one-iron", "name": "Iron for one", "presses": 1, "mass": "1500 g"},
        {"id": "two-iron", "name": "Iron for two", "presses": 2, "mass": "2600 g"},
    ],
    "packaging": [
        {"id": "foil", "name": "Foil", "mass": "10 g", "barrier": "foil"},
        {"id": "jar", "name": "Jar", "mass": "250 g", "barrier": "glass"},
        {"id": "tin", "name": "Tin", "mass": "90 g", "barrier": "can"},
        {"id": "vacuum", "name": "Vacuum bag", "mass": "8 g", "barrier": "vacuum-bag"},
        {"id": "paper", "name": "Paper bag", "mass": "5 g", "barrier": "paper"},
        {"id": "zip", "name": "Own zip bag", "mass": "6 g", "barrier": "zip-bag"},
    ],
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Hand:
    """What one folder gave."""

    content: Content
    stock: Stock
    problems: tuple[Problem, ...]  # of reading and of checking

    def kit(self, trip: str = "hand") -> Kit:
        """Plan one trip of a folder that has no errors."""
        assert not errors(self.problems), "\n".join(str(each) for each in self.problems)
        return plan_trip(self.content.trips[trip], self.content, self.stock)

    def kinds(self) -> list[str]:
        """Give the kinds of all problems."""
        return [problem.kind for problem in self.problems]


def write_folder(
    folder: Path,
    trips: Mapping[str, Record],
    recipes: list[Record] | None = None,
    batches: list[Record] | None = None,
    foods: list[Record] | None = None,
    gear: Record | None = None,
) -> None:
    """Write a content folder; JSON is YAML too."""
    for room in ("foods", "gear", "recipes", "batches", "trips"):
        (folder / room).mkdir(parents=True, exist_ok=True)
    _write(folder / "foods" / "hand.yaml", [*FOODS, *(foods or [])])
    _write(folder / "gear" / "hand.yaml", gear or GEAR)
    for recipe in recipes or []:
        _write(folder / "recipes" / f"{recipe['id']}.yaml", {"name": recipe["id"], **recipe})
    if batches:
        _write(folder / "batches" / "hand.yaml", batches)
    for name, trip in trips.items():
        _write(folder / "trips" / f"{name}.yaml", {"title": name, **trip})


def _write(path: Path, value: object) -> None:
    path.write_text(json.dumps(value, indent=1, ensure_ascii=False), encoding="utf-8")


def read_hand(folder: Path, all_shipped: bool = False) -> Hand:
    """Read a written folder over the shipped gear, cautions and sources, and check it."""
    rooms = ALWAYS_SHIPPED if all_shipped else QUICK_ROOMS
    read = read_folder([Layer(SHIPPED, "shipped", rooms, vouched=True), Layer(folder, "content")])
    content = with_chosen_packs(with_parts(read.content))
    stock, problems = check(content)
    return Hand(content, stock, (*read.problems, *problems))


def hand(
    folder: Path,
    trip: Record | None = None,
    recipes: list[Record] | None = None,
    batches: list[Record] | None = None,
    more_trips: Mapping[str, Record] | None = None,
    foods: list[Record] | None = None,
    gear: Record | None = None,
) -> Hand:
    """Write, read and check a folder with the trip "hand" in it."""
    trips = {"hand": trip or day_trip(), **(more_trips or {})}
    write_folder(folder, trips, recipes, batches, foods, gear)
    return read_hand(folder)


def day_trip(**changes: object) -> Record:
    """Give a trip of two for one day, a stream at 10 °C, no wind, at 1000 m."""
    trip: Record = {
        "start": "2031-06-01",
        "party": [
            {"name": "Ea", "sex": "female", "age": 40, "mass": "60 kg", "height": "165 cm",
             "carries_to": "12 kg", "own_gear": "4 kg"},
            {"name": "Bo", "sex": "male", "age": 40, "mass": "80 kg", "height": "180 cm",
             "carries_to": "18 kg", "own_gear": "6 kg"},
        ],
        "stove": {"use": "burner", "pots": ["small", "large"], "fuel_reserve": "20 %"},
        "mug": "300 ml",
        "washing": "1 l",
        "days": [day()],
    }  # fmt: skip
    return {**trip, **copy.deepcopy(changes)}


def day(meals: Record | None = None, **changes: object) -> Record:
    """Give one day."""
    own: Record = {
        "camp_altitude": "1000 m",
        "air": {"low": "5 degC", "high": "20 degC"},
        "wind": "sheltered",
        "water": {"camp": "stream", "treat": "filter", "at": "10 degC", "between_water": "2 h"},
        "meals": meals or {"snacks": [{"eat": "kernel-nut", "each": "50 g"}]},
    }
    return {**own, **copy.deepcopy(changes)}


def uses(**amounts: str) -> list[Record]:
    """Give lines of uses: `pulse="80 g dehydrator"` names the amount and how it was dried."""
    lines = []
    for name, told in amounts.items():
        amount, unit, *dried = told.split()
        line = {"food": name.replace("_", "-"), "amount": f"{amount} {unit}"}
        lines.append({**line, "dried_by": dried[0]} if dried else line)
    return lines


def meal_of(kit: Kit, day_number: int = 1, position: int = 0) -> PlannedMeal:
    """Give one meal of a kit."""
    return kit.days[day_number - 1].meals[position]


def day_of(kit: Kit, number: int = 1) -> KitDay:
    """Give one day of a kit."""
    return kit.days[number - 1]


def batch_of(kit: Kit, name: str) -> KitBatch:
    """Give one batch of a kit."""
    return next(batch for batch in kit.batches if batch.id == name)


def boils_c(altitude_m: float) -> float:
    """Give the boiling point by an independent steam library in the ISO 2533 atmosphere."""
    # Exponent g M / (R L) = 9.80665 · 28.96442 / (8314.32 · 0.0065)
    exponent = 9.80665 * 28.96442 / (8314.32 * 0.0065)
    pressure_hpa = 1013.25 * (1 - 0.0065 * altitude_m / 288.15) ** exponent
    return float(_TSat_P(pressure_hpa / 10_000)) - 273.15


def looks_at(kit: Kit, name: str) -> tuple[Any, ...]:
    """Give all second looks of a kind in a kit, wherever they hang, in the order of the trip."""
    meals = [meal for day in kit.days for meal in day.meals]
    own = [person for day in kit.days for person in day.people]
    steps = [step for meal in meals for step in meal.steps]
    hang_on: tuple[object, ...] = (*kit.party, *kit.days, *own, *meals, *steps, *kit.batches)
    found = (getattr(each, name, None) for each in hang_on)
    return tuple(look for look in found if look is not None)
