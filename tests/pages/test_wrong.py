"""The page for when it goes wrong, in a kit of one's own and in one for everybody."""

from __future__ import annotations

from dataclasses import replace

from builder.model.mishaps import Mishap, StillEaten
from builder.pages.trip.afterwards.wrong import wrong_page
from tests.pages.sample_kit import sample_kit


def said(public: bool) -> str:
    kit = replace(sample_kit(), public=public)
    dry = Mishap("dry", day=1, drink_ml=500.0, mend_g=2000.0, mended_by="water")
    (wrong,) = wrong_page(replace(kit, mishaps=(dry,))).each
    return " ".join("".join(piece.text for piece in cell) for cell in wrong.says)


def test_what_each_has_left_is_told_to_the_party_and_what_all_have_to_everybody() -> None:
    assert "Each has 500\u00a0ml left" in said(public=False)
    carried = sample_kit().days[0].water.carry_ml
    assert carried != 500.0
    assert "All have" in said(public=True)
    assert "500\u00a0ml left" not in said(public=True)


def test_a_bag_never_says_that_water_is_safe() -> None:
    kit = sample_kit()
    bag = Mishap("bag", who="Ash", lost=("Filter",), missing_kcal=0.0)
    (wrong,) = wrong_page(replace(kit, mishaps=(bag,))).each
    words = ["".join(piece.text for piece in cell) for cell in wrong.says]
    assert "If what makes your water safe was in it, make it safe another way." in words
    assert not any("as planned" in each for each in words)


def led(still_days: int) -> tuple[list[str], list[str]]:
    """Give where the lines and the table of a lost bag lead, of so many days."""
    days = (1000.0,) * still_days
    bag = Mishap(
        "bag",
        who="Ash",
        fuel_left_g=50.0,
        still=(StillEaten("Ash", days, days),),
        missing_kcal=900.0,
        mend_g=300.0,
    )
    ways = ("fuel_left_g", "mend_g", *(f"still.0.kcal.{day}" for day in range(still_days)))
    derived = frozenset(f"mishaps.0.{each}" for each in ways)
    kit = replace(sample_kit(), mishaps=(bag,), figures=derived)
    (wrong,) = wrong_page(kit).each
    assert wrong.still
    cells = [cell for row in wrong.still.rows for cell in row]
    lines, table = ([p.href for each in of for p in each if p.href] for of in (wrong.says, cells))
    return lines, table


def test_its_figures_lead_to_how_they_came_about() -> None:
    lines, table = led(3)
    assert lines == [
        "numbers.md#how-mishaps-0-fuel_left_g",
        "numbers.md#how-mishaps-0-mend_g",
    ]
    assert table == [f"numbers.md#how-mishaps-0-still-0-kcal-{day}" for day in range(3)]


def test_of_large_tables_no_ways_are_told() -> None:
    assert len(led(300)[1]) == 300
    assert led(301) == ([], [])
