"""The commands, from the outside."""

from __future__ import annotations

import json
import re
import shutil
import stat
import zipfile
from pathlib import Path

import click
import pytest

from builder.cli import main
from builder.cli.base import called_as
from builder.reading.folder import Layer, read_folder
from tests.conftest import files_of, tripkit

ROOT = Path(__file__).resolve().parent.parent


def small_folder(folder: Path) -> Path:
    result = tripkit("new", "folder", str(folder))
    assert result.exit_code == 0, result.output
    return folder / "content"


# -- build ----------------------------------------------------------------------------------------


def test_build_makes_a_kit_and_a_zip_for_each_trip(demo_kits: Path) -> None:
    for trip in ("tarrow-tops", "lake-emmerin", "graupel-ridge"):
        assert (demo_kits / trip / "index.html").is_file()
        assert (demo_kits / trip / "pocket.html").is_file()
        with zipfile.ZipFile(demo_kits / f"{trip}.zip") as archive:
            assert archive.testzip() is None
    assert "Tarrow Tops" in (demo_kits / "index.html").read_text("utf-8")


def test_the_same_content_gives_the_same_bytes(demo_kits: Path, tmp_path: Path) -> None:
    result = tripkit("build", "--out", str(tmp_path / "again"))
    assert result.exit_code == 0, result.output
    for trip in ("tarrow-tops", "lake-emmerin", "graupel-ridge"):
        assert files_of(tmp_path / "again" / trip) == files_of(demo_kits / trip)
        zips = [(folder / f"{trip}.zip").read_bytes() for folder in (demo_kits, tmp_path / "again")]
        assert zips[0] == zips[1]


def test_nothing_changed_is_said_and_nothing_is_touched(in_empty_folder: Path) -> None:
    small_folder(in_empty_folder / "mine")
    arguments = ("build", "--content", "mine/content")
    assert tripkit(*arguments).exit_code == 0
    before = {path: path.stat().st_mtime_ns for path in Path("kits").rglob("*")}
    again = tripkit(*arguments)
    assert again.exit_code == 0
    assert "Nothing changed: 1 kit up to date." in again.output
    assert before == {path: path.stat().st_mtime_ns for path in Path("kits").rglob("*")}


def test_a_changed_recipe_changes_only_the_kits_that_use_it(in_empty_folder: Path) -> None:
    content = small_folder(in_empty_folder / "mine")
    shutil.copy(content / "trips/first-trip.yaml", content / "trips/second-trip.yaml")
    second = content / "trips/second-trip.yaml"
    second.write_text(
        second.read_text().replace("{cook: morning-oats}", "{eat: raisins, each: 9 g}")
    )
    arguments = ("build", "--content", "mine/content", "--jobs", "2")
    assert tripkit(*arguments).exit_code == 0
    oats = content / "recipes/morning-oats.yaml"
    oats.write_text(oats.read_text().replace("minutes: 3, stir", "minutes: 4, stir"))
    again = tripkit(*arguments)
    assert "Built kits/first-trip" in again.output
    assert "Unchanged kits/second-trip" in again.output


def test_a_fault_stops_the_build_and_leaves_the_old_kit_whole(in_empty_folder: Path) -> None:
    content = small_folder(in_empty_folder / "mine")
    assert tripkit("build", "--content", "mine/content").exit_code == 0
    before = files_of(Path("kits"))
    trip = content / "trips/first-trip.yaml"
    trip.write_text(trip.read_text().replace("washing: 1 l", "washing: 1"))
    result = tripkit("build", "--content", "mine/content")
    assert result.exit_code == 1
    line = next(
        number for number, text in enumerate(trip.read_text().split("\n"), 1) if "washing" in text
    )
    assert (
        f"mine/content/trips/first-trip.yaml:{line}:10: error: washing: '1' has no unit — "
        "write one of ml, cl, dl, l, tsp, tbsp, cup, cups, fl oz, pint, pints, qt, gal behind it, "
        "such as 300 ml, 1.5 l or 2 cups [unit-missing]" in result.output
    )
    assert "1 error, 0 warnings" in result.output
    assert files_of(Path("kits")) == before


