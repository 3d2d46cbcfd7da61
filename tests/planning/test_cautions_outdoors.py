"""Cautions about water, heat, fire and fuel: both sides of each number."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from builder.planning.cautions.table import PREDICATES

from .caution_cases import Case, Folder, of_id, with_and_without
from .folders import GEAR, Record, day, day_trip, hand
from .test_cautions import COLD, FIRE, PRESSED, SPIRIT, at_camp, boiled, cooks, ids, plan

PARAFFIN = {"kind": "liquid", "energy": "43 MJ/kg"}


def water(camp: str = "stream", treat: str = "boil", **more: object) -> Record:
    return {"camp": camp, "treat": treat, "between_water": "2 h", **more}


def drinks(
    height: str = "1000 m",
    high: str = "19 degC",
    low: str = "5 degC",
    trip: Record | None = None,
    **told: Any,
) -> Folder:
    """Give a day with such water, at such a height, in such air."""
    return at_camp(trip, camp_altitude=height, air={"low": low, "high": high}, water=water(**told))


def without_air(trip: Record | None = None, treat: str = "boil") -> Folder:
    """Give a day of which nobody told how cold it gets; without a stove unless a trip is given."""
    found = trip or {key: told for key, told in day_trip().items() if key != "stove"}
    found["days"] = [{**found["days"][0], "water": water(treat=treat)}]
    del found["days"][0]["air"]
    found.setdefault("fire", {"allowed": True, "pots": ["small"]})
    return {"trip": found, "recipes": [boiled()]}


def burns(fuel: Record, low: str, high: str = "30 degC") -> Folder:
    """Give a trip that cooks on the spirit burner with a fuel of one's own."""
    gear = {**GEAR, "fuels": [GEAR["fuels"][0], {**GEAR["fuels"][1], **fuel}]}
    return {**cooks(boiled(), SPIRIT, air={"low": low, "high": high}), "gear": gear}


def in_frost(*treats: str) -> Folder:
    """Give two days, frost on the second, each with its own way to treat water."""
    days = [
        day(water=water(treat=treat), air={"low": low, "high": "9 degC"})
        for treat, low in zip(treats, ("4 degC", "-2 degC"), strict=True)
    ]
    return {"trip": day_trip(days=days)}


def gas(low: str, trip: Record | None = None, camp: str = "stream") -> Folder:
    air = {"low": low, "high": "15 degC"}
    return cooks(boiled(), trip, air=air, water=water(camp=camp, treat="chemical"))


def untold_gas(low: str) -> Folder:
    """Give a trip with a gas of which nobody told what is in it."""
    fuel = {key: told for key, told in GEAR["fuels"][0].items() if key != "mix"}
    return {**gas(low), "gear": {**GEAR, "fuels": [fuel, GEAR["fuels"][1]]}}


def warmer_than_the_first_night(meal: str) -> Folder:
    """Give a day that is warm enough for spirit, after a night that was not."""
    start = {"camp_altitude": "900 m", "air": {"low": "5 degC", "high": "20 degC"}}
    found = cooks(boiled(), {**SPIRIT, "start_camp": start}, air={"low": "15 degC"})
    found["trip"]["days"][0]["meals"] = {meal: [{"cook": "dish"}]}
    return found


def between_taps(stretch: str, treat: str = "none") -> Folder:
    """Give four hours from tap to tap."""
    walk = {"by": "walking", "hours": 4}
    return at_camp(water=water("tap", treat, between_water=stretch), travel=walk)


def starts(at: str = "", low: str = "5 degC", high: str = "19 degC", **told: Any) -> Folder:
    """Give a mild day by a stream, after a night at a camp with water and air of its own."""
    place = water(**{"camp": "lake", "treat": "filter", **told}, **({"at": at} if at else {}))
    start = {"camp_altitude": "900 m", "air": {"low": low, "high": high}, "water": place}
    # Day 1 tells no warmth of its water, which the start camp would take over.
    return {"trip": day_trip(start_camp=start, days=[day(water=water("stream", "none"))])}


def starts_untreated(camp: str = "stream", treat: str = "none") -> Folder:
    """Give a day whose water is filtered, after a night at a camp with water of its own."""
    start = {"camp_altitude": "900 m", "water": water(camp, treat)}
    return {"trip": day_trip(start_camp=start, days=[day(water=water("stream", "filter"))])}


def sleeps(*heights: str, start: str = "", home: bool = False, **way: str) -> Folder:
    """Give nights at these heights, each after a walk; the last day may end at home."""
    walk = {"by": "walking", "hours": 5, "distance": "9 km", **way}
    days = [day(camp_altitude=each, travel=walk) for each in heights]
    if home:
        del days[-1]["camp_altitude"]
        days[-1]["ends"] = "home"
    return {"trip": day_trip(days=days, **({"start_camp": start_at(start)} if start else {}))}


