"""Steps as the cook reads them."""

from __future__ import annotations

from typing import Any

import pytest

from builder.model.kit import Ladles, PlannedMeal, PlannedStep
from builder.model.trip import Heat
from builder.pages.figures import figures_of
from builder.pages.pieces import Cell
from builder.pages.trip.dishes.cook import cook_pages, cooking, step_anchors
from builder.pages.trip.dishes.plates import energy_of_each
from builder.pages.words import short_names
from builder.record import replace
from builder.speech import speech_of
from tests.pages.sample_kit import bean_pot, ingredient, meal, sample_kit, step, toasties

AT = "days.0.meals.3"  # the address of the meal in kit.json
ENGLISH = speech_of("en")


def said(cell: Cell) -> str:
    return "".join(piece.text for piece in cell if not piece.small).replace("\u00a0", " ").strip()


def lines(of: PlannedMeal) -> list[tuple[list[str], str, str]]:
    """Give amounts, what to do, and what is said besides, for each step."""
    return [
        (
            [said(amount) for amount in line.amounts],
            "".join(piece.text for piece in line.do).replace("\u00a0", " "),
            said((*line.more, *line.say)),
        )
        for line in cooking(sample_kit(), of, 1, AT).steps
    ]


def test_amounts_come_before_the_doing_and_nothing_is_added_twice() -> None:
    assert lines(bean_pot()) == [
        (["160 g black beans, 1¼ mugs", "291 ml water, 1 mug"], "Soak 10 min.", ""),
        (
            ["240 g rice, 1 mug", "20 g olive oil", "520 ml water, 1¾ mugs"],
            "Bring to the boil, lid on.",
            "",
        ),
        ([], "Simmer 9 min, stirring.", ""),
        ([], "Let stand 6 min, lid on.", ""),
        ([], "Serve.", "Split 160 g black beans (1¼ mugs) by eye; salt to taste."),
    ]


def test_minutes_at_sea_level_are_told_where_they_differ() -> None:
    steps = cooking(sample_kit(), bean_pot(), 1, AT).steps
    assert [each.sea_level.replace("\u00a0", " ") for each in steps] == [
        "",
        "",
        "8 min at sea level",
        "5 min at sea level",
        "",
    ]


def test_the_middle_is_measured_after_the_last_heat() -> None:
    assert [do for _, do, _ in lines(toasties())] == [
        "Mix.",
        "Heat the empty irons on the embers: 8 to 24 min.",
        "Fill the irons and close them. First side: 4 min.",
        "Turn the irons. Other side: 4 min.",
        "Take out what is done. Fill again, until all is cooked.",
        "Measure the middle.",
        "Serve.",
    ]
    assert lines(toasties())[2][2] == "Pieces: 4, 2 at a time."
    assert lines(toasties())[5][2].startswith("At least 72 °C  in the thickest part")


def test_a_temperature_to_reach_is_never_rounded_down() -> None:
    assert "At least 73 °C" in lines(replace(toasties(), reach_c=72.2))[5][2]


def test_water_is_boiled_before_it_is_poured_on() -> None:
    tea = ingredient("tea", "Black tea, leaf", 4)
    cup = meal(
        "drinks",
        "Tea",
        tea,
        recipe="tea",
        cook_in="mug",
        steps=(
            step("soak", tea, water_ml=500, minutes=4, hot=True),
            step("serve"),
        ),
        water_ml=500,
        potfuls=1,
    )
    assert lines(cup) == [
        (["500 ml water, 1¾ mugs"], "Bring to the boil.", ""),
        (
            ["2 g black tea", "250 ml of the boiling water"],
            "Pour on the boiling water. Soak 4 min.",
            "",
        ),
        ([], "Serve.", ""),
    ]
    assert cooking(sample_kit(), cup, 1, AT).one_mug
    assert not cooking(
        sample_kit(), replace(cup, eaters=("Ash",), plate_shares=(1.0,)), 1, AT
    ).one_mug


