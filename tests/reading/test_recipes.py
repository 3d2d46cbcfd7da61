# ruff: noqa: E501 - the lines that people read stand whole
"""Recipes: amounts, steps, dried meals, and each way to write them wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.recipe import Recipe
from tests.reading.folder_builder import BEAN_POT, GOOD, Spoilt, changed, lines, read, told

STEPS = BEAN_POT[BEAN_POT.index("steps:") :]

SPOILT = (
    Spoilt(
        "id not well formed",
        "recipes/bean-pot.yaml",
        (("id: bean-pot", "id: Bean Pot!"),),
        (
            "recipes/bean-pot.yaml:1:5: error: 'Bean Pot!' is no id — write bean-pot (lower-case letters, digits, single hyphens) [id]",
        ),
    ),
    Spoilt(
        "id of other letters",
        "recipes/bean-pot.yaml",
        (("id: bean-pot", "id: ÄÖ"),),
        (
            "recipes/bean-pot.yaml:1:5: error: 'ÄÖ' is no id — write ao (lower-case letters, digits, single hyphens) [id]",
        ),
    ),
    Spoilt(
        "id too long",
        "recipes/bean-pot.yaml",
        (("id: bean-pot", "id: bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb"),),
        (
            "recipes/bean-pot.yaml:1:5: error: 'bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb…' is no id — write bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb (lower-case letters, digits, single hyphens) [id]",
        ),
    ),
    Spoilt(
        "id missing",
        "recipes/bean-pot.yaml",
        (("id: bean-pot\n", ""),),
        (
            "recipes/bean-pot.yaml:1:1: error: this recipe has no `id` — write `id: some-id` [missing]",
        ),
    ),
    Spoilt(
        "file of another name",
        "recipes/bean-pot.yaml",
        (("id: bean-pot", "id: bean-stew"),),
        (
            "recipes/bean-pot.yaml:1:5: warning: recipe 'bean-stew' stands in a file called bean-pot.yaml — call the file bean-stew.yaml [file-name]",
            "trips/tarrow.yaml:8:23: error: there is no recipe 'bean-pot' — did you mean bean-stew? [recipe-unknown]",
        ),
    ),
    Spoilt(
        "serves nobody",
        "recipes/bean-pot.yaml",
        (("serves: 2", "serves: 0"),),
        (
            "recipes/bean-pot.yaml:3:9: error: serves cannot be '0' — write a number above 0, up to 1000 [out-of-range]",
        ),
    ),
    Spoilt(
        "serves with a decimal comma",
        "recipes/bean-pot.yaml",
        (("serves: 2", "serves: 1,5"),),
        (
            "recipes/bean-pot.yaml:3:9: error: serves takes a bare number, found '1,5' — write the number alone, `serves: 1.5` [not-a-number]",
        ),
    ),
    Spoilt(
        "no vessel",
        "recipes/bean-pot.yaml",
        (("cook_in: pot\n", ""),),
        (
            "recipes/bean-pot.yaml:1:1: error: this recipe has no `cook_in` — write `cook_in: pot` [missing]",
        ),
    ),
    Spoilt(
        "unknown vessel",
        "recipes/bean-pot.yaml",
        (("cook_in: pot", "cook_in: cauldron"),),
        (
            "recipes/bean-pot.yaml:4:10: error: cook_in cannot be 'cauldron' — known are: iron, mug, none, pot [word-unknown]",
        ),
    ),
    Spoilt(
        "no uses",
        "recipes/bean-pot.yaml",
        (
            (
                "  - {food: beans, dried_by: dehydrator, amount: 80 g}\n  - {food: rice, amount: 120 g}\n",
                "",
            ),
        ),
        (
            "recipes/bean-pot.yaml:1:1: error: this recipe has no `uses` — write `uses: […]` [missing]",
        ),
    ),
    Spoilt(
        "uses nothing",
        "recipes/bean-pot.yaml",
        (
            (
                "uses:\n  - {food: beans, dried_by: dehydrator, amount: 80 g}\n  - {food: rice, amount: 120 g}\n",
                "uses: []\n",
            ),
        ),
        (
            "recipes/bean-pot.yaml:5:7: error: this recipe uses nothing — name at least one food [empty]",
        ),
    ),
    Spoilt(
        "no steps",
        "recipes/bean-pot.yaml",
        ((STEPS, "steps: []\n"),),
        (
            "recipes/bean-pot.yaml:8:8: error: this recipe has no steps — write at least `- {do: serve}` [empty]",
        ),
    ),
    Spoilt(
        "neither food nor recipe",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount: 120 g}", "{amount: 120 g}"),),
        (
            "recipes/bean-pot.yaml:7:5: error: a line of uses names one food or one dried meal — write `food: <id>` or `recipe: <id>` [food-or-recipe]",
        ),
    ),
    Spoilt(
        "food and recipe",
        "recipes/bean-pot.yaml",
        (("{food: rice,", "{food: rice, recipe: bean-pot,"),),
        (
            "recipes/bean-pot.yaml:7:5: error: a line of uses names one food or one dried meal — write `food: <id>` or `recipe: <id>` [food-or-recipe]",
        ),
    ),
    Spoilt(
        "unknown food",
        "recipes/bean-pot.yaml",
        (("food: rice", "food: rise"),),
        (
            "recipes/bean-pot.yaml:7:12: error: there is no food 'rise' — did you mean rice? [food-unknown]",
        ),
    ),
    Spoilt(
        "unknown food in cups",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount: 120 g}", "{food: rise, amount: 2 cups}"),),
        (
            "recipes/bean-pot.yaml:7:12: error: there is no food 'rise' — did you mean rice? [food-unknown]",
        ),
    ),
    Spoilt(
        "unknown recipe",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount", "{id: rice, recipe: bean-dip, amount"),),
        (
            "recipes/bean-pot.yaml:7:24: error: there is no recipe 'bean-dip' — did you mean bean-pot? [recipe-unknown]",
        ),
    ),
    Spoilt(
        "holds itself",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount", "{id: rice, recipe: bean-pot, amount"),),
        (
            "recipes/bean-pot.yaml:1:1: error: recipe 'bean-pot' holds itself — take the dried meal out of its own list [recipe-circle]",
        ),
    ),
    Spoilt(
        "a line of uses twice",
        "recipes/bean-pot.yaml",
        (
            (
                "{food: rice, amount: 120 g}",
                "{food: rice, amount: 120 g}\n  - {food: rice, amount: 20 g}",
            ),
        ),
        (
            "recipes/bean-pot.yaml:8:5: error: two lines of uses are called 'rice' (first on line 7) — give one of them an `id:` of its own [id-twice]",
        ),
    ),
    Spoilt(
        "no amount",
        "recipes/bean-pot.yaml",
        ((", amount: 120 g", ""),),
        (
            "recipes/bean-pot.yaml:7:5: error: this line of uses has no `amount` — write `amount: 80 g` [missing]",
        ),
    ),
    Spoilt(
        "amount of nothing",
        "recipes/bean-pot.yaml",
        (("amount: 120 g", "amount: 0 g"),),
        (
            "recipes/bean-pot.yaml:7:26: error: amount: '0 g' is nothing — write an amount, or drop it [out-of-range]",
        ),
    ),
    Spoilt(
        "amount without unit",
        "recipes/bean-pot.yaml",
        (("amount: 120 g", "amount: 120"),),
        (
            "recipes/bean-pot.yaml:7:26: error: amount: '120' has no unit — write a mass (250 g), a volume (2 cups) or pieces (2 pieces) [unit-missing]",
        ),
    ),
    Spoilt(
        "amount of a length",
        "recipes/bean-pot.yaml",
        (("amount: 120 g", "amount: 120 cm"),),
        (
            "recipes/bean-pot.yaml:7:26: error: amount: '120 cm' is no amount of food — write a mass (250 g), a volume (2 cups) or pieces (2 pieces) [unit-unknown]",
        ),
    ),
    Spoilt(
        "amount as a list",
        "recipes/bean-pot.yaml",
        (("amount: 120 g", "amount: [120 g]"),),
        (
            "recipes/bean-pot.yaml:7:26: error: amount must be an amount, found a list — write a mass (250 g), a volume (2 cups) or pieces (2 pieces) [quantity]",
        ),
    ),
    Spoilt(
        "volume without density",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount: 120 g}", "{food: oil, id: rice, amount: 1 tbsp}"),),
        (
            "recipes/bean-pot.yaml:7:35: error: amount: '1 tbsp' is a volume, and nobody told the density of 'Oil' — write the mass; or weigh 100 ml of it, loosely filled, and tell it with a food of your own: 72 g are `density: 0.72 g/ml` [density-missing]",
        ),
    ),
    Spoilt(
        "pieces without a piece",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount: 120 g}", "{food: oil, id: rice, amount: 2 pieces}"),),
        (
            "recipes/bean-pot.yaml:7:35: error: amount: '2 pieces': nobody told what a piece of 'Oil' weighs — write the mass; a food of your own may tell its `piece: 120 g` [piece-missing]",
        ),
    ),
    Spoilt(
        "pieces unclear",
        "recipes/bean-pot.yaml",
        (("amount: 120 g", 'amount: "1,250 pieces"'),),
        (
            "recipes/bean-pot.yaml:7:26: error: amount: '1,250' could mean 1250 or 1.250 — write 1250 or 1.25 [number-unclear]",
        ),
    ),
    Spoilt(
        "a dried meal in cups",
        "recipes/bean-pot.yaml",
        (("{food: rice, amount: 120 g}", "{recipe: bean-dip, id: rice, amount: 2 cups}"),),
        (
            "recipes/bean-pot.yaml:7:42: error: amount: '2 cups': only a food with an entry of its own is told in volumes or pieces — write the mass [density-missing]",
        ),
    ),
    Spoilt(
        "dried by magic",
        "recipes/bean-pot.yaml",
        (("dried_by: dehydrator", "dried_by: dehydrater"),),
        (
            "recipes/bean-pot.yaml:6:29: error: dried_by cannot be 'dehydrater' — did you mean dehydrator? [word-unknown]",
        ),
    ),
    Spoilt(
        "unknown step",
        "recipes/bean-pot.yaml",
        (("do: simmer", "do: juggle"),),
        (
            "recipes/bean-pot.yaml:11:10: error: do cannot be 'juggle' — known are: bake, boil, fry, mix, part, press, rest, serve, simmer, soak [word-unknown]",
        ),
    ),
    Spoilt(
        "step without do",
        "recipes/bean-pot.yaml",
        (("{do: simmer, minutes: 8}", "{minutes: 8}"),),
        ("recipes/bean-pot.yaml:11:5: error: this step has no `do` — write `do: soak` [missing]",),
    ),
    Spoilt(
        "boil for more than two days",
        "recipes/bean-pot.yaml",
        (("water: 260 ml}", "water: 260 ml, minutes: 2881}"),),
        (
            "recipes/bean-pot.yaml:10:61: error: minutes cannot be '2881' — write a number from 0 to 2880 [out-of-range]",
        ),
    ),
    Spoilt(
        "simmer without minutes",
        "recipes/bean-pot.yaml",
        ((", minutes: 8", ""),),
        (
            "recipes/bean-pot.yaml:11:5: error: this step has no `minutes` — write `minutes: 2` [missing]",
        ),
    ),
    Spoilt(
        "minutes with a unit",
        "recipes/bean-pot.yaml",
        (("minutes: 8", "minutes: 8 min"),),
        (
            "recipes/bean-pot.yaml:11:27: error: minutes takes a bare number, found '8 min' — write the number alone, `minutes: 8` [not-a-number]",
        ),
    ),
    Spoilt(
        "minutes as text",
        "recipes/bean-pot.yaml",
        (("minutes: 8", 'minutes: "8"'),),
        (
            "recipes/bean-pot.yaml:11:27: error: minutes takes a bare number, found '8' — write the number alone, `minutes: 8` [not-a-number]",
        ),
    ),
    Spoilt(
        "minutes of days",
        "recipes/bean-pot.yaml",
        (("minutes: 8", "minutes: 3000"),),
        (
            "recipes/bean-pot.yaml:11:27: error: minutes cannot be '3000' — write a number from 0 to 2880 [out-of-range]",
        ),
    ),
    Spoilt(
        "a step that takes no water",
        "recipes/bean-pot.yaml",
        (("minutes: 8", "minutes: 8, water: 1 l"),),
        (
            "recipes/bean-pot.yaml:11:30: error: a step has no field 'water' — known are: do, lid, minutes, picture, say, stir, with [key-unknown]",
        ),
    ),
    Spoilt(
        "serve with stir",
        "recipes/bean-pot.yaml",
        (("{do: serve,", "{do: serve, stir: true,"),),
        (
            "recipes/bean-pot.yaml:12:17: error: a step has no field 'stir' — known are: do, picture, say, with [key-unknown]",
        ),
    ),
    Spoilt(
        "step with an unknown ingredient",
        "recipes/bean-pot.yaml",
        (("with: [beans, rice]", "with: [bean, rice]"),),
        (
            "recipes/bean-pot.yaml:10:23: error: this recipe uses no 'bean' — did you mean beans? [ingredient-unknown]",
        ),
    ),
    Spoilt(
        "step with a list of lists",
        "recipes/bean-pot.yaml",
        (("with: [beans, rice]", "with: [[beans], rice]"),),
        (
            "recipes/bean-pot.yaml:10:23: error: with must be a text, found a list — write one text [not-text]",
        ),
    ),
    Spoilt(
        "say names an unknown ingredient",
        "recipes/bean-pot.yaml",
        (("<beans>", "<peas>"),),
        (
            "recipes/bean-pot.yaml:12:22: error: this recipe uses no <peas> — did you mean beans? [ingredient-unknown]",
        ),
    ),
    Spoilt(
        "say tells a quantity in one system",
        "recipes/bean-pot.yaml",
        (("say: Split <beans> by eye", 'say: "Split <beans> at {74 degC}"'),),
        (
            "recipes/bean-pot.yaml:12:22: error: '{74 degC}' is no quantity told in metric and in US units — write one as {74 degC|165 degF}, the same in both [quantity]",
        ),
    ),
    Spoilt(
        "say tells two quantities as one",
        "recipes/bean-pot.yaml",
        (("say: Split <beans> by eye", 'say: "Split <beans> at {74 degC|160 degF}"'),),
        (
            "recipes/bean-pot.yaml:12:22: error: '{74 degC|160 degF}' is no quantity told in metric and in US units — write one as {74 degC|165 degF}, the same in both [quantity]",
        ),
    ),
    Spoilt(
        "auto without dried",
        "recipes/bean-pot.yaml",
        (("dried_by: dehydrator, ", ""),),
        (
            "recipes/bean-pot.yaml:9:38: error: auto gives back what drying took out, and nothing here is dried — write the water, or name what is dried in `with` [auto-water]",
        ),
    ),
    Spoilt(
        "water as a bare number",
        "recipes/bean-pot.yaml",
        (("water: 260 ml", "water: 260"),),
        (
            "recipes/bean-pot.yaml:10:44: error: water: '260' has no unit — write one of ml, cl, dl, l, tsp, tbsp, cup, cups, fl oz, pint, pints, qt, gal behind it, such as 300 ml, 1.5 l or 2 cups [unit-missing]",
        ),
    ),
    Spoilt(
        "unused",
        "recipes/bean-pot.yaml",
        (("with: [beans, rice]", "with: [beans]"),),
        (
            "recipes/bean-pot.yaml:7:5: warning: no step takes 'rice' — name it in a step's `with` [ingredient-unused]",
        ),
    ),
    Spoilt(
        "drain of more than goes in",
        "recipes/bean-pot.yaml",
        (
            ("serves: 2", "serves: 2\ndrain: 3 l"),
            ("water: auto, ", ""),
        ),
        (
            "recipes/bean-pot.yaml:4:8: error: 3000 ml are poured away, but only 260 ml go in — write less, or tell the water of the steps [drain]",
        ),
    ),
    Spoilt(
        "a flag as a number",
        "recipes/bean-pot.yaml",
        (("minutes: 10}", "minutes: 10, hot: 1}"),),
        (
            "recipes/bean-pot.yaml:9:62: error: hot must be true or false, found '1' — write `hot: true` or `hot: false` [not-a-flag]",
        ),
    ),
    Spoilt(
        "press without an iron",
        "recipes/bean-pot.yaml",
        (("{do: simmer, minutes: 8}", "{do: press, each_side: 4 min}"),),
        (
            "recipes/bean-pot.yaml:4:10: error: a press step needs an iron, and cook_in is pot — write `cook_in: iron` [vessel]",
        ),
    ),
    Spoilt(
        "bake without minutes and a temperature",
        "recipes/bean-pot.yaml",
        (("{do: simmer, minutes: 8}", "{do: bake}"),),
        (
            "recipes/bean-pot.yaml:11:5: error: this step has no `at` — write `at: 74 degC` [missing]",
            "recipes/bean-pot.yaml:11:5: error: this step has no `minutes` — write `minutes: 2` [missing]",
        ),
    ),
    Spoilt(
        "baked in a mug",
        "recipes/bean-pot.yaml",
        (
            ("{do: simmer, minutes: 8}", "{do: bake, minutes: 30, at: 180 degC}"),
            ("cook_in: pot", "cook_in: mug"),
        ),
        (
            "recipes/bean-pot.yaml:4:10: error: a bake step needs a pot with a lid, and cook_in is mug — write `cook_in: pot` [vessel]",
        ),
    ),
    Spoilt(
        "press without a time",
        "recipes/bean-pot.yaml",
        (("{do: simmer, minutes: 8}", "{do: press, pieces: 0}"),),
        (
            "recipes/bean-pot.yaml:11:5: error: this step has no `each_side` — write `each_side: 4 min` [missing]",
            "recipes/bean-pot.yaml:11:25: error: pieces cannot be '0' — write a number above 0, up to 100 [out-of-range]",
        ),
    ),
    Spoilt(
        "iron without press",
        "recipes/bean-pot.yaml",
        (("cook_in: pot", "cook_in: iron"),),
        (
            "recipes/bean-pot.yaml:4:10: error: this recipe is for the iron and has no press step — add `- {do: press, with: […], each_side: 4 min}` [vessel]",
        ),
    ),
    Spoilt(
        "iron whose press is misspelt is told once",
        "recipes/bean-pot.yaml",
        (
            ("cook_in: pot", "cook_in: iron"),
            ("{do: simmer, minutes: 8}", "{do: press, each_sde: 4 min}"),
        ),
        (
            "recipes/bean-pot.yaml:11:5: error: this step has no `each_side` — write `each_side: 4 min` [missing]",
            "recipes/bean-pot.yaml:11:17: error: a step has no field 'each_sde' — did you mean each_side? [key-unknown]",
        ),
    ),
    Spoilt(
        "nothing to cook in",
        "recipes/bean-pot.yaml",
        (("cook_in: pot", "cook_in: none"),),
        (
            "recipes/bean-pot.yaml:10:5: error: there is nothing to boil in: cook_in is none — write `cook_in: pot` (or mug) [vessel]",
            "recipes/bean-pot.yaml:11:5: error: there is nothing to simmer in: cook_in is none — write `cook_in: pot` (or mug) [vessel]",
        ),
    ),
    Spoilt(
        "a hot soak in nothing",
        "recipes/bean-pot.yaml",
        (
            ("cook_in: pot", "cook_in: none"),
            ("minutes: 10}", "minutes: 10, hot: true}"),
        ),
        (
            "recipes/bean-pot.yaml:9:5: error: there is nothing to soak in: cook_in is none — write `cook_in: pot` (or mug) [vessel]",
            "recipes/bean-pot.yaml:10:5: error: there is nothing to boil in: cook_in is none — write `cook_in: pot` (or mug) [vessel]",
            "recipes/bean-pot.yaml:11:5: error: there is nothing to simmer in: cook_in is none — write `cook_in: pot` (or mug) [vessel]",
        ),
    ),
    Spoilt(
        "reach of an oven",
        "recipes/bean-pot.yaml",
        (("serves: 2", "serves: 2\nreach: 900 degC"),),
        (
            "recipes/bean-pot.yaml:4:8: error: reach: '900 degC' is out of range — write at most 400 degC, such as 74 degC or 165 degF [out-of-range]",
        ),
    ),
    Spoilt(
        "unknown meal",
        "recipes/bean-pot.yaml",
        (("serves: 2", "serves: 2\nmeal: supper"),),
        (
            "recipes/bean-pot.yaml:4:7: error: meal cannot be 'supper' — known are: breakfast, dinner, drinks, lunch, snacks [word-unknown]",
        ),
    ),
    Spoilt(
        "a broken line of uses is told once",
        "recipes/bean-pot.yaml",
        (
            (
                "{food: beans, dried_by: dehydrator, amount: 80 g}",
                "{food: beans, dried_by: dehydrator, amout: 80 g}",
            ),
        ),
        (
            "recipes/bean-pot.yaml:6:5: error: this line of uses has no `amount` — write `amount: 80 g` [missing]",
            "recipes/bean-pot.yaml:6:41: error: a line of uses has no field 'amout' — did you mean amount? [key-unknown]",
        ),
    ),
    Spoilt(
        "a name that cannot be read is told once",
        "recipes/bean-pot.yaml",
        (
            (
                "{food: beans, dried_by: dehydrator, amount: 80 g}",
                "{id: [b], food: beans, dried_by: dehydrator, amount: 80 g}",
            ),
            ("with: [beans, rice]", "with: [b, rice]"),
        ),
        (
            "recipes/bean-pot.yaml:6:10: error: id must be a text, found a list — write one text [not-text]",
        ),
    ),
    Spoilt(
        "steps not a list",
        "recipes/bean-pot.yaml",
        ((STEPS, "steps: boil it\n"),),
        (
            "recipes/bean-pot.yaml:8:8: error: steps must be a list, found 'boil it' — write `steps: [boil it]` [not-a-list]",
        ),
    ),
)


@pytest.mark.parametrize("spoilt", SPOILT, ids=str)
def test_each_mistake_is_told_at_its_place_with_what_would_do(
    spoilt: Spoilt, tmp_path: Path
) -> None:
    assert told(tmp_path, GOOD, spoilt) == spoilt.expected


CUP_ML = 236.5882365
FILE = "recipes/bean-pot.yaml"


def recipe_of(folder: Path, text: str) -> Recipe:
    found = read(folder, {**GOOD, FILE: text})
    assert lines(found) == []
    return found.content.recipes["bean-pot"]


def test_a_recipe_is_read_as_it_stands(tmp_path: Path) -> None:
    text = changed(
        BEAN_POT,
        "serves: 2\n",
        "serves: 2.5\nmeal: [dinner, lunch, dinner]\nreach: 165.2 degF\nnote: Salt at the end.\n",
    )
    text = changed(
        text, "{do: simmer, minutes: 8}", "{do: simmer, minutes: 8.5, stir: true, lid: false}"
    )
    recipe = recipe_of(tmp_path, text)
    assert (recipe.id, recipe.name, recipe.serves, recipe.cook_in) == (
        "bean-pot",
        "Bean pot",
        2.5,
        "pot",
    )
    assert (recipe.meals, recipe.note, recipe.drain_ml) == (
        ("dinner", "lunch"),
        "Salt at the end.",
        0,
    )
    assert recipe.reach_c == pytest.approx(74.0, abs=1e-9)
    beans, rice = recipe.uses
    assert (beans.id, beans.food, beans.recipe, beans.dried_by, beans.amount_g) == (
        "beans",
        "beans",
        None,
        "dehydrator",
        80,
    )
    assert (rice.id, rice.dried_by, rice.amount_g) == ("rice", None, 120)
    assert recipe.ingredient("rice") is rice
    soak, boil, simmer, serve = recipe.steps
    assert (soak.do, soak.uses, soak.water_auto, soak.water_ml, soak.minutes, soak.hot) == (
        "soak",
        ("beans",),
        True,
        0.0,
        10,
        False,
    )
    assert (boil.water_ml, boil.water_auto, boil.minutes) == (260, False, 0)
    assert (simmer.minutes, simmer.stir, simmer.lid, simmer.uses) == (8.5, True, False, ())
    assert serve.say == "Split <beans> by eye"


def test_a_recipe_for_the_iron(tmp_path: Path) -> None:
    text = changed(BEAN_POT, "cook_in: pot", "cook_in: iron")
    text = text.replace(
        STEPS,
        "steps:\n"
        "  - {do: mix, with: [beans, rice], water: ½ cup}\n"
        "  - {do: press, each_side: 1/15 h, pieces: 2}\n",
    )
    found = read(tmp_path, {FILE: text})
    assert lines(found) == []
    mix, press = found.content.recipes["bean-pot"].steps
    assert mix.water_ml == pytest.approx(CUP_ML / 2, rel=1e-9)
    assert press.each_side_min == pytest.approx(4.0, rel=1e-12)
    assert press.pieces == 2


@pytest.mark.parametrize(
    ("amount", "grams"),
    [
        ("120 g", 120),
        ("0,12 kg", 120),
        ("1/2 kg", 500),
        ("2 cups", 2 * CUP_ML * 0.8),
        ("1½ cups", 1.5 * CUP_ML * 0.8),
        ("1 1/2 cups", 1.5 * CUP_ML * 0.8),
        ("1 tsp", CUP_ML / 48 * 0.8),
        ("2 fl oz", CUP_ML / 4 * 0.8),
        ("250 ml", 200),
        ("3 pieces", 6),
        ("1 piece", 2),
        ("½ piece", 1),
        ("2½pieces", 5),
        ("1,5 pieces", 3),
    ],
)
def test_an_amount_may_be_a_mass_a_volume_or_pieces(
    amount: str, grams: float, tmp_path: Path
) -> None:
    recipe = recipe_of(tmp_path, changed(BEAN_POT, "amount: 120 g", f'amount: "{amount}"'))
    assert recipe.ingredient("rice").amount_g == pytest.approx(grams, rel=1e-9)


def dried(recipe_id: str, *holds: str) -> str:
    uses = "".join(f"  - {{recipe: {each}, amount: 90 g}}\n" for each in holds)
    names = ", ".join(holds)
    return (
        f"id: {recipe_id}\nname: {recipe_id}\nserves: 1\ncook_in: pot\nuses:\n{uses}"
        f"steps: [{{do: boil, with: [{names}]}}]\n"
    )


def test_a_dried_meal_is_dried_in_a_dehydrator_unless_told(tmp_path: Path) -> None:
    other = changed(dried("again", "bean-pot"), "amount", "dried_by: freeze-dryer, amount")
    found = read(
        tmp_path,
        {**GOOD, "recipes/stew.yaml": dried("stew", "bean-pot"), "recipes/again.yaml": other},
    )
    assert lines(found) == []
    assert found.content.recipes["stew"].uses[0].dried_by == "dehydrator"
    assert found.content.recipes["again"].uses[0].dried_by == "freeze-dryer"


def test_meals_that_hold_one_another_are_told_and_what_holds_them_goes_too(tmp_path: Path) -> None:
    found = read(
        tmp_path,
        {
            **GOOD,
            "recipes/a.yaml": dried("a", "b"),
            "recipes/b.yaml": dried("b", "c"),
            "recipes/c.yaml": dried("c", "b"),
            "recipes/d.yaml": dried("d", "a", "bean-pot"),
        },
    )
    assert lines(found) == [
        "recipes/b.yaml:1:1: error: recipe 'b' holds itself — take the dried meal out of its own list [recipe-circle]",
        "recipes/c.yaml:1:1: error: recipe 'c' holds itself — take the dried meal out of its own list [recipe-circle]",
    ]
    assert list(found.content.recipes) == ["bean-pot"]
    assert list(found.content.trips) == ["tarrow"]


def test_a_meal_that_holds_a_broken_one_goes_without_a_word_of_its_own(tmp_path: Path) -> None:
    files = {
        **GOOD,
        FILE: changed(BEAN_POT, "serves: 2", "serves: many"),
        "recipes/stew.yaml": dried("stew", "bean-pot"),
        "recipes/soup.yaml": dried("soup", "stew"),
    }
    found = read(tmp_path, files)
    assert lines(found) == [
        "recipes/bean-pot.yaml:3:9: error: serves takes a bare number, found 'many' — write the number alone, such as `serves: 2` [not-a-number]",
    ]
    assert found.content.recipes == {}
    assert found.content.trips == {}


def test_a_long_chain_of_dried_meals_is_walked_without_recursion(tmp_path: Path) -> None:
    files = {f"recipes/r{n}.yaml": dried(f"r{n}", f"r{n + 1}") for n in range(150)}
    found = read(tmp_path, {**files, "recipes/r150.yaml": dried("r150", "r0")})
    assert len(found.problems) == 151
    assert {problem.kind for problem in found.problems} == {"recipe-circle"}


def test_meals_that_hold_others_twice_over_and_over_are_told_once(tmp_path: Path) -> None:
    # Each line would be worked out by itself: forty recipes make a million million of them.
    files = {
        f"recipes/r{n}.yaml": dried(f"r{n}", f"r{n + 1}")
        .replace("uses:\n", f"uses:\n  - {{id: again, recipe: r{n + 1}, amount: 90 g}}\n")
        .replace("with: [", "with: [again, ")
        for n in range(40)
    }
    found = read(tmp_path, {**files, "recipes/r40.yaml": changed(BEAN_POT, "bean-pot", "r40")})
    assert lines(found) == [
        "recipes/r32.yaml:1:1: error: recipe 'r32' comes to 1022 ingredients with all its dried meals — name fewer dried meals in it, or write what they hold as foods [recipe-too-large]",
    ]
    assert sorted(found.content.recipes) == sorted(f"r{n}" for n in range(33, 41))


def test_meals_may_lie_eight_deep_in_others(tmp_path: Path) -> None:
    files = {f"recipes/r{n}.yaml": dried(f"r{n}", f"r{n + 1}") for n in range(150)}
    found = read(tmp_path, {**files, "recipes/r150.yaml": changed(BEAN_POT, "bean-pot", "r150")})
    assert lines(found) == [
        "recipes/r142.yaml:1:1: error: recipe 'r142' holds dried meals more than 8 deep — name fewer dried meals in it, or write what they hold as foods [recipe-too-large]",
    ]
    assert sorted(found.content.recipes) == sorted(f"r{n}" for n in range(143, 151))


def test_what_the_pot_holds_and_where_it_is_parted_is_read(tmp_path: Path) -> None:
    text = changed(BEAN_POT, "serves: 2\n", "serves: 2\ncooked: 0.6 kg\n")
    text = changed(text, "  - {do: simmer", "  - {do: part}\n  - {do: simmer")
    found = read(tmp_path, {**GOOD, FILE: text})
    assert lines(found) == []
    recipe = found.content.recipes["bean-pot"]
    assert (recipe.cooked_g, recipe.part_before) == (600, 2)
    assert [each.do for each in recipe.steps] == ["soak", "boil", "simmer", "serve"]


PART = "  - {do: part}\n"
PARTED = "put `part` between what all eat and what somebody avoids"


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("steps:\n", f"steps:\n{PART}"), f"there is nothing to part — {PARTED} [part]"),
        (("by eye}\n", f"by eye}}\n{PART}"), f"nothing goes in after it is parted — {PARTED} [part]"),
        (("  - {do: simmer", f"{PART}{PART}  - {{do: simmer"),
         "this recipe is parted twice — part it once, before what all of them avoid [part]"),
        (("cook_in: pot", "cook_in: mug"),
         "a part step divides what is in a pot, and cook_in is mug — write `cook_in: pot` [vessel]"),
    ],
)  # fmt: skip
def test_a_pot_is_parted_once_between_two_steps(
    change: tuple[str, str], says: str, tmp_path: Path
) -> None:
    text = changed(BEAN_POT, *change)
    if "mug" in change[1]:
        text = changed(text, "  - {do: simmer, minutes: 8}\n", PART)
    found = [line for line in lines(read(tmp_path, {**GOOD, FILE: text})) if ": error: " in line]
    assert found[0].partition(": error: ")[2] == says


def test_a_recipe_that_parts_nothing_says_so(tmp_path: Path) -> None:
    recipe = recipe_of(tmp_path, BEAN_POT)
    assert (recipe.cooked_g, recipe.picture, recipe.part_before) == (None, None, None)
