"""`tripkit fields`: every key of a kind, as people and as scripts read it."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from builder.cli import main
from builder.reading.declared.declaring import keys_of
from builder.reading.kinds import KINDS


def said(*words: str) -> str:
    result = CliRunner().invoke(main, ["fields", *words])
    assert result.exit_code == 0, result.output
    return result.output


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_is_told(kind: str) -> None:
    lines = said(kind).splitlines()
    for key in keys_of(KINDS[kind].record):
        assert any(line.startswith(f"{key}: ") for line in lines)
    assert [each["key"] for each in json.loads(said(kind, "--json"))] == list(
        keys_of(KINDS[kind].record)
    )


def test_a_key_tells_unit_range_default_example_and_what_it_is() -> None:
    text = said("gear")
    assert (
        """\
  fill_to: share in %
      How full it may be.
      usual: 40 to 100 %
      possible: 10 to 100 %
      left out: 75 %
      example: fill_to: 75 %
"""
        in text
    )
    (pots,) = (each for each in json.loads(said("gear", "--json")) if each["key"] == "pots")
    (fill_to,) = (each for each in pots["keys"] if each["key"] == "fill_to")
    assert (fill_to["usual"], fill_to["default"]) == ("40 to 100 %", "75 %")
    (holds,) = (each for each in pots["keys"] if each["key"] == "holds")
    assert (holds["required"], holds["default"]) == (True, "")


def test_an_unknown_kind_is_told_with_what_would_do() -> None:
    result = CliRunner().invoke(main, ["fields", "foods"])
    assert result.exit_code == 1
    assert "there are no fields of 'foods'" in result.output
    assert "did you mean food?" in result.output


def test_one_key_is_told_by_its_name_or_its_path_with_what_it_holds() -> None:
    text = said("trip", "every_day.travel")
    assert text.startswith("every_day.travel: ")
    assert "\n  by: walking | " in text
    assert "party" not in text
    assert "\n    example: mug: 250 ml\n" in said("trip", "mug")
    everywhere = said("trip", "air").splitlines()
    assert [each for each in everywhere if each.startswith("every_day.air: ")]
    (found,) = json.loads(said("gear", "pots.fill_to", "--json"))
    assert found["key"] == "pots.fill_to"


def test_an_unknown_key_is_told_with_what_would_do() -> None:
    result = CliRunner().invoke(main, ["fields", "trip", "travels"])
    assert result.exit_code == 1
    assert "a trip has no key 'travels'" in result.output
    assert "travel" in result.output.partition("did you mean")[2]


def test_keys_lead_to_one_inside_another_and_each_tells_what_it_takes() -> None:
    assert said("trip", "review", "left", "day") == said("trip", "review.left.day")
    assert said("trip", "review", "left", "day").startswith("review.left.day: a whole number\n")
    assert said("trip", "depots", "holds").startswith("depots.holds: a list of numbers\n")
    result = CliRunner().invoke(main, ["fields", "trip", "review", "lft"])
    assert "did you mean review.left?" in result.output


def test_without_a_kind_the_kinds_are_told() -> None:
    lines = said().splitlines()
    assert [line.split()[0] for line in lines] == [*KINDS]
    assert all(line.endswith(".") for line in lines)
