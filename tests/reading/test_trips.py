# ruff: noqa: E501 - the lines that people read stand whole
"""Trips: who goes, where they camp, what they eat, and each way to write it wrong."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from builder.model.food import Composition
from builder.model.place import Place
from builder.model.trip import Camp, Day, Trip
from tests.reading.folder_builder import GOOD, TRIP, Spoilt, changed, lines, read, told

DAYS = TRIP[TRIP.index("days:") :]

SPOILT = (
    Spoilt(
        "unit missing",
        "trips/tarrow.yaml",
        (("640 m", "640"),),
        (
            "trips/tarrow.yaml:6:20: error: camp_altitude: '640' has no unit — write one of mm, cm, m, km, in, ft, yd, mi behind it, such as 640 m or 2100 ft [unit-missing]",
        ),
    ),
    Spoilt(
        "bare number with a fraction is told as written",
        "trips/tarrow.yaml",
        (("640 m", "640.50"),),
        (
            "trips/tarrow.yaml:6:20: error: camp_altitude: '640.50' has no unit — write one of mm, cm, m, km, in, ft, yd, mi behind it, such as 640 m or 2100 ft [unit-missing]",
        ),
    ),
    Spoilt(
        "unknown unit",
        "trips/tarrow.yaml",
        (("640 m", "640 fathoms"),),
        (
            "trips/tarrow.yaml:6:20: error: camp_altitude: 'fathoms' is no unit of length — known are mm, cm, m, km, in, ft, yd, mi; write 640 m or 2100 ft [unit-unknown]",
        ),
    ),
    Spoilt(
        "altitude out of range",
        "trips/tarrow.yaml",
        (("640 m", "12 km"),),
        (
            "trips/tarrow.yaml:6:20: error: camp_altitude: '12 km' is out of range — write at most 9000 m, such as 640 m or 2100 ft [out-of-range]",
        ),
    ),
    Spoilt(
        "a thousand with a comma",
        "trips/tarrow.yaml",
        (("640 m", '"1,640 m"'),),
        (
            "trips/tarrow.yaml:6:20: error: camp_altitude: '1,640' could mean 1640 or 1.640 — write 1640 or 1.64 [number-unclear]",
        ),
    ),
    Spoilt(
        "a thousand with a space",
        "trips/tarrow.yaml",
        (("640 m", "1 640 m"),),
        (
            "trips/tarrow.yaml:6:20: error: camp_altitude: '1 640' is not one number — write it like 0.5, 1/2 or 1500, thousands not apart [number]",
        ),
    ),
    Spoilt(
        "negative mass",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: -6 kg"),),
        (
            "trips/tarrow.yaml:3:78: error: own_gear: '-6 kg' is out of range — write 0 g or more, such as 250 g, 1.5 kg or 9 oz [out-of-range]",
        ),
    ),
    Spoilt(
        "a night of 900 degrees",
        "trips/tarrow.yaml",
        (("    meals:", "    air: {low: 900 degC}\n    meals:"),),
        (
            "trips/tarrow.yaml:7:16: error: low: '900 degC' is out of range — write at most 60 degC, such as 4 degC or 39 degF [out-of-range]",
        ),
    ),
    Spoilt(
        "low above high",
        "trips/tarrow.yaml",
        (("    meals:", "    air: {low: 9 degC, high: 4 degC}\n    meals:"),),
        (
            "trips/tarrow.yaml:7:16: error: the low (9 °C) is above the high (4 °C) — swap them [air]",
        ),
    ),
    Spoilt(
        "not a number",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: .nan"),),
        (
            "trips/tarrow.yaml:3:78: error: own_gear: '.nan' is no mass — write 250 g, 1.5 kg or 9 oz [quantity]",
        ),
    ),
    Spoilt(
        "infinite",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: .inf kg"),),
        (
            "trips/tarrow.yaml:3:78: error: own_gear: '.inf kg' is no mass — write 250 g, 1.5 kg or 9 oz [quantity]",
        ),
    ),
    Spoilt(
        "a huge number",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: 99999999999999999999 kg"),),
        (
            "trips/tarrow.yaml:3:78: error: own_gear: '99999999999999999999' is not one number — write it like 0.5, 1/2 or 1500, thousands not apart [number]",
        ),
    ),
    Spoilt(
        "an exponent",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: 1e3 g"),),
        (
            "trips/tarrow.yaml:3:78: error: own_gear: '1e3 g' is not one number and one unit — write 250 g, 1.5 kg or 9 oz [quantity]",
        ),
    ),
    Spoilt(
        "two quantities",
        "trips/tarrow.yaml",
        (("height: 168 cm", "height: 5 ft 6 in"),),
        (
            "trips/tarrow.yaml:3:60: error: height: '5 ft 6 in' is not one number and one unit — write 66 in [quantity]",
        ),
    ),
    Spoilt(
        "a list for a quantity",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: [6 kg]"),),
        (
            "trips/tarrow.yaml:3:78: error: own_gear must be a mass, found a list — write 250 g, 1.5 kg or 9 oz [quantity]",
        ),
    ),
    Spoilt(
        "true for a quantity",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: true"),),
        (
            "trips/tarrow.yaml:3:78: error: own_gear must be a mass, found true — write 250 g, 1.5 kg or 9 oz [quantity]",
        ),
    ),
    Spoilt(
        "misspelt key",
        "trips/tarrow.yaml",
        (("stove:", "stvoe:"),),
        (
            "trips/tarrow.yaml:4:1: error: a trip has no field 'stvoe' — did you mean stove? [key-unknown]",
        ),
    ),
    Spoilt(
        "misspelt inner key",
        "trips/tarrow.yaml",
        (("height: 168 cm", "hieght: 168 cm"),),
        (
            "trips/tarrow.yaml:3:52: error: a person has no field 'hieght' — did you mean height? [key-unknown]",
        ),
    ),
    Spoilt(
        "a key far from all",
        "trips/tarrow.yaml",
        (("stove:", "xylophone:"),),
        (
            "trips/tarrow.yaml:4:1: error: a trip has no field 'xylophone' — known are: chilled, days, depots, every_day, fire, gear_shared, ladle, language, learned, mug, notes, party, picture, public_names, review, shelter, start, start_camp, stove, times, title, together, track, units, utc, washing [key-unknown]",
        ),
    ),
    Spoilt(
        "title missing",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops\n", ""),),
        (
            "trips/tarrow.yaml:1:1: error: this trip has no `title` — write `title: Four days in the hills` [missing]",
        ),
    ),
    Spoilt(
        "title blank",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", 'title: " "'),),
        (
            "trips/tarrow.yaml:1:1: error: this trip has no `title` — write `title: Four days in the hills` [missing]",
        ),
    ),
    Spoilt(
        "title a flag",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: true"),),
        (
            "trips/tarrow.yaml:1:8: error: title must be a text, found true — put it in quotes [not-text]",
        ),
    ),
    Spoilt(
        "title a list",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: [Tarrow, Tops]"),),
        (
            "trips/tarrow.yaml:1:8: error: title must be a text, found a list — write one text [not-text]",
        ),
    ),
    Spoilt(
        "title too long",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: " + "T" * 4001),),
        (
            "trips/tarrow.yaml:1:8: error: title has 4001 characters — keep it under 4000 [text-too-long]",
        ),
    ),
    Spoilt(
        "party missing",
        "trips/tarrow.yaml",
        (
            (
                "party:\n  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}\n",
                "",
            ),
        ),
        ("trips/tarrow.yaml:1:1: error: this trip has no `party` — write `party: […]` [missing]",),
    ),
    Spoilt(
        "nobody goes",
        "trips/tarrow.yaml",
        (
            (
                "party:\n  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}\n",
                "party: []\n",
            ),
        ),
        ("trips/tarrow.yaml:2:8: error: nobody goes — name at least one person [empty]",),
    ),
    Spoilt(
        "party not a list",
        "trips/tarrow.yaml",
        (
            (
                "  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}\n",
                "  name: Ash\n",
            ),
        ),
        (
            "trips/tarrow.yaml:3:3: error: party must be a list, found `key: value` lines — write `party: […]` [not-a-list]",
        ),
    ),
    Spoilt(
        "a person without a name",
        "trips/tarrow.yaml",
        (("name: Ash, ", ""),),
        ("trips/tarrow.yaml:3:5: error: this person has no `name` — write `name: Ash` [missing]",),
    ),
    Spoilt(
        "a person that is a text",
        "trips/tarrow.yaml",
        (
            (
                "- {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}",
                "- Ash",
            ),
        ),
        (
            "trips/tarrow.yaml:3:5: error: there is no home.yaml that tells of people — write `{name: Ash}` here [person-unknown]",
        ),
    ),
    Spoilt(
        "a person that is a list",
        "trips/tarrow.yaml",
        (
            (
                "- {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}",
                "- [Ash]",
            ),
        ),
        (
            "trips/tarrow.yaml:3:5: error: a person is written as `key: value` lines, found a list — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "unknown word with a near one",
        "trips/tarrow.yaml",
        (("sex: female", "sex: femal"),),
        (
            "trips/tarrow.yaml:3:22: error: sex cannot be 'femal' — did you mean female? [word-unknown]",
        ),
    ),
    Spoilt(
        "unknown word with none near",
        "trips/tarrow.yaml",
        (("sex: female", "sex: 7"),),
        (
            "trips/tarrow.yaml:3:22: error: sex cannot be '7' — known are: female, male [word-unknown]",
        ),
    ),
    Spoilt(
        "too young",
        "trips/tarrow.yaml",
        (("age: 34", "age: 0.5"),),
        (
            "trips/tarrow.yaml:3:35: error: the tool plans for people from 1 year on, found '0.5' — leave a baby out: milk and its amounts are for a doctor or midwife to say [too-young]",
        ),
    ),
    Spoilt(
        "before birth",
        "trips/tarrow.yaml",
        (("age: 34", "age: -1"),),
        (
            "trips/tarrow.yaml:3:35: error: age cannot be '-1' — write a number from 0 to 120 [out-of-range]",
        ),
    ),
    Spoilt(
        "too old",
        "trips/tarrow.yaml",
        (("age: 34", "age: 134"),),
        (
            "trips/tarrow.yaml:3:35: error: age cannot be '134' — write a number from 0 to 120 [out-of-range]",
        ),
    ),
    Spoilt(
        "age with a unit",
        "trips/tarrow.yaml",
        (("age: 34", "age: 34 years"),),
        (
            "trips/tarrow.yaml:3:35: error: age takes a bare number, found '34 years' — write the number alone, `age: 34` [not-a-number]",
        ),
    ),
    Spoilt(
        "a child without mass",
        "trips/tarrow.yaml",
        (("age: 34, mass: 64 kg", "age: 9"),),
        (
            "trips/tarrow.yaml:3:5: warning: 'Ash' is 9 and no mass is told, so 70 kg is taken — write `mass: 30 kg` [child-mass]",
            "trips/tarrow.yaml:3:46: warning: height: 168 cm at 9 years is unusual: usual is 116 to 154 cm — check the number and its unit; if it is meant, leave it [unusual]",
        ),
    ),
    Spoilt(
        "two of one name",
        "trips/tarrow.yaml",
        (("\nstove:", "\n  - {name: Ash}\nstove:"),),
        (
            "trips/tarrow.yaml:4:12: error: two people are called 'Ash' — tell them apart, such as Ash B [name-twice]",
        ),
    ),
    Spoilt(
        "carries nothing but has gear",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "own_gear: 6 kg, carries_to: 0 kg"),),
        (
            "trips/tarrow.yaml:3:78: error: 'Ash' carries nothing, and yet has gear of 6000 g — write what they carry to, or give the gear to somebody else [own-gear]",
        ),
    ),
    Spoilt(
        "avoids nothing known",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "avoids: [nuts, bean, gravel]"),),
        (
            "trips/tarrow.yaml:3:83: error: 'bean' is no allergen, kind of food or food — did you mean beans? [avoids-unknown]",
            "trips/tarrow.yaml:3:89: error: 'gravel' is no allergen, kind of food or food — write one of vegetarian, vegan, cereals-gluten, crustaceans, eggs, fish, peanuts, soybeans, milk, nuts, celery, mustard, sesame, sulphites, lupin, molluscs, fruit, vegetable, legume, grain … [avoids-unknown]",
        ),
    ),
    Spoilt(
        "a flag in other words",
        "trips/tarrow.yaml",
        (("own_gear: 6 kg", "pregnant: yes"),),
        (
            "trips/tarrow.yaml:3:78: error: pregnant must be its third (1, 2 or 3), true or false, found 'yes' — write `pregnant: 2`, or `pregnant: true` where the third is not known [not-a-third]",
        ),
    ),
    Spoilt(
        "date of no calendar",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nstart: 2031-02-30"),),
        (
            "trips/tarrow.yaml:2:8: error: start: '2031-02-30' is no date — write year-month-day, such as 2031-09-04 [date]",
        ),
    ),
    Spoilt(
        "date of another order",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nstart: 4.9.2031"),),
        (
            "trips/tarrow.yaml:2:8: error: start: '4.9.2031' is no date — write year-month-day, such as 2031-09-04 [date]",
        ),
    ),
    Spoilt(
        "date of another age",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nstart: 1031-09-04"),),
        (
            "trips/tarrow.yaml:2:8: error: start: '1031-09-04' is no date — write year-month-day, such as 2031-09-04 [date]",
        ),
    ),
    Spoilt(
        "date as a list",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nstart: [2031, 9, 4]"),),
        (
            "trips/tarrow.yaml:2:8: error: start must be a text, found a list — write one text [not-text]",
        ),
    ),
    Spoilt(
        "language",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nlanguage: qq"),),
        (
            "trips/tarrow.yaml:2:11: error: language cannot be 'qq' — known are: de, en, nb [word-unknown]",
        ),
    ),
    Spoilt(
        "units",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nunits: imperial"),),
        (
            "trips/tarrow.yaml:2:8: error: units cannot be 'imperial' — known are: metric, us [word-unknown]",
        ),
    ),
    Spoilt(
        "mug of nothing",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nmug: 0 ml"),),
        (
            "trips/tarrow.yaml:2:6: error: mug must be more than nothing, found '0 ml' — write 300 ml, 1.5 l or 2 cups [out-of-range]",
        ),
    ),
    Spoilt(
        "review",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nreview: good"),),
        (
            "trips/tarrow.yaml:2:9: error: review is written as `key: value` lines, found 'good' — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "stove as a text",
        "trips/tarrow.yaml",
        (("stove: {use: burner, pots: [pot]}", "stove: burner"),),
        (
            "trips/tarrow.yaml:4:8: error: a stove is written as `key: value` lines, found 'burner' — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "fuel reserve above all",
        "trips/tarrow.yaml",
        (("pots: [pot]}", "pots: [pot], fuel_reserve: 150 %}"),),
        (
            "trips/tarrow.yaml:4:49: error: fuel_reserve: '150 %' is out of range — write at most 100 %, such as 15 % [out-of-range]",
        ),
    ),
    Spoilt(
        "fuel reserve without percent",
        "trips/tarrow.yaml",
        (("pots: [pot]}", "pots: [pot], fuel_reserve: 0.15}"),),
        (
            "trips/tarrow.yaml:4:49: error: fuel_reserve: '0.15' has no unit — write one of % behind it, such as 15 % [unit-missing]",
        ),
    ),
    Spoilt(
        "wet wood",
        "trips/tarrow.yaml",
        (("title: Tarrow Tops", "title: Tarrow Tops\nfire: {wood_moisture: 80 %}"),),
        (
            "trips/tarrow.yaml:2:23: error: wood_moisture: '80 %' is out of range — write at most 60 %, such as 20 % [out-of-range]",
        ),
    ),
    Spoilt(
        "shared gear",
        "trips/tarrow.yaml",
        (
            (
                "title: Tarrow Tops",
                "title: Tarrow Tops\ngear_shared: [{name: Tarp}, {mass: 3}, rope]",
            ),
        ),
        (
            "trips/tarrow.yaml:2:15: error: this shared thing has no `mass` — write `mass: 250 g` [missing]",
            "trips/tarrow.yaml:2:29: error: this shared thing has no `name` — write `name: …` [missing]",
            "trips/tarrow.yaml:2:36: error: mass: '3' has no unit — write one of mg, g, kg, oz, lb, lbs behind it, such as 250 g, 1.5 kg or 9 oz [unit-missing]",
            "trips/tarrow.yaml:2:40: error: a shared thing is written as `key: value` lines, found 'rope' — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "no days",
        "trips/tarrow.yaml",
        ((DAYS, "days: []\n"),),
        ("trips/tarrow.yaml:5:7: error: this trip has no days — write at least one [empty]",),
    ),
    Spoilt(
        "days missing",
        "trips/tarrow.yaml",
        ((DAYS, ""),),
        ("trips/tarrow.yaml:1:1: error: this trip has no `days` — write `days: […]` [missing]",),
    ),
    Spoilt(
        "a day that is a text",
        "trips/tarrow.yaml",
        ((DAYS, "days: [walk]\n"),),
        (
            "trips/tarrow.yaml:5:8: error: a day is written as `key: value` lines, found 'walk' — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "camp altitude missing",
        "trips/tarrow.yaml",
        (("camp_altitude: 640 m", "title: Low camp"),),
        (
            "trips/tarrow.yaml:6:5: error: this day has no `camp_altitude` — write `camp_altitude: 640 m` [missing]",
        ),
    ),
    Spoilt(
        "home too early",
        "trips/tarrow.yaml",
        (("  - camp_altitude: 640 m", "  - {ends: home, meals: {}}\n  - camp_altitude: 640 m"),),
        (
            "trips/tarrow.yaml:6:12: error: day 1 ends at home, and more days follow — let only the last day end at home [ends-early]",
        ),
    ),
    Spoilt(
        "ends elsewhere",
        "trips/tarrow.yaml",
        (("camp_altitude: 640 m", "ends: hom"),),
        (
            "trips/tarrow.yaml:6:11: error: ends cannot be 'hom' — did you mean home? [word-unknown]",
        ),
    ),
    Spoilt(
        "meal at home and planned",
        "trips/tarrow.yaml",
        (("camp_altitude: 640 m", "camp_altitude: 640 m\n    home: [snacks, brunch]"),),
        (
            "trips/tarrow.yaml:7:11: error: snacks of day 1 is eaten at home and planned as well — take it out of `home` or out of `meals` [home-meal]",
            "trips/tarrow.yaml:7:20: error: home cannot be 'brunch' — did you mean lunch? [word-unknown]",
        ),
    ),
    Spoilt(
        "every day with what is not every day",
        "trips/tarrow.yaml",
        (("days:", "every_day: {camp_altitude: 600 m}\ndays:"),),
        (
            "trips/tarrow.yaml:5:13: error: every_day has no field 'camp_altitude' — known are: air, travel, water, wind [key-unknown]",
        ),
    ),
    Spoilt(
        "every day as a text",
        "trips/tarrow.yaml",
        (("days:", "every_day: rain\ndays:"),),
        (
            "trips/tarrow.yaml:5:12: error: every_day is written as `key: value` lines, found 'rain' — write it as {key: value, …}, or as lines indented below [not-a-mapping]",
        ),
    ),
    Spoilt(
        "a mistake in every day is told once",
        "trips/tarrow.yaml",
        (
            (
                "days:",
                "every_day: {air: {lw: 4 degC}, wind: gale}\ndays:\n  - {camp_altitude: 100 m, meals: {}}",
            ),
        ),
        (
            "trips/tarrow.yaml:5:19: error: air has no field 'lw' — did you mean low? [key-unknown]",
            "trips/tarrow.yaml:5:38: error: wind cannot be 'gale' — known are: breezy, sheltered, windy [word-unknown]",
        ),
    ),
    Spoilt(
        "start camp is read",
        "trips/tarrow.yaml",
        (("days:", "start_camp: {camp_altitude: 200, wind: calm, meals: {}}\ndays:"),),
        (
            "trips/tarrow.yaml:5:29: error: camp_altitude: '200' has no unit — write one of mm, cm, m, km, in, ft, yd, mi behind it, such as 640 m or 2100 ft [unit-missing]",
            "trips/tarrow.yaml:5:40: error: wind cannot be 'calm' — known are: breezy, sheltered, windy [word-unknown]",
            "trips/tarrow.yaml:5:46: error: a start camp has no field 'meals' — known are: air, at, barometer, camp_altitude, water, wind [key-unknown]",
        ),
    ),
    Spoilt(
        "water",
        "trips/tarrow.yaml",
        (
            (
                "    meals:",
                "    water: {camp: sea, treat: uv, at: 104 degC, between_water: 300 h}\n    meals:",
            ),
        ),
        (
            "trips/tarrow.yaml:7:19: error: camp cannot be 'sea' — known are: lake, none, snow, stream, tap [word-unknown]",
            "trips/tarrow.yaml:7:31: error: treat cannot be 'uv' — known are: boil, chemical, filter, none [word-unknown]",
            "trips/tarrow.yaml:7:39: error: at: '104 degC' is out of range — write at most 100 degC, such as 8 degC or 46 degF [out-of-range]",
            "trips/tarrow.yaml:7:64: error: between_water: '300 h' is out of range — write at most 48 h, such as 3 h or 90 min [out-of-range]",
        ),
    ),
    Spoilt(
        "too steep",
        "trips/tarrow.yaml",
        (
            (
                "    meals:",
                "    travel: {hours: 5, distance: 1300 m, ascent: 900 m, descent: 500 m}\n    meals:",
            ),
        ),
        (
            "trips/tarrow.yaml:7:34: error: 1400 m up and down in 1300 m of way is a cliff — check distance, ascent and descent and their units [too-steep]",
        ),
    ),
    Spoilt(
        "too fast",
        "trips/tarrow.yaml",
        (("    meals:", "    travel: {hours: 1, distance: 13 km}\n    meals:"),),
        (
            "trips/tarrow.yaml:7:21: error: 13 km/h is no walk — check distance and hours, or write `by: cycling` [too-fast]",
        ),
    ),
    Spoilt(
        "hours of a longer day",
        "trips/tarrow.yaml",
        (("    meals:", "    travel: {hours: 25, by: flying}\n    meals:"),),
        (
            "trips/tarrow.yaml:7:21: error: hours cannot be '25' — write a number from 0 to 16 [out-of-range]",
            "trips/tarrow.yaml:7:29: error: by cannot be 'flying' — did you mean walking? [word-unknown]",
        ),
    ),
    Spoilt(
        "no way at all",
        "trips/tarrow.yaml",
        (("    meals:", "    travel: {distance: 0 km, ground: mud, load: -1 kg}\n    meals:"),),
        (
            "trips/tarrow.yaml:7:24: error: distance must be more than nothing, found '0 km' — write 640 m, 13 km or 2100 ft [out-of-range]",
            "trips/tarrow.yaml:7:38: error: ground cannot be 'mud' — known are: firm-snow, path, road, rough, sand, soft-snow [word-unknown]",
            "trips/tarrow.yaml:7:49: error: load: '-1 kg' is out of range — write 0 g or more, such as 250 g, 1.5 kg or 9 oz [out-of-range]",
        ),
    ),
    Spoilt(
        "meals missing",
        "trips/tarrow.yaml",
        (
            (
                "    meals:\n      dinner: [{cook: bean-pot, from: beans-may}]\n      snacks: {eat: rice, each: 30 g}\n",
                "",
            ),
        ),
        (
            "trips/tarrow.yaml:6:5: error: this day has no `meals` — write `meals: {dinner: [{cook: …}]}` [missing]",
        ),
    ),
    Spoilt(
        "a meal of another name",
        "trips/tarrow.yaml",
        (("snacks:", "snack:"),),
        (
            "trips/tarrow.yaml:9:7: error: meals has no field 'snack' — did you mean snacks? [key-unknown]",
        ),
    ),
    Spoilt(
        "a meal with nothing in it",
        "trips/tarrow.yaml",
        (("{eat: rice, each: 30 g}", "[]"),),
        (
            "trips/tarrow.yaml:9:15: warning: snacks of day 1 has nothing in it — write `snacks: [{cook: …}]`, or leave `snacks` out [meal-empty]",
        ),
    ),
    Spoilt(
        "a meal with nothing behind it",
        "trips/tarrow.yaml",
        (("snacks: {eat: rice, each: 30 g}", "snacks:"),),
        (
            "trips/tarrow.yaml:9:14: warning: snacks of day 1 has nothing in it — write `snacks: [{cook: …}]`, or leave `snacks` out [meal-empty]",
        ),
    ),
    Spoilt(
        "a meal that is a text",
        "trips/tarrow.yaml",
        (("{eat: rice, each: 30 g}", "rice"),),
        (
            "trips/tarrow.yaml:9:15: error: a meal is written as `key: value` lines, found 'rice' — write {cook: rice}, or {eat: rice, each: 60 g} [not-a-mapping]",
        ),
    ),
    Spoilt(
        "cook and eat both",
        "trips/tarrow.yaml",
        (("{eat: rice, each", "{cook: bean-pot, eat: rice, each"),),
        (
            "trips/tarrow.yaml:9:15: error: a meal is cooked, or eaten as it is; this one says both — write `cook: <recipe>`, or `eat: <food>` and `each: 60 g` [cook-or-eat]",
        ),
    ),
    Spoilt(
        "neither cook nor eat",
        "trips/tarrow.yaml",
        (("{eat: rice, each", "{each"),),
        (
            "trips/tarrow.yaml:9:15: error: a meal is cooked, or eaten as it is; this one says neither — write `cook: <recipe>`, or `eat: <food>` and `each: 60 g` [cook-or-eat]",
        ),
    ),
    Spoilt(
        "each missing",
        "trips/tarrow.yaml",
        ((", each: 30 g", ""),),
        ("trips/tarrow.yaml:9:15: error: this meal has no `each` — write `each: 60 g` [missing]",),
    ),
    Spoilt(
        "each of nothing",
        "trips/tarrow.yaml",
        (("each: 30 g", "each: 0 g"),),
        (
            "trips/tarrow.yaml:9:33: error: each: '0 g' is nothing — write an amount, or drop it [out-of-range]",
        ),
    ),
    Spoilt("each in pieces", "trips/tarrow.yaml", (("each: 30 g", "each: 3 pieces"),), ()),
    Spoilt(
        "cook with each",
        "trips/tarrow.yaml",
        (("from: beans-may", "from: beans-may, each: 30 g"),),
        (
            "trips/tarrow.yaml:8:50: error: a meal has no field 'each' — known are: carried_by, cook, eat, for, from, heat, in, swap [key-unknown]",
        ),
    ),
    Spoilt(
        "unknown food",
        "trips/tarrow.yaml",
        (("eat: rice", "eat: ryce"),),
        (
            "trips/tarrow.yaml:9:21: error: there is no food 'ryce' — did you mean rice? Or copy its label: `energy: 450 kcal` [food-unknown]",
        ),
    ),
    Spoilt(
        "unknown recipe",
        "trips/tarrow.yaml",
        (("cook: bean-pot", "cook: bean-pto"),),
        (
            "trips/tarrow.yaml:8:23: error: there is no recipe 'bean-pto' — did you mean bean-pot? [recipe-unknown]",
        ),
    ),
    Spoilt(
        "for whom",
        "trips/tarrow.yaml",
        (("each: 30 g", "each: 30 g, for: [Ahs, Rowan]"),),
        (
            "trips/tarrow.yaml:9:45: error: nobody in the party is called 'Ahs' — did you mean Ash? [person-unknown]",
            "trips/tarrow.yaml:9:50: error: nobody in the party is called 'Rowan' — known are: Ash [person-unknown]",
        ),
    ),
    Spoilt(
        "for nobody",
        "trips/tarrow.yaml",
        (("each: 30 g", "each: 30 g, for: []"),),
        (
            "trips/tarrow.yaml:9:44: error: nobody eats this — name somebody, or leave `for` out: then all eat [empty]",
        ),
    ),
    Spoilt(
        "for a blank",
        "trips/tarrow.yaml",
        (("each: 30 g", 'each: 30 g, for: [" "]'),),
        (
            "trips/tarrow.yaml:9:44: error: nobody eats this — name somebody, or leave `for` out: then all eat [empty]",
        ),
    ),
    Spoilt(
        "from an unknown batch",
        "trips/tarrow.yaml",
        (("from: beans-may", "from: beans-mya"),),
        (
            "trips/tarrow.yaml:8:39: error: there is no batch 'beans-mya' — did you mean beans-may? [batch-unknown]",
        ),
    ),
    Spoilt(
        "from for an unknown ingredient",
        "trips/tarrow.yaml",
        (("from: beans-may", "from: {bean: beans-may}"),),
        (
            "trips/tarrow.yaml:8:40: error: recipe bean-pot uses no 'bean' — did you mean beans? [ingredient-unknown]",
        ),
    ),
    Spoilt(
        "from a list",
        "trips/tarrow.yaml",
        (("from: beans-may", "from: [beans-may]"),),
        (
            "trips/tarrow.yaml:8:39: error: from must be a text, found a list — write one text [not-text]",
        ),
    ),
    Spoilt(
        "a label without energy",
        "trips/tarrow.yaml",
        (("{eat: rice, each: 30 g}", "{eat: Chews, each: 5 g, allergens: [milk]}"),),
        (
            "trips/tarrow.yaml:9:15: warning: this label tells no energy, so 'Chews' counts as 0 kcal — write the energy of 100 g, such as `energy: 450 kcal` [label-energy]",
        ),
    ),
    Spoilt(
        "a label in joules called calories",
        "trips/tarrow.yaml",
        (("{eat: rice, each: 30 g}", "{eat: Chews, each: 5 g, energy: 1850 kcal}"),),
        (
            "trips/tarrow.yaml:9:47: error: energy: '1850 kcal' cannot be — check the number and its unit: usual is 0 to 905 kcal [out-of-range]",
        ),
    ),
    Spoilt(
        "a label in cups",
        "trips/tarrow.yaml",
        (("{eat: rice, each: 30 g}", "{eat: Chews, each: 1 cup, energy: 385 kcal}"),),
        (
            "trips/tarrow.yaml:9:34: error: each: '1 cup': only a food with an entry of its own is told in volumes or pieces — write the mass [density-missing]",
        ),
    ),
    Spoilt(
        "a label with an unknown allergen",
        "trips/tarrow.yaml",
        (
            (
                "{eat: rice, each: 30 g}",
                "{eat: Chews, each: 5 g, energy: 385 kcal, allergens: [nut]}",
            ),
        ),
        (
            "trips/tarrow.yaml:9:69: error: allergens cannot be 'nut' — did you mean nuts? [word-unknown]",
        ),
    ),
    Spoilt(
        "nobody feeds Rowan",
        "trips/tarrow.yaml",
        (
            ("\nstove:", "\n  - {name: Rowan, carries_to: 0 kg}\nstove:"),
            ("from: beans-may", "from: beans-may, for: Ash"),
            ("each: 30 g", "each: 30 g, for: Ash"),
        ),
        (
            "trips/tarrow.yaml:4:5: warning: 'Rowan' gets nothing to eat on this trip — add them to a meal's `for`, or take them out of the party [not-fed]",
        ),
    ),
)


@pytest.mark.parametrize("spoilt", SPOILT, ids=str)
def test_each_mistake_is_told_at_its_place_with_what_would_do(
    spoilt: Spoilt, tmp_path: Path
) -> None:
    assert told(tmp_path, GOOD, spoilt) == spoilt.expected


def trip_of(folder: Path, text: str) -> Trip:
    found = read(folder, {**GOOD, "trips/tarrow.yaml": text})
    assert [line for line in lines(found) if not line.endswith("[not-fed]")] == []
    return found.content.trips["tarrow"]


def days_of(folder: Path, days: str) -> tuple[Day, ...]:
    return trip_of(folder, TRIP.replace(DAYS, days)).days


def test_what_was_not_told_is_taken_from_a_list_of_defaults_that_is_kept(tmp_path: Path) -> None:
    trip = trip_of(
        tmp_path,
        "title: T\nparty: [{name: Ash}]\nstove: {use: burner, pots: [pot]}\n"
        "fire: {irons: [iron]}\n"
        "days: [{camp_altitude: 100 m, travel: {distance: 12 km, ascent: 600 m}, "
        "meals: {lunch: {eat: rice, each: 30 g}}}]\n",
    )
    person = trip.party[0]
    assert (person.sex, person.age_years, person.mass_kg, person.height_cm) == (None, 35, 70, 170)
    assert (person.carries_to_g, person.own_gear_g, person.avoids) == (None, None, ())
    camp = trip.days[0].camp
    assert (camp.air_low_c, camp.air_high_c, camp.wind) == (5.0, 20.0, "sheltered")
    assert (camp.water.camp, camp.water.treat, camp.water.at_c) == ("stream", "none", None)
    assert camp.water.between_water_h is None
    assert (trip.mug_ml, trip.washing_ml, trip.units, trip.shelter) == (300, 1000, "metric", "tent")
    assert (trip.fuel_reserve_share, trip.language, trip.start) == (0.15, "en", None)
    assert trip.fire is not None
    assert (trip.fire.wood_moisture_share, trip.fire.allowed) == (0.20, True)
    english = [
        tuple(text.format(**dict(each.blanks)) for text in (each.what, each.value))
        for each in trip.defaults
    ]
    assert english == [
        ("sex of Ash", "mean of both"),
        ("age of Ash", "35 years"),
        ("mass of Ash", "70 kg"),
        ("height of Ash", "170 cm"),
        ("what Ash must not eat", "nothing"),
        ("own gear of Ash", "0 g"),
        ("fuel reserve", "15 %"),
        ("moisture of the wood", "20 %"),
        ("air on day 1", "5 to 20 °C"),
        ("wind on day 1", "sheltered"),
        ("water on day 1", "a stream, not treated"),
        (
            "longest stretch without water on day 1",
            "3 h, or all hours on the way where they are fewer",
        ),
        ("way of travel on day 1", "walking"),
        ("hours on day 1", "3.4 h"),
        ("ground on day 1", "path"),
        ("mug", "300 ml"),
        ("ladle", "120 ml"),
        ("washing", "1 l per camp"),
    ]


def test_a_trip_that_tells_all_takes_no_default(tmp_path: Path) -> None:
    trip = trip_of(
        tmp_path,
        """\
