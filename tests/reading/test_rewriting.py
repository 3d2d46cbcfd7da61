"""A rewritten trip differs from the old one in just what had to change."""

from __future__ import annotations

import datetime
from collections.abc import Mapping

import pytest

from builder.reading.anew.rewriting import Changes, PacksNow, PlaceOfPacks, rewritten, with_entry
from builder.reading.record_text import RecordText
from builder.reading.text.yaml_door import read_yaml

DAY = datetime.date(2032, 6, 12)


def after(
    text: str,
    start: datetime.date | None = None,
    party: tuple[str, ...] = (),
    gone: Mapping[str, str] | None = None,
) -> str:
    """Give the text of a new trip called New."""
    node, problems = read_yaml(text, "trips/old.yaml")
    assert node is not None and not problems, problems
    record = RecordText("trips/old.yaml", text, node, whole_file=True)
    found = rewritten(record, Changes("New", start, party, gone or {})).text
    again, problems = read_yaml(found, "trips/new.yaml")
    assert again is not None and not problems, (found, problems)
    return found


@pytest.mark.parametrize(
    ("text", "start", "expected"),
    [
        ("title: Old  # ours\ndays: []\n", None, "title: New  # ours\ndays: []\n"),
        ('title: "O: l"\n', None, "title: New\n"),
        ("days: []\n", None, "days: []\n"),
        # A start that is told takes the place of the old one, or stands below the title.
        ("title: Old\nstart: 2031-09-04 # Thu\n", DAY, "title: New\nstart: 2032-06-12 # Thu\n"),
        ("title: Old # x\ndays: []\n", DAY, "title: New # x\nstart: 2032-06-12\ndays: []\n"),
        ("days: []\n", DAY, "start: 2032-06-12\ndays: []\n"),
        # Without one the old stays as a reminder.
        (
            "title: Old\nstart: 2031-09-04\ndays: []\n",
            None,
            "title: New\n# was: start: 2031-09-04\ndays: []\n",
        ),
        ("{title: Old, start: 2031-09-04, days: []}\n", None, "{title: New, days: []}\n"),
        ("{title: Old, days: []}\n", DAY, "{title: New, start: 2032-06-12, days: []}\n"),
        # What was learnt on the old trip is not known of the new one.
        (
            "title: Old\nreview: {weather: rain}\ndays: []\n",
            None,
            "title: New\nreview: {}\ndays: []\n",
        ),
        (
            "title: Old\nreview:\n  weather: rain\n  wind: much\ndays: []\n",
            None,
            "title: New\nreview: {}\ndays: []\n",
        ),
        ("title: Old\nreview: {}\n", None, "title: New\nreview: {}\n"),
        ("title: Old\nreview:\ndays: []\n", None, "title: New\nreview:\ndays: []\n"),
    ],
)
def test_title_start_and_review(text: str, start: datetime.date | None, expected: str) -> None:
    assert after(text, start) == expected


PARTY = """\
title: Old
party:
  # who leads
  - {name: Ash, body_mass: 70 kg}
  - name: Rowan   # slow
    avoids: [nuts]
days: []
"""


@pytest.mark.parametrize(
    ("party", "expected"),
    [
        ((), PARTY),
        (("Rowan",), "party:\n  - name: Rowan   # slow\n    avoids: [nuts]\ndays: []\n"),
        (
            ("Rowan", "Cove", "Ash"),
            "party:\n  - name: Rowan   # slow\n    avoids: [nuts]\n  - {name: Cove}\n"
            "  # who leads\n  - {name: Ash, body_mass: 70 kg}\ndays: []\n",
        ),
    ],
)
def test_who_comes_keeps_what_is_told_of_them(party: tuple[str, ...], expected: str) -> None:
    assert after(PARTY, party=party) == "title: New\n" + expected.removeprefix("title: Old\n")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Layout stays: a party on one line was made a list before.
        ("party: [{name: Ash}, {name: Rowan}]\ndays: []\n", "party: [{name: Ash}]\ndays: []\n"),
        ("party: [{name: Rowan}, {name: Ash}]\n", "party: [{name: Ash}]\n"),
        ("party: [{name: Rowan}]   # few\ndays: []\n", "party: [{name: Ash}]   # few\ndays: []\n"),
        ("party: [Ash, Rowan]\n", "party: [Ash]\n"),
        ("party:\n- name: Rowan", "party:\n  - {name: Ash}"),
        ("days: []\n", "days: []\n"),
    ],
)
def test_a_party_on_one_line_stays_on_one(text: str, expected: str) -> None:
    assert after(text, party=("Ash",)) == expected


