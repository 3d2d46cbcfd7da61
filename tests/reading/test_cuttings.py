"""A kit hands on every record its trip uses, in its own words, and none besides."""

from __future__ import annotations

import io
from collections.abc import Mapping
from pathlib import Path

import pytest
from PIL import Image

from builder.cli.places import layers_of, place_of
from builder.model.on_asking import OnAsking
from builder.reading.anew.cuttings import (
    Key,
    content_of_kit,
    cut_files,
    own_beside,
    pictures_along,
    records_of_trip,
    track_beside,
    written_words,
)
from builder.reading.folder import Folder, read_folder
from builder.reading.record_text import RecordText
from builder.reading.text.layout import line_end
from builder.reading.text.yaml_door import read_yaml
from tests.conftest import tripkit
from tests.reading.folder_builder import BEAN_POT, BEANS_IN_MAY, GOOD, TRIP, changed, lines, read

# What the small trip needs: its dish, the batch, what they hold, its kitchen.
NEEDED = {
    ("trip", "tarrow"),
    ("recipe", "bean-pot"),
    ("batch", "beans-may"),
    ("food", "beans"),
    ("food", "rice"),
    ("packaging", "zip-bag"),
    ("stoves", "burner"),
    ("fuels", "gas"),
    ("pots", "pot"),
}
EGG = "- {id: egg, name: Egg, kind: egg, state: raw, per_100g: {energy: 140 kcal}}\n"
SOUP = (
    "id: soup\nname: Soup\nserves: 1\ncook_in: pot\nuses: [{food: oil, amount: 9 g}]\n"
    "steps: [{do: boil, with: [oil], water: 100 ml}, {do: serve}]\n"
)


def needed(found: Folder, cautions: tuple[str, ...] = ()) -> set[Key]:
    keys = records_of_trip(found.content.trips["tarrow"], found.content, cautions)
    assert len(keys) == len(set(keys))
    return set(keys)


@pytest.mark.parametrize(
    ("files", "more", "less"),
    [
        ({}, set(), set()),
        # A food brings its source along.
        (
            {"trips/tarrow.yaml": changed(TRIP, "eat: rice", "eat: oil")},
            {("food", "oil"), ("source", "own-scales")},
            set(),
        ),
        # What somebody avoids has to be known where the kit is read again.
        (
            {
                "trips/tarrow.yaml": changed(TRIP, "own_gear: 6 kg", "avoids: [egg, milk]"),
                "foods/more.yaml": EGG,
            },
            {("food", "egg")},
            set(),
        ),
        (
            {
                "batches/beans.yaml": changed(BEANS_IN_MAY, "method: dehydrator", "dryer: box")
                + "method: dehydrator\n",
                "gear/more.yaml": "dryers: [{id: box, name: Box, method: dehydrator, hours: 2, "
                "load: 250 g}]\n",
            },
            {("dryers", "box")},
            set(),
        ),
        # Without packs no packaging but the one for loose food, which is always needed.
        (
            {"batches/beans.yaml": changed(BEANS_IN_MAY, ", in: zip-bag", "")},
            set(),
            set(),
        ),
        (
            {"trips/tarrow.yaml": TRIP + "fire: {irons: [iron]}\n"},
            {("irons", "iron")},
            set(),
        ),
        (
            {
                "trips/tarrow.yaml": changed(
                    TRIP, "stove: {use: burner, pots: [pot]}\n", ""
                ).replace(
                    "dinner: [{cook: bean-pot, from: beans-may}]", "lunch: {eat: oil, each: 9 g}"
                )
            },
            {("food", "oil"), ("source", "own-scales")},
            {
                *(("recipe", "bean-pot"), ("batch", "beans-may"), ("food", "beans")),
                *(("stoves", "burner"), ("fuels", "gas"), ("pots", "pot")),
            },
        ),
        # What is taken in the place of an ingredient comes too.
        (
            {"trips/tarrow.yaml": changed(TRIP, "from: beans-may", "swap: {rice: oil}")},
            {("food", "oil"), ("source", "own-scales")},
            {("batch", "beans-may")},
        ),
        # A dish that is eaten brings its own.
        (
            {
                "recipes/soup.yaml": SOUP,
                "recipes/bean-pot.yaml": changed(
                    BEAN_POT, "{food: rice, amount", "{recipe: soup, id: rice, amount"
                ),
                "trips/tarrow.yaml": changed(TRIP, "from: beans-may", "from: {beans: beans-may}"),
            },
            {("recipe", "soup"), ("food", "oil"), ("source", "own-scales")},
            set(),
        ),
    ],
)
def test_what_a_trip_needs(
    tmp_path: Path, files: Mapping[str, str], more: set[Key], less: set[Key]
) -> None:
    found = read(tmp_path, {**GOOD, **files})
    assert [str(each) for each in found.problems if each.severity == "error"] == []
    assert needed(found) == (NEEDED | more) - less


