"""All that is read of the demos and of a small folder, and every key there is, as text.

So whatever changes in what is read is looked at by someone; `--rewrite-golden` accepts it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.content import Content
from builder.problems import errors
from builder.reading.declared.telling import keys_said, named, paths_of
from builder.reading.folder import Layer, read_folder
from builder.reading.kinds import KINDS
from tests.approved import as_text, hold
from tests.reading.folder_builder import GOOD, SHIPPED, read

GOLDEN = Path(__file__).parent / "golden"
# Where each word stands is told of the small folder alone.
PLACES = frozenset({"place", "places", "data", "sha256"})


@pytest.fixture(scope="module")
def demos() -> Content:
    found = read_folder([Layer(SHIPPED, "shipped", vouched=True)])
    assert not errors(found.problems)
    return found.content


@pytest.mark.parametrize("kind", ["trips", "recipes", "batches", "home", "gear"])
def test_what_the_demos_tell_is_as_it_was_approved(
    demos: Content, kind: str, rewrite_golden: bool
) -> None:
    told = as_text(getattr(demos, kind), PLACES)
    hold(GOLDEN / f"{kind}.txt", told, rewrite_golden)


def test_the_foods_of_the_demos_are_as_they_were_approved(
    demos: Content, rewrite_golden: bool
) -> None:
    used = {each.food for recipe in demos.recipes.values() for each in recipe.uses if each.food}
    told = as_text({name: demos.foods[name] for name in sorted(used)}, PLACES)
    hold(GOLDEN / "foods.txt", told, rewrite_golden)


def test_each_word_of_a_small_folder_stands_where_it_was_approved(
    tmp_path: Path, rewrite_golden: bool
) -> None:
    content = read(tmp_path, GOOD).content
    told = {"trips": content.trips, "recipes": content.recipes, "batches": content.batches}
    hold(GOLDEN / "places.txt", as_text({**told, "foods": content.foods}), rewrite_golden)


def test_the_keys_of_a_recipe_are_told_as_they_were_approved(rewrite_golden: bool) -> None:
    # Of the others the schemas tell as much, and are held too.
    keys = keys_said(KINDS["recipe"].record)
    told = f"{' '.join(paths_of(keys))}\n"
    told += "".join(f"{line}\n" for each in keys for line in each.lines())
    hold(GOLDEN / "keys.txt", told + as_text(named(keys, "id")), rewrite_golden)