def meal(item: str) -> str:
    return (
        "party: [{name: Ash}, {name: Rowan}, {name: Cove}]\n"
        f"days:\n  - meals:\n      dinner:\n        - {item}\n      lunch: {{eat: nuts}}\n"
    )


@pytest.mark.parametrize(
    ("told", "party", "expected"),
    [
        ("[Ash, Rowan]", ("Ash", "Rowan"), "[Ash, Rowan]"),
        ("[Ash, Rowan]", ("Ash",), "[Ash]"),
        ("[Ash, Rowan]", ("Cove",), "[Cove]"),  # all of them stay at home
        ("Rowan", ("Ash", "Cove"), "[Ash, Cove]"),
        ("Ash", ("Ash", "Cove"), "Ash"),
        ("[Rowan]", ("Ash", "Fern: x"), '[Ash, "Fern: x"]'),
        ("[Ash, Rowan]", (), "[Ash, Rowan]"),
    ],
)
def test_a_dish_of_those_who_stay_at_home_goes_to_those_who_come(
    told: str, party: tuple[str, ...], expected: str
) -> None:
    found = after(meal(f"{{eat: rice, for: {told}}}"), party=party)
    assert f"        - {{eat: rice, for: {expected}}}\n" in found
    assert found.endswith("      lunch: {eat: nuts}\n")


GONE = {"b1": "dehydrator", "b2": "freeze-dryer", "b3": "bought"}


@pytest.mark.parametrize(
    ("item", "expected"),
    [
        ("{eat: rice, from: b1}", "{eat: rice, dried_by: dehydrator}"),
        ("{eat: rice, from: b2, each: 9 g}", "{eat: rice, dried_by: freeze-dryer, each: 9 g}"),
        ("{eat: rice, from: kept}", "{eat: rice, from: kept}"),
        ("{eat: rice, from: b3, each: 9 g}", "{eat: rice, each: 9 g}"),
        ("{from: b3, eat: rice}", "{eat: rice}"),
        ("{from: b3 ,  eat: rice}", "{eat: rice}"),
        ("{from: {beef: b1}, cook: stew}", "{cook: stew}"),
        ("{eat: rice , from: b3 }", "{eat: rice  }"),
        ("{cook: stew, from: b1}", "{cook: stew}"),
        ("{cook: stew, from: {beef: b1, rice: kept}}", "{cook: stew, from: {rice: kept}}"),
        ("{cook: stew, from: {rice: kept}}", "{cook: stew, from: {rice: kept}}"),
        ("{cook: stew, from: {beef: b1, rice: b2}, serves: 2}", "{cook: stew, serves: 2}"),
        (
            "cook: stew\n          from: b1   # the last\n          serves: 2",
            "cook: stew\n          serves: 2",
        ),
        (
            "cook: stew\n          from:\n            beef: b1\n            rice: kept",
            # Layout stays: what was left was put in braces before.
            "cook: stew\n          from:\n            rice: kept",
        ),
        (
            "eat: rice\n          from: b1   # the last",
            "eat: rice\n          dried_by: dehydrator   # the last",
        ),
    ],
)
def test_packs_that_are_gone_are_left_open(item: str, expected: str) -> None:
    assert after(meal(item), gone=GONE) == meal(expected)


