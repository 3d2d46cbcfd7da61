"""Every figure of trips that are not in the project: the demo's, changed by chance."""

from __future__ import annotations

import json
import random
import re
from pathlib import Path

import pytest

from builder.pages.trip.book import write_book
from builder.planning.kit import plan_trip
from builder.planning.stock import check
from builder.problems import errors
from builder.reading.folder import Layer, read_folder
from tests.kit_json.reader import Reader, told_out
from tests.kit_json.test_figures import TRIPS
from tests.kit_json.test_nothing_untraced import no_figures

REPO = Path(__file__).parents[2]
CHANGES = 12
QUANTITY = re.compile(r"(?<![\w.-])\d+(?:\.\d+)?(?= (?:kg|g|ml|l|km|h|kW|%)\b)")
HEIGHT = re.compile(r"(?<=camp_altitude: )\d+(?= m\b)")
TREATED = re.compile(r"(?<=treat: )(?:boil|filter)\b")


def changed(trip: str, chance: random.Random) -> str:
    """Give a trip of other amounts, heights, water and units."""

    def more_or_less(found: re.Match[str]) -> str:
        if chance.random() < 0.6:
            return found[0]
        return f"{float(found[0]) * chance.uniform(0.85, 1.15):.4g}"

    trip = QUANTITY.sub(more_or_less, trip)
    trip = HEIGHT.sub(lambda _: str(chance.randrange(0, 4200)), trip)
    trip = TREATED.sub(lambda _: chance.choice(("boil", "filter")), trip)
    return trip.replace("units: metric", f"units: {chance.choice(('metric', 'us'))}")


@pytest.mark.parametrize("number", range(CHANGES))
def test_every_figure_follows_from_its_leaves(number: int, tmp_path: Path) -> None:
    name = TRIPS[number % len(TRIPS)]
    text = (REPO / "content/trips" / f"{name}.yaml").read_text("utf-8")
    other = changed(text, random.Random(number))
    assert other != text
    (tmp_path / "trips").mkdir()
    (tmp_path / f"trips/{name}.yaml").write_text(other, "utf-8")
    folder = read_folder([Layer(REPO / "content", "content"), Layer(tmp_path, "own")])
    assert not errors(folder.problems)
    stock, _ = check(folder.content)
    kit = plan_trip(folder.content.trips[name], folder.content, stock)
    book = write_book(kit, REPO / "site_templates")
    data = told_out(json.loads(book.files["kit.json"]))
    assert Reader(data).differing() == {}
    assert no_figures(data) == set()