@pytest.mark.parametrize(
    ("arguments", "code", "says"),
    [
        (("build", "tarow-tops"), 1, "did you mean tarrow-tops?"),
        (("build", "--content", "nowhere"), 1, "there is no folder nowhere"),
        (("build", "--jobs", "0"), 2, "--jobs"),
        (("build", "--part", "3"), 2, "write it like 1/4"),
        (("build", "--part", "5/4"), 2, "the first number runs from 1"),
        (("build", "--colour"), 2, "No such option"),
        (("bild",), 2, "No such command"),
        (("dry", "carrot-raw", "1000"), 2, "has no unit"),
        (("dry", "carot-raw", "1000 g"), 1, "did you mean carrot-raw?"),
        (("dry", "olive-oil", "1000 g"), 1, "is dry already"),
        (("dry", "carrot-raw", "100 g", "--now", "200 g"), 1, "it lost nothing"),
        (("dry", "carrot-raw", "100 g", "--now", "100 g"), 1, "it lost nothing"),
        (("dry", "apple-raw", "1 kg", "--now", "20 g"), 1, "14% of the solids that Apple holds"),
        (("dry", "carrot-raw", "1 kg", "--in", "sack", "--now", "0.2 kg"), 1, "known are: can"),
        (("dry", "carrot-raw", "1 kg", "--tests", "snop"), 2, "did you mean snap?"),
        (("dry", "hen", "1 kg", "--heated", "hot"), 1, "there is no food"),
        (("dry", "cod-raw", "1 kg", "--heated", "hot"), 2, "write it like"),
        (("dry", "cod-raw", "1 kg", "--heated", "74 before"), 2, "has no unit"),
        (
            ("dry", "carrot-raw", "1 kg", "--weighing", "2h=9g", "--weighing", "2h=8g"),
            2,
            "two weighings at one time",
        ),
        (("dry", "carrot-raw", "1 kg", "--weighing", "0 h=900 g"), 2, "comes after the start"),
        (("stock", "--at", "soon"), 2, "write it like 2031-09-04"),
        (("find", "zzz"), 1, "nothing matches 'zzz'"),
        (("new", "trip", "No Good"), 1, "cannot be an id"),
        (("new", "trip", "next", "--from", "missing.zip"), 1, "there is no file missing.zip"),
        (("new", "trip", "next", "--from", "tarow-tops"), 1, "there is no trip 'tarow-tops'"),
        (("new", "trip", "next", "--start", "tomorrow"), 2, "write it like 2032-06-12"),
        (("preview", "nowhere-trip"), 1, "there is no trip 'nowhere-trip'"),
    ],
)
def test_a_wrong_call_is_answered_in_words(
    arguments: tuple[str, ...], code: int, says: str, in_empty_folder: Path
) -> None:
    result = tripkit(*arguments)
    assert result.exit_code == code, result.output
    assert says in result.output
    assert "Traceback" not in result.output
    assert not list(in_empty_folder.rglob("*.yaml"))


def test_parts_share_out_all_trips(tmp_path: Path) -> None:
    built: list[str] = []
    for part in ("1/2", "2/2"):
        result = tripkit("build", "--out", str(tmp_path / part.replace("/", "-")), "--part", part)
        assert result.exit_code == 0, result.output
        built += re.findall(r"Built \S+/([a-z-]+) \(", result.output)
    assert sorted(built) == ["graupel-ridge", "lake-emmerin", "rindle-fen", "tarrow-tops"]


def test_a_part_with_no_trip_in_it_is_no_fault(tmp_path: Path) -> None:
    result = tripkit("build", "--out", str(tmp_path / "out"), "--part", "5/5")
    assert result.exit_code == 0, result.output
    assert "Built" not in result.output


