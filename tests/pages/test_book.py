"""The book as a whole: every page in the navigation, every link good, every text harmless."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator

from builder.model.kit import Kit
from builder.pages.navigation import NavItem
from builder.pages.trip.book import Book, write_book
from builder.record import fields, is_dataclass, replace
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit, without_looks
from tests.pages.seen import Seen, seen_in, seen_in_html

BESIDE = {
    "pocket.html",
    "content.zip",
    "kit.json",
    "shopping.csv",
}  # made by the site, not as pages
NASTY = '<script>x</script> | [y](javascript:z) `{{ 1 }}` "q" \n# top'


def paths(nav: tuple[NavItem, ...]) -> Iterator[str]:
    for _, target in nav:
        if isinstance(target, str):
            yield target
        else:
            yield from paths(target)


def rendered(book: Book) -> dict[str, Seen]:
    return {path: seen_in(text) for path, text in book.markdown.items()}


def test_the_navigation_lists_each_page_once_in_order(book: Book) -> None:
    assert list(paths(book.nav)) == list(book.markdown)


def test_the_kit_has_the_pages_it_promises(book: Book) -> None:
    assert list(book.markdown) == [
        "index.md",
        "day-1.md",
        "day-2.md",
        "meals/day-1-breakfast.md",
        "meals/day-1-dinner.md",
        "meals/day-2-breakfast.md",
        "meals/day-2-dinner.md",
        "cook/apple-oats.md",
        "cook/smoky-bean-pot.md",
        "cook/egg-toasties.md",
        "water.md",
        "fuel.md",
        "carry.md",
        "bags.md",
        "person-ash.md",
        "person-rowan.md",
        "shopping.md",
        "food.md",
        "drying.md",
        "read-aloud.md",
        "cautions.md",
        "if-it-goes-wrong.md",
        "review.md",
        "numbers.md",
        "numbers/day-1.md",
        "numbers/day-2.md",
        "sources.md",
    ]


def test_every_link_leads_somewhere(book: Book) -> None:
    pages = rendered(book)
    for path, seen in pages.items():
        for name, given in seen.tags:
            href = given.get("href") or ""
            if name != "a" or href.startswith("https://"):
                continue
            target, _, anchor = href.partition("#")
            target = posixpath.normpath(posixpath.join(posixpath.dirname(path), target or path))
            target = path if not href.partition("#")[0] else target
            assert target in pages or target in BESIDE, (path, href)
            if anchor:
                assert anchor in pages[target].ids, (path, href)


def test_each_page_has_one_title_and_no_id_twice(book: Book) -> None:
    for path, seen in rendered(book).items():
        assert [name for name, _ in seen.tags].count("h1") == 1, path
        assert len(seen.ids) == len(set(seen.ids)), path
        assert not seen.unclosed and not seen.astray, path


def test_every_heading_has_an_address_of_its_own(book: Book) -> None:
    for path, text in book.markdown.items():
        for heading in re.findall(r"^#+ .*$", text, re.M):
            assert re.search(r"\{#[A-Za-z0-9_-]+\}$", heading), (path, heading)


def test_no_markup_is_left_over_on_a_page(book: Book) -> None:
    for path, seen in rendered(book).items():
        assert not re.search(r"\*\*|\]\(|\{#|\{\{|\| ?-", seen.words), path


def spoiled(value: object) -> object:
    """Put nasty text in every free text of a kit; ids, dates and fixed words stay."""
    if is_dataclass(value) and not isinstance(value, type):
        free = {
            "title",
            "name",
            "notes",
            "note",
            "text",
            "because",
            "say",
            "reasons",
            "what",
            "why",
            "value",
            "formula",
            "used_in",
            "irons",
            "publisher",
            "author",
            "stove",
            "eaters",
        }
        given: dict[str, object] = {}
        for each in fields(value):
            inner = getattr(value, each.name)
            if each.name == "places":
                continue
            if each.name in free and isinstance(inner, str) and inner:
                given[each.name] = f"{inner} {NASTY}"
            elif (
                each.name in free
                and isinstance(inner, tuple)
                and all(isinstance(one, str) for one in inner)
            ):
                given[each.name] = tuple(f"{one} {NASTY}" for one in inner)
            else:
                given[each.name] = spoiled(inner)
        return type(value)(**given)
    if isinstance(value, tuple):
        return tuple(spoiled(each) for each in value)
    return value


def test_nasty_text_changes_words_but_never_tags(book: Book) -> None:
    kit = spoiled(sample_kit())
    assert isinstance(kit, Kit)
    nasty = write_book(kit, TEMPLATES)
    # In the same order, since a person's page is named after them.
    for (path, seen), plain in zip(rendered(nasty).items(), rendered(book).values(), strict=True):
        assert re.fullmatch(r"(cook/|meals/|numbers/)?[a-z0-9-]+\.md", path), path
        assert [name for name, _ in seen.tags] == [name for name, _ in plain.tags], path
        scripts = [given for name, given in seen.tags if name == "script"]
        assert scripts in ([], [{"type": "application/json", "class": "figures"}]), path
        hrefs = [str(given["href"]) for _, given in seen.tags if "href" in given]
        assert not any("javascript:" in href for href in hrefs)
    assert any("<script>x</script> | [y]" in seen.words for seen in rendered(nasty).values())
    pocket, before = seen_in_html(nasty.pocket_html), seen_in_html(book.pocket_html)
    assert [name for name, _ in pocket.tags] == [name for name, _ in before.tags]
    assert not pocket.unclosed and not pocket.astray


def test_a_trip_without_dates_counts_its_days() -> None:
    kit = sample_kit()
    days = tuple(replace(day, date=None) for day in kit.days)
    book = write_book(replace(kit, start=None, days=days), TEMPLATES)
    assert "2031" not in book.markdown["index.md"] + book.markdown["day-1.md"]
    assert '[Day\u00a01](day-1.md) <span class="small">Road end' in book.markdown["index.md"]
    assert "Before you go" in book.markdown["index.md"]


def test_what_to_do_at_home_comes_first() -> None:
    index = write_book(sample_kit(), TEMPLATES).markdown["index.md"]
    first = index.partition("## Menu")[0]
    assert "## Before you go" in first
    assert "Take fuel: [1 × 100" in first.replace("\u00a0", " ")


def test_us_units_come_first_where_the_trip_asks_for_them() -> None:
    kit = replace(sample_kit(), units="us")
    index = write_book(kit, TEMPLATES).markdown["index.md"].replace("\u00a0", " ")
    assert "camp at 2,100 ft</span>" in index
    assert "640 m" not in index.partition("## Menu")[2].partition("##")[0]


def test_the_same_kit_gives_the_same_book(book: Book) -> None:
    assert write_book(sample_kit(), TEMPLATES) == book


def test_a_trip_that_cooks_nothing_still_has_all_pages() -> None:
    kit = without_looks(sample_kit())
    days = tuple(
        replace(day, meals=tuple(meal for meal in day.meals if not meal.recipe), orders=())
        for day in kit.days
    )
    party = tuple(replace(person, refused=()) for person in kit.party)
    bare = replace(
        kit,
        party=party,
        days=days,
        fuels=(),
        wood_g=0.0,
        batches=(),
        cautions=(),
        shopping=(),
        proposals=(),
        sources=(),
        defaults=(),
        irons=(),
        pots=(),
        notes="",
    )
    book = write_book(bare, TEMPLATES)
    assert list(paths(book.nav)) == list(book.markdown)
    assert "Take no fuel" in book.markdown["fuel.md"]
    assert "Nothing to buy" in book.markdown["shopping.md"]
    assert "no batch of yours" in book.markdown["drying.md"]
