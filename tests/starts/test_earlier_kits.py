"""A kit of an earlier version opens: as a template of a trip, and as what the companions have."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.site.folder.archive import zip_files
from builder.site.folder.old_kit import read_old_kit
from tests.conftest import files_of, tripkit

ROOT = Path(__file__).parents[2]
# As the tool wrote it when its data were of version 1, of the example folder of then; but for most
# of its `derivations`, which nothing reads any more.
KEPT = Path(__file__).parent / "kit_of_version_1"


def zipped(path: Path, version: int = 1) -> Path:
    """Give the kept kit as the zip that was handed around, with the version it is said to be."""
    data = json.loads((KEPT / "kit.json").read_text("utf-8"))
    assert data["version"] == 1
    inner = path.with_name("content.zip")
    zip_files(files_of(KEPT / "content"), inner, 0)
    said = json.dumps({**data, "version": version}).encode()
    zip_files({"first-trip/content.zip": inner.read_bytes(), "first-trip/kit.json": said}, path, 0)
    inner.unlink()
    return path


def test_a_trip_is_made_of_it_and_planned(in_empty_folder: Path) -> None:
    zipped(Path("theirs.zip"))
    day = "2031-06-14"
    said = tripkit("new", "trip", "next", "--from", "theirs.zip", "--start", day)
    assert said.exit_code == 0, said.output
    # Foods of ours have been looked up better since; which, and how to have theirs, is told.
    for line in said.output.splitlines():
        assert line.startswith(("Kept the shipped ", "Wrote content/", "Next: tripkit build"))
    checked = tripkit("check")
    assert checked.exit_code == 0, checked.output

    shipped = Layer(ROOT / "content", "shipped", ALWAYS_SHIPPED, vouched=True)
    old = read_folder([shipped, Layer(KEPT / "content", "kept")]).content
    new = read_folder([shipped, Layer(Path("content"), "content")]).content
    trip, before = new.trips["next"], old.trips["first-trip"]
    assert (trip.title, trip.start, trip.party) == ("Next", before.start, before.party)
    assert (trip.days, trip.stoves) == (before.days, before.stoves)
    assert new.recipes == old.recipes and set(new.recipes) == {
        *("evening-tea", "lentil-stew", "morning-oats"),
    }
    # What the old trip ate of the pack counts as eaten.
    one, two = old.batches["carrots-first"], new.batches["carrots-first"]
    assert (two.food, two.pack_count, two.used) == (one.food, one.pack_count, one.used + 1)


def test_what_changed_since_it_can_be_told(tmp_path: Path) -> None:
    old = read_old_kit(zipped(tmp_path / "theirs.zip"))
    assert (old.trip, old.start) == ("first-trip", "2031-06-14")
    assert {each.day for each in old.meals} == {1, 2}
    assert {who for who, _ in old.carried} == {"Alder", "Brook"}
    assert all(taken_g > 0 for _, taken_g in old.fuels) and old.fuels and old.cautions


@pytest.mark.parametrize(
    ("version", "says"),
    [(2, ""), (3, "made by a newer version"), (0, "damaged, or not of this tool")],
)
def test_only_what_is_newer_than_this_tool_stays_closed(
    in_empty_folder: Path, version: int, says: str
) -> None:
    zipped(Path("theirs.zip"), version)
    said = tripkit("new", "trip", "next", "--from", "theirs.zip")
    assert said.exit_code == (1 if says else 0), said.output
    assert says in said.output
    assert Path("content").exists() is not bool(says)
