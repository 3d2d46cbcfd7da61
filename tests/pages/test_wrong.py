"""The page for when it goes wrong, in a kit of one's own and in one for everybody."""

from __future__ import annotations

from dataclasses import replace

from builder.model.mishaps import Mishap
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