def test_water_boiled_for_one_soak_is_not_measured_twice() -> None:
    onion = ingredient("onion", "Onion", 8)
    soak = step("soak", onion, water_ml=377, minutes=12, hot=True)
    hash_ = meal("dinner", "Hash", onion, cook_in="pot", steps=(soak, step("serve")))
    assert lines(hash_)[:2] == [
        (["377 ml water, 1¼ mugs"], "Bring to the boil.", ""),
        (["8 g onion"], "Pour on the boiling water. Soak 12 min.", ""),
    ]
    twice = replace(hash_, steps=(soak, step("soak", water_ml=100, minutes=2, hot=True)))
    assert [amounts for amounts, _, _ in lines(twice)] == [
        ["477 ml water"],
        ["8 g onion", "377 ml of the boiling water, 1¼ mugs"],
        ["100 ml of the boiling water"],
    ]


GOES_ON = "The food takes up about 58 ml. What is left, 232 ml, goes into the dish."


@pytest.mark.parametrize(
    ("taken_up_ml", "after", "says"),
    [
        (58.1, (), "The food takes up about 58 ml. What is left, 232 ml: drink it too."),
        (
            58.1,
            (step("rest", minutes=5), step("serve")),
            "The food takes up about 58 ml. What is left, 232 ml: drink it too.",
        ),
        # Raw beans' water is not drunk before it boils; and flakes need what they are stirred into.
        (58.1, (step("simmer", minutes=9), step("serve")), GOES_ON),
        (58.1, (step("mix"), step("serve")), GOES_ON),
        (290.5, (), "The food takes up all the water."),
        (0, (), ""),
    ],
)
def test_what_dried_food_takes_up_and_leaves_as_broth_is_told(
    taken_up_ml: float, after: tuple[PlannedStep, ...], says: str
) -> None:
    pot = bean_pot()
    broth_ml = 290.5 - taken_up_ml if taken_up_ml else 0
    soak = replace(pot.steps[0], taken_up_ml=taken_up_ml, broth_ml=broth_ml)
    assert lines(replace(pot, steps=(soak, *after)))[0][2].strip() == says


@pytest.mark.parametrize(
    ("source", "after", "says"),
    [
        ("stream", (), "treated water"),
        ("tap", (), "water"),
        ("stream", (step("boil", minutes=1),), "water"),
        ("stream", (step("soak", minutes=1, hot=True, water_ml=9),), "water"),
        ("stream", (step("simmer", minutes=1),), "treated water"),
    ],
)
def test_water_that_is_never_boiled_is_treated_water(
    source: Any, after: tuple[PlannedStep, ...], says: str
) -> None:
    leaf = ingredient("leaf", "Mint", 8)
    soak = step("soak", leaf, water_ml=377, minutes=12)
    salad = meal("dinner", "Salad", leaf, cook_in="pot", steps=(soak, *after, step("serve")))
    salad = replace(salad, conditions=replace(salad.conditions, water_source=source))
    assert f"377 ml {says}, 1¼ mugs" in [each for line in lines(salad) for each in line[0]]


def test_water_to_pour_away_is_told() -> None:
    steps = lines(replace(bean_pot(), drain_ml=200))
    assert steps[3] == ([], "Pour off the water.", "About 200 ml . Far from stream and lake.")


def test_potfuls_are_the_figure_of_the_meal() -> None:
    (potful,) = cooking(sample_kit(), bean_pot(), 1, AT).potfuls
    assert potful.text == "2 potfuls"
    assert potful.scale is not None
    assert (potful.scale.value, potful.scale.figure) == (2, "days.0.meals.3.potfuls")


def test_shares_of_the_pot_are_told_only_where_they_differ() -> None:
    assert _plates(bean_pot()) == "Share it out: Ash 45 %; Rowan 55 %."
    assert _plates(toasties()) == ""