def test_kits_do_not_go_into_the_content_folder(in_empty_folder: Path) -> None:
    content = small_folder(in_empty_folder / "mine")
    before = files_of(in_empty_folder)
    for out in (content, content / "kits"):
        result = tripkit("build", "--content", "mine/content", "--out", str(out))
        assert result.exit_code == 1
        assert "lies in the content folder" in result.output
    assert files_of(in_empty_folder) == before


def test_strict_makes_warnings_fail(in_empty_folder: Path) -> None:
    content = small_folder(in_empty_folder / "mine")
    (content / "foods/more.yml").write_text("[]\n")
    assert tripkit("check", "--content", "mine/content").exit_code == 0
    result = tripkit("check", "--content", "mine/content", "--strict")
    assert result.exit_code == 1
    assert "mine/content/foods/more.yml:1:1: warning: this file is not read" in result.output


# -- public ---------------------------------------------------------------------------------------


def test_a_public_kit_tells_nobodys_business(tmp_path: Path) -> None:
    result = tripkit("build", "--public", "--out", str(tmp_path / "out"))
    assert result.exit_code == 0, result.output
    trips = read_folder([Layer(ROOT / "content", "content")]).content.trips
    for name, trip in trips.items():
        kit = tmp_path / "out" / name
        assert not (kit / "content.zip").exists()
        text = "\n".join(
            path.read_text("utf-8")
            for path in sorted(kit.rglob("*"))
            if path.suffix in (".html", ".json", ".js") and "assets" not in path.parts
        )
        assert str(trip.start) not in text
        for day in trip.days:
            assert day.title not in text
        for person in trip.party:
            for secret in (
                f"{person.name} is {person.age_years:g}",
                f"{person.mass_kg:g}\u00a0kg b",
            ):
                assert secret not in text
            for word in person.avoids:
                assert f"{person.name} must not eat" not in text
                assert f'"avoids": ["{word}"' not in text
    data = json.loads((tmp_path / "out/tarrow-tops/kit.json").read_text())
    assert data["trip"]["start"] is None
    assert all(day["date"] is None for day in data["days"])
    assert all(batch["best_before"] is None for batch in data["batches"])


def test_where_no_folder_of_ones_own_is_read_it_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    said = "so this is the demo"
    assert said in tripkit("build", "my-trip").stderr
    assert said in tripkit("find", "lentil").stderr
    assert said not in tripkit("find", "lentil", "--json").stderr  # that is for a script
    assert said not in tripkit("find", "lentil", "--content", str(ROOT / "content")).stderr
    Path("content/trips").mkdir(parents=True)
    assert said not in tripkit("build", "my-trip").stderr


# -- looking things up ----------------------------------------------------------------------------


def test_dry_tells_target_and_what_is_left_to_go() -> None:
    # 1000 g of carrots, 88.29 % water: solids 117.1 g; at 10 % moisture 130.1 g.
    result = tripkit("dry", "carrot-raw", "1000 g", "--now", "180 g", "--json")
    data = json.loads(result.output)
    assert data["target_g"] == pytest.approx(117.1 / 0.9, abs=0.05)
    assert data["to_go_g"] == pytest.approx(180 - 117.1 / 0.9, abs=0.05)
    assert data["residual_moisture"] == pytest.approx(1 - 117.1 / 180, abs=1e-4)
    assert data["dry_enough"] is False
    said = tripkit("dry", "carrot-raw", "1 kg", "--now", "0.18 kg").output
    assert "Dry enough at:   130\u00a0g (10\u00a0% moisture left)" in said
    assert "Still to go:     50\u00a0g" in said


def test_dry_without_a_weighing_tells_the_target() -> None:
    said = tripkit("dry", "apple-raw", "2 kg").output
    # Apples: 85.56 % water, 20 % may stay: 2000 · 0.1444 / 0.8 = 361 g.
    assert "361\u00a0g (20\u00a0% moisture left)" in said
    assert "Now:" not in said


DRY = ("dry", "chicken-breast-raw", "1000 g", "--now", "270 g", "--json")


