"""The page to pack by: what goes in first, what is kept cold, what waits at a camp, utensils."""

from __future__ import annotations

import pytest

from builder.model.kit import Carried, Kit, KitDepot, PersonLoad, Utensil, Utensils
from builder.pages.trip.book import write_book
from builder.pages.trip.supplies.bags import BAGS, bags_page, in_packing_order, packed_g
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit
from tests.pages.test_looks import page

OWN = Carried("Own gear", 7000, "own")
POT = Carried("Pot", 200, "gear")
CAN = Carried("Gas", 190, "fuel")
WATER = Carried("Water, 1 l", 1000, "water")
OATS = Carried("Day 1 breakfast: Oats", 300, "food", (1, 0))
NUTS = Carried("Day 1 snacks: Nuts", 100, "food", (1, 1))
BEANS = Carried("Day 1 dinner: Beans", 436, "food", (1, 2))
TOASTIES = Carried("Day 2 dinner: Toasties", 387, "food", (2, 1))


def carried_by_ash(*things: Carried, **of_kit: object) -> Kit:
    kit = sample_kit()
    ash = PersonLoad("Ash", 9000, 14000, 0.6, things, (8000, 7000))
    rowan = PersonLoad("Rowan", 0, 18000, 0, (), ())
    weights = replace(kit.weights, people=(ash, rowan))
    return replace(kit, weights=weights, **of_kit)  # type: ignore[arg-type]


def test_what_is_used_last_goes_in_first() -> None:
    kit = sample_kit()
    # Breakfast of the first day is cooked: the pot and what burns come out with it.
    order = in_packing_order(kit, [POT, OATS, CAN, TOASTIES, NUTS, OWN, BEANS])
    assert order == [TOASTIES, OWN, BEANS, NUTS, OATS, CAN, POT]


def test_a_bag_adds_up_without_water_and_what_waits() -> None:
    waits = replace(TOASTIES, from_camp=1)
    load = PersonLoad("Ash", 9000, 14000, 0.6, (OWN, POT, waits, WATER), (8000, 7000))
    assert packed_g(load) == 7200


def test_each_bag_is_a_list_to_tick_off_with_its_sum() -> None:
    kit = carried_by_ash(OWN, BEANS, TOASTIES, WATER)
    words = page(kit, BAGS)
    assert "Packed at home, without water: 7.82 kg" in words
    assert "On the first morning, with that day's water: 8 kg" in words
    assert words.index("Day 2 dinner") < words.index("Own gear") < words.index("Day 1 dinner")
    assert words.index("Day 1 dinner") < words.index("Bottles on top")
    markdown = write_book(kit, TEMPLATES).markdown[BAGS]
    assert markdown.count('<li markdown="span"><label><input type="checkbox">') == 4
    assert 'class="steps columns send"' in markdown


def test_who_carries_nothing_has_no_bag() -> None:
    assert bags_page(carried_by_ash()).bags == ()


def test_what_is_kept_cold_has_a_list_of_its_own() -> None:
    kit = carried_by_ash(OWN, NUTS, chilled_until=(1, "lunch"), chilled=((1, 1),))
    words = page(kit, BAGS)
    assert "Cool bag" in words and "Stays cold until lunch on day 1." in words
    assert "Day 1 snacks: Nuts (Ash)" in words
    told = bags_page(kit)
    assert (len(told.bags[0].lines), len(told.cold)) == (1, 1)


def test_without_a_cool_bag_nothing_is_said_of_one() -> None:
    assert "Cool bag" not in page(carried_by_ash(OWN, NUTS), BAGS)


def test_what_waits_at_a_camp_is_a_list_of_that_camp() -> None:
    waits = replace(TOASTIES, from_camp=1)
    kit = carried_by_ash(OWN, waits)
    weights = replace(kit.weights, depots=(KitDepot(1, (2,), 387),))
    words = page(replace(kit, weights=weights), BAGS)
    assert "Depot at the camp of day 1" in words
    assert "Day 2 dinner: Toasties (Ash)" in words
    assert "From a depot: Day 2 dinner: Toasties (take it at the camp of day 1)" in words


def test_utensils_tell_who_has_them_and_what_nobody_has() -> None:
    utensils = Utensils(
        (
            Utensil("Pot", ("Bean pot", "Oats"), "Ash"),
            Utensil("whisk", ("A", "B", "C", "D"), None),
        ),
        ("Oats",),
    )
    words = page(carried_by_ash(OWN, POT, utensils=utensils), BAGS)
    assert "Pot: Ash has it. For Bean pot and Oats." in words
    assert "Whisk: not on the trip's list of gear. Who brings it? For 4 dishes." in words
    assert "Not given: what else these need: Oats." in words


@pytest.mark.parametrize("people", [True, False])
def test_the_first_page_and_the_navigation_lead_there(people: bool) -> None:
    kit = carried_by_ash(OWN)
    if not people:
        kit = replace(kit, public=True, weights=replace(kit.weights, people=()))
    book = write_book(kit, TEMPLATES)
    assert (BAGS in book.markdown) == people
    assert ("[1 bag](bags.md)" in book.markdown["index.md"]) == people
    assert any(path == BAGS for _, path in book.nav) == people


def test_of_a_crowd_each_bag_is_a_line() -> None:
    kit = carried_by_ash(OWN, POT)
    told = bags_page(kit, crowd=True)
    assert told.bags == ()
    assert [line.what[0].text for line in told.whole] == ["Ash", "Rowan"]