def test_what_is_pressed_is_shared_out_in_half_pieces() -> None:
    # Of 4 pieces 1.72 and 2.28: 3 and 4 halves, and the one left to whom more was cut, of 4.56.
    uneven = replace(toasties(), plate_shares=(0.43, 0.57))
    assert _plates(uneven) == "Share out the pieces: Ash 1½; Rowan 2½."
    # Where somebody would go without, a share says more.
    tiny = replace(uneven, plate_shares=(0.05, 0.95))
    assert _plates(tiny) == "Share it out: Ash 5 %; Rowan 95 %."


def test_a_pot_is_shared_out_in_ladles_where_it_is_known_what_it_holds() -> None:
    # 3 ladles and a half of 120 ml are 420 ml.
    uneven = replace(bean_pot(), ladles=Ladles(120.0, 16, (7, 9)))
    assert _plates(uneven) == (
        "Share it out: Ash 3½ ladles (420 ml); Rowan 4½ ladles (540 ml). "
        "A full ladle is about 120 ml; what is left goes round."
    )
    alike = replace(bean_pot(), ladles=Ladles(120.0, 5, (2, 2)))
    assert _plates(alike).startswith("Share it out: 1 ladle (120 ml) each. ")


def _plates(meal: PlannedMeal) -> str:
    return cooking(sample_kit(), meal, 1, AT).plates.replace("\u00a0", " ")


def test_no_mean_for_each_stands_beside_shares_that_differ() -> None:
    def heads_of(of: PlannedMeal) -> int:
        (amounts,) = {len(row) for row in cooking(sample_kit(), of, 1, AT).amounts.rows}
        return amounts

    alike = replace(bean_pot(), plate_shares=(0.5, 0.5))
    assert (heads_of(bean_pot()), heads_of(alike)) == (2, 3)
    # 420 g at 3.5 kcal are 1470 kcal: 45 and 55 % of it, or half for each.
    eaten = energy_of_each(figures_of(sample_kit()), bean_pot()).replace("\u00a0", " ")
    both = energy_of_each(figures_of(sample_kit()), alike).replace("\u00a0", " ")
    assert eaten == "About 662 kcal to 809 kcal each."
    assert both == "About 735 kcal each."


@pytest.mark.parametrize(
    ("names", "short"),
    [
        (("Black beans, cooked", "Rice, instant"), ["black beans", "rice"]),
        (("Milk, dry", "Milk, whole"), ["milk, dry", "milk, whole"]),
        (("UHT milk",), ["UHT milk"]),
        (("X",), ["X"]),
    ],
)
def test_steps_use_the_short_name_where_it_is_clear(
    names: tuple[str, ...], short: list[str]
) -> None:
    foods = [ingredient(f"f{number}", name, 1) for number, name in enumerate(names)]
    assert list(short_names(ENGLISH, foods).values()) == short


def test_that_meat_is_raw_is_never_cut_off() -> None:
    raw = ingredient("cod", "Cod, raw", 100, is_raw_animal=True)
    assert short_names(ENGLISH, [raw]) == {"cod": "cod, raw"}


def test_times_that_read_the_same_are_told_once() -> None:
    kit = sample_kit()
    oats = next(page for page in cook_pages(kit) if page.path == "cook/apple-oats.md")
    assert [way.title for way in oats.cookings] == ["Day\u00a01 breakfast and Day\u00a02 breakfast"]
    assert not oats.several
    later = replace(
        kit.days[1],
        meals=tuple(
            replace(each, eaters=("Ash",), plate_shares=(1.0,)) for each in kit.days[1].meals
        ),
    )
    pages = cook_pages(replace(kit, days=(kit.days[0], later)))
    assert [way.anchor for way in pages[0].cookings] == ["day-1-breakfast", "day-2-breakfast"]
    assert step_anchors(pages)[2, 0] == "cook/apple-oats.md#day-2-breakfast"