@pytest.mark.parametrize(
    ("more", "verdict", "act"),
    [
        # 261 g of solids, 1.28 points either way: 270 g have 0 to 8.1 % left.
        ((), "discard", "Throw it out."),
        (("--heated", "74 degC before"), "dry", ""),
        (("--heated", "165.2 degF before"), "dry", ""),
        (("--heated", "135 degC after 10 min"), "dry", ""),
        (("--heated", "135 degC after 9 min"), "discard", "Throw it out."),
        (("--heated", "135 degC after"), "discard", "Throw it out."),
        (("--heated", "74 degC before", "--in", "vacuum-bag"), "dry",
         "Open it, pack it with air, freeze it."),
        (("--heated", "74 degC before", "--in", "glass-jar"), "dry", ""),
        (("--method", "freeze-dryer"), "undecided", "Test it: break a cold piece, it must snap; or "
         "weigh it again after 2 h more in the dryer, at most 0.5 % less."),
        (("--method", "freeze-dryer", "--tests", "constant, snap"), "dry",
         "Cook it through before anybody eats it."),
        (("--method", "sun", "--heated", "74 degC before"), "discard", "Throw it out."),
    ],
)  # fmt: skip
def test_dry_says_what_to_do(more: tuple[str, ...], verdict: str, act: str) -> None:
    data = json.loads(tripkit(*DRY, *more).output)
    assert (data["verdict"], data["act"]) == (verdict, act)


def test_what_is_thrown_out_is_told_why() -> None:
    wet = ("dry", "carrot-raw", "1 kg", "--now", "300 g", "--in", "vacuum-bag")
    assert (
        "\nBecause:         it is not dry, and packed without oxygen\nDo: " in tripkit(*wet).output
    )
    # Minced raw poultry that no heat made safe, then the same heated.
    assert "it is raw poultry or mince" in tripkit(*DRY[:-1]).output
    assert "Because:" not in tripkit(*DRY[:-1], "--heated", "74 degC before").output


def test_stock_lists_first_expired_first() -> None:
    data = json.loads(tripkit("stock", "--at", "2031-09-01", "--json").stdout)
    dates = [line["best_before"] for line in data if line["best_before"]]
    assert dates == sorted(dates)
    remarks = {line["batch"]: line["remark"] for line in data}
    assert remarks["apricots-last-summer"].startswith("PAST ITS DATE")
    acts = {line["batch"]: (line["verdict"], line["act"][:8]) for line in data}
    assert acts["mushrooms-august"] == ("undecided", "Test it:")
    assert acts["carrots-april"] == ("dry", "")
    assert "undecided by weight  Test it:" in tripkit("stock", "--at", "2031-09-01").output


def test_stock_tells_what_later_trips_are_promised() -> None:
    lines = json.loads(tripkit("stock", "--at", "2031-09-01", "--json").stdout)
    apples = next(line for line in lines if line["batch"] == "apple-autumn")
    # 20 made, 6 used, 1 eaten in July. Oats for four want 44 g for each two: 2 packs of 44 g.
    assert apples["packs_left"] == 13
    assert apples["packs_promised"] == 2
    assert apples["packs_free"] == 11
    assert apples["promised_to"] == [
        {"trip": "tarrow-tops", "day": 2, "meal": "breakfast", "packs": 2}
    ]
    assert (apples["food"], apples["name"]) == ("apple-raw", "Apple, dried")
    said = tripkit("stock", "--at", "2031-09-01").stdout.splitlines()
    assert said[0] == "Keep until  Packs     Each  Food (batch)"
    place = next(number for number, line in enumerate(said) if "(apple-autumn)" in line)
    assert said[place].startswith("2031-10-12   13 ×     44\u00a0g  Apple, dried (apple-autumn)")
    assert said[place + 1].strip() == "11 free. Promised: tarrow-tops day 2 breakfast: 2"
    # On a day after all trips nothing is promised.
    after = json.loads(tripkit("stock", "--at", "2031-09-08", "--json").stdout)
    assert {line["packs_promised"] for line in after} == {0}
    before = json.loads(tripkit("stock", "--at", "2031-09-07", "--json").stdout)
    assert "tarrow-tops" in {each["trip"] for line in before for each in line["promised_to"]}