def test_a_caution_comes_with_its_sources(tmp_path: Path) -> None:
    caution = "[{id: stand, level: care, title: T, text: Eat it, sources: [own-scales]}]"
    found = read(tmp_path, {**GOOD, "cautions/all.yaml": caution})
    assert needed(found, ("stand",)) == NEEDED | {("caution", "stand"), ("source", "own-scales")}


def test_a_kit_holds_the_words_of_what_it_needs_and_no_others(tmp_path: Path) -> None:
    foods = (
        "# of the cellar\n- {id: mine, name: Mine, kind: grain, state: dried,\n"
        "   per_100g: {energy: 360 kcal}}\n\n# never eaten here\n"
        "- {id: other, name: Other, kind: grain, state: dried, per_100g: {energy: 1 kcal}}\n"
    )
    trip = changed(TRIP, "eat: rice", "eat: mine")
    found = read(tmp_path, {**GOOD, "foods/mine.yaml": foods, "trips/tarrow.yaml": trip})
    files = {path: text.decode() for path, text in content_of_kit(found, "tarrow", ()).items()}
    assert list(files) == sorted(files)
    assert files["trips/tarrow.yaml"] == trip
    assert files["foods/mine.yaml"] == foods.partition("\n\n")[0] + "\n"
    assert "fuels:\n" in files["gear/all.yaml"] and "irons:" not in files["gear/all.yaml"]


@pytest.mark.parametrize(
    ("file", "name", "place"),
    [
        ("trips/tarrow.yaml", "way.gpx", "trips/tarrow/way.gpx"),
        ("trips/ridge/trip.yaml", "maps/way.gpx", "trips/ridge/trip/maps/way.gpx"),
        ("trips/tarrow.yaml", "../way.gpx", "trips/way.gpx"),
        ("trips/tarrow.yaml", "../../way.gpx", "way.gpx"),
    ],
)
def test_what_a_record_names_lies_in_a_folder_of_its_own(file: str, name: str, place: str) -> None:
    assert own_beside(file, name) == place


@pytest.mark.parametrize(
    ("named", "there", "handed_on"),
    [
        ("way.gpx", "trips/way.gpx", ["trips/tarrow/way.gpx"]),
        ("../way.gpx", "way.gpx", ["trips/way.gpx"]),
        # In the folder of the trip it would lead out of the room.
        ("../way.gpx", "trips/../way.gpx", ["trips/way.gpx"]),
    ],
)
def test_a_track_goes_along_in_the_folder_of_its_trip(
    named: str, there: str, handed_on: list[str], tmp_path: Path
) -> None:
    points = "".join(f'<trkpt lat="60.{n}" lon="9.0"><ele>{n}</ele></trkpt>' for n in range(9))
    track = f'<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>{points}</trkseg></trk></gpx>'
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": f"track: {named}\n{TRIP}", there: track})
    assert "tarrow" in found.tracks, lines(found)
    files = content_of_kit(found, "tarrow", ())
    assert [each for each in files if each.endswith(".gpx")] == handed_on
    assert files[handed_on[0]] == track.encode()
    assert track_beside(found, "tarrow", "tarrow.yaml") == {}
    assert track_beside(found, "other", "trips/other.yaml") == {}


def test_every_picture_of_what_a_trip_needs_goes_along_and_no_other(tmp_path: Path) -> None:
    def told(name: str) -> str:
        return f"picture: {{file: {name}.png, shows: A {name}}}"

    files: dict[str, str | bytes] = {
        "recipes/bean-pot.yaml": changed(BEAN_POT, "minutes: 8}", f"minutes: 8, {told('pot')}}}")
        + told("beans"),
        "recipes/soup.yaml": SOUP + told("soup"),
        "batches/beans.yaml": BEANS_IN_MAY + told("batch"),
        "trips/tarrow.yaml": changed(TRIP, "640 m", f"640 m\n    {told('camp')}") + told("top"),
    }
    for number, name in enumerate(("pot", "beans", "soup", "batch", "camp", "top")):
        room = {"batch": "batches", "camp": "trips", "top": "trips"}.get(name, "recipes")
        files[f"{room}/{name}.png"] = png(number)
    found = read(tmp_path, {**GOOD, **files})
    assert {place: each.shows for place, each in pictures_along(found, "tarrow").items()} == {
        "trips/tarrow/top.png": "A top",
        "trips/tarrow/camp.png": "A camp",
        "recipes/bean-pot/pot.png": "A pot",
        "recipes/bean-pot/beans.png": "A beans",
        "batches/beans/batch.png": "A batch",
    }


def png(number: int) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 30), (number, 90, 90)).save(out, "PNG")
    return out.getvalue()


