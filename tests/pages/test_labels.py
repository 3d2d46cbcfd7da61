"""Labels: their words, what is given up when there is little room, and how they lie on a sheet."""

from __future__ import annotations

import datetime
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.gear import LabelSheet
from builder.model.home import Home
from builder.pages.home.label_fit import LEAST_PT, MODULES_MM, SIZES_PT, fit_of, plain_room
from builder.pages.home.label_sheet import PAPERS_MM, code_of, labels_file, plain_sheet, room_of
from builder.pages.home.label_words import GIVEN_UP, LabelWords, allergens_said, label_words
from builder.pages.home.showing import figures_of_home
from builder.planning.year import PackLabel, Soak
from builder.reading.folder import Layer, read_folder
from builder.record import replace
from builder.speech import speech_of
from tests.pages.conftest import TEMPLATES

SAY = speech_of("en")
FIGURES = figures_of_home(Home())
BEANS = PackLabel(
    batch="beans",
    name="Black beans, cooked and freeze-dried",
    kind="legume",
    state="cooked",
    packs=2,
    pack_g=164.0,
    made_on=datetime.date(2031, 3, 14),
    best_before=datetime.date(2032, 3, 14),
    kept_at_told=True,
    kept_at_c=20.0,
    water_ml=300.0,
    soak=Soak((5, 30), (2, 10)),
    allergens=(),
    may_contain=(),
    not_told=(),
    is_raw=False,
    reach_c=0.0,
    is_bought=False,
    failed=False,
    act="",
)
SHEETS = read_folder(
    [Layer(TEMPLATES.parent / "content", "content", ("gear",))]
).content.gear.sheets


def said(**changes: object) -> dict[str, str]:
    """Give the words of beans that differ in something, by their part."""
    return dict(label_words(FIGURES, replace(BEANS, **changes)).parts)  # type: ignore[arg-type]


# -- words ----------------------------------------------------------------------------------------


def test_a_label_says_what_a_person_needs_when_they_open_the_pack() -> None:
    assert said() == {
        "name": "Black beans, cooked and freeze-dried",
        "made": "164\u00a0g, made 14\u00a0Mar 2031",
        "best": "best before 14\u00a0Mar 2032",
        "water": "+ 300\u00a0ml = 1\u00a0mug, cold 5 to 30 min or hot 2 to 10 min",
        "do": "Soak until soft, then heat through.",
        "allergens": "Allergens: none",
    }


@pytest.mark.parametrize(
    ("changes", "doing"),
    [
        ({"state": "raw"}, "Soak 5 h, pour off, boil hard for 10 min; never above 2,000\u00a0m."),
        ({"state": "raw", "kind": "vegetable"}, "Soak, then simmer until soft."),
        ({"state": "raw", "kind": "fruit"}, "Eat as it is, or soak."),
        ({"is_bought": True}, "Do as the packet says."),
        ({"act": "Test it."}, "Test it."),
        (
            {"is_raw": True, "reach_c": 74.0, "act": "Cook it."},
            "Heat to 74\u00a0°C in the middle before anybody eats it.",
        ),
    ],
)
def test_what_to_do_is_one_line(changes: dict[str, object], doing: str) -> None:
    assert said(**changes)["do"] == doing


def test_a_date_says_with_which_warmth_it_is_counted_where_nobody_told() -> None:
    best = said(kept_at_told=False)["best"]
    assert best == "best before 14\u00a0Mar 2032 if kept at 20\u00a0°C (not given)"
    assert said(kept_at_told=False, best_before=None)["best"] == "best before: not given"


@pytest.mark.parametrize(
    ("kept_at_c", "kept"),
    [
        (-18.0, ", kept at \u221218\u00a0°C"),
        (19.0, ", kept at 19\u00a0°C"),
        (20.0, ""),
        (28.0, ""),
        (None, ""),
    ],
)
def test_a_date_that_asks_for_the_cold_says_so(kept_at_c: float | None, kept: str) -> None:
    assert said(kept_at_c=kept_at_c)["best"] == f"best before 14\u00a0Mar 2032{kept}"


def test_raw_stands_first_and_only_where_it_is_raw() -> None:
    assert next(iter(said(is_raw=True, reach_c=74.0))) == "raw"
    assert "raw" not in said()


@pytest.mark.parametrize(
    ("changes", "water"),
    [
        ({"water_ml": 0.0}, None),
        ({"soak": Soak(None, None)}, "+ 300\u00a0ml = 1\u00a0mug"),
        ({"soak": Soak(None, (2, 10))}, "+ 300\u00a0ml = 1\u00a0mug"),
        ({"soak": Soak((120, 180), (10, 30))},
         "+ 300\u00a0ml = 1\u00a0mug, cold 2 to 3 h or hot 10 to 30 min"),
    ],
)  # fmt: skip
def test_water_is_told_as_far_as_it_is_known(changes: dict[str, object], water: str | None) -> None:
    assert said(**changes).get("water") == water