def test_find_names_a_batch_by_what_it_is_now_and_finds_it_by_what_went_in() -> None:
    for word in ("chicken", "freeze-dried raw", "chicken breast, raw"):
        data = json.loads(tripkit("find", word, "--json").output)
        names = {each["id"]: each["name"] for each in data if each["kind"] == "batch"}
        assert names["chicken-january"] == "Chicken breast, freeze-dried raw", word


def test_find_tells_ids_of_every_kind() -> None:
    data = json.loads(tripkit("find", "iron", "--json").output)
    assert {"iron"} <= {each["kind"] for each in data}
    assert "black-beans-cooked" in tripkit("find", "black bean").output


def test_find_tells_kind_id_name_and_reason_and_counts_what_it_leaves_out() -> None:
    lines = tripkit("find", "fruit").stdout.splitlines()
    assert all(line.split()[0] in ("food", "batch", "recipe", "and") for line in lines)
    foods = [line for line in lines if line.startswith("food ")]
    assert len(foods) == 12
    assert any(
        re.fullmatch(r" +and \d+ more foods: add a word to narrow it, or --all", line)
        for line in lines
    )
    whole = tripkit("find", "fruit", "--all").stdout
    assert "more foods" not in whole
    assert re.search(r"^food +raisins +Raisins +kind fruit$", whole, re.MULTILINE)
    data = json.loads(tripkit("find", "fruit", "--json").output)
    assert len(whole.splitlines()) == len(data) > len(foods)
    assert all(each["because"] for each in data)


def test_find_takes_several_words_and_near_ones() -> None:
    one, two = (
        json.loads(tripkit("find", *words, "--json").output)
        for words in (("black bean",), ("black", "bean"))
    )
    assert one == two and one[0]["name"].startswith("Black bean")
    said = tripkit("find", "chikpea")
    assert "Nothing is called 'chikpea'; taken for chickpea" in said.stderr
    assert "near chickpea" in said.stdout and "chikpea" not in said.stdout


def test_find_says_what_to_try_where_nothing_has_all_words() -> None:
    said = tripkit("find", "salmon", "qqqq").output
    assert "nothing matches 'salmon qqqq'" in said
    assert re.search(r"`salmon` alone finds \d+; nothing has `qqqq`", said)
    assert "nothing has all of these" in tripkit("find", "salmon", "walnuts").output


def written_at(place: str, said: str) -> str:
    """Give what stands in the content from the one place on that an output leads to."""
    ((file, line, column),) = re.findall(place, said)
    written = (ROOT / "content" / file).read_text("utf-8").splitlines()
    return str(written[int(line) - 1][int(column) - 1 :])


def test_explain_leads_from_a_figure_to_its_file_and_source() -> None:
    said = tripkit("explain", "tarrow-tops", "fuel.carry_g").output
    lines = said.splitlines()
    (first,) = (number for number, line in enumerate(lines) if line.startswith("Fuel to take: "))
    assert lines[first + 1 : first + 3] == [
        "  fuel.carry_g",
        "  = likely_g * (1 + reserve_share)",
    ]
    (likely_g,) = re.findall(r" likely_g: (\S+) g   \[fuel\.likely_g\]", said)
    carry_g = float(lines[first].removeprefix("Fuel to take: ").removesuffix(" g"))
    assert carry_g == pytest.approx(1.15 * float(likely_g), rel=1e-5)  # told to six digits
    assert written_at(r"reserve_share: 0\.15   \[(.+):(\d+):(\d+)\]", said).startswith("15 %")
    said = tripkit("explain", "tarrow-tops", "days.1.boiling_point_c").output
    assert "  source: International Association for the Properties of Water and Steam" in said


