"""Places in a kit begin inside the content folder, whoever built it and wherever."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.model.kit import Derivation, Input
from builder.planning.origins import from_inside
from tests.pages.sample_kit import sample_kit


@pytest.mark.parametrize(
    ("folders", "origin", "told"),
    [
        (["/home/ash/content"], "/home/ash/content/trips/a.yaml:3:5", "trips/a.yaml:3:5"),
        (["content"], "content/trips/a.yaml:3:5", "trips/a.yaml:3:5"),
        (["../x/content", "/opt/t/content"], "/opt/t/content/foods/b.yaml:1:1", "foods/b.yaml:1:1"),
        # The longer folder counts, in whichever order they come.
        (["/a", "/a/content"], "/a/content/foods/b.yaml:1:1", "foods/b.yaml:1:1"),
        (["/a/content", "/a"], "/a/content/foods/b.yaml:1:1", "foods/b.yaml:1:1"),
        # What is no place in a file stays: a default, a source, another figure.
        (["content"], "default", "default"),
        (["content"], "contents/a.yaml:1:1", "contents/a.yaml:1:1"),
        (["days"], "days.0.water_ml", "days.0.water_ml"),
    ],
)
def test_a_place_begins_inside_the_content_folder(
    folders: list[str], origin: str, told: str
) -> None:
    given = Input("y", 1, "g", origin)
    kit = replace(
        sample_kit(), derivations=(Derivation("x", "X", 1.0, "g", "x", (given, given), ()),)
    )
    (derivation,) = from_inside(kit, folders).derivations
    assert [given.origin for given in derivation.inputs] == [told, told]
