"""A kit is built again when anything changes that it is made from, and only then."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.reading.pictures.small_copies import copies_of
from builder.record import replace
from builder.site import inputs
from builder.site.build import Built, Order, Pictures, build_kit
from tests.pages.sample_kit import sample_kit
from tests.site.sample import ASSETS, BASE_CONFIG


@pytest.fixture
def order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Order:
    """Give an order whose pages are not rendered, with templates that may be changed."""
    monkeypatch.setattr("builder.site.build.build_site", lambda *_, **__: ())
    shutil.copytree(ASSETS, tmp_path / "templates")
    shutil.copy(BASE_CONFIG, tmp_path / "mkdocs.yml")
    return Order(
        kit=sample_kit(),
        content={"trips/a.yaml": b"title: A"},
        epoch=1_914_883_200,
        out=tmp_path / "kits",
        templates=tmp_path / "templates",
        base_config=tmp_path / "mkdocs.yml",
    )


def more(name: str) -> Callable[[Order], Order]:
    """Give what adds a line to a file of the tool."""

    def change(order: Order) -> Order:
        with (order.base_config.parent / name).open("a", encoding="utf-8") as file:
            file.write("\n")
        return order

    return change


CHANGES: dict[str, Callable[[Order], Order]] = {
    "content": lambda order: replace(order, content={"trips/a.yaml": b"title: B"}),
    "name of a file": lambda order: replace(order, content={"trips/b.yaml": b"title: A"}),
    "pictures": lambda order: replace(order, pictures=Pictures(copies_of(()), (), {})),
    "date": lambda order: replace(order, epoch=1_914_883_201),
    "address": lambda order: replace(order, address="https://example.org/kits"),
    "title": lambda order: replace(order, kit=replace(order.kit, title="Another")),
    "language": lambda order: replace(order, kit=replace(order.kit, language="de")),
    "script": more("templates/assets/kit/settings.js"),
    "style": more("templates/assets/kit.css"),
    "theme": more("templates/theme/main.html"),
    "words": more("templates/languages/de.po"),
    "base configuration": more("mkdocs.yml"),
}


def by_another_process(order: Order) -> Built:
    """Build as a process does that never saw the tool's own files as they were before."""
    inputs.tool_of_sites.cache_clear()
    try:
        return build_kit(order)
    finally:
        inputs.tool_of_sites.cache_clear()


@pytest.mark.parametrize("what", sorted(CHANGES))
def test_a_change_of_anything_a_kit_is_made_from_counts(order: Order, what: str) -> None:
    before = build_kit(order).made_from
    assert build_kit(replace(order, force=True)).made_from == before
    assert by_another_process(CHANGES[what](order)).made_from != before


def test_another_version_of_a_library_counts(order: Order, monkeypatch: pytest.MonkeyPatch) -> None:
    before = build_kit(order).made_from
    monkeypatch.setattr(inputs, "version", lambda _: "99.0")
    inputs.libraries.cache_clear()
    after = by_another_process(order).made_from
    inputs.libraries.cache_clear()
    assert after != before


def test_where_the_kits_lie_does_not_count(order: Order, tmp_path: Path) -> None:
    shutil.copytree(tmp_path / "templates", tmp_path / "again/templates")
    elsewhere = replace(order, out=tmp_path / "elsewhere", templates=tmp_path / "again/templates")
    assert build_kit(elsewhere).made_from == build_kit(order).made_from


def test_names_and_contents_are_not_run_together() -> None:
    found = {
        inputs.fingerprint(parts)
        for parts in ({"a": b"bc"}, {"ab": b"c"}, {"a": b"b", "c": b""}, {}, {"": b""})
    }
    assert len(found) == 5


def test_leftovers_of_python_and_the_shipped_folders_are_passed_over(tmp_path: Path) -> None:
    for name in ("a.py", "__pycache__/a.pyc", "room/__pycache__/b.pyc", "shipped/content/x.yaml"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(name)
    assert inputs.shipped_files("tool", tmp_path) == {"tool/a.py": b"a.py"}