def test_explain_goes_down_to_the_files_line_only_when_asked() -> None:
    arguments = ("explain", "tarrow-tops", "boils", "day", "2")
    flat, deep = tripkit(*arguments).output, tripkit(*arguments, "--deep").output
    assert "pressure_hpa: " in flat and "altitude_m: " not in flat
    leaf = r"\n {8}altitude_m: 1480 m   \[(.+):(\d+):(\d+)\]\n"
    assert written_at(leaf, deep).startswith("1480 m")
    assert "        lapse_k_m: 0.0065 K/m   [lapse_k_m, source iso2533]" in deep


def test_explain_gives_the_figures_below_as_data() -> None:
    said = tripkit("explain", "tarrow-tops", "boils", "day 2", "--json").stdout
    data = json.loads(said)
    figures = data["figures"]
    assert set(figures) == {
        "days.1.boiling_point_c",
        "days.1.pressure_hpa",
        "days.1.camp_altitude_m",
    }
    boils = figures["days.1.boiling_point_c"]
    # 1480 m: between the printed 1000 m (96.65 °C) and 1500 m (94.98 °C) of the tables.
    assert 94.98 < boils["value"] < 96.65
    assert boils["inputs"]["pressure_hpa"] == {"figure": "days.1.pressure_hpa"}
    pressure = figures["days.1.pressure_hpa"]
    assert pressure["inputs"]["altitude_m"] == {"figure": "days.1.camp_altitude_m"}
    assert figures["days.1.camp_altitude_m"]["place"].startswith("trips/tarrow-tops.yaml:")
    assert data["formulas"][pressure["formula"]]["sources"] == ["iso2533"]


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (("nonsense-figure",), 1, "no figure of tarrow-tops matches"),
        (("days",), 1, "name one of these"),
        (("days",), 1, "more are not listed: add a word"),
        (("boyls", "day", "2"), 1, "  days.1.boiling_point_c  "),
        (("fuel.cary_g",), 1, "  fuel.carry_g  "),
        (("qqqqqq",), 1, "try fewer words, such as `fuel`"),
        ((), 2, "Missing argument"),
    ],
)
def test_explain_answers_what_it_cannot_find(words: tuple[str, ...], code: int, says: str) -> None:
    result = tripkit("explain", "tarrow-tops", *words)
    assert result.exit_code == code
    assert says in result.output


def test_explain_lists_figures_of_the_whole_trip_before_those_of_a_meal() -> None:
    lines = tripkit("explain", "tarrow-tops", "fuel").stdout.splitlines()
    parts = [line.split()[0].count(".") for line in lines]
    assert parts == sorted(parts)
    assert any(line.startswith("fuel.carry_g ") for line in lines)


# -- new ------------------------------------------------------------------------------------------


def test_a_new_folder_builds_and_its_records_too(in_empty_folder: Path) -> None:
    first = tripkit("new", "folder", "mine")
    assert "Next: cd mine && tripkit build" in first.output
    for kind in ("recipe", "batch", "food", "trip"):
        result = tripkit("new", kind, f"new-{kind}", "--content", "mine/content")
        assert result.exit_code == 0, result.output
        assert f"new-{kind}.yaml" in result.output
        assert "Next: " in result.output
    strict = tripkit("check", "--content", "mine/content", "--strict")
    assert strict.exit_code == 0, strict.output
    assert tripkit("build", "--content", "mine/content").exit_code == 0
    assert (in_empty_folder / "kits/new-trip/index.html").is_file()


def test_new_never_writes_over_anything(in_empty_folder: Path) -> None:
    small_folder(in_empty_folder / "mine")
    before = files_of(in_empty_folder)
    for arguments in (
        ("folder", "mine"),
        ("trip", "first-trip"),
        ("recipe", "lentil-stew"),
        ("batch", "carrots-first"),
        ("food", "my-muesli"),
        ("food", "apple-raw"),
    ):
        extra = () if arguments[0] == "folder" else ("--content", "mine/content")
        result = tripkit("new", *arguments, *extra)
        assert result.exit_code == 1, result.output
        assert "already" in result.output
    assert files_of(in_empty_folder) == before