@pytest.mark.parametrize(
    ("text", "at", "words"),
    [
        ("- {id: a}\n# of b\n- {id: b, n: x}  # so\n- {id: c}\n", 1,
         "# of b\n- {id: b, n: x}  # so\n"),
        ("- id: a\n  n: x\n- id: b\n  n: y\n", 0, "- id: a\n  n: x\n"),
        # What may take something from elsewhere is told with all of its file.
        ("- &one {id: a}\n- {<<: *one, id: b}\n", 1, "- &one {id: a}\n- {<<: *one, id: b}\n"),
        ("- {id: a}\n- {id: b, n: 2 * 3}\n", 1, "- {id: a}\n- {id: b, n: 2 * 3}\n"),
    ],
)  # fmt: skip
def test_all_that_a_file_tells_of_a_record(text: str, at: int, words: str) -> None:
    node, problems = read_yaml(text, "f.yaml")
    assert node is not None and not problems
    assert written_words(RecordText("foods/f.yaml", text, node.items[at])) == words
    whole = RecordText("foods/f.yaml", text, node.items[at], whole_file=True)
    assert written_words(whole) == text


def test_of_the_shipped_foods_those_alone_are_read_that_the_kit_needs(
    in_empty_folder: Path,
) -> None:
    assert tripkit("new", "folder", ".").exit_code == 0
    found = read_folder(layers_of(place_of(Path("content"))))
    texts = found.texts
    assert isinstance(texts, OnAsking)
    files = content_of_kit(found, "first-trip", ())
    unread = {key for key in texts if texts.waits(key)}
    told = {key for key in texts if key[0] == "food"}
    assert len(unread) > 800 and len(told - unread) < 30
    assert any(path.startswith("foods/") for path in files)


GEAR = """\
stoves:
  # borrowed
  - id: a      # light
    name: A

  - {id: b, name: B}
fuels:
  - {id: c, name: C}
"""


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        ("a", "stoves:\n  # borrowed\n  - id: a      # light\n    name: A\n"),
        ("b", "stoves:\n  - {id: b, name: B}\n"),
        # In the order of the file, whatever the order in which they are needed.
        (
            "cba",
            "fuels:\n  - {id: c, name: C}\nstoves:\n  # borrowed\n  - id: a      # light\n"
            "    name: A\n  - {id: b, name: B}\n",
        ),
        ("x", ""),
    ],
)
def test_pieces_of_gear_stay_in_their_sections(keys: str, expected: str) -> None:
    node, _ = read_yaml(GEAR, "gear/all.yaml")
    assert node is not None
    texts = {
        ("gear", str(item.entries["id"].node.value)): RecordText("gear/all.yaml", GEAR, item, name)
        for name, entry in node.entries.items()
        for item in entry.node.items
    }
    found = cut_files([("gear", key) for key in keys], texts)
    assert found == ({"gear/all.yaml": expected} if expected else {})


@pytest.mark.parametrize(
    ("text", "at", "expected"),
    [
        ("- {id: a}\n- {id: b}", 1, "- {id: b}\n"),
        ("[{id: a}, {id: b}]\n", 1, "- {id: b}\n"),
        ("# of all\n\n# of a\n# and more\n- id: a\n", 0, "# of a\n# and more\n- id: a\n"),
        ("# top\n- id: a\n", 0, "# top\n- id: a\n"),
        (
            "- id: a\n  n: |\n    two\n    lines\n- id: b\n",
            0,
            "- id: a\n  n: |\n    two\n    lines\n",
        ),
        ("- id: a\n  steps:\n    - x\n  # of b\n- id: b\n", 0, "- id: a\n  steps:\n    - x\n"),
        ("-\n  id: a\n- id: b\n", 0, "- {id: a}\n"),
        ("- id: a\n  tags: []\n- id: b\n", 0, "- id: a\n  tags: []\n"),
    ],
)
def test_one_item_is_cut_out_with_its_comments(text: str, at: int, expected: str) -> None:
    node, _ = read_yaml(text, "foods/f.yaml")
    assert node is not None
    record = RecordText("foods/f.yaml", text, node.items[at])
    assert cut_files([("food", "a")], {("food", "a"): record}) == {"foods/f.yaml": expected}


@pytest.mark.parametrize(
    ("text", "offset", "end"),
    [
        ("a\nb\n", 0, 2),
        ("a\nb\n", 1, 2),
        ("a\nb\n", 2, 2),  # the start of a line is its own
        ("a\nb\n", 3, 4),
        ("a\nb", 2, 2),
        ("a\nbc", 3, 4),
        ("\nb", 0, 1),
        ("", 0, 0),
    ],
)
def test_where_the_next_line_starts(text: str, offset: int, end: int) -> None:
    assert line_end(text, offset) == end
