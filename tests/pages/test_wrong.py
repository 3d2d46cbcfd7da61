"""The page for when it goes wrong, in a kit of one's own and in one for everybody."""

from __future__ import annotations

from builder.model.mishaps import Mishap, StillEaten
from builder.pages import ink
from builder.pages.trip.afterwards.wrong import wrong_page
from builder.pages.trip.afterwards.wrong_in_short import wrong_in_short
from builder.record import replace
from builder.speech import speech_of
from tests.pages.conftest import TEMPLATES
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
    assert "Was your filter or water treatment in it? Make the water safe another way." in words
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


def test_too_little_is_bold_where_it_leads_to_how_it_came_about_too() -> None:
    eaten = StillEaten("Ash", need_kcal=(2000.0, 2000.0), kcal=(1799.0, 1801.0))
    bag = Mishap("bag", who="Ash", still=(eaten,), missing_kcal=400.0)
    ways = frozenset(f"mishaps.0.still.0.kcal.{day}" for day in range(2))
    kit = replace(sample_kit(), mishaps=(bag,), figures=ways)
    page = ink.write(TEMPLATES, "pages/wrong.md.j2", "", wrong_page(kit), speech_of("en"))
    assert "<strong>[1,799](numbers.md#how-mishaps-0-still-0-kcal-0)</strong>" in page
    assert "| [1,801](numbers.md#how-mishaps-0-still-0-kcal-1) |" in page


def test_of_large_tables_no_ways_are_told() -> None:
    assert len(led(300)[1]) == 300
    assert led(301) == ([], [])


def test_of_a_crowd_it_is_said_whom_the_table_tells_of() -> None:
    def told(*still: StillEaten) -> str:
        bag = Mishap("bag", who="Ash", still=still, missing_kcal=900.0)
        (wrong,) = wrong_page(replace(sample_kit(), mishaps=(bag,))).each
        return wrong.of_many

    day = (1000.0,)
    everybody, ash = StillEaten("", day, day), StillEaten("Ash", day, day)
    assert told(ash, StillEaten("Rowan", day, day)) == ""
    assert "what all eat together." in told(everybody)
    assert "and below it Ash, who of all has least" in told(everybody, ash)


def test_the_pocket_tells_no_heat_the_driest_camp_and_the_bag_one_cooks_out_of() -> None:
    stove = Mishap("bag", who="Ash", lost=("Top burner",), uneaten=((1, 0),))
    food = Mishap("bag", who="Rowan")
    wet, dry = (Mishap("dry", day=day, drink_ml=ml) for day, ml in ((1, 900.0), (2, 400.0)))
    mishaps = (stove, food, Mishap("day-more"), Mishap("no-fuel", uneaten=((1, 0),)), wet, dry)
    told = wrong_in_short(replace(sample_kit(), mishaps=mishaps))
    assert [each.title for each in told] == [
        "The bag of Ash is lost",
        "No fuel, or the stove breaks",
        "No water at the camp of day 2",
    ]
    words = ["".join(piece.text for piece in cell) for cell in told[0].says]
    assert words == ["With it go: Top burner."]


def test_the_pocket_names_a_dish_once_and_on_the_safe_side() -> None:
    kit = sample_kit()
    first, second, *_ = kit.days[0].meals
    twin = replace(second, title=first.title)
    day = replace(kit.days[0], meals=(first, twin, second))
    places = ((1, 0), (1, 2))
    mishap = Mishap("no-fuel", cold=places, uneaten=((1, 1), (1, 1)))
    (told,) = wrong_in_short(replace(kit, days=(day, *kit.days[1:]), mishaps=(mishap,)))
    cold, never, *_ = ["".join(piece.text for piece in cell) for cell in told.says]
    assert cold.endswith(f": {second.title}.")
    assert never.endswith(f": {first.title}.")
