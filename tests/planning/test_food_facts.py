"""What a search knows of the shipped foods is kept, and is what reading them would give."""

from __future__ import annotations

from pathlib import Path

from builder.model.on_asking import OnAsking
from builder.planning.finding.food_facts import FILE, kept_facts
from builder.planning.finding.known_as import known_as
from builder.reading.folder import ALWAYS_SHIPPED, Folder, Layer, read_folder

ROOT = Path(__file__).resolve().parents[2]
KEPT = (ROOT / "site_templates" / FILE).read_text("utf-8")
OWN = """\
id: lentils-dry
name: Lentils of my own field
kind: legume
state: dried
per_100g: {water: 10 g, energy: 350 kcal, protein: 24 g, fat: 1 g, carbohydrate: 60 g}
"""


def shipped_and(*layers: Layer) -> Folder:
    return read_folder([Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True), *layers])


def test_what_is_kept_is_what_reading_gives() -> None:
    content = shipped_and().content
    assert len(kept_facts(KEPT, content.listed_as)) == len(content.foods) > 800
    assert known_as(content, KEPT) == known_as(content)


def test_no_food_is_read_that_nobody_names() -> None:
    content = shipped_and().content
    assert isinstance(content.foods, OnAsking)
    known_as(content, KEPT)
    assert all(content.foods.waits(name) for name in content.foods)
    known_as(content)
    assert not any(content.foods.waits(name) for name in content.foods)


def test_of_another_list_nothing_is_kept(tmp_path: Path) -> None:
    (tmp_path / "foods").mkdir()
    (tmp_path / "foods" / "all.yaml").write_text(f"- {OWN}".replace("\n", "\n  ").rstrip(), "utf-8")
    content = read_folder([Layer(tmp_path, "other", ("foods",), vouched=True)]).content
    assert content.listed_as
    assert kept_facts(KEPT, content.listed_as) == {}
    assert [(each.id, each.name) for each in known_as(content, KEPT)] == [
        ("lentils-dry", "Lentils of my own field")
    ]


def test_a_food_of_ones_own_is_known_as_it_is_written(tmp_path: Path) -> None:
    (tmp_path / "foods").mkdir()
    (tmp_path / "foods" / "own.yaml").write_text(OWN, "utf-8")
    content = shipped_and(Layer(tmp_path, "own")).content
    (found,) = (each for each in known_as(content, KEPT) if each.id == "lentils-dry")
    assert found.name == "Lentils of my own field"
