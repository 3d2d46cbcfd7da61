"""A page for each person: safe names for files, what they must not eat, their own share."""

from __future__ import annotations

import re

import pytest

from builder.model.kit import Carried, Kit, KitCaution, KitPerson, LeftOut, Refused, Spot
from builder.model.recipe import MEALS, MealName
from builder.model.trip import DefaultUsed, MealItem
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.people import PersonPage, person_pages, person_paths, slug
from builder.pages.trip.supplies.carry import carry_page, is_crowd
from builder.planning.carrying.depots import food_items
from builder.planning.menu import eaten_kcal
from builder.planning.menu.menu import MenuItem
from builder.record import replace
from builder.speech import speech_of
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit
from tests.pages.seen import said, seen_in


def named(*names: str) -> Kit:
    party = tuple(KitPerson(name, 1.0, 6000, ()) for name in names)
    return replace(sample_kit(), party=party)


@pytest.mark.parametrize(
    ("name", "plain"),
    [
        ("Ash", "ash"),
        ("Åse Ødegård", "ase-degard"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\x\0|<y>", "c-x-y"),
        ("🏔️", ""),
        ("\u202eעברית", ""),
        ("a" * 300, "a" * 40),
        ("-- --", ""),
    ],
)
def test_a_name_becomes_a_file_name_that_is_safe_everywhere(name: str, plain: str) -> None:
    assert slug(name) == plain


def test_names_that_look_alike_get_pages_of_their_own() -> None:
    kit = named("Ash", "ash", "Ash 2", "🏔️", "עברית", "ÄSH")
    paths = person_paths(kit)
    assert len({path.casefold() for path in paths}) == len(kit.party)
    assert all(re.fullmatch(r"person-[a-z0-9-]+\.md", path) for path in paths)
    assert paths[:2] == ("person-ash.md", "person-ash-2.md")
    assert paths[3:5] == ("person-4.md", "person-5.md")


def test_a_public_kit_has_no_pages_of_people() -> None:
    kit = replace(sample_kit(), public=True)
    book = write_book(kit, TEMPLATES)
    assert not [path for path in book.markdown if path.startswith("person")]
    assert "[Ash](carry.md#pack-1)" in book.markdown["index.md"]
    assert "person-" not in "".join(book.markdown.values())


def test_the_first_page_and_the_packs_lead_to_each_one(book: Book) -> None:
    assert "[Ash](person-ash.md)" in book.markdown["index.md"]
    assert "(person-rowan.md)" in book.markdown["carry.md"]


def test_what_is_on_their_own_plate_is_a_danger_and_on_others_a_warning() -> None:
    kit = sample_kit()
    ash, _ = person_pages(kit, {})
    assert ash.avoids == "Tree nuts"
    assert [said(each) for each in ash.on_plate] == ["Day 1 snacks: Nut mix"]
    assert ash.with_others == ()
    refused = (Refused(1, 2, "Black beans", False),)
    party = (replace(kit.party[0], refused=refused), kit.party[1])
    other, _ = person_pages(replace(kit, party=party), {})
    assert other.on_plate == ()
    assert [said(each) for each in other.with_others] == [
        "Day 1 dinner: Black beans in Smoky bean pot"
    ]


def with_refused(*refused: Refused) -> Kit:
    kit = sample_kit()
    first = replace(kit.party[0], refused=refused)
    return replace(kit, party=(first, *kit.party[1:]))


def page_of_ash(kit: Kit) -> str:
    return seen_in(write_book(kit, TEMPLATES).markdown["person-ash.md"]).words


CLEAR = "Nothing on your own plate is known to contain it."


def test_packets_to_read_are_told_food_by_food_with_their_meals() -> None:
    kit = with_refused(
        Refused(1, 1, "Nut mix", True, "may-contain"),
        Refused(1, 2, "Black beans", True, "not-told"),
        Refused(2, 0, "Nut mix", True, "may-contain"),
        Refused(1, 2, "Oil", False, "not-told"),
        Refused(1, 2, "Rice", False, "may-contain"),
    )
    ash, _ = person_pages(kit, {(1, 2): "cook/smoky-bean-pot.md#day-1-dinner"})
    assert ash.on_plate == ()
    (traces,) = ash.traces
    assert said(traces).startswith("Nut mix: Day 1 snacks; Day 2 ")
    (untold,) = ash.untold
    assert said(untold) == "Black beans: Day 1 dinner"
    assert untold[-1].href == "cook/smoky-bean-pot.md#day-1-dinner"
    assert [said(each) for each in ash.with_others] == [
        "Day 1 dinner: Rice in Smoky bean pot (may contain it)",
        "Day 1 dinner: Oil in Smoky bean pot (contents not given)",
    ]


@pytest.mark.parametrize("name", ["not-to-be-eaten", "may-contain", "allergens-not-told"])
def test_what_they_avoid_is_told_once_on_their_page(name: str) -> None:
    kit = sample_kit()
    shown = []
    for own in (name, "caffeine"):
        caution = KitCaution(
            own, "care", "Mind this", "Do it.", "Ash does", "shopping", (), at=Spot(person="Ash")
        )
        ash, _ = person_pages(replace(kit, cautions=(caution,)), {})
        shown.append([box.title for box in ash.boxes])
    assert shown == [[], ["Mind this"]]


@pytest.mark.parametrize(
    ("refused", "clear"),
    [
        ((), True),
        ((Refused(1, 2, "Rice", False, "told"),), True),
        ((Refused(1, 2, "Rice", True, "told"),), False),
        ((Refused(1, 2, "Rice", True, "may-contain"),), False),
        ((Refused(1, 2, "Rice", True, "not-told"),), False),
    ],
)
def test_a_plate_is_called_clear_only_where_all_of_it_is_told(
    refused: tuple[Refused, ...], clear: bool
) -> None:
    assert (CLEAR in page_of_ash(with_refused(*refused))) == clear


def test_meals_that_pass_somebody_by_stand_on_their_page() -> None:
    kit = sample_kit()
    left = (
        LeftOut(1, "lunch", 0.61, False),
        LeftOut(2, "breakfast", 0.9, True),
        LeftOut(1, None, 0.61, False),
    )
    party = (replace(kit.party[0], left_out=left), kit.party[1])
    kit = replace(kit, party=party)
    assert person_pages(kit, {})[0].left_out == (
        "Day\u00a01 lunch: the others eat, and nothing is planned for you.",
        "Day\u00a02 breakfast: nothing for you, as intended.",
        "Day 1: your food gives 61\u00a0% of what the day takes from you. "
        "The party as a whole has enough.",
    )
    assert "nothing is planned for you" in page_of_ash(kit)


def test_a_page_without_anything_to_avoid_does_not_speak_of_it(book: Book) -> None:
    assert "must not eat" in seen_in(book.markdown["person-ash.md"]).words
    assert "must not eat" not in seen_in(book.markdown["person-rowan.md"]).words


def test_the_pack_is_a_list_to_tick_with_the_water_added_up() -> None:
    kit = sample_kit()
    ash = kit.weights.people[0]
    more = (*ash.carries, Carried("Water, part of a litre", 500, "water"))
    people = (replace(ash, carries=more), kit.weights.people[1])
    weights = replace(kit.weights, people=people)
    page, _ = person_pages(replace(kit, weights=weights), {(1, 2): "cook/x.md#a"})
    assert [said(line.what) for line in page.carries] == [
        "Own gear",
        "Day 1 dinner: Smoky bean pot",
        "Water, where the most is carried",
    ]
    assert page.carries[1].what[0].href == "cook/x.md#a"
    assert said(page.carries[2].mass) == "3.5 l 14.8 cups"
    assert [said(each) for each in page.brings][2] == "Bottles or bags for 3.5 l 14.8 cups water"


@pytest.mark.parametrize("name", MEALS)
def test_food_in_a_pack_leads_to_its_steps_as_the_plan_calls_it(name: MealName) -> None:
    kit = sample_kit()
    meal = replace(kit.days[0].meals[0], meal=name, title="Curry {hot}, 100 %")
    day = replace(kit.days[0], meals=(meal, *kit.days[0].meals[1:]))
    menu = [MenuItem(meal, (), MealItem(), day.day)]
    things = tuple(food_items([menu], speech_of(kit.language)))
    load = replace(kit.weights.people[0], carries=things)
    weights = replace(kit.weights, people=(load, kit.weights.people[1]))
    kit = replace(kit, days=(day, *kit.days[1:]), weights=weights)
    (line,) = person_pages(kit, {(1, 0): "cook/curry.md#a"})[0].carries
    assert line.what[0].href == "cook/curry.md#a"
    assert said(line.what).endswith(": Curry {hot}, 100 %")


def eaten_on(page: PersonPage, row: int) -> list[str]:
    return [said(cell) for cell in page.eats.rows[row]]


def test_everyone_gets_their_own_share_of_the_pot() -> None:
    kit = sample_kit()
    day = kit.days[0]
    shares = [eaten_kcal(day.meals, person.name) for person in kit.party]
    assert sum(shares) == pytest.approx(day.nutrition.energy_kcal)
    ash, rowan = person_pages(kit, {})
    assert "Dinner Smoky bean pot (45 % of it)" in eaten_on(ash, 0)
    assert "Dinner Smoky bean pot (55 % of it)" in eaten_on(rowan, 0)
    assert "Dinner Egg toasties" in eaten_on(ash, 1)


def test_somebody_who_is_not_there_for_a_meal_has_none_of_it() -> None:
    kit = sample_kit()
    meals = tuple(
        replace(meal, eaters=("Rowan",), plate_shares=(1.0,)) for meal in kit.days[1].meals
    )
    people = tuple(
        replace(each, food_kcal=eaten_kcal(meals, each.name)) for each in kit.days[1].people
    )
    days = (kit.days[0], replace(kit.days[1], meals=meals, people=people))
    ash, rowan = person_pages(replace(kit, days=days), {})
    assert len(ash.eats.rows) == 1
    assert len(rowan.eats.rows) == 2
    assert said(ash.by_day.rows[1][2]) == "0 kcal need 2,925 kcal"


def test_no_limit_and_no_own_gear_are_said_plainly() -> None:
    kit = sample_kit()
    load = replace(kit.weights.people[0], limit_g=0.0, carries=())
    weights = replace(kit.weights, people=(load, kit.weights.people[1]))
    page, _ = person_pages(replace(kit, weights=weights), {})
    assert "at most" not in said(page.pack)
    assert said(page.brings[0]).endswith("no weight is counted for it here")
    assert len(page.brings) == 2


def test_who_carries_nothing_is_told_so() -> None:
    kit = sample_kit()
    load = replace(kit.weights.people[0], total_g=0.0, limit_g=0.0, carries=())
    weights = replace(kit.weights, people=(load, kit.weights.people[1]))
    text = write_book(replace(kit, weights=weights), TEMPLATES).markdown
    assert "You carry nothing." in text["person-ash.md"]
    assert "You carry nothing." not in text["person-rowan.md"]


def test_what_was_not_told_of_somebody_stands_on_their_page_and_on_no_other() -> None:
    untold = (
        DefaultUsed("mass of Ash", "70 kg", "untold", (("name", "Ash"),)),
        DefaultUsed("age of Ash", "35 years", "untold", (("name", "Ash"),)),
        DefaultUsed("air on day 1", "5 to 20 °C", "untold", (("n", "1"),)),
        DefaultUsed("mug", "300 ml", "untold"),
    )
    kit = replace(sample_kit(), defaults=untold)
    book = write_book(kit, TEMPLATES)
    words = {path: seen_in(each).words for path, each in book.markdown.items()}
    said = "Not given for you: mass of Ash, taken as 70 kg; age of Ash, taken as 35 years."
    assert said in words["person-ash.md"]
    assert "Not given for you" not in words["person-rowan.md"]
    assert "Not given: air on day 1, taken as 5 to 20 °C" in words["day-1.md"].replace(
        "\u00a0", " "
    )
    assert "Not told:" not in words["day-2.md"]


@pytest.mark.parametrize(("people", "packs"), [(10, 10), (11, 0)])
def test_what_a_crowd_carries_stands_on_each_ones_page_alone(people: int, packs: int) -> None:
    kit = sample_kit()
    names = [f"Ash {number}" for number in range(people)]
    crowd = replace(
        kit,
        party=tuple(replace(kit.party[0], name=name) for name in names),
        weights=replace(
            kit.weights,
            people=tuple(replace(kit.weights.people[0], name=name) for name in names),
        ),
    )
    page = carry_page(crowd, is_crowd(crowd))
    assert len(page.packs) == packs and page.on_own_pages == (not packs)
    assert page.who is not None
    href = page.who.rows[0][0][0].href
    assert href == ("carry.md#pack-1" if packs else "person-ash-0.md")