def start_at(told: str) -> Record:
    return {"barometer" if told.endswith("hPa") else "camp_altitude": told}


DEPOT = {"depots": [{"camp": 1, "holds": [1]}]}


CASES: list[Case] = [
    ("depot", cooks(boiled(), DEPOT), cooks(boiled())),
    ("thin-air", sleeps("2501 m"), sleeps("2500 m")),
    ("thin-air", sleeps("900 m", "2501 m"), sleeps("900 m", "2500 m")),
    ("thin-air", sleeps("900 m", start="2501 m"), sleeps("900 m", start="2500 m")),
    # From 2400 m a climb of 601 m may lead to 3001, or of 1601 from 1400; nobody told how high.
    ("thin-air", sleeps("2400 m", "2400 m", ascent="601 m"),
     sleeps("2400 m", "2400 m", ascent="600 m")),
    ("thin-air", sleeps("1400 m", start="1400 m", ascent="1601 m"),
     sleeps("1400 m", ascent="1601 m")),
    # Whoever goes down 301 m to 1400 was at 1701 m and no higher.
    ("thin-air", sleeps("1400 m", start="1400 m", ascent="1601 m", descent="1601 m"),
     sleeps("1400 m", start="1400 m", ascent="1601 m", descent="301 m")),
    ("thin-air", sleeps("2400 m", "2400 m", home=True, ascent="601 m"),
     sleeps("2400 m", "2400 m", home=True, ascent="600 m")),
    ("height-gained-fast", sleeps("3001 m"), sleeps("3000 m")),
    ("height-gained-fast", sleeps("3001 m", start="900 m"), sleeps("3001 m", start="2501 m")),
    ("height-gained-fast", sleeps("3001 m", start="900 m"), sleeps("3001 m", start="720 hPa")),
    ("height-gained-fast", sleeps("2800 m", "3301 m"), sleeps("2800 m", "3300 m")),
    ("height-gained-fast", sleeps("2900 m", "2400 m", "3001 m"),
     sleeps("2900 m", "2501 m", "3001 m")),
    ("height-gained-fast", sleeps("2800 m", "3301 m"), sleeps("2800 m", "3301 m", home=True)),
    # The night before day 1 counts like any other.
    ("frozen-filter", starts(low="0 degC"), starts(low="0.1 degC")),
    ("algae", starts("15 degC"), starts("14.9 degC")),
    ("algae", starts(high="20 degC"), starts(high="19.9 degC")),
    ("algae", starts(high="20 degC"), starts(high="20 degC", camp="stream")),
    ("algae", starts(high="20 degC"), starts("14 degC", high="20 degC")),
    ("untreated-water", starts_untreated(), starts_untreated(camp="tap")),
    ("untreated-water", starts_untreated(), starts_untreated(treat="filter")),
    ("chemicals-near", starts(near=["mines"]), starts(near="none")),
    ("chemicals-near", starts(near=["roads"]), starts(near=["roads"], camp="tap")),
    ("boil-longer", drinks("2001 m"), drinks("2000 m")),
    ("boil-longer", drinks("2310 m"), drinks("2310 m", treat="filter")),
    ("boil-longer", drinks("2310 m"), drinks("2310 m", camp="tap")),
    ("boil-water", drinks("2000 m"), drinks("2001 m")),
    # A lake of 15 degC and more; air of 20 where nobody told.
    ("algae", drinks(camp="lake", at="15 degC"), drinks(camp="lake", at="14.9 degC")),
    ("algae", drinks(camp="lake", high="20 degC"), drinks(camp="lake", high="19.9 degC")),
    ("algae", drinks(camp="lake", high="20 degC"), drinks(camp="stream", high="20 degC")),
    ("algae", drinks(camp="lake", high="20 degC"),
     drinks(camp="lake", high="20 degC", at="14 degC")),
    *(
        ("chemicals-near", drinks(near=[near]), drinks(near="none"))
        for near in ("mines", "fields", "roads")
    ),
    ("chemicals-near", drinks(near="fields"), drinks()),
    ("chemicals-near", drinks(near="fields"), drinks(near="fields", camp="tap")),
    ("heat-illness", drinks(high="30.1 degC"), drinks(high="30 degC")),
    ("over-drinking", drinks(high="30.1 degC"), drinks(high="30 degC")),  # at rest
    # The filter of the first day is in the pack when it freezes on the second.
    ("frozen-filter", in_frost("filter", "boil"), in_frost("chemical", "boil")),
    ("hut-flue", cooks(boiled(), {"shelter": "hut"}), cooks(boiled(), {"shelter": "tent"})),
    ("hut-flue", cooks(boiled(), {"shelter": "hut"}), cooks(COLD, {"shelter": "hut"})),
    # 30 % propane: at -13 degC a full can still feeds a burner, and most of it stays in it; at
    # 0 degC 49 % come out, at 1 degC 52.
    ("gas-left-in-the-can", gas("0 degC"), gas("1 degC")),
    ("gas-left-in-the-can", gas("-13 degC"), gas("-15 degC")),
    ("gas-left-in-the-can", gas("-13 degC"), gas("-13 degC", SPIRIT)),
    ("fuel-too-cold", burns({**PARAFFIN, "lights_from": "38 degC"}, "37 degC", "39 degC"),
     burns({**PARAFFIN, "lights_from": "38 degC"}, "38 degC", "39 degC")),
    # 13 degC for alcohol that tells none; a liquid that tells none may be kerosene.
    ("fuel-too-cold", burns({}, "12.9 degC"), burns({}, "13 degC")),
    ("fuel-too-cold", burns(PARAFFIN, "5 degC"),
     burns({**PARAFFIN, "lights_from": "5 degC"}, "5 degC")),
    ("fuel-too-cold", burns(PARAFFIN, "5 degC"), burns({"kind": "solid"}, "5 degC")),
    # The first breakfast is cooked where the night was spent.
    ("fuel-too-cold", warmer_than_the_first_night("breakfast"),
     warmer_than_the_first_night("dinner")),
    # Of gases that nobody told the worst is taken, which is butane: it fails below 9 degC here.
    ("gas-in-the-cold", untold_gas("8 degC"), untold_gas("11 degC")),
    ("gas-in-the-cold", untold_gas("8 degC"), gas("8 degC")),
    # At -12 degC a can still burns, and gives less than the snow of a day takes.
    ("gas-in-the-cold", gas("-12 degC", camp="snow"), gas("-12 degC")),
    # What the cold spoils is asked about where nobody told how cold it gets.
    ("weather-not-told", without_air(treat="filter"), in_frost("filter", "filter")),
    ("weather-not-told", without_air(cooks(boiled())["trip"]), gas("-12 degC")),
    ("weather-not-told", without_air(treat="filter"), without_air(treat="boil")),
    # A tap at the camp is none on the way to it.
    ("untreated-water", between_taps("2.9 h"), between_taps("3 h")),
    ("untreated-water", between_taps("2 h"), between_taps("2 h", treat="filter")),
    ("fuel-too-cold", burns({}, "5 degC"), burns({"lights_from": "-20 degC"}, "5 degC")),
]  # fmt: skip


