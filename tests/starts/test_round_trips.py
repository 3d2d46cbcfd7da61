# ruff: noqa: E501 - what is written stands whole
"""What a new folder or trip copies stays byte for byte, but for what was meant to change."""

from __future__ import annotations

import difflib
import re
from pathlib import Path

import pytest
from click.testing import Result

from builder.reading.anew.rewriting import Changes, rewritten
from builder.reading.record_text import RecordText
from builder.reading.text.yaml_door import read_yaml
from builder.starts.editors import SCHEMAS, SETTINGS
from builder.starts.fresh import EXAMPLES
from tests.conftest import files_of, tripkit

# Comments in odd places, brackets over lines, names for parts, texts in blocks, odd spacing.
ODD = """\
# before all

%YAML 1.1
---   # the document
title:   "Old: one"    # ours
start:
    2031-09-04
"units":    'metric'
party:   # who goes
    # the leader
  - &ash { name: Ash , sex: female, age: 34,mass: 64 kg,   # weighed in May
      height: 168 cm }
  -
    name: Rowan
    # slow on the way down

    avoids: [ nuts,]  # since ever
stove: {use: top-burner,
  pots: [
    pot-1l   # the old one
  ]}
every_day: &usual
   air: &air {low: 4 degC, high: 16 degC}
   wind: sheltered
days:
- title: >-
    Road end
    to the low camp
  camp_altitude: 640 m
  air: *air
  meals: &meals
    dinner: [ {eat: crispbread, each: 90 g, for: [Ash,Rowan] } ,   # both
       { eat: raisins , each: 60 g, for: &lead Ash }
    ]
    lunch:
      - eat: peanuts    # for all

        each: 80 g
    # no snacks
- {camp_altitude: 700 m, meals: *meals}
- camp_altitude: 800 m
  meals:
    <<: *meals
    snacks: {eat: raisins, each: 60 g, for: *lead}
notes: |+
  Take the map.

    It is on the shelf.

# behind all"""
NEW = (
    ODD.replace('"Old: one"', "Next")
    .replace("2031-09-04", "2032-06-12")
    .replace("[Ash,Rowan]", "[Fern,Rowan]")
    .replace("&lead Ash", "&lead Fern")
)
OLD_ASH = """\
    # the leader
  - &ash { name: Ash , sex: female, age: 34,mass: 64 kg,   # weighed in May
      height: 168 cm }
"""
END_OF_PARTY = "    avoids: [ nuts,]  # since ever\n"


@pytest.fixture
def content(in_empty_folder: Path) -> Path:
    """Give the content of a folder of one's own, in which it is worked."""
    (in_empty_folder / "content" / "trips").mkdir(parents=True)
    return in_empty_folder / "content"


def own_lines(raw: bytes) -> bytes:
    """Give a file without the line by which editors know its keys."""
    return re.sub(rb"\A(\xef\xbb\xbf)?# yaml-language-server: [^\n]*\n", rb"\1", raw)


def at(content: Path, line: int) -> str:
    """Give the place of a line of the new trip, behind the line for editors."""
    raw = (content / "trips/next.yaml").read_bytes()
    return f"content/trips/next.yaml:{line + (own_lines(raw) != raw)}"


def from_odd(content: Path, raw: bytes, *more: str) -> tuple[Result, bytes]:
    (content / "trips/odd.yaml").write_bytes(raw)
    result = tripkit("new", "trip", "next", "--from", "odd", "--start", "2032-06-12", *more)
    assert result.exit_code == 0, result.output
    assert (content / "trips/odd.yaml").read_bytes() == raw
    return result, own_lines((content / "trips/next.yaml").read_bytes())


@pytest.mark.parametrize("end", ["", "\n", "\n\n"])
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_only_title_and_day_change(content: Path, end: str, ends: str, mark: str) -> None:
    old = mark + (ODD.removeprefix("# before all\n\n%YAML 1.1\n") + end).replace("\n", ends)
    _, new = from_odd(content, old.encode())
    changed = old.replace('"Old: one"', "Next").replace("2031-09-04", "2032-06-12")
    assert new == changed.encode()


def test_a_directive_and_comments_before_all_stay(content: Path) -> None:
    _, new = from_odd(content, ODD.encode())
    assert new == ODD.replace('"Old: one"', "Next").replace("2031-09-04", "2032-06-12").encode()


def test_somebody_elses_name_goes_through_all_that_is_named(content: Path) -> None:
    result, new = from_odd(content, ODD.encode(), "--who", "Ash=Fern")
    assert new.decode() == NEW.replace(OLD_ASH, "").replace(
        END_OF_PARTY, END_OF_PARTY + "  - {name: Fern}\n"
    )
    assert f"{at(content, 9)}:1: Fern is new: tell age, mass" in result.output
    assert tripkit("check").exit_code == 0


def test_who_is_told_of_at_home_comes_by_name_alone(content: Path) -> None:
    (content / "home.yaml").write_text("people: [{name: Ash, age: 34}, {name: Fern, age: 40}]\n")
    text = "title: Old\nparty: [Ash, {name: Rowan}]   # two\ndays:\n  - {camp_altitude: 9 m, meals: {lunch: {eat: raisins, each: 9 g}}}\n"
    result, new = from_odd(content, text.encode(), "--party", "Ash", "--party", "Fern")
    start = "title: Next\nstart: 2032-06-12\nparty: [Ash, Fern]   # two\n"
    assert new.decode() == start + text[text.index("days:") :]
    assert "Fern is new" not in result.output
    (content / "trips/next.yaml").unlink()
    _, again = from_odd(content, text.encode(), "--who", "Ash=Fern")
    assert b"party: [{name: Rowan}, Fern]   # two\n" in again


