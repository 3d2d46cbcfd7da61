"""Places in files."""

from __future__ import annotations

from types import MappingProxyType

from builder.model.place import NOWHERE, Place, Places


def test_a_place_is_printed_so_that_it_can_be_clicked() -> None:
    assert str(Place("content/foods/fruit.yaml", 9, 12)) == "content/foods/fruit.yaml:9:12"


def test_places_follow_file_then_line_then_column_as_numbers() -> None:
    ordered = [Place("a", 2, 9), Place("a", 2, 10), Place("a", 10, 1), Place("b", 1, 1)]
    assert sorted(reversed(ordered)) == ordered


def test_a_field_that_was_left_out_is_where_its_record_is() -> None:
    record, name = Place("a", 1, 1), Place("a", 2, 7)
    places = Places(record, MappingProxyType({"name": name}))
    assert (places.of("name"), places.of("kind")) == (name, record)
    assert Places().of("name") == NOWHERE
