"""Bodies against their age, and dishes against what one eats: each is judged where it is told."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.model.figure import Count
from builder.reading.checks.eaten import check_eaten
from builder.reading.declared.measures import Number
from builder.reading.files import state_of_content
from tests.reading.folder_builder import BEAN_POT, GOOD, TRIP, changed, lines, read


@pytest.mark.parametrize(
    ("body", "keys"),
    [
        ("age: 34, height: 168 cm", []),
        ("age: 34", []),
        ("age: 5, height: 110 cm, mass: 19 kg", []),
        ("age: 5, height: 185 cm", ["height"]),
        ("age: 5, mass: 95 kg", ["mass"]),
        ("age: 34, height: 80 cm", ["height"]),
    ],
)
def test_a_body_is_held_against_its_age(body: str, keys: list[str], tmp_path: Path) -> None:
    text = changed(TRIP, "sex: female, age: 34, mass: 64 kg, height: 168 cm, own_gear: 6 kg", body)
    found = lines(read(tmp_path, {**GOOD, "trips/tarrow.yaml": text}))
    wanted = [line for line in found if "[unusual]" in line or "[out-of-range]" in line]
    assert len(wanted) == len(keys)
    assert all(f"{key}:" in line for key, line in zip(keys, wanted, strict=True))


@pytest.mark.parametrize(
    ("beans", "rice", "columns"),
    [
        ("80 g", "120 g", []),
        ("3200 g", "120 g", [(6, "amount")]),  # one line is odd: the whole is not told again
        ("2600 g", "1200 g", [(6, "uses")]),  # none is odd alone
    ],
)
def test_the_whole_of_a_dish_is_judged_where_no_line_is_odd(
    beans: str, rice: str, columns: list[tuple[int, str]], tmp_path: Path
) -> None:
    text = changed(changed(BEAN_POT, "80 g", beans), "120 g", rice)
    found = lines(read(tmp_path, {**GOOD, "recipes/bean-pot.yaml": text}))
    eaten = [line for line in found if "for one eater" in line]
    assert [int(line.split(":")[1]) for line in eaten] == [line for line, _ in columns]
    assert all(f"{key}: " in line for (_, key), line in zip(columns, eaten, strict=True))


def saying(answer: bool) -> Callable[..., bool]:
    return lambda *_: answer


@pytest.mark.parametrize(
    ("mass_g", "judged", "odd"),
    [(60.0, True, False), (5000.0, True, True), (5000.0, False, False)],
)
def test_only_what_a_judge_found_odd_is_odd(mass_g: float, judged: bool, odd: bool) -> None:
    assert check_eaten(saying(judged), "each", mass_g) is odd


def test_a_default_that_counts_is_whole_and_no_other() -> None:
    assert Number(whole=True).taken(2, "presses") == 2
    assert isinstance(Number(whole=True).taken(2, "presses"), Count)
    assert Number().taken(2.5, "hours") == 2.5
    assert not isinstance(Number().taken(2.5, "hours"), Count)


def test_a_folder_is_another_where_a_picture_or_a_track_is(tmp_path: Path) -> None:
    (tmp_path / "trips").mkdir()
    (tmp_path / "foods").mkdir()
    before = state_of_content(tmp_path, ("trips", "foods"))
    for name in ("trips/a.jpg", "trips/b.PNG", "trips/c.gpx", "trips/notes.txt", "foods/d.jpg"):
        (tmp_path / name).write_bytes(b"x")
    now = state_of_content(tmp_path, ("trips", "foods"))
    assert now.keys() - before.keys() == {"trips/a.jpg", "trips/b.PNG", "trips/c.gpx"}
    (tmp_path / "trips/a.jpg").write_bytes(b"another")
    assert state_of_content(tmp_path, ("trips", "foods"))["trips/a.jpg"] != now["trips/a.jpg"]
    assert "trips/a.jpg" not in state_of_content(tmp_path, ("foods",))


@pytest.mark.parametrize(
    ("parts", "energy_kcal", "judged"),
    [
        # Half of 8 kcal a gram of fat, and of 2 a gram of protein, less 50: beyond any doubt.
        ("fat: 100 g", 345, "out-of-range"),
        ("fat: 100 g", 355, "unusual"),
        ("fat: 100 g", 645, "unusual"),  # a quarter and 25 kcal off the 900 of fat
        ("fat: 100 g", 655, ""),
        ("protein: 80 g, fat: 20 g", 105, "out-of-range"),
        ("protein: 80 g, fat: 20 g", 115, "unusual"),
    ],
)
def test_energy_is_held_against_what_a_food_is_made_of(
    parts: str, energy_kcal: int, judged: str, tmp_path: Path
) -> None:
    food = (
        "[{id: made-up, name: Made up, kind: fat, state: ready, source: own-scales, "
        f"per_100g: {{energy: {energy_kcal} kcal, {parts}}}}}]"
    )
    found = lines(read(tmp_path, {**GOOD, "foods/more.yaml": food}))
    about = [line.rpartition("[")[2].rstrip("]") for line in found if "energy: " in line]
    assert about == ([judged] if judged else [])
