"""Each caution tells where one must act on it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.model.kit import Spot
from tests.planning.caution_cases import Folder
from tests.planning.test_cautions import CASES, body, plan


def shows(name: str, turn: int = 0) -> Folder:
    return [with_it for case, with_it, _ in CASES if case == name][turn]


# The snack of nuts comes first in each day; where a dish is cooked, that is the day's only meal.
SPOTS: list[tuple[str, Callable[[], Folder], Spot]] = [
    ("raw-animal-food", lambda: shows("raw-animal-food"), Spot((1, 0), 0, pack="food")),
    ("raw-dried-animal-food", lambda: shows("raw-dried-animal-food"),
     Spot((1, 0), 0, batch="batch", pack="food")),
    ("hot-fat", lambda: shows("hot-fat"), Spot((1, 0), 0)),
    ("not-to-be-eaten", lambda: body(avoids=["nut"]), Spot((1, 0), person="Ea")),
    ("small-children", lambda: shows("small-children"), Spot(person="Ea")),
    ("pregnancy", lambda: shows("pregnancy"), Spot(person="Ea")),
    ("nuts-and-small-children", lambda: shows("nuts-and-small-children"),
     Spot((1, 0), person="Ea")),
    ("heavy-load", lambda: shows("heavy-load"), Spot(person="Ea")),
    ("low-oxygen-wet", lambda: shows("low-oxygen-wet"), Spot(batch="batch", days=(1,))),
    ("windscreen-and-gas", lambda: shows("windscreen-and-gas"), Spot(days=(1,))),
    ("gas-in-the-cold", lambda: shows("gas-in-the-cold"), Spot(days=(1,))),
    ("long-dry-stretch", lambda: shows("long-dry-stretch"), Spot(days=(1,))),
    ("gas-and-heat", lambda: shows("gas-and-heat"), Spot(pack="fuel")),
    ("energy-short-day", lambda: shows("energy-short-day"), Spot(days=(1,))),
]  # fmt: skip


@pytest.mark.parametrize(("name", "folder", "spot"), SPOTS, ids=[each[0] for each in SPOTS])
def test_a_caution_tells_where_to_act(
    tmp_path: Path, name: str, folder: Callable[[], Folder], spot: Spot
) -> None:
    found = {each.at for each in plan(tmp_path, folder()).cautions if each.id == name}
    assert found == {spot}