def test_twice_in_one_meal_gets_two_addresses() -> None:
    kit = sample_kit()
    alone = [replace(bean_pot(), eaters=(name,), plate_shares=(1.0,)) for name in ("Ash", "Rowan")]
    day = replace(kit.days[0], meals=tuple(alone))
    (page,) = cook_pages(replace(kit, days=(day,)))
    assert [way.anchor for way in page.cookings] == ["day-1-dinner", "day-1-dinner-2"]


def test_irons_are_heated_before_they_are_filled() -> None:
    kit = sample_kit()
    steps = cooking(kit, toasties(), 2, AT).steps
    does = [said(line.do).split(" ")[0] for line in steps]
    assert does[1:5] == ["Heat", "Fill", "Turn", "Take"]
    assert said(steps[1].more) == "Hot enough: a drop of water dances on them."
    assert said(steps[1].say) == "In cold ones the first round takes 17 to 33 min."
    # Each side has its timer; nothing is waited for between rounds.
    assert [line.timer for line in steps[1:5]] == ["", "4", "4", ""]
    # Whose iron's weight nobody told heats it all the same.
    untold = cooking(kit, replace(toasties(), irons=None), 2, AT).steps[1]
    assert said(untold.do) == "Heat the empty irons on the embers."


def test_what_fits_in_the_irons_at_once_has_one_round() -> None:
    kit = sample_kit()
    once = replace(toasties(), steps=tuple(replace(each, presses=1) for each in toasties().steps))
    does = [said(line.do).split(" ")[0] for line in cooking(kit, once, 2, AT).steps]
    assert "Turn" in does and "Take" not in does


def test_irons_alone_name_no_pot() -> None:
    kit = sample_kit()
    pot_id, pot, _ = kit.pots[0]
    dry = tuple(replace(each, water_ml=0.0) for each in toasties().steps)
    told = said(cooking(kit, replace(toasties(), pot=pot_id, steps=dry), 2, AT).in_short)
    assert pot not in told
    assert "in the embers" in told


def baked(**more: float) -> PlannedMeal:
    bake = {"minutes": 35, "minutes_at_sea_level": 35, "baking_c": 180, "palm_s": 5.0, **more}
    return replace(bean_pot(), steps=(step("bake", **bake), step("serve")), cooked_on="fire")


def test_embers_are_counted_where_the_pot_tells_its_width() -> None:
    kit = sample_kit()
    pot_id, pot, _ = kit.pots[0]
    of = replace(baked(ember_pieces=16.7, ember_pieces_below=5.57), pot=pot_id)
    way = cooking(kit, of, 1, AT)
    assert f"{pot}, in the embers" in said(way.in_short)
    bake = way.steps[0]
    assert said(bake.do) == "Bake 35 min at 180 °C, lid on."
    assert said(bake.more) == (
        "Egg-sized embers: 6 below, 11 on the lid, so hot that you can hold your palm "
        "above them for 5 s."
    )
    assert bake.timer == "35"
    untold = cooking(kit, baked(), 1, AT).steps[0]
    assert said(untold.more).startswith("Embers: a third below, two thirds on the lid, so hot")


def test_the_middle_is_measured_after_the_meat_is_in() -> None:
    of = bean_pot()
    beans = of.ingredients[0]
    soak = step("soak", beans, water_ml=100, minutes=10, minutes_at_sea_level=10, hot=True)
    steps = (step("boil", water_ml=500), soak, step("serve"))
    of = replace(of, steps=steps, reach_c=72.0, drain_ml=200.0)
    does = [said(each.do).split(".")[0] for each in cooking(sample_kit(), of, 1, AT).steps]
    assert does == [
        "Bring to the boil",
        "Pour off the water",
        "Bring to the boil",
        "Pour on the boiling water",
        "Measure the middle",
        "Serve",
    ]


def test_what_is_boiled_before_it_is_baked_stands_over_both() -> None:
    kit = sample_kit()
    boil = step("boil", ingredient("beans", "Black beans", 80), water_ml=400)
    of = baked()
    way = cooking(kit, replace(of, steps=(boil, *of.steps)), 1, AT)
    assert "on the fire, then in the embers" in said(way.in_short)


