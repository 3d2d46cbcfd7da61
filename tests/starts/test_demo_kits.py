"""Every demo's kit, made a trip again, gives the same kit but for what is listed here."""

from __future__ import annotations

import datetime
import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from builder.pages.trip.book import write_book
from builder.planning.kit import plan_trip
from builder.planning.stock import check
from builder.problems import errors
from builder.reading.anew.cuttings import content_of_kit, pictures_along
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from builder.reading.pictures.small_copies import copy_of
from builder.site.folder.archive import zip_files
from builder.starts import NewTrip, start_trip
from tests.kit_json.test_figures import TRIPS

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "content"
SHIPPED = Layer(DEMO, "shipped", ALWAYS_SHIPPED, vouched=True)
AGAIN = "the-same-again"

# Packs that were past their date when eaten are not eaten again: told, and what stands instead.
LEFT_OPEN = {
    "tarrow-tops": ("from: banana-december", "dried_by: dehydrator"),
    "graupel-ridge": ("from: apricots-last-summer", "dried_by: dehydrator"),
}
# A trip that names no packs is told of free ones, out of a stock that no kit holds.
PROPOSED = {"rindle-fen": ("black-beans-spring", "peppers-oven", "sweetcorn-autumn")}
# What differs wherever it is made: its id, the title it gets at first, and in whose lines a figure
# stands, for `new trip` writes a line for editors at the top and calls the file by its id.
ANYWHERE = ("trip.id", "trip.title", "figures.*.place")
# What differs in an empty folder, where of the demo's stock only what the kit ate of is known.
ALONE = (
    "batches.*.packs_left",  # what other trips of the demo eat is free here, what this ate is gone
    "figures",  # those of the packs left, and with them the numbers of what is told once
    "formulas",
)
# Where free packs were proposed, they are bought and dried instead, from the guides and sources
# for that.
UNPROPOSED = ("proposals", "shopping", "guides", "sources")


def kit_data(layers: list[Layer], trip: str) -> dict[str, Any]:
    """Give the kit.json of a trip."""
    folder = read_folder(layers)
    assert not errors(folder.problems)
    stock, _ = check(folder.content)
    kit = plan_trip(folder.content.trips[trip], folder.content, stock)
    data = json.loads(write_book(kit, ROOT / "site_templates").files["kit.json"])
    return dict(data)


def differences(one: object, other: object, at: str = "") -> Iterator[str]:
    """Give the addresses at which two kits differ, where one has a thing and the other not too."""
    if isinstance(one, dict) and isinstance(other, dict):
        for key in {**one, **other}:
            below = f"{at}.{key}".lstrip(".")
            if key in one and key in other:
                yield from differences(one[key], other[key], below)
            else:
                yield below
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for number, pair in enumerate(zip(one, other, strict=True)):
            yield from differences(*pair, f"{at}.{number}")
    elif one != other:
        yield at


def may_differ(address: str, listed: tuple[str, ...]) -> bool:
    """Tell whether an address is listed; a `*` stands for one or more of its parts."""
    parts = address.split(".")
    for each in listed:
        head, star, tail = each.partition(".*.")
        if star and parts[0] == head and parts[-1] == tail:
            return True
        if not star and (address == each or address.startswith(f"{each}.")):
            return True
    return False


@pytest.fixture(scope="module")
def kits(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give what a round trip reads of each demo's kit: its data and its content, as one zip."""
    out = tmp_path_factory.mktemp("kits")
    folder = read_folder([Layer(DEMO, "demo", vouched=True)])
    stock, _ = check(folder.content)
    for trip in TRIPS:
        kit = plan_trip(folder.content.trips[trip], folder.content, stock)
        inner, zipped = out / "content.zip", out / f"{trip}.zip"
        content = content_of_kit(folder, trip, [each.id for each in kit.cautions])
        content |= {path: copy_of(each) for path, each in pictures_along(folder, trip).items()}
        zip_files(content, inner, 0)
        data = write_book(kit, ROOT / "site_templates").files["kit.json"]
        held = {"content.zip": inner.read_bytes(), "kit.json": data}
        zip_files({f"{trip}/{name}": raw for name, raw in held.items()}, zipped, 0)
    return out


def told_to_be_open(trip: str, folder: Path) -> None:
    """Write into a copy of the demo what stands where packs are left open."""
    if trip not in LEFT_OPEN:
        return
    old, new = LEFT_OPEN[trip]
    file = folder / "trips" / f"{trip}.yaml"
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new), "utf-8")


@pytest.fixture(scope="module", params=TRIPS)
def trip(request: pytest.FixtureRequest) -> str:
    """Give the demos, one after the other."""
    return str(request.param)


@pytest.fixture(scope="module")
def before(trip: str, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """Give a demo's kit.json, with that open which is told to be."""
    folder = tmp_path_factory.mktemp("asked") / "demo"
    shutil.copytree(DEMO, folder)
    told_to_be_open(trip, folder)
    return kit_data([Layer(folder, "demo", vouched=True)], trip)


@pytest.mark.parametrize("beside_its_stock", [True, False], ids=["beside its stock", "alone"])
def test_a_demo_made_of_its_kit_gives_the_same_kit(
    kits: Path, before: dict[str, Any], tmp_path: Path, trip: str, beside_its_stock: bool
) -> None:
    own = tmp_path / "own"
    if beside_its_stock:
        shutil.copytree(DEMO, own)
        layers = [Layer(own, "own", vouched=True)]
    else:
        own.mkdir()
        layers = [SHIPPED, Layer(own, "own")]
    start = datetime.date.fromisoformat(before["trip"]["start"])
    _, notes = start_trip(own, "own", layers, NewTrip(AGAIN, str(kits / f"{trip}.zip"), start))
    if beside_its_stock:  # the two would share its packs
        (own / "trips" / f"{trip}.yaml").unlink()
    after = kit_data(layers, AGAIN)

    proposed = () if beside_its_stock else PROPOSED.get(trip, ())
    listed = ANYWHERE if beside_its_stock else (*ANYWHERE, *ALONE)
    listed = (*listed, *UNPROPOSED) if proposed else listed
    different = [each for each in differences(before, after) if not may_differ(each, listed)]
    assert different == []
    assert (after["trip"]["id"], after["trip"]["title"]) == (AGAIN, "The same again")
    # What is not carried over is told, each of it, and nothing else is.
    told = notes.copy()
    if trip in LEFT_OPEN:
        batch = LEFT_OPEN[trip][0].removeprefix("from: ")
        told.remove(f"Left open what came from batch {batch}: past its date by then.")
    if proposed:
        (line,) = told
        assert line.startswith("Not carried over: the kit proposed free packs of ")
        assert all(each in line for each in proposed)
        told.remove(line)
    assert told == []
