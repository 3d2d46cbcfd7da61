"""Whatever people write into any text of any record is shown as text and never runs."""

from __future__ import annotations

import typing
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from builder.record import fields, is_dataclass, replace
from builder.site.build import Order, build_kit
from tests.conftest import files_of
from tests.hostile import TEXTS
from tests.planning.test_public import _NAMES, kit_of, marks, read
from tests.site.sample import ASSETS, BASE_CONFIG, EPOCH

HOSTILE = [
    TEXTS[name]
    for name in (
        "script",
        "end of script",
        "attribute",
        "link",
        "template",
        "svg",
        "turned",
        "formula",
    )
]
# What of it would do something where it stood in a page as it was written.
RAW = (b"<script>alert", b"<img src=x", b"<svg/onload", b'href="javascript:', b"\xe2\x80\xaegnp")


def spoiled(record: Any, count: Iterator[int]) -> Any:
    """Give a record with something hostile in each of its texts, whatever fields it has."""
    kind = type(record)
    hints = typing.get_type_hints(kind)
    values: dict[str, Any] = {}
    for each in fields(record):
        value = getattr(record, each.name)
        if each.name == "places":
            continue
        if isinstance(value, Mapping):
            values[each.name] = {key: within(one, count) for key, one in value.items()}
        elif isinstance(value, tuple):
            values[each.name] = tuple(within(one, count) for one in value)
        elif is_dataclass(value):
            values[each.name] = spoiled(value, count)
        elif value and hints[each.name] in (str, str | None) and (kind, each.name) not in _NAMES:
            number = next(count)
            values[each.name] = f"zq{number} {HOSTILE[number % len(HOSTILE)]}"
    return replace(record, **values)


def within(one: Any, count: Iterator[int]) -> Any:
    return spoiled(one, count) if is_dataclass(one) else one


def test_no_text_of_any_record_runs_in_any_file_of_a_kit(tmp_path: Path) -> None:
    content = spoiled(read(tmp_path).content, marks())
    order = Order(
        kit=kit_of(content),
        content={"x.yaml": b"x"},
        epoch=EPOCH,
        out=tmp_path / "kits",
        templates=ASSETS,
        base_config=BASE_CONFIG,
    )
    # Its own checks stop a kit with a script in a page's text; here all other files are asked too.
    built = build_kit(order)
    files = files_of(tmp_path / "kits" / built.trip_id)
    pages = {name: raw for name, raw in files.items() if name.endswith((".html", ".svg"))}
    told = b"".join(pages.values())
    assert sum(f"zq{number} ".encode() in told for number in range(1, 400)) > 20
    assert {name: raw for raw in RAW for name, page in pages.items() if raw in page} == {}
    for name, raw in files.items():
        if name.endswith(".csv"):
            assert b'"=cmd' not in raw and b"\n=cmd" not in raw, name