def test_a_new_trip_leaves_open_what_is_not_dried_by_its_start(in_empty_folder: Path) -> None:
    small_folder(in_empty_folder / "mine")
    arguments = ("new", "trip", "before", "--from", "first-trip", "--content", "mine/content")
    result = tripkit(*arguments, "--start", "2030-01-01")
    assert result.exit_code == 0, result.output
    assert "Left open what came from batch carrots-first: not dried by then." in result.output


def test_a_new_trip_starts_from_an_old_one_and_keeps_its_comments(in_empty_folder: Path) -> None:
    content = small_folder(in_empty_folder / "mine")
    result = tripkit(
        "new",
        "trip",
        "next-year",
        "--from",
        "first-trip",
        "--start",
        "2032-06-12",
        "--party",
        "Alder",
        "--party",
        "Cove",
        "--content",
        "mine/content",
    )
    assert result.exit_code == 0, result.output
    assert "Left open what came from batch carrots-first: past its date by then." in result.output
    text = (content / "trips/next-year.yaml").read_text("utf-8")
    assert "start: 2032-06-12                # year-month-day; may be left out" in text
    assert "# A packet's own label" in text
    assert "{name: Cove}" in text and "Brook" not in text
    assert "{cook: lentil-stew}" in text
    assert tripkit("build", "next-year", "--content", "mine/content").exit_code == 0


def test_a_new_trip_starts_from_an_old_kit_in_an_empty_folder(
    demo_kits: Path, in_empty_folder: Path
) -> None:
    result = tripkit(
        "new",
        "trip",
        "again",
        "--from",
        str(demo_kits / "tarrow-tops.zip"),
        "--start",
        "2031-09-10",
    )
    assert result.exit_code == 0, result.output
    checked = tripkit("check")
    assert checked.exit_code == 0, checked.output
    assert tripkit("build").exit_code == 0
    batches = read_folder(
        [
            Layer(ROOT / "content", "shipped", ("sources.yaml", "cautions", "gear", "foods")),
            Layer(Path("content"), "content"),
        ]
    ).content.batches
    # Two packs were eaten before, and the old trip ate some more.
    assert batches["black-beans-spring"].used > 1


def test_a_record_that_differs_is_told_and_nothing_is_written(
    demo_kits: Path, in_empty_folder: Path
) -> None:
    recipes = in_empty_folder / "content/recipes"
    recipes.mkdir(parents=True)
    (recipes / "black-tea.yaml").write_text(
        "id: black-tea\nname: My tea\nmeal: [drinks]\nserves: 1\ncook_in: mug\n"
        "uses: [{food: black-tea, amount: 3 g}]\n"
        "steps: [{do: boil, with: [black-tea], water: 300 ml}, {do: serve}]\n"
    )
    before = files_of(in_empty_folder)
    result = tripkit("new", "trip", "again", "--from", str(demo_kits / "tarrow-tops.zip"))
    assert result.exit_code == 1
    assert "content/recipes/black-tea.yaml:1:1: error: recipe 'black-tea' stands here and" in (
        result.output
    )
    assert "tarrow-tops.zip/content.zip/recipes/black-tea.yaml" in result.output
    assert files_of(in_empty_folder) == before


def zip_with(path: Path, name: str, link: bool = False) -> None:
    with zipfile.ZipFile(path, "w") as archive:
        entry = zipfile.ZipInfo(name)
        if link:
            entry.external_attr = (stat.S_IFLNK | 0o777) << 16
        archive.writestr(entry, "title: x\n")


@pytest.mark.parametrize(
    ("name", "link"),
    [("../evil.yaml", False), ("/etc/evil.yaml", False), ("trips/link.yaml", True)],
)
def test_a_harmful_zip_is_refused(name: str, link: bool, in_empty_folder: Path) -> None:
    zip_with(in_empty_folder / "bad.zip", name, link)
    result = tripkit("new", "trip", "again", "--from", "bad.zip")
    assert result.exit_code == 1
    assert "Traceback" not in result.output
    assert not (in_empty_folder / "content").exists()
    assert not (in_empty_folder.parent / "evil.yaml").exists()