def test_a_meal_of_one_dish_is_rewritten_too() -> None:
    text = "days:\n  - meals: {lunch: {eat: rice, from: b1}}\n  - {title: Rest}\n"
    assert after(text, gone=GONE) == text.replace("from: b1", "dried_by: dehydrator")


@pytest.mark.parametrize(
    ("cutting", "expected"),
    [
        ("- {id: a, used: 1}   # of nine\n", "- {id: a, used: 3}   # of nine\n"),
        ("- {id: a}\n", "- {id: a, used: 3}\n"),
        ("- id: a\n  used: 1  # so far\n  n: x\n", "- id: a\n  used: 3  # so far\n  n: x\n"),
        ("- id: a\n", "- id: a\n  used: 3\n"),
        ("- id: a\n\n\n", "- id: a\n  used: 3\n"),
        ("- id: a\n  used:\n    - 1\n    - 2\n  n: x\n", "- id: a\n  used: 3\n  n: x\n"),
        ("- id: a\n  used: [1, 2]\n", "- id: a\n  used: 3\n"),
        # Two records, or none: nothing that could be set in one of them.
        ("- {id: a}\n- {id: b}\n", "- {id: a}\n- {id: b}\n"),
        ("- {id: a\n", "- {id: a\n"),
    ],
)
def test_a_key_is_set_in_a_cutting(cutting: str, expected: str) -> None:
    assert with_entry(cutting, "used", "3") == expected


def test_packs_that_are_gone_are_left_open_once_where_a_dish_is_merged_into_others() -> None:
    text = """\
days:
  - meals:
      dinner: [&stew {cook: stew, from: b1, note: x}]   # hot
      lunch:
        - <<: *stew
          note: y
"""
    assert after(text, gone=GONE) == text.replace("from: b1, ", "")


KEPT, SOON = PacksNow("kept", "2032-09-01"), PacksNow("soon", "")


@pytest.mark.parametrize(
    ("item", "packs", "expected", "told"),
    [
        ("{eat: rice, from: b1}", {"": KEPT}, "{eat: rice, from: kept}",
         ["this comes from kept now, which keeps until 2032-09-01; it was b1"]),
        ("{cook: stew, from: b1}", {"beef": SOON}, "{cook: stew, from: soon}",
         ["this comes from soon now; it was b1"]),
        ("{cook: stew, from: {beef: b1, rice: b2}}", {"beef": KEPT},
         "{cook: stew, from: {beef: kept}}",
         ["beef comes from kept now, which keeps until 2032-09-01; it was b1",
          "no free pack covers rice: left open"]),
        ("{cook: stew, from: {beef: b1, rice: b2}}", {"beef": KEPT, "rice": SOON},
         "{cook: stew, from: {beef: kept, rice: soon}}",
         ["beef comes from kept now, which keeps until 2032-09-01; it was b1",
          "rice comes from soon now; it was b2"]),
        # There is enough of it for this meal.
        ("{eat: rice, from: b1}", {"": PacksNow("b1", "")}, "{eat: rice, from: b1}", []),
    ],
)  # fmt: skip
def test_other_packs_take_the_place_of_those_that_are_gone(
    item: str, packs: Mapping[str, PacksNow], expected: str, told: list[str]
) -> None:
    text = meal(item)
    node, _ = read_yaml(text, "trips/old.yaml")
    assert node is not None
    record = RecordText("trips/old.yaml", text, node, whole_file=True)
    places = {PlaceOfPacks(0, "dinner", 0, each): now for each, now in packs.items()}
    found = rewritten(record, Changes("New", None, (), GONE, packs=places))
    assert found.text == meal(expected)
    assert sorted(line.partition(": ")[2] for line in found.told("trips/new.yaml")) == sorted(told)
    windows = (each.replace("\n", "\r\n").encode() for each in (text, found.text))
    assert found.as_bytes(next(windows)) == next(windows)