def test_mixed_line_ends_stay_mixed(content: Path) -> None:
    raw = b"title: Old\r\nparty: [{name: Ash}]\n\r\ndays:\r\n  - {camp_altitude: 9 m, meals: {lunch: {eat: raisins, each: 9 g}}}\n"
    _, new = from_odd(content, raw)
    assert new == raw.replace(b"title: Old\r\n", b"title: Next\r\nstart: 2032-06-12\r\n")


def test_what_is_not_carried_over_is_told_with_its_place(content: Path) -> None:
    text = """\
title: Old
start: 2031-09-04
party: [{name: Ash}, {name: Rowan}]
days:
  - camp_altitude: 9 m   # Rowan knows the place
    without: {lunch: [Rowan]}
    meals:
      lunch: {eat: raisins, each: 60 g, for: [Ash]}
      dinner: {eat: raisins, each: 60 g, for: Rowan}
review: {}
"""
    trip = content / "trips/old/trip.yaml"
    trip.parent.mkdir()
    trip.write_text(text)
    (trip.parent / "way.gpx").write_text("<gpx/>")
    result = tripkit("new", "trip", "next", "--from", "old", "--party", "Ash", "--party", "Fern")
    assert result.exit_code == 0, result.output
    for said in (
        f"{at(content, 2)}:8: the first day is left open; it was 2031-09-04\n",
        f"{at(content, 3)}:1: Fern is new: tell age, mass, height and what they avoid\n",
        f"{at(content, 5)}:28: Rowan is still named here: - camp_altitude: 9 m   # Rowan knows the place\n",
        f"{at(content, 5)}:5: `without` no longer names Rowan for lunch\n",
        f"{at(content, 8)}:42: `for` named only Rowan: it goes to all who come now\n",
        "Not copied: content/trips/old/way.gpx.\n",
    ):
        assert said in result.output, said


@pytest.mark.parametrize(
    ("more", "says", "code"),
    [
        (("--who", "Ash"), "write it like Ash=Fern", 2),
        (("--who", "Ash=Fern", "--who", "Ash=Moss"), "somebody is named twice", 2),
        (("--who", "Rowen=Fern"), "did you mean Rowan?", 1),
        (("--who", "Ash=Fern", "--party", "Rowan"), "add --party Fern", 1),
        (("--who", "Ash=Fern", "--party", "Ash", "--party", "Fern"), "Ash comes too", 1),
        (("--party", "Fern", "--party", "Fern"), "somebody is named twice", 1),
    ],
)
def test_who_takes_whose_place_must_make_sense(
    content: Path, more: tuple[str, ...], says: str, code: int
) -> None:
    (content / "trips/odd.yaml").write_text(ODD)
    result = tripkit("new", "trip", "next", "--from", "odd", *more)
    assert says in " ".join(result.output.split()) and result.exit_code == code
    assert not (content / "trips/next.yaml").exists()


def test_who_goes_with_an_old_trip_only(content: Path) -> None:
    result = tripkit("new", "trip", "next", "--who", "Ash=Fern")
    assert result.exit_code == 1 and "--who goes with --from" in result.output


def test_a_trip_that_would_be_wrong_is_not_written(content: Path) -> None:
    (content / "trips/odd.yaml").write_text(ODD.replace("wind: sheltered", "wind: shelterd"))
    result = tripkit("new", "trip", "next", "--from", "odd")
    assert result.exit_code == 1
    assert [each.name for each in (content / "trips").iterdir()] == ["odd.yaml"]


def test_a_new_folder_is_the_example_byte_for_byte(in_empty_folder: Path) -> None:
    assert tripkit("new", "folder", "mine").exit_code == 0
    # But for what editors need: files of their own, and a line that names a schema.
    found = {
        path: own_lines(raw)
        for path, raw in files_of(in_empty_folder / "mine").items()
        if path != SETTINGS and SCHEMAS not in path.split("/")
    }
    assert found == files_of(EXAMPLES / "folder")


TRIPS = sorted((Path(__file__).parents[2] / "content/trips").glob("*.yaml"))


@pytest.mark.parametrize("trip", TRIPS, ids=lambda path: path.stem)
def test_of_the_demo_no_line_changes_that_names_nobody_who_stays(trip: Path) -> None:
    text = trip.read_text("utf-8")
    node, _ = read_yaml(text, "")
    assert node is not None
    record = RecordText(f"trips/{trip.name}", text, node, whole_file=True)
    names = [each.entries["name"].node.text for each in node.entries["party"].node.items]
    for away in names:
        staying = tuple(name for name in names if name != away)
        title = node.entries["title"].node.text
        for instead, party in (({}, staying), ({away: "Fern"}, ())):
            if not (instead or party):
                continue
            new = rewritten(record, Changes(title, None, party, {}, instead))
            diff = difflib.ndiff(text.splitlines(), new.text.splitlines())
            changed = [line for line in diff if line.startswith("- ")]
            assert changed
            for line in changed:
                assert away in line or "start:" in line or "review" in line, line
            named = [each for each in new.left if f"{away} is still named" in each.says]
            assert len(named) == new.text.count(away)
