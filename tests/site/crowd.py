"""A trip that strains every page: twelve people, two weeks, names of all kinds."""

from __future__ import annotations

import copy
import json
import shutil
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).resolve().parents[2]
NAMES = (
    "Wilhelmina-Anastasia Theodora of the Upper Windgap and Lower Hollow",
    "Nebelhornschwalbenflugbeobachterinnenvereinsvorsitzende",
    "نجمة الصباح",
    "אור בן־שחר",
    "👩\u200d🍳🏕️",
    "小さな山猫",
    'Ł\'Éclair-Ødegård "Zé" <b>',
    "Bo",
    "Ṣ̌ëmį́",
    "قمر 7",
    "Οδυσσέας-Άνεμος",
    "Ivo|pipe & *stars*",
)
TRIP = "crowd"
TITLE = "🏔️ Große Runde – الجولة الكبيرة – the whole long way round by Threewaterscrossing and back"
DAYS = 14


def write_crowd(folder: Path) -> Path:
    """Write a content folder with the demo's recipes and one trip made of the demo's days."""
    content = folder / "content"
    shutil.copytree(ROOT / "content" / "recipes", content / "recipes")
    (content / "trips").mkdir()
    # JSON is YAML, too, and asks for no thought about quotes.
    (content / "trips" / f"{TRIP}.yaml").write_text(
        json.dumps(crowd_trip(), ensure_ascii=False, indent=1), "utf-8"
    )
    return content


def crowd_trip() -> dict[str, Any]:
    """Give the trip: the days of two demo trips in turn, each dish for all or for every other."""
    tops, lake = (
        yaml.safe_load((ROOT / "content" / "trips" / f"{name}.yaml").read_text("utf-8"))
        for name in ("tarrow-tops", "lake-emmerin")
    )
    days = [
        day | {"travel": trip["every_day"]["travel"] | day["travel"]}
        for trip in (tops, lake)
        for day in trip["days"]
        if day.get("ends") != "home"
    ]
    made = []
    for number in range(DAYS):
        day = copy.deepcopy(days[number % len(days)])
        day.setdefault("water", {})["camp"] = "stream"
        if number >= len(days):
            day["camp_altitude"] = f"{int(day['camp_altitude'].split()[0]) + 40 * number} m"
        day["title"] = f"{day['title']}, for the {number + 1}. time غرب 🌧️"
        day["meals"] = {meal: _dishes(dishes) for meal, dishes in day["meals"].items()}
        made.append(day)
    made[-1] |= {"ends": "home", "home": ["dinner"]}
    made[-1]["meals"].pop("dinner", None)
    made[-1].pop("camp_altitude", None)
    return {
        "title": TITLE,
        "start": "2031-12-25",
        "shelter": "tent",
        "party": [
            {"name": name, "age": 16 + 5 * number, "carries_to": "22 kg", "own_gear": "7 kg"}
            | ({"avoids": ["nuts", "milk"]} if number % 4 == 1 else {})
            for number, name in enumerate(NAMES)
        ],
        "stove": tops["stove"],
        "fire": lake["fire"],
        "mug": "300 ml",
        "gear_shared": [*tops["gear_shared"], *lake["gear_shared"]],
        "notes": f"{NAMES[2]} und {NAMES[3]}, {NAMES[9]}: {'langesWort' * 12} " + "Notes. " * 40,
        "every_day": tops["every_day"],
        "days": made,
    }


def _dishes(dishes: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Take each dish as food without a batch, for others than the demo's people."""
    kept = []
    for number, dish in enumerate(dishes):
        plain = {key: value for key, value in dish.items() if key not in ("from", "for")}
        if "eat" in plain and "from" in dish:
            plain["dried_by"] = "dehydrator"
        kept.append(plain | ({"for": list(NAMES[number % 2 :: 2])} if "for" in dish else {}))
    return kept
