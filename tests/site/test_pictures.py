"""Pictures of the people's own: shown where they belong, given back, kept from what is public."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from PIL import Image

from builder.reading.files import ROOMS, state_of_content
from tests.conftest import tripkit
from tests.pictured import field, saved
from tests.planning.folders import day, day_trip, write_folder

DEMO = Path(__file__).parents[2] / "content"
SHOWN = re.compile(r'<figure class="picture"><img ([^>]*)></figure>')
ATTRIBUTE = re.compile(r'(\w+)="([^"]*)"')


@pytest.mark.parametrize(
    ("page", "shows"),
    [
        ("rindle-fen/day-1.html", "An orange tarp on a low bank"),
        ("lake-emmerin/cook/ember-soda-bread.html", "A round loaf, brown all over"),
        ("at-home/stock.html", "Apricot halves on a tray"),
    ],
)
def test_a_picture_has_its_words_and_its_room_and_waits_until_it_is_seen(
    demo_kits: Path, page: str, shows: str
) -> None:
    (found,) = SHOWN.findall((demo_kits / page).read_text("utf-8"))
    told = dict(ATTRIBUTE.findall(found))
    assert told["alt"].startswith(shows)
    assert (told["loading"], told["decoding"]) == ("lazy", "async")
    with Image.open((demo_kits / page).parent / told["src"]) as kept:
        assert (kept.format, kept.size) == ("WEBP", (int(told["width"]), int(told["height"])))


def test_no_other_kit_holds_pictures(demo_kits: Path) -> None:
    held = {path.relative_to(demo_kits).parts[0] for path in demo_kits.rglob("*.webp")}
    assert held == {"rindle-fen", "lake-emmerin", "at-home"}


def test_a_kit_gives_its_pictures_back(demo_kits: Path, in_empty_folder: Path) -> None:
    made = tripkit("new", "trip", "again", "--from", str(demo_kits / "rindle-fen.zip"))
    assert made.exit_code == 0, made.output
    assert "webp:" not in made.output and "file-missing" not in made.output
    back = Path("content/trips/again/heron-camp.webp").read_bytes()
    assert back == (DEMO / "trips/heron-camp.webp").read_bytes()


def test_a_trip_of_a_trip_takes_along_what_lies_in_its_folder(in_empty_folder: Path) -> None:
    picture = {"file": "hut.png", "shows": "The hut"}
    own, beside = ({"picture": {**picture, "file": name}} for name in ("hut.png", "ridge.png"))
    trip = day_trip(days=[day({"lunch": [{"eat": "leaf", "each": "50 g"}]}, **own)], **beside)
    write_folder(Path("content"), {"old": trip}, [], [])
    data = saved(field(40, 30), "PNG")
    Path("content/trips/old").mkdir()
    Path("content/trips/old/hut.png").write_bytes(data)
    Path("content/trips/ridge.png").write_bytes(data)
    made = tripkit("new", "trip", "again", "--from", "old")
    assert made.exit_code == 0, made.output
    assert "file-missing" not in made.output
    assert Path("content/trips/again/hut.png").read_bytes() == data
    assert not Path("content/trips/again/ridge.png").exists()  # it lies beside both


def test_a_picture_that_was_saved_anew_is_noticed(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "content")
    before = state_of_content(tmp_path / "content", ROOMS)
    (tmp_path / "content/trips/heron-camp.webp").write_bytes(saved(field(40, 30)))
    (tmp_path / "content/trips/notes.txt").write_text("Nobody reads this.", "utf-8")
    after = state_of_content(tmp_path / "content", ROOMS)
    assert {each for each in after if after[each] != before[each]} == {"trips/heron-camp.webp"}
