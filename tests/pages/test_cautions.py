"""Cautions on the pages they belong to: each once, with every reason."""

from __future__ import annotations

from builder.pages.trip.book import write_book
from builder.pages.trip.placing import boxes_at
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit
from tests.pages.seen import seen_in


def test_a_caution_of_several_reasons_is_one_box() -> None:
    kit = sample_kit()
    first = next(each for each in kit.cautions if each.where.startswith("cook/"))
    more = [replace(first, because=f"{name} must not eat it.") for name in ("Ash", "Rowan", "Ash")]
    kit = replace(kit, cautions=(*kit.cautions, *more))
    path = f"{first.where}.md"
    (box,) = (each for each in boxes_at(kit, path) if each.href.endswith(f"#{first.id}"))
    assert box.because == (
        first.because.rstrip(" ."),
        "Ash must not eat it",
        "Rowan must not eat it",
    )
    words = seen_in(write_book(kit, TEMPLATES).markdown[path]).words
    assert words.count(first.text) == 1
    assert words.count("Rowan must not eat it") == 1