title: |
  Tarrow
  Tops
start: 2031-09-04
units: us
language: en
shelter: hut
notes: "Two
  words"
mug: 1 1/4 cups
ladle: 100 ml
washing: 0 l
party:
  - {name: "Ash \\n Lee", sex: male, age: 1, mass: 22 lb, height: 2.5 ft, carries_to: 0 kg, avoids: vegan, pregnant: false, nursing: false}
stove: {use: burner, pots: pot, fuel_reserve: 20 %}
fire: {allowed: false, irons: [iron, iron], pots: [pot], wood_moisture: 25 %}
gear_shared: [{name: Tarp, mass: 780 g}]
days:
  - title: One
    camp_altitude: 2100 ft
    air: {low: 23 degF, high: 0 degC}
    wind: windy
    water: {camp: snow, treat: boil, at: 32 degF, between_water: 90 min}
    travel: {by: skiing, hours: 3, distance: 6 mi, ascent: 0 m, descent: 90 m, ground: firm-snow, load: 9 kg}
    notes: Mind the cornice.
    meals: {drinks: [{eat: Cocoa, each: 20 g, energy: 1610 kJ, allergens: [milk]}]}
review: {}
""",
    )
    assert trip.defaults == ()
    assert (trip.title, trip.notes, trip.start) == (
        "Tarrow Tops",
        "Two words",
        datetime.date(2031, 9, 4),
    )
    assert (trip.units, trip.shelter, trip.washing_ml) == ("us", "hut", 0.0)
    assert trip.mug_ml == pytest.approx(1.25 * 236.5882365, rel=1e-9)
    person = trip.person("Ash Lee")
    assert (person.sex, person.age_years, person.carries_to_g) == ("male", 1, 0.0)
    assert person.mass_kg == pytest.approx(22 * 0.45359237, rel=1e-12)
    assert person.height_cm == pytest.approx(2.5 * 30.48, rel=1e-12)
    assert (person.avoids, person.pregnant, person.nursing) == (("vegan",), False, False)
    assert (trip.stoves, trip.pots, trip.fuel_reserve_share) == (("burner",), ("pot",), 0.2)
    assert trip.fire is not None
    assert (trip.fire.irons, trip.fire.allowed) == (("iron",), False)
    assert [(each.name, each.mass_g) for each in trip.gear_shared] == [("Tarp", 780.0)]
    day = trip.days[0]
    assert day.camp.altitude_m == pytest.approx(2100 * 0.3048, rel=1e-12)
    assert day.camp.air_low_c == pytest.approx(-5.0, abs=1e-9)
    assert day.camp.air_high_c == 0.0
    assert day.camp.water.at_c == 0.0
    assert day.camp.water.between_water_h == pytest.approx(1.5, rel=1e-12)
    (leg,) = day.travel
    assert (leg.by, leg.hours, leg.descent_m) == ("skiing", 3, 90)
    assert (leg.ground, leg.load_g) == ("firm-snow", 9000)
    assert leg.distance_m == pytest.approx(6 * 1609.344, rel=1e-12)
    label = day.meals[0].items[0].label
    assert label is not None
    assert (label.name, label.allergens) == ("Cocoa", ("milk",))
    assert label.per_100g.energy_kcal == pytest.approx(1610 / 4.184, rel=1e-9)


def test_a_day_lays_its_own_words_over_every_day_field_by_field(tmp_path: Path) -> None:
    every = "every_day: {air: {low: 1 degC, high: 9 degC}, wind: windy, water: {camp: lake, treat: filter}, travel: {by: walking, hours: 4}}\n"
    one, two = days_of(
        tmp_path,
        every + "days:\n"
        "  - {camp_altitude: 100 m, meals: {}}\n"
        "  - {camp_altitude: 200 m, air: {high: 12 degC}, wind: breezy, water: {treat: boil}, travel: {hours: 6}, meals: {}}\n",
    )
    assert (one.camp.air_low_c, one.camp.air_high_c, one.camp.wind) == (1, 9, "windy")
    assert (one.camp.water.camp, one.camp.water.treat, one.travel_hours) == ("lake", "filter", 4)
    assert (two.camp.air_low_c, two.camp.air_high_c, two.camp.wind) == (1, 12, "breezy")
    assert (two.camp.water.camp, two.camp.water.treat, two.travel_hours) == ("lake", "boil", 6)
    assert two.title == ""  # it is known by its number


def test_an_empty_word_takes_back_what_every_day_says(tmp_path: Path) -> None:
    (day,) = days_of(
        tmp_path,
        "every_day: {travel: {hours: 4}, wind: windy}\n"
        "days: [{camp_altitude: 100 m, travel: , wind: ~, meals: {}}]\n",
    )
    assert day.travel == ()
    assert day.camp.wind == "sheltered"


def test_a_day_that_ends_at_home_has_the_conditions_of_the_last_camp(tmp_path: Path) -> None:
    high, home = days_of(
        tmp_path,
        "days:\n"
        "  - {camp_altitude: 1480 m, air: {low: -4 degC, high: 6 degC}, wind: windy, water: {camp: snow}, meals: {}}\n"
        "  - {ends: home, air: {high: 11 degC}, meals: {breakfast: {eat: rice, each: 30 g}}}\n",
    )
    assert home.ends_home and not high.ends_home
    assert (home.camp.altitude_m, home.camp.wind, home.camp.water.camp) == (1480, "windy", "snow")
    assert (home.camp.air_low_c, home.camp.air_high_c) == (-4, 11)
    assert home.home == ("dinner",)


def test_a_trip_of_one_day_needs_no_camp(tmp_path: Path) -> None:
    (day,) = days_of(tmp_path, "days: [{ends: home, home: [breakfast], meals: {}}]\n")
    assert day.camp.altitude_m is None
    assert day.home == ("breakfast", "dinner")


def test_an_ends_with_nothing_behind_it_does_not_hide_a_missing_camp(tmp_path: Path) -> None:
    days = "days:\n  - {camp_altitude: 100 m, meals: {}}\n  - {ends: , meals: {}}\n"
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": TRIP.replace(DAYS, days)})
    assert lines(found) == [
        "trips/tarrow.yaml:7:5: error: this day has no `camp_altitude` — write `camp_altitude: 640 m` [missing]",
    ]


def test_a_start_camp_takes_what_it_does_not_tell_from_the_first_day(tmp_path: Path) -> None:
    text = changed(
        TRIP,
        "days:\n  - camp_altitude: 640 m\n",
        "every_day: {wind: windy}\n"
        "start_camp: {camp_altitude: 90 m, air: {low: 8 degC}}\n"
        "days:\n  - camp_altitude: 640 m\n    air: {low: 2 degC, high: 12 degC}\n",
    )
    trip = trip_of(tmp_path, text)
    assert trip.start_camp == Camp(90.0, 8.0, 12.0, "windy", trip.days[0].camp.water)
    assert trip.days[0].camp.altitude_m == 640
    whats = [each.what for each in trip.defaults]
    assert len(whats) == len(set(whats)), "nothing is noted twice"


@pytest.mark.parametrize(
    ("written", "hours"),
    [
        ("{distance: 12 km, ascent: 600 m}", 12 / 5 + 1),
        ("{by: cycling, distance: 30 km}", 2.0),
        ("{by: snowshoeing, distance: 6 km, ascent: 300 m}", 2.5),
        ("{distance: 200 km, by: paddling}", 16.0),
        ("{ascent: 300 m}", 5.0),
        ("{by: walking, hours: 0}", 0.0),
        ("{by: resting}", 0.0),
        ("{by: resting, hours: 5}", 0.0),
    ],
)
def test_hours_that_were_not_told_come_from_the_way(
    written: str, hours: float, tmp_path: Path
) -> None:
    (day,) = days_of(
        tmp_path, f"days: [{{camp_altitude: 100 m, travel: {written}, meals: {{}}}}]\n"
    )
    assert day.travel_hours == pytest.approx(hours, rel=1e-12)


def test_who_eats_is_told_in_the_order_of_the_party(tmp_path: Path) -> None:
    party = "party: [{name: Ash}, {name: Rowan}, {name: Bram}]\n"
    text = TRIP.replace(TRIP[TRIP.index("party:") : TRIP.index("stove:")], party)
    text = changed(text, "each: 30 g}", "each: 30 g, for: [Bram, Ash, Bram]}")
    text = changed(text, "from: beans-may}", "from: beans-may, for: Rowan}")
    dinner, snacks = trip_of(tmp_path, text).days[0].meals
    assert dinner.items[0].eaters == ("Rowan",)
    assert snacks.items[0].eaters == ("Ash", "Bram")
    text = changed(text, ", for: Rowan", "")
    assert trip_of(tmp_path, text).days[0].meals[0].items[0].eaters == ("Ash", "Rowan", "Bram")


def test_meals_keep_the_order_of_the_file_and_one_thing_needs_no_list(tmp_path: Path) -> None:
    (day,) = days_of(
        tmp_path,
        "days:\n"
        "  - camp_altitude: 100 m\n"
        "    meals:\n"
        "      snacks: {eat: rice, each: 30 g}\n"
        "      breakfast: [{eat: rice, each: 1 oz}, {eat: rice, each: ½ cup}]\n",  # an empty list is told: "a meal with nothing in it"
    )
    assert [meal.meal for meal in day.meals] == ["snacks", "breakfast"]
    ounce, half_cup = day.meals[1].items
    assert ounce.each_g == pytest.approx(28.349523125, rel=1e-12)
    assert half_cup.each_g == pytest.approx(0.5 * 236.5882365 * 0.8, rel=1e-9)


def test_one_batch_goes_to_the_one_dried_ingredient(tmp_path: Path) -> None:
    dinner, snacks = trip_of(tmp_path, TRIP).days[0].meals
    assert dinner.items[0].batches == (("beans", "beans-may"),)
    assert dinner.items[0].batch_of("beans") == "beans-may"
    assert dinner.items[0].batch_of("rice") is None
    assert snacks.items[0].batches == ()
    text = changed(TRIP, "from: beans-may", "from: {beans: beans-may}")
    assert trip_of(tmp_path, text).days[0].meals[0].items[0].batches == (("beans", "beans-may"),)


def test_a_dried_meal_may_be_eaten_as_it_is(tmp_path: Path) -> None:
    text = changed(TRIP, "eat: rice, each: 30 g", "eat: bean-pot, each: 30 g, dried_by: oven")
    item = trip_of(tmp_path, text).days[0].meals[1].items[0]
    assert (item.food, item.recipe, item.dried_by, item.each_g) == ("bean-pot", None, "oven", 30)


def test_a_dried_meal_is_not_told_in_cups(tmp_path: Path) -> None:
    text = changed(TRIP, "eat: rice, each: 30 g", "eat: bean-pot, each: 1 cup")
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": text})
    assert lines(found) == [
        "trips/tarrow.yaml:9:37: error: each: '1 cup': only a food with an entry of its own is told in volumes or pieces — write the mass [density-missing]"
    ]


def test_a_label_stands_for_a_food_even_where_one_has_that_id(tmp_path: Path) -> None:
    text = changed(TRIP, "eat: rice, each: 30 g", "eat: rice, each: 30 g, fat: 2 g, protein: 7.5 g")
    item = trip_of(tmp_path, text).days[0].meals[1].items[0]
    assert item.food is None
    assert item.label is not None
    assert item.label.per_100g == Composition(fat_g=2.0, protein_g=7.5)


def test_avoids_takes_diets_allergens_kinds_and_foods(tmp_path: Path) -> None:
    text = changed(TRIP, "own_gear: 6 kg", "avoids: [vegetarian, nuts, meat, rice, nuts]")
    trip = trip_of(tmp_path, text)
    assert trip.party[0].avoids == ("vegetarian", "nuts", "meat", "rice")


def test_pots_of_stove_and_fire_are_one_list(tmp_path: Path) -> None:
    trip = trip_of(tmp_path, changed(TRIP, "days:", "fire: {pots: [pot], irons: iron}\ndays:"))
    assert trip.pots == ("pot",)
    assert trip.fire is not None and trip.fire.irons == ("iron",)


def test_a_name_keeps_the_zeros_it_was_written_with(tmp_path: Path) -> None:
    assert trip_of(tmp_path, changed(TRIP, "Tarrow Tops", "12.10")).title == "12.10"


def test_each_thing_knows_where_it_was_written(tmp_path: Path) -> None:
    trip = trip_of(tmp_path, TRIP)
    assert trip.places.of("title") == Place("my/trips/tarrow.yaml", 1, 8)
    assert trip.places.of("start") == trip.places.record == Place("my/trips/tarrow.yaml", 1, 1)
    assert trip.places.of("pots/pot") == Place("my/trips/tarrow.yaml", 4, 29)
    assert trip.party[0].places.of("age") == Place("my/trips/tarrow.yaml", 3, 35)
    item = trip.days[0].meals[0].items[0]
    assert str(item.places.of("from")) == "my/trips/tarrow.yaml:8:39"
