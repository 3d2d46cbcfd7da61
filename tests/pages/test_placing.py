"""Where cautions stand: few in front, each where one must act, none lost."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.kit import Carried, Kit, KitCaution, Spot
from builder.model.source import LEVELS, Level
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.people import person_paths
from builder.pages.trip.placing import (
    ALOUD,
    MOST_CARES,
    MOST_LINES,
    boxes_at_step,
    front,
    lines_of_day,
    pack_line,
)
from builder.planning.cautions.table import PREDICATES
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit
from tests.pages.seen import seen_in
from tests.planning.every_caution import EVERY

# What one must not eat has a part of its own on one's page, said in other words.
SAID_APART = {
    "not-to-be-eaten": "It is in your own food",
    "may-contain": "It may hold traces",
    "allergens-not-told": "Contents not given",
}


def places_of(kit: Kit, caution: KitCaution) -> set[str]:
    """Give the pages on which a caution must stand with its text, besides that of all cautions."""
    if caution.aloud:
        return {ALOUD}
    found = set() if caution.where == "cautions" else {f"{caution.where}.md"}
    if caution.at.person and caution.id not in SAID_APART:
        found.add(page_of_person(kit, caution.at.person))
    return found


def page_of_person(kit: Kit, name: str) -> str:
    names = [person.name for person in kit.party]
    return person_paths(kit)[names.index(name)]


def words_of(book: Book, path: str) -> str:
    return seen_in(book.markdown[path]).words


@pytest.mark.parametrize("name", PREDICATES)
def test_no_caution_is_lost(tmp_path: Path, name: str) -> None:
    kit = EVERY[name].kit(tmp_path)
    assert name in {caution.id for caution in kit.cautions}
    book = write_book(kit, TEMPLATES)
    pocket = seen_in(book.pocket_html).words
    for caution in kit.cautions:
        places = places_of(kit, caution)
        if caution.id in SAID_APART:
            own = words_of(book, page_of_person(kit, caution.at.person or ""))
            assert SAID_APART[caution.id] in own
        else:
            assert places, caution.id
        for path in places:
            assert words_of(book, path).count(caution.text) == 1, (caution.id, path)
        assert caution.text in words_of(book, "cautions.md"), caution.id
        assert (caution.in_both or caution.text) in pocket, caution.id
        for day in caution.at.days if not caution.aloud and caution.level != "note" else ():
            assert caution.title in words_of(book, f"day-{day}.md"), (caution.id, day)


def with_cautions(*levels: Level, aloud: int = 0) -> Kit:
    kit = sample_kit()
    cautions = [
        KitCaution(f"a-{place}", level, f"Title {place}", "Text.", "It is so.", "water", ())
        for place, level in enumerate(levels)
    ]
    told = [
        KitCaution(f"b-{place}", "danger", f"Aloud {place}", "Text.", "So.", "fuel", (), aloud=True)
        for place in range(aloud)
    ]
    return replace(kit, cautions=(*cautions, *told))


@pytest.mark.parametrize(
    ("dangers", "cares", "shown_cares"),
    [(0, 5, 3), (0, 2, 2), (1, 5, 3), (2, 5, 3), (3, 5, 2), (4, 5, 1), (5, 5, 0), (8, 5, 0)],
)
def test_all_dangers_stand_in_front_and_cares_until_five_lines(
    dangers: int, cares: int, shown_cares: int
) -> None:
    danger, care, note = LEVELS
    levels = (*[danger] * dangers, *[care] * cares, note)
    shown = [box.level for box, _ in front(with_cautions(*levels, aloud=2)).lines]
    assert shown == ["danger"] * dangers + ["care"] * shown_cares
    assert shown_cares <= MOST_CARES
    assert shown_cares == 0 or len(shown) <= MOST_LINES


def test_what_is_read_aloud_is_one_line_in_front() -> None:
    kit = with_cautions("care", aloud=2)
    assert front(kit).aloud == "Aloud 0; Aloud 1"
    words = words_of(write_book(kit, TEMPLATES), "index.md")
    assert words.count("Aloud 0") == 1
    assert "Title 0" in words


def test_a_danger_tells_all_its_reasons_in_front_and_a_care_the_first() -> None:
    kit = with_cautions("danger", "care")
    danger, care = kit.cautions
    more = [replace(each, because="More so.") for each in (danger, care)]
    lines = front(replace(kit, cautions=(danger, more[0], care, more[1]))).lines
    assert [because for _, because in lines] == ["It is so. More so.", "It is so. And 1 more."]


@pytest.mark.parametrize(
    ("foods", "told"),
    [
        ("A, sweet; B; C; D", "Traces in: A, sweet; B; C; D."),
        ("A, sweet; B; C; D; E", "Traces in: A, sweet; B; C and 2 more."),
    ],
)
def test_a_care_in_front_names_no_long_list(foods: str, told: str) -> None:
    kit = with_cautions("danger", "care")
    every = tuple(replace(each, because=f"Traces in: {foods}.") for each in kit.cautions)
    (_, of_danger), (_, of_care) = front(replace(kit, cautions=every)).lines
    assert of_care == told
    assert of_danger == f"Traces in: {foods}."


def test_raw_stands_in_reverse_letters_wherever_raw_food_is_handled(tmp_path: Path) -> None:
    book = write_book(EVERY["raw-animal-food"].kit(tmp_path), TEMPLATES)
    raw = '<span class="raw">RAW</span>'
    (meal,) = (path for path in book.markdown if path.startswith("meals/"))
    for path in ("cook/dish.md", meal, "carry.md"):
        assert raw in book.markdown[path], path
    step = book.markdown["cook/dish.md"].partition('<ol class="steps">')[2]
    assert raw in step.partition("</li>")[0]
    assert '<b class="raw">RAW</b>' in book.pocket_html
    assert 'class="raw"' not in write_book(sample_without_raw(), TEMPLATES).pocket_html


def sample_without_raw() -> Kit:
    kit = sample_kit()
    return replace(
        kit,
        days=tuple(
            replace(
                day,
                meals=tuple(
                    replace(
                        meal,
                        ingredients=tuple(
                            replace(each, is_raw_animal=False) for each in meal.ingredients
                        ),
                        steps=tuple(
                            replace(
                                step,
                                ingredients=tuple(
                                    replace(each, is_raw_animal=False) for each in step.ingredients
                                ),
                            )
                            for step in meal.steps
                        ),
                    )
                    for meal in day.meals
                ),
            )
            for day in kit.days
        ),
    )


def test_a_caution_at_a_step_stands_there_and_not_at_the_top() -> None:
    kit = sample_kit()
    place, meal = next((at, each) for at, each in enumerate(kit.days[0].meals) if each.recipe)
    caution = KitCaution(
        "here",
        "danger",
        "Act here",
        "Do it so.",
        "It is so.",
        f"cook/{meal.recipe}",
        (),
        Spot((1, place), len(meal.steps) - 1),
    )
    page = write_book(replace(kit, cautions=(caution,)), TEMPLATES).markdown
    before, _, steps = page[f"cook/{meal.recipe}.md"].partition('<ol class="steps">')
    assert "Act here" not in before
    assert steps.count("Act here") == 1
    assert "Do it so." in steps
    assert page["day-1.md"].count("Act here") == 1  # under its meal, leading to the step


def test_what_hangs_on_a_batch_stands_at_its_packs_and_at_the_step_that_opens_them() -> None:
    kit = sample_kit()
    day, place, meal = next(
        (day, place, meal)
        for day in kit.days
        for place, meal in enumerate(day.meals)
        if any(each.batch for each in meal.ingredients) and meal.steps
    )
    batch = next(each for each in meal.ingredients if each.batch)
    opens = next(
        number
        for number, step in enumerate(meal.steps)
        if any(each.id == batch.id for each in step.ingredients)
    )
    spot = Spot(batch=batch.batch, days=(day.day,))
    told = KitCaution(
        "not-dry", "danger", "Throw it out", "Text.", "It is wet.", "drying", (), at=spot
    )
    kit = replace(kit, cautions=(told,))
    at_steps = [boxes_at_step(kit, day.day, meal, number) for number in range(len(meal.steps))]
    assert [bool(found) for found in at_steps] == [n == opens for n in range(len(meal.steps))]
    pack = Carried("Food", 100, "food", (day.day, place))
    assert any("Throw it out" in piece.text for piece in pack_line(kit, pack))
    for other in (Carried("Gas", 100, "fuel"), Carried("Food", 100, "food", None)):
        assert not any("Throw it out" in piece.text for piece in pack_line(kit, other))
    assert len(lines_of_day(kit, day, "danger")) == 1
    assert lines_of_day(kit, day, "care") == ()


def test_a_danger_that_another_page_tells_stands_before_the_cares_of_a_day() -> None:
    care = KitCaution("fill-up", "care", "Fill up", "Fill all.", "It is dry.", "day-1", ())
    danger = KitCaution(
        "shield", "danger", "Put none round it", "None.", "Wind.", "fuel", (), at=Spot(days=(1,))
    )
    page = write_book(replace(sample_kit(), cautions=(danger, care)), TEMPLATES).markdown[
        "day-1.md"
    ]
    assert 0 < page.index("Put none round it") < page.index("Fill up")
