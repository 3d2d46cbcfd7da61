# ruff: noqa: E501 - the lines that people read stand whole
"""The home, and a trip whose party is named by it."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.home import ALWAYS_FREE, EVERY_DAY, WEEKDAYS, FreeHours, NewBatch
from builder.reading.anew.cuttings import content_of_kit
from builder.reading.folder import Folder
from tests.reading.folder_builder import GOOD, TRIP, changed, lines, read

GEAR = """\
packaging: [{id: jar, name: Jar, mass: 260 g, barrier: glass}]
dryers: [{id: shelf, name: Shelf, method: dehydrator, load: 3 kg, hours: 12}]
sheets: [{id: four, page: a4, columns: 1, rows: 4, width: 180 mm, height: 60 mm, left: 10 mm, top: 10 mm}]
"""
HOME = """\
people:
  - {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}
  - name: Rowan  # has eaten nuts once
    age: 41
    avoids: [nuts]
dryers: [shelf]
free: {fri: "17:00-22:00", sat: ["13:00-22:00", "08:00-12:00"]}
electricity: 0.31 per kWh
currency: EUR
batch: {packs: {in: jar, absorber: true}, kept_at: 15 degC}
labels: {sheet: four}
mug: 250 ml
units: us
language: de
portion: 60 g
"""
WRITTEN_HERE = "- {name: Ash, sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg}"
NAMED = changed(TRIP, WRITTEN_HERE, "- Ash")


def read_home(folder: Path, home: str, trip: str = TRIP) -> Folder:
    return read(
        folder, {**GOOD, "gear/mine.yaml": GEAR, "home.yaml": home, "trips/tarrow.yaml": trip}
    )


def told_of(found: Folder) -> list[str]:
    """Give all that is told, but for keys that nothing is made of yet."""
    return [line for line in lines(found) if "[not-used-yet]" not in line]


def test_every_key_is_read_with_its_unit(tmp_path: Path) -> None:
    found = read_home(tmp_path, HOME)
    home = found.content.home
    assert told_of(found) == []
    assert home.is_told
    assert [(each.name, each.age_years, each.avoids) for each in home.people] == [
        ("Ash", 34, ()),
        ("Rowan", 41, ("nuts",)),
    ]
    assert home.dryers == ("shelf",)
    assert home.free == {
        **dict.fromkeys(WEEKDAYS, ()),
        "fri": (FreeHours(17 * 60, 22 * 60),),
        "sat": (FreeHours(8 * 60, 12 * 60), FreeHours(13 * 60, 22 * 60)),
    }
    assert home.electricity_per_kwh == pytest.approx(0.31)
    assert home.new_batch == NewBatch("jar", True, 15)
    assert (home.currency, home.label_sheet, home.mug_ml) == ("EUR", "four", 250)
    assert (home.units, home.language, home.portion_g) == ("us", "de", 60)


def test_a_folder_without_it_has_the_defaults(tmp_path: Path) -> None:
    home = read(tmp_path, GOOD).content.home
    assert not home.is_told
    assert home.free == ALWAYS_FREE
    assert set(home.free.values()) == {(EVERY_DAY,)}
    assert (home.mug_ml, home.portion_g, home.electricity_per_kwh) == (300, 50, None)


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('"17:00-22:00"', '"17-22"', "home.yaml:7:13: error: fri: '17-22' is no stretch of a day — write it as `fri: \"17:00-22:00\"` [free-hours]"),
        ('"17:00-22:00"', '"22:00-06:00"', "home.yaml:7:13: error: fri: '22:00-06:00' does not end after it begins, on one day — write two stretches, on the two days [free-hours]"),
        ('"13:00-22:00"', '"11:00-22:00"', "home.yaml:7:33: error: sat: two of these overlap — write them as one [free-twice]"),
        ("0.31 per kWh", "0.31", "home.yaml:8:14: error: electricity: '0.31' is no price for an amount — write it as `electricity: 3.20 per 1 kWh` [price]"),
        ("dryers: [shelf]", "dryers: [shelv]", "home.yaml:6:10: error: there is no dryer 'shelv' — did you mean shelf? [dryer-unknown]"),
        ("sheet: four", "sheet: fuor", "home.yaml:11:9: error: there is no sheet of labels 'fuor' — did you mean four? [sheet-unknown]"),
        ("in: jar", "in: tin", "home.yaml:10:8: error: there is no packaging 'tin' — known are: jar, zip-bag [packaging-unknown]"),
        ("avoids: [nuts]", "avoids: [nutz]", "home.yaml:5:14: error: 'nutz' is no allergen, kind of food or food — did you mean nut? [avoids-unknown]"),
        ("name: Rowan  #", "name: Ash  #", "home.yaml:3:11: error: two people are called 'Ash' — tell them apart, such as Ash B [name-twice]"),
        ("portion: 60 g", "portion: 60 g\nsauna: hot", "home.yaml:16:1: error: a home has no field 'sauna' — known are: "),
    ],
)  # fmt: skip
def test_each_mistake_is_told_at_its_place(tmp_path: Path, old: str, new: str, told: str) -> None:
    (line,) = told_of(read_home(tmp_path, changed(HOME, old, new)))
    assert line.startswith(told)


def test_a_party_may_name_those_of_the_home(tmp_path: Path) -> None:
    named = read_home(tmp_path / "named", HOME, NAMED)
    written = read_home(tmp_path / "written", HOME)
    assert told_of(named) == []
    ash, own = (each.content.trips["tarrow"].party[0] for each in (named, written))
    assert ash == own
    # Where she is told to eat twice, or not at all, the trip's own line is meant.
    assert str(ash.places.of("name")).endswith("trips/tarrow.yaml:3:5")
    defaults = (each.content.trips["tarrow"].defaults for each in (named, written))
    assert len({frozenset(each) for each in defaults}) == 1


@pytest.mark.parametrize(
    ("home", "says"),
    [
        (HOME, "home.yaml tells of no 'Asch' — did you mean Ash? [person-unknown]"),
        ("currency: EUR", "there is no home.yaml that tells of people"),
    ],
)
def test_who_is_not_known_at_home_is_told(tmp_path: Path, home: str, says: str) -> None:
    trip = (
        changed(changed(TRIP, WRITTEN_HERE, "- Asch"), "without", "without")
        if "without" in TRIP
        else changed(TRIP, WRITTEN_HERE, "- Asch")
    )
    found = [line for line in lines(read_home(tmp_path, home, trip)) if "person-unknown" in line]
    assert len(found) == 1 and says in found[0]


def test_a_kit_hands_on_whom_it_names_and_nothing_else_of_the_home(tmp_path: Path) -> None:
    found = read_home(tmp_path, HOME, NAMED)
    files = content_of_kit(found, "tarrow", ())
    assert "home.yaml" not in files
    trip = files["trips/tarrow.yaml"].decode()
    assert WRITTEN_HERE.removeprefix("- ") in trip
    assert "Rowan" not in trip
    again = read(tmp_path / "again", {name: raw.decode() for name, raw in files.items()})
    assert again.content.trips["tarrow"].party == found.content.trips["tarrow"].party