@pytest.mark.parametrize("on", list[Heat](["stove", "fire"]))
def test_a_filling_is_cooked_in_the_pot_and_pressed_in_the_irons(on: Heat) -> None:
    kit = sample_kit()
    pot_id, pot, _ = kit.pots[0]
    filled = replace(toasties(), pot=pot_id, cooked_on=on)
    told = said(cooking(kit, filled, 2, AT).in_short)
    assert f"{pot}, on the {on}. Then Square iron in the embers." in told
    assert "Square iron, on the" not in told


@pytest.mark.parametrize(
    ("of", "does", "as_planned"),
    [(bean_pot(), "Soak", False), (bean_pot(), "Let stand", True), (toasties(), "Fill", False)],
)
def test_only_what_hangs_on_eaters_and_height_is_hidden_with_others(
    of: PlannedMeal, does: str, as_planned: bool
) -> None:
    found = [
        line for line in cooking(sample_kit(), of, 1, AT).steps if said(line.do).startswith(does)
    ]
    assert [line.as_planned for line in found] == [as_planned]


@pytest.mark.parametrize(
    ("stir", "lid", "says"),
    [
        (False, False, "Bring to the boil. Boil hard 12 min."),
        (True, False, "Bring to the boil, stirring. Boil hard 12 min."),
        (False, True, "Bring to the boil, lid on. Boil hard 12 min."),
        (True, True, "Bring to the boil, stirring, lid on. Boil hard 12 min."),
    ],
)
def test_a_boil_with_minutes_goes_on_boiling_hard(stir: bool, lid: bool, says: str) -> None:
    beans = ingredient("beans", "Black beans", 80)
    hard = step(
        "boil", beans, water_ml=400, minutes=12, minutes_at_sea_level=10, stir=stir, lid=lid
    )
    of = replace(bean_pot(), steps=(hard, step("serve")))
    assert lines(of)[0][1] == says
    first = cooking(sample_kit(), of, 1, AT).steps[0]
    assert (first.timer, "10" in first.sea_level) == ("12", True)


@pytest.mark.parametrize(("ways", "pages"), [(30, 1), (31, 2), (61, 3)])
def test_a_recipe_cooked_in_very_many_ways_has_several_pages(ways: int, pages: int) -> None:
    kit = sample_kit()
    higher = (replace(kit.days[0].conditions, altitude_m=700.0 + each) for each in range(ways))
    days = tuple(
        replace(kit.days[0], day=number, meals=(replace(bean_pot(), conditions=here),))
        for number, here in enumerate(higher, start=1)
    )
    found = cook_pages(replace(kit, days=days, cautions=()))
    more = [f"cook/smoky-bean-pot.{number}.md" for number in range(2, pages + 1)]
    assert [page.path for page in found] == ["cook/smoky-bean-pot.md", *more]
    assert sum(len(page.cookings) for page in found) == ways
    assert len(step_anchors(found)) == ways
    assert all(len(page.others) == pages - 1 for page in found)
    first = "Smoky bean pot, days 1 to 30" if pages > 1 else "Smoky bean pot"
    assert found[0].title == first
    if pages > 1:
        assert found[0].others[0][0].href == "cook/smoky-bean-pot.2.md"


def test_a_large_party_makes_pages_of_fewer_ways() -> None:
    kit = sample_kit()
    days = tuple(
        replace(
            kit.days[0],
            day=number,
            meals=(
                replace(bean_pot(), conditions=replace(kit.days[0].conditions, altitude_m=number)),
            ),
        )
        for number in range(1, 14)
    )
    many = tuple(replace(kit.party[0], name=f"Ash {number}") for number in range(30))
    found = cook_pages(replace(kit, days=days, party=many, cautions=()))
    assert [len(page.cookings) for page in found] == [12, 1]