def of(folder: Folder, path: Path, name: str) -> list[str]:
    return [each.because for each in of_id(plan(path, folder), name)]


@with_and_without(CASES)
def test_a_caution_comes_with_its_condition_and_goes_with_it(
    tmp_path: Path, name: str, with_it: Folder, without: Folder
) -> None:
    assert name in PREDICATES
    kit = plan(tmp_path / "with", with_it)
    assert name in ids(kit)
    assert all(each.because.endswith((".", ").")) for each in kit.cautions)
    assert name not in ids(plan(tmp_path / "without", without))


SAYS: list[tuple[str, Folder, str]] = [
    ("boil-longer", drinks("2310 m"), "The camp lies at up to 2,310\u00a0m on day 1."),
    ("boil-longer", drinks("2310 m", trip={"units": "us"}), "7,579\u00a0ft"),
    ("algae", drinks(camp="lake", at="16 degC"), "The lake on day 1 is at 16\u00a0°C."),
    ("algae", drinks(camp="lake", high="22 degC"),
     "Nobody wrote down how warm the lake on day 1 is, and the air reaches 22\u00a0°C."),
    ("chemicals-near", drinks(near=["mines", "roads"]), "Mines lie near the water of day 1."),
    ("heat-illness", drinks(high="34 degC", trip={"units": "us"}), "up to 93\u00a0°F on day 1."),
    ("gas-left-in-the-can", gas("-13 degC"), "falls to −13\u00a0°C: about "),
    ("gas-in-the-cold", untold_gas("8 degC"),
     "Nobody wrote down the gases in Gas, and on day 1 the air falls to 8\u00a0°C"),
    ("gas-in-the-cold", gas("-12 degC", camp="snow"), "In the cold the canisters you take give "),
    ("untreated-water", between_taps("2 h"), "what you fill up with between taps on day 1."),
    ("fuel-too-cold", burns({}, "5 degC"),
     "lights from 13\u00a0°C on, and the air falls to 5\u00a0°C"),
    ("fuel-too-cold", burns(PARAFFIN, "5 degC"),
     "must be to light; kerosene must be at 38\u00a0°C. The air falls to 5\u00a0°C (day 1)."),
    ("weather-not-told", without_air(treat="filter"),
     "Nobody wrote down how cold it gets on day 1; 5\u00a0°C is taken."),
    ("frozen-filter", in_frost("filter", "boil"), "Frost is expected on day 2."),
    ("frozen-filter", starts(low="-3 degC"), "Frost is expected at the start camp."),
    ("algae", starts("17 degC"), "The lake at the start camp is at 17\u00a0°C."),
    ("algae", starts(high="21 degC"),
     "Nobody wrote down how warm the lake at the start camp is, and the air reaches 21\u00a0°C."),
    ("untreated-water", starts_untreated(), "Nobody planned to treat the water of the start camp."),
    ("chemicals-near", starts(near=["fields"]), "Fields lie near the water of the start camp."),
    ("carbon-monoxide", cooks(PRESSED, {**FIRE, "shelter": "tarp"}),
     "You sleep under a tarp and cook on a fire."),
    ("hut-flue", cooks(boiled(), {"shelter": "hut"}), "You sleep in a hut and cook on a stove."),
]  # fmt: skip