@pytest.mark.parametrize(
    ("allergens", "may_contain", "not_told", "says"),
    [
        ((), (), (), "Allergens: none"),
        (("milk", "nuts"), (), (), "Contains milk and tree nuts"),
        ((), ("sesame",), (), "Allergens: none. May contain sesame"),
        (("milk",), ("nuts",), (), "Contains milk. May contain tree nuts"),
        ((), (), ("leaf",), "Allergens: NOT GIVEN"),
        (("milk",), (), ("leaf",), "Contains milk. OTHER ALLERGENS NOT GIVEN"),
        ((), ("nuts",), ("leaf",), "Allergens: NOT GIVEN"),
    ],
)
def test_allergens_that_nobody_told_are_never_none(
    allergens: tuple[str, ...], may_contain: tuple[str, ...], not_told: tuple[str, ...], says: str
) -> None:
    told = replace(BEANS, allergens=allergens, may_contain=may_contain, not_told=not_told)
    assert allergens_said(SAY, told) == says


# -- room -----------------------------------------------------------------------------------------


def fits(label: PackLabel, sheet: LabelSheet) -> tuple[float, float, frozenset[str]] | None:
    words = label_words(FIGURES, label)
    modules, _ = code_of(words.as_text)
    fit = fit_of(words, modules, room_of(sheet))
    return None if fit is None else (fit.size_pt, fit.module_mm, frozenset(fit.gone))


@pytest.mark.parametrize("name", ["a4-3x8", "a4-2x7", "a4-2x4", "letter-2x5"])
def test_the_usual_sheets_hold_all_the_words_and_the_code(name: str) -> None:
    fit = fits(BEANS, SHEETS[name])
    assert fit is not None
    size_pt, module_mm, gone = fit
    assert size_pt >= LEAST_PT
    assert module_mm in MODULES_MM
    assert gone == frozenset()


def test_small_labels_give_up_the_code_first_then_what_matters_least() -> None:
    fit = fits(BEANS, SHEETS["a4-5x13"])
    assert fit is not None
    size_pt, module_mm, gone = fit
    assert module_mm == 0
    assert gone == frozenset(GIVEN_UP[: len(gone)])
    assert size_pt >= LEAST_PT


def test_what_does_not_fit_at_all_gets_no_label_and_is_said() -> None:
    tiny = LabelSheet("tiny", "a4", 10, 40, 20.0, 7.0, 0.0, 0.0)
    assert fits(BEANS, tiny) is None
    html = labels_file([BEANS], tiny, FIGURES, TEMPLATES)
    assert 'data-batch="' not in html
    assert "too long for this size; take a larger label" in html


@given(st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=120))
def test_what_matters_most_is_never_given_up(name: str) -> None:
    words = LabelWords(
        "x",
        (
            ("raw", "RAW"),
            ("name", name),
            ("made", "1 g"),
            ("best", "best"),
            ("allergens", "Contains milk"),
        ),
    )
    fit = fit_of(words, 53, plain_room(70.0, 37.0))
    if fit is not None:
        assert {part for part, _ in fit.parts} >= {"raw", "name", "best", "allergens"}
        assert fit.size_pt in SIZES_PT


# -- sheets ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", sorted(SHEETS))
def test_a_sheet_of_the_gear_fills_its_paper(name: str) -> None:
    sheet = SHEETS[name]
    wide, high = PAPERS_MM[sheet.page]
    across = 2 * sheet.left_mm + sheet.columns * sheet.width_mm
    across += (sheet.columns - 1) * sheet.across_mm
    down = 2 * sheet.top_mm + sheet.rows * sheet.height_mm + (sheet.rows - 1) * sheet.down_mm
    assert across == pytest.approx(wide, abs=0.1)
    assert down == pytest.approx(high, abs=0.1)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_plain_paper_is_cut_in_the_middle_of_the_paper(units: str) -> None:
    sheet = plain_sheet(units)
    wide, high = PAPERS_MM[sheet.page]
    assert 2 * sheet.left_mm + sheet.columns * sheet.width_mm == pytest.approx(wide, abs=0.2)
    assert 2 * sheet.top_mm + sheet.rows * sheet.height_mm == pytest.approx(high, abs=0.2)


@pytest.mark.parametrize(("first", "sheets", "blanks"), [(1, 1, 0), (10, 2, 9), (9, 1, 8)])
def test_labels_begin_at_the_first_free_one(first: int, sheets: int, blanks: int) -> None:
    html = labels_file([BEANS], plain_sheet("metric"), FIGURES, TEMPLATES, first)
    assert html.count('<section class="sheet">') == sheets
    assert html.count('class="label blank"') == blanks
    assert html.count('data-batch="beans"') == 2


def test_a_batch_that_failed_gets_no_label_but_its_act() -> None:
    failed = replace(BEANS, failed=True, act="Throw it out.")
    html = labels_file([failed], plain_sheet("metric"), FIGURES, TEMPLATES)
    assert 'data-batch="' not in html
    assert "No label for Black beans, cooked and freeze-dried (beans): Throw it out." in html


def test_a_name_is_text_and_nothing_else() -> None:
    evil = replace(BEANS, name='<script>alert("x")</script> & co', batch="beans")
    html = labels_file([evil], plain_sheet("metric"), FIGURES, TEMPLATES)
    assert "<script>alert" not in html
    assert "&lt;script&gt;" in html


def test_a_code_is_drawn_once_however_many_packs_there_are() -> None:
    html = labels_file([replace(BEANS, packs=8)], plain_sheet("metric"), FIGURES, TEMPLATES)
    assert len(re.findall("<symbol", html)) == 1
    assert html.count('href="#code-beans"') == 8


def test_the_file_is_the_same_every_time(tmp_path: Path) -> None:
    twice = [labels_file([BEANS], SHEETS["a4-3x8"], FIGURES, TEMPLATES) for _ in range(2)]
    assert twice[0] == twice[1]
