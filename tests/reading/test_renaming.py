# ruff: noqa: E501 - what is written stands whole
"""Whoever a trip names follows the new party, and who cannot is told with the place."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from builder.reading.anew.rewriting import Changes, Rewritten, rewritten
from builder.reading.record_text import RecordText
from builder.reading.text.yaml_door import read_yaml

TRIP = """\
title: Old
party:
  - {name: Ash, mass: 64 kg}   # leads
  - {name: Rowan}
  - {name: Kit}
days:
  - without: {lunch: [Ash, Kit]}
    travel: [{by: paddling, for: [Ash, Rowan]}, {by: carried, for: Kit}]
    meals:
      dinner:
        - {cook: stew, for: [Ash, Rowan], carried_by: Ash}
        - cook: soup
          for:          # who: the small ones
            - Kit       # eats little
            - Rowan
      snacks: [{eat: nuts, for: [not nuts]}]
gear_shared:
  - {name: Tarp, carried_by: Kit}
  - name: Rope
    carried_by: Rowan   # always
notes: |
  Kit brings the map.
"""


def new(
    text: str,
    party: tuple[str, ...] = (),
    instead: Mapping[str, str] | None = None,
    known: frozenset[str] = frozenset(),
) -> Rewritten:
    node, problems = read_yaml(text, "old.yaml")
    assert node is not None and not problems, problems
    record = RecordText("old.yaml", text, node, whole_file=True)
    found = rewritten(record, Changes("Old", None, party, {}, instead or {}, known))
    again, problems = read_yaml(found.text, "new.yaml")
    assert again is not None and not problems, (found.text, problems)
    return found


def test_who_stays_at_home_is_taken_out_everywhere_and_told() -> None:
    found = new(TRIP, ("Ash", "Rowan"))
    assert found.text == (
        TRIP.replace("  - {name: Kit}\n", "")
        .replace("[Ash, Kit]", "[Ash]")
        .replace("for: Kit}", "for: [Ash, Rowan]}")
        .replace("            - Kit       # eats little\n", "")
        .replace("{name: Tarp, carried_by: Kit}", "{name: Tarp}")
    )
    assert found.told("new.yaml") == [
        "new.yaml:6:5: `without` no longer names Kit for lunch",
        "new.yaml:7:63: `for` named only Kit: it goes to all who come now",
        "new.yaml:12:11: `for` no longer names Kit",
        "new.yaml:16:5: Kit carried this; nobody is named now",
        "new.yaml:20:3: Kit is still named here: Kit brings the map.",
    ]


def test_somebody_takes_the_place_of_another_by_name() -> None:
    found = new(TRIP, instead={"Kit": "Fern: x"})
    assert found.text == (
        TRIP.replace("  - {name: Kit}\n", '  - {name: "Fern: x"}\n')
        .replace("[Ash, Kit]", '[Ash, "Fern: x"]')
        .replace("for: Kit}", 'for: "Fern: x"}')
        .replace("- Kit  ", '- "Fern: x"  ')
        .replace("carried_by: Kit", 'carried_by: "Fern: x"')
    )
    assert [each.says for each in found.left] == [
        "Fern: x is new: tell age, mass, height and what they avoid".replace(
            "Fern: x", '"Fern: x"'
        ),
        "Kit is still named here: Kit brings the map.",
    ]


def test_who_takes_a_place_is_named_once_where_both_were() -> None:
    found = new(TRIP, ("Ash", "Rowan"), {"Kit": "Ash"})
    assert "without: {lunch: [Ash]}" in found.text
    assert "{by: carried, for: Ash}" in found.text
    assert "            - Ash       # eats little\n            - Rowan\n" in found.text
    assert "{name: Tarp, carried_by: Ash}" in found.text


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("  - without: {lunch: Kit}\n    title: x\n", "  - title: x\n"),
        (
            "  - title: x\n    without:\n      lunch: [Kit]\n    notes: y\n",
            "  - title: x\n    notes: y\n",
        ),
        (
            "  - title: x\n    without:\n      lunch: [Kit] # l\n      dinner: [Ash]\n",
            "  - title: x\n    without:\n      dinner: [Ash]\n",
        ),
        ("  - {title: x, without: {lunch: [Kit], dinner: Kit}}\n", "  - {title: x}\n"),
        ("  - title: x\n    carried_by: 'Kit'\n", "  - title: x\n"),
        ("  - {for: [Kit, not nuts]}\n", "  - {for: [not nuts]}\n"),
        (
            "  - for: [\n      Ash, # a\n      # k\n      Kit # k\n    ]\n",
            "  - for: [\n      Ash, # a\n    ]\n",
        ),
        (
            "  - {\n    title: x,\n    carried_by: Kit, # k\n    notes: y }\n",
            "  - {\n    title: x,\n    notes: y }\n",
        ),
        ("  - {for: [Kit, Rowan, Kit]}\n", "  - {for: [Rowan]}\n"),
        (
            "  - for: [\n      Ash, # a\n      Kit, # k\n      Rowan # r\n    ]\n",
            "  - for: [\n      Ash, # a\n      Rowan # r\n    ]\n",
        ),
    ],
)
def test_a_name_goes_with_no_more_than_its_own_place(text: str, expected: str) -> None:
    head = "party:\n  - {name: Ash}\n  - {name: Rowan}\n"
    found = new(f"{head}  - {{name: Kit}}\ndays:\n{text}", ("Ash", "Rowan"))
    assert found.text == f"{head}days:\n{expected}"


@pytest.mark.parametrize(
    ("party", "now", "expected"),
    [
        (
            "\n  # both\n  - {name: Ash} # a\n  # r\n  - {name: Rowan}\n",
            ("Ash", "Fern"),
            "\n  # both\n  - {name: Ash} # a\n  - {name: Fern}\n",
        ),
        (
            "\n- name: Ash\n  # slow\n  mass: 64 kg\n- name: Rowan\n",
            ("Ash", "Rowan", "Fern"),
            "\n- name: Ash\n  # slow\n  mass: 64 kg\n- name: Rowan\n- {name: Fern}\n",
        ),
        (
            " [{name: Ash}, {name: Rowan}] # two\n",
            ("Rowan", "Fern"),
            " [{name: Rowan}, {name: Fern}] # two\n",
        ),
        (
            " [\n  {name: Ash}, # a\n  {name: Rowan}, # r\n]\n",
            ("Ash", "Rowan", "Fern"),
            " [\n  {name: Ash}, # a\n  {name: Rowan}, # r\n  {name: Fern},\n]\n",
        ),
        (" [Ash, Rowan]\n", ("Rowan", "Ash"), " [Rowan, Ash]\n"),
        (" [Ash, Rowan]\n", ("Ash", "Home"), " [Ash, Home]\n"),
    ],
)
def test_the_party_keeps_its_layout(party: str, now: tuple[str, ...], expected: str) -> None:
    found = new(f"party:{party}days: []\n", now, known=frozenset({"Home"}))
    assert found.text == f"party:{expected}days: []\n"


NAMED = """\
party:
  - &ash {name: Ash}
  - {name: Rowan}