@pytest.mark.parametrize(("name", "folder", "words"), SAYS, ids=[case[0] for case in SAYS])
def test_a_reason_tells_this_trips_numbers_in_its_units(
    tmp_path: Path, name: str, folder: Folder, words: str
) -> None:
    assert any(words in because for because in of(folder, tmp_path, name))


def test_each_thing_near_the_water_is_told_apart(tmp_path: Path) -> None:
    because = of(drinks(near=["mines", "roads"]), tmp_path, "chemicals-near")
    assert because == ["Mines lie near the water of day 1.", "Roads lie near the water of day 1."]


def test_a_fire_of_which_nobody_told_whether_it_is_allowed_is_asked_about(tmp_path: Path) -> None:
    not_told = "Nobody wrote down whether a fire is allowed on day 1."
    allowed = {"fire": {**FIRE["fire"], "allowed": True}}
    assert not_told in of(cooks(PRESSED, FIRE), tmp_path / "not", "fire-and-embers")
    assert not_told not in of(cooks(PRESSED, allowed), tmp_path / "told", "fire-and-embers")


def homeward(**told: Any) -> Folder:
    """Give a camp with a mine near its water, and a day home that tells water of its own."""
    home = {"ends": "home", "meals": {}, **({"water": told} if told else {})}
    days = [day(water=water(near=["mines"])), home]
    return {"trip": day_trip(days=days)}


@pytest.mark.parametrize(
    ("told", "because"),
    [
        ({}, ["Mines lie near the water of day 1."]),
        ({"camp": "lake", "near": ["fields"]}, ["Mines … 1.", "Fields … 2."]),
        ({"near": ["fields"]}, ["Mines … 1.", "Fields … 2."]),
        ({"camp": "lake"}, ["Mines … 1."]),
        ({"camp": "tap"}, ["Mines … 1."]),
    ],
)
def test_the_day_home_has_what_lies_near_its_own_water(
    told: Record, because: list[str], tmp_path: Path
) -> None:
    found = of(homeward(**told), tmp_path, "chemicals-near")
    assert found == [each.replace("…", "lie near the water of day") for each in because]


def test_the_lake_of_the_day_home_counts(tmp_path: Path) -> None:
    lake = homeward(camp="lake", at="17 degC")
    assert of(lake, tmp_path, "algae") == ["The lake on day 2 is at 17\u00a0°C."]


def test_nothing_near_and_something_near_is_a_mistake(tmp_path: Path) -> None:
    folder = drinks(near=["none", "mines"])
    assert "near-none" in hand(tmp_path, folder["trip"]).kinds()


def test_what_a_can_keeps_is_what_it_does_not_give(tmp_path: Path) -> None:
    kit = plan(tmp_path, gas("-13 degC"))
    (cold,) = (each for day in kit.days for each in day.cold_gases)
    (because,) = [each.because for each in kit.cautions if each.id == "gas-left-in-the-can"]
    assert f"about {100 * (1 - cold.usable_share):.0f}\u00a0%" in because


def test_on_the_way_home_no_camps_water_is_warned_of(tmp_path: Path) -> None:
    """The last camp's water is handed on to a day that ends at home, which has none."""
    lake = water(camp="lake", near=["fields"], at="17 degC")
    days = [day(water=lake), {**day(ends="home"), "water": lake}]
    found = {"trip": day_trip(days=days)}
    assert of(found, tmp_path / "lake", "algae") == ["The lake on day 1 is at 17\u00a0°C."]
    assert of(found, tmp_path / "near", "chemicals-near") == ["Fields lie near the water of day 1."]


def test_what_a_dry_camp_is_reached_with_was_filled_on_the_way(tmp_path: Path) -> None:
    because = of(drinks(camp="none", near=["roads"]), tmp_path, "chemicals-near")
    assert because == ["Roads lie near the water of day 1."]