def test_a_zip_without_a_trip_is_refused(in_empty_folder: Path) -> None:
    zip_with(in_empty_folder / "other.zip", "readme.txt")
    result = tripkit("new", "trip", "again", "--from", "other.zip")
    assert result.exit_code == 1
    assert "does not hold one trip" in result.output
    (in_empty_folder / "noise.zip").write_bytes(b"this is no zip")
    assert tripkit("new", "trip", "again", "--from", "noise.zip").exit_code == 1


def test_a_damaged_zip_in_a_kit_is_told_by_the_kits_name(in_empty_folder: Path) -> None:
    with zipfile.ZipFile("old.zip", "w") as archive:
        archive.writestr("a-trip/content.zip", b"this is no zip")
    result = tripkit("new", "trip", "again", "--from", "old.zip")
    assert result.exit_code == 1
    assert "Stopped: old.zip/a-trip/content.zip cannot be unpacked" in result.output


@pytest.mark.parametrize("found", ["a program", "the one called", "nothing"])
def test_the_name_that_calls_the_tool_again_is_one_that_is_there(
    found: str, in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = in_empty_folder / "bin/tripkit"
    program.parent.mkdir()
    program.touch(mode=0o755)
    monkeypatch.setenv("PATH", "" if found == "nothing" else str(program.parent))
    monkeypatch.setattr("sys.argv", [str(program) if found != "a program" else "tripkit"])
    assert called_as() == (str(program) if found == "nothing" else "tripkit")


@pytest.mark.parametrize(
    ("called", "hint"), [("bild", "Did you mean build?"), ("zzz", "Known are: build, check")]
)
def test_a_command_that_is_not_there_is_told_with_what_may_be_meant(called: str, hint: str) -> None:
    result = tripkit(called)
    assert result.exit_code == 2
    assert f"No such command '{called}'. {hint}" in result.output


def test_the_list_of_commands_goes_as_the_work_goes_and_each_line_is_whole() -> None:
    said = tripkit("--help").output
    listed = said.split("Commands:\n")[1].splitlines()
    names = [line.split()[0] for line in listed]
    assert names == main.list_commands(click.Context(main))
    order = [names.index(name) for name in ("new", "find", "check", "build", "log", "explain")]
    assert order == sorted(order)
    listed += tripkit("new", "--help").output.split("Commands:\n")[1].splitlines()
    assert not [line for line in listed if line.endswith("...")]
    assert "INTEGER RANGE" not in "".join(tripkit(name, "--help").output for name in names)


def test_version_is_told() -> None:
    assert re.fullmatch(r"\d+\.\d+\.\d+\n", tripkit("--version").output)


def test_the_address_of_the_kits_is_told_on_each_first_page(in_empty_folder: Path) -> None:
    said = tripkit("build", "tarrow-tops", "--address", "https://example.org/kits")
    assert said.exit_code == 0, said.output
    kit = in_empty_folder / "kits/tarrow-tops"
    for page in ("index.html", "pocket.html"):
        assert "https://example.org/kits/tarrow-tops/" in (kit / page).read_text("utf-8"), page
    assert (kit / "assets/address.svg").is_file()
    # Another address is another kit.
    assert "Nothing changed" not in tripkit("build", "tarrow-tops").output
    assert "example.org" not in (kit / "index.html").read_text("utf-8")


def test_what_is_no_address_is_told(in_empty_folder: Path) -> None:
    said = tripkit("build", "tarrow-tops", "--address", "my host")
    assert said.exit_code == 1
    assert "'my host' is no address on the web" in said.output
    assert "https://example.org/kits/" in said.output
    assert not (in_empty_folder / "kits/tarrow-tops").exists()
