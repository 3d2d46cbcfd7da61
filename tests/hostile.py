"""A folder whose every text is hostile, for tests of whatever leaves the tool."""

from __future__ import annotations

import json
from pathlib import Path

from builder.reading.declared.values import LONGEST_LINE
from tests.planning.folders import GEAR, Record, day, food, uses, write_folder

# What a text could do where it is shown: run, lead out, fill in, turn the line round, end it, or
# not be seen at all.
TEXTS: dict[str, str] = {
    "plain": "words",
    "script": "<script>alert(1)</script>",
    "end of script": "</script><script>alert(1)</script>",
    "attribute": "\"><img src=x onerror=alert(1)>' onload=alert(1) x='",
    "link": "[x](javascript:alert(1)) ![y](//evil.example/y.png) <https://evil.example>",
    "template": "{{ 7*7 }}{% include '/etc/passwd' %}",
    "svg": "--><svg/onload=alert(1)><!-- ]]>",
    "entity": "&lt;script&gt;alert(1)&lt;/script&gt; &#60;b&#62;",
    "markdown": "# x | y | `z` **b** {: onclick=alert(1) } <div markdown>",
    "formula": "=cmd|' /C calc'!A0",
    "plus": "+1+cmd|' /C calc'!A0",
    "at": "@SUM(1+1)",
    "calendar": "x\nEND:VEVENT\nBEGIN:VALARM\nACTION:AUDIO; a,b\\n:c",
    "breaks": "a\u2028b\u2029c",
    "turned": "\u202egnp.exe \u2066x\u2069",
    "unseen": "a\u200b\u200d\ufeffb",
    "long": "ü🍲" * LONGEST_LINE,
}


def write(folder: Path, hostile: str) -> None:
    """Write a content folder with that text in every field of free words, each with its mark."""
    count = iter(range(1, 1000))

    def text() -> str:
        # First comes what is hostile: a formula is one only where it begins a cell.
        return f"{hostile[: LONGEST_LINE - 10]} zq{next(count)}"

    gear: Record = {
        **GEAR,
        "stoves": [{**each, "name": text()} for each in GEAR["stoves"]],
        "fuels": [{**each, "name": text()} for each in GEAR["fuels"]],
        "pots": [{**each, "name": text()} for each in GEAR["pots"]],
        "packaging": [{**each, "name": text()} for each in GEAR["packaging"]],
        "dryers": [
            {"id": "shelf", "name": text(), "method": "dehydrator", "load": "1 kg", "hours": 6}
        ],
    }
    pot: Record = {
        "id": "pot-dish", "name": text(), "serves": 2, "cook_in": "pot", "note": text(),
        "uses": uses(fruit="80 g dehydrator", greens="90 g dehydrator", kernel="120 g"),
        "steps": [{"do": "soak", "with": ["fruit"], "water": "200 ml", "minutes": 30,
                   "say": text().replace("<", "&lt;")},
                  {"do": "boil", "with": ["fruit", "greens", "kernel"], "water": "600 ml",
                   "minutes": 10}],
    }  # fmt: skip
    fruit = food(
        "fruit",
        "fruit",
        "raw",
        "water 80 g, energy 75 kcal, protein 1 g, carbohydrate 18 g",
        shelf=text(),
    )
    greens = food(
        "greens", "vegetable", "raw", "water 90 g, protein 2 g, carbohydrate 7 g, fibre 3 g"
    )
    fruit["name"], greens["name"] = text(), text()
    rings: Record = {
        "id": "rings", "food": "fruit", "method": "dehydrator", "done": "2031-05-01",
        "fresh": "2000 g", "dried": "400 g", "kept_at": "15.6 degC", "notes": text(),
        "packs": {"count": 4, "in": "foil", "shelf": text()},
    }  # fmt: skip
    wet: Record = {**rings, "id": "wet", "dried": "1400 g", "notes": text()}
    meals: Record = {
        "dinner": [{"cook": "pot-dish"}],
        "snacks": [{"eat": text(), "each": "30 g", "energy": "400 kcal"},
                   {"eat": "kernel-nut", "each": "50 g"}],
    }  # fmt: skip
    trip: Record = {
        "title": text(), "start": "2031-06-01", "notes": text(), "mug": "300 ml",
        "party": [
            {"name": text(), "sex": "female", "age": 40, "mass": "60 kg", "height": "165 cm",
             "carries_to": "12 kg", "own_gear": "4 kg"},
            {"name": text(), "mass": "80 kg"},
        ],
        "stove": {"use": "burner", "pots": ["small", "large"], "fuel_reserve": "20 %"},
        "gear_shared": [{"name": text(), "mass": "780 g"}],
        "days": [day(meals, title=text(), notes=text())],
    }  # fmt: skip
    write_folder(folder, {"hand": trip}, [pot], [rings, wet], [fruit, greens], gear)
    home: Record = {
        "dryers": ["shelf"],
        "currency": text(),
        "electricity": "0.3 per kWh",
        "free": {"sat": "08:00-22:00"},
    }
    (folder / "home.yaml").write_text(json.dumps(home, ensure_ascii=False), "utf-8")
