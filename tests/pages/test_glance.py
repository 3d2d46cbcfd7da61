"""The first page: what is eaten when by name, each leading to where it is cooked, and lines."""

from __future__ import annotations

import json
import re
from html import unescape

from builder.model.kit import Kit, Refused
from builder.model.trip import DefaultUsed
from builder.pages.trip.book import write_book
from builder.record import replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit


def index() -> str:
    return write_book(sample_kit(), TEMPLATES).markdown["index.md"].replace("\u00a0", " ")


def menu_rows(page: str) -> list[str]:
    table = page.partition("## Menu")[2].partition("\n##")[0]
    return [line for line in table.splitlines() if line.startswith("| [Day")]


def test_the_menu_has_a_row_for_each_day_and_names_the_foods() -> None:
    kit = sample_kit()
    page = index()
    rows = menu_rows(page)
    assert len(rows) == len(kit.days)
    for day, row in zip(kit.days, rows, strict=True):
        for meal in day.meals:
            assert meal.title in row


def test_what_is_cooked_leads_to_its_steps_and_tells_when_it_begins() -> None:
    (row,) = (row for row in menu_rows(index()) if "day-1.md" in row)
    cooked = re.search(
        r'<span class="which" data-meal="dinner" data-start="(\d+)" data-steps="(\d+)" '
        r'data-first="([^"]+)">Dinner</span> \[[^]]+\]\(meals/day-1-dinner.md\)',
        row,
    )
    assert cooked
    assert int(cooked[1]) > 0 and int(cooked[2]) > 1 and cooked[3]


def test_what_is_eaten_as_it_is_leads_to_its_day_and_begins_at_no_time() -> None:
    snacks = [row for row in menu_rows(index()) if 'data-meal="snacks"' in row]
    assert snacks
    spans = [re.findall(r'<span class="which" data-meal="snacks"[^>]*>', row) for row in snacks]
    assert all(span and "data-start" not in span[0] for span in spans)


def test_the_menu_knows_what_is_not_for_whom_and_a_public_one_does_not() -> None:
    kit = sample_kit()
    ash = replace(
        kit.party[0],
        refused=(
            Refused(1, 0, "Milk", eats=True),
            Refused(1, 0, "Oats", eats=True, how="may-contain"),
            Refused(1, 0, "Seeds", eats=False, how="not-told"),  # others eat it; nobody knows
        ),
    )
    kit = replace(kit, party=(ash, *kit.party[1:]))

    def told(kit: Kit) -> list[str]:
        page = write_book(kit, TEMPLATES).markdown["index.md"]
        return [unescape(each) for each in re.findall(r'data-refused="([^"]*)"', page)]

    assert {ash.name: [["Milk"], ["Oats"]]} in [json.loads(each) for each in told(kit)]
    assert told(replace(kit, public=True)) == []


def test_whose_food_nobody_told_is_asked_first() -> None:
    kit = sample_kit()
    first, last = kit.party[0].name, kit.party[-1].name
    untold = tuple(
        DefaultUsed("what", "nothing", "why", (("name", name), ("of", key)))
        for name, key in ((last, "avoids"), (first, "mass"))
    )

    def listed(kit: Kit) -> str:
        page = write_book(kit, TEMPLATES).markdown["index.md"].replace("\u00a0", " ")
        return page.partition("## Menu")[0]

    asked = "Ask what they must not eat, it is not given: "
    assert asked not in listed(kit)
    told = listed(replace(kit, defaults=untold))
    assert f"{asked}[{last}](person-" in told
    assert first not in told.partition(asked)[2].partition("\n")[0]
    assert told.index(asked) < told.index("Buy: ")


def test_figures_are_lines_that_lead_to_their_pages() -> None:
    lines = index().partition("## The trip in numbers")[2].partition("\n##")[0].splitlines()
    told = [line for line in lines if line.startswith("- ")]
    assert len(told) >= 4
    assert all(re.match(r"- \[[A-Z][^]]+\]\(\w+\.md\)&#58; .", line) for line in told)


def test_nothing_stands_twice_on_the_first_page() -> None:
    page = index()
    for words in ("Who carries what", "Food energy", "Most water carried", "Take fuel"):
        assert page.count(words) == 1, words


def test_a_meal_counts_its_steps_as_its_own_page_does() -> None:
    # Fewer, and the meal would be over in front before it is served.
    pages = write_book(sample_kit(), TEMPLATES).markdown
    told = re.findall(r'data-steps="(\d+)".*?\]\((meals/[^)]*)\)', pages["index.md"])
    assert told
    for steps, path in told:
        assert pages[path].count("<li><label>") == int(steps), path