days:
  - &first
    meals: &meals
      dinner: {eat: rice, for: &two [Ash, Rowan]}   # both
  - <<: *first
  - meals: {lunch: {eat: nuts, for: *two}, dinner: {eat: rice, for: [Ash]}}
  - meals: *meals
"""


def test_what_is_named_in_several_places_is_changed_where_it_stands() -> None:
    found = new(NAMED, ("Rowan",))
    assert found.text == (
        NAMED.replace("  - &ash {name: Ash}\n", "")
        .replace("&two [Ash, Rowan]", "&two [Rowan]")
        .replace("for: [Ash]", "for: [Rowan]")
    )


def test_what_cannot_stay_named_is_written_out_and_told() -> None:
    text = (
        NAMED.replace("  - {name: Rowan}\n", "  - {name: Rowan}\n  - *ash\n").replace(
            "  - *ash\n", ""
        )
        + "spare: *ash\n"
    )
    found = new(text, ("Rowan",))
    assert "spare: {name: Ash}" in found.text and "*" not in found.text
    assert found.told("new.yaml")[0] == (
        "new.yaml:1:1: wrote out what `*name` and `<<` stood for: a change was not meant for all of it"
    )


def test_only_whole_names_are_still_named() -> None:
    text = "party: [Ash, Rowan]\nnotes: Ashes, Ash-tree, Old-Ash, ash; Ash's knife\n# (Ash)\n"
    assert [(each.offset, each.says) for each in new(text, ("Rowan",)).left] == [
        (53, "Ash is still named here: notes: Ashes, Ash-tree, Old-Ash, ash; Ash's knife"),
        (68, "Ash is still named here: # (Ash)"),
    ]


def test_what_was_written_down_afterwards_goes_as_a_whole() -> None:
    found = new(TRIP + "review:\n  left: [{day: 1, for: [Kit]}]   # by Kit\n", ("Ash", "Rowan"))
    assert found.text.endswith("review: {}   # by Kit\n")
    assert "what was written down after the old trip is left out" in {
        each.says for each in found.left
    }


def test_a_name_for_somebody_is_replaced_where_it_was_given_in_the_party() -> None:
    text = NAMED.replace("&ash {name: Ash}", "{name: &a Ash}").replace("for: [Ash]", "for: *a")
    found = new(text, ("Rowan",))
    assert "for: [Rowan]}]" not in found.text
    assert "dinner: {eat: rice, for: [Rowan]}" in found.text
    assert "for: *two" in found.text and "<<: *first" in found.text
    assert not [each for each in found.left if "wrote out" in each.says]
