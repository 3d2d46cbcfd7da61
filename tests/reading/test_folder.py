# ruff: noqa: E501 - the lines that people read stand whole
"""A whole folder: layers, files, ids, all problems at once."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest

from builder.model.place import Place
from builder.problems import in_order
from builder.reading.files import ROOMS
from builder.reading.folder import ALWAYS_SHIPPED, Layer, read_folder
from tests.reading.folder_builder import (
    BEAN_POT,
    BEANS_IN_MAY,
    GOOD,
    SHIPPED,
    SMALL,
    TRIP,
    changed,
    dangling,
    lines,
    read,
    read_over_shipped,
    write,
)

PEAS = (
    "{id: peas, name: Peas, kind: legume, state: dried, per_100g: {water: 12 g, protein: 84 g}}\n"
)


# -- what ships ---------------------------------------------------------------------------------


def test_the_demo_reads_without_a_word() -> None:
    found = read_folder([Layer(SHIPPED, "content", vouched=True)])
    assert [str(problem) for problem in found.problems] == []
    assert dangling(found.content) == []
    assert set(found.content.trips) >= {"tarrow-tops", "lake-emmerin", "graupel-ridge"}
    assert len(found.content.foods) > 100


def test_a_user_starts_with_foods_gear_cautions_and_sources_alone(tmp_path: Path) -> None:
    found = read_over_shipped(tmp_path, {})
    content = found.content
    assert content.foods and content.gear.stoves and content.cautions and content.sources
    assert (content.recipes, content.batches, content.trips) == ({}, {}, {})
    assert found.own == frozenset()
    assert found.problems == ()


def test_a_trip_needs_nothing_but_recipes_and_itself(tmp_path: Path) -> None:
    stem = "lemon-couscous-salad"
    recipe = (SHIPPED / "recipes" / f"{stem}.yaml").read_text("utf-8")
    trip = f"title: T\nparty: [{{name: Ash}}]\ndays: [{{ends: home, meals: {{lunch: {{cook: {stem}}}}}}}]\n"
    found = read_over_shipped(tmp_path, {f"recipes/{stem}.yaml": recipe, "trips/t.yaml": trip})
    assert lines(found) == []
    assert found.own == {("recipe", stem), ("trip", "t")}


def test_a_folder_that_is_not_there_holds_nothing(tmp_path: Path) -> None:
    found = read_folder([Layer(tmp_path / "nowhere", "nowhere")])
    assert found.problems == ()
    assert found.content.trips == {}


# -- layers -------------------------------------------------------------------------------------


def test_a_users_record_replaces_the_shipped_one_of_its_id(tmp_path: Path) -> None:
    own = {
        "foods/mine.yaml": PEAS.replace("peas", "rice"),
        "gear/mine.yaml": "pots: [{id: pot, name: My pot, holds: 1 l, mass: 99 g, material: titanium}]",
        "sources.yaml": "[{id: own-scales, title: Mine, read: false}]",
    }
    found = read(tmp_path, own)
    assert lines(found) == []
    assert found.content.foods["rice"].name == "Peas"
    assert found.content.foods["beans"].name == "Beans"
    assert found.content.gear.pots["pot"].name == "My pot"
    assert found.content.sources["own-scales"].how == "memory"
    assert found.own == {("food", "rice"), ("pots", "pot"), ("source", "own-scales")}
    assert found.texts["food", "rice"].path == "foods/mine.yaml"
    assert found.texts["food", "beans"].path == "foods/all.yaml"


def test_a_users_record_with_errors_leaves_the_shipped_one_standing(tmp_path: Path) -> None:
    found = read(
        tmp_path, {**GOOD, "foods/mine.yaml": PEAS.replace("peas", "rice").replace("12 g", "12")}
    )
    assert [problem.kind for problem in found.problems] == ["unit-missing"]
    assert found.content.foods["rice"].name == "Rice"
    assert "tarrow" in found.content.trips


def test_only_the_rooms_of_a_layer_are_read(tmp_path: Path) -> None:
    low = write(tmp_path / "low", {**SMALL, **GOOD})
    found = read_folder([Layer(low, "low", ALWAYS_SHIPPED), Layer(tmp_path / "none", "my")])
    assert found.problems == ()
    assert (found.content.recipes, found.content.trips) == ({}, {})
    assert set(ALWAYS_SHIPPED) < set(ROOMS)


# -- ids ----------------------------------------------------------------------------------------


def test_an_id_twice_names_both_places(tmp_path: Path) -> None:
    jar = "{id: jar, name: Jar, mass: 90 g, barrier: glass}"
    files = {
        **GOOD,
        "foods/a.yaml": f"- {PEAS}- {PEAS}",
        "foods/b.yaml": PEAS,
        "gear/a.yaml": f"packaging: [{jar}, {jar}]",
        "batches/again.yaml": "\n" + BEANS_IN_MAY,
        "recipes/copy.yaml": BEAN_POT,
        "trips/tarrow/trip.yaml": TRIP,
    }
    assert lines(read(tmp_path, files)) == [
        "batches/beans.yaml:1:5: error: the id 'beans-may' stands twice among the batches (first at my/batches/again.yaml:2:1) — give one of them another id [id-twice]",
        "foods/a.yaml:2:8: error: the id 'peas' stands twice among the foods (first at my/foods/a.yaml:1:3) — give one of them another id [id-twice]",
        "foods/b.yaml:1:6: error: the id 'peas' stands twice among the foods (first at my/foods/a.yaml:1:3) — give one of them another id [id-twice]",
        "gear/a.yaml:1:68: error: the id 'jar' stands twice among the packaging (first at my/gear/a.yaml:1:13) — give one of them another id [id-twice]",
        "recipes/copy.yaml:1:5: error: the id 'bean-pot' stands twice among the recipes (first at my/recipes/bean-pot.yaml:1:1) — give one of them another id [id-twice]",
        "trips/tarrow.yaml:1:1: error: the id 'tarrow' stands twice among the trips (first in my/trips/tarrow/trip.yaml) — rename one of the files [id-twice]",
    ]


@pytest.mark.parametrize(
    "name", ["Tarrow", "tarrow tops", "tarrow_tops", "-a", "a--b", "ä", "a" * 61]
)
def test_a_trips_file_must_be_named_by_an_id(name: str, tmp_path: Path) -> None:
    shown = repr(name if len(name) <= 60 else name[:57] + "…")
    assert lines(read(tmp_path, {f"trips/{name}.yaml": TRIP})) == [
        f"trips/{name}.yaml:1:1: error: {shown} cannot be a trip's id — name the file with lower-case letters, digits and hyphens [id]"
    ]


@pytest.mark.parametrize("name", ["con", "nul", "aux", "prn", "com1", "lpt9"])
@pytest.mark.parametrize("path", ["trips/{}.yaml", "trips/{}/trip.yaml"])
def test_no_trip_is_called_as_a_device_of_windows(name: str, path: str, tmp_path: Path) -> None:
    assert lines(read(tmp_path, {path.format(name): TRIP})) == [
        f"{path.format(name)}:1:1: error: '{name}' cannot be a trip's id: Windows can have no such file — give it another name [id]"
    ]


def test_a_folder_that_cannot_be_listed_is_told_and_the_others_are_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.scandir

    def refuse(path: Any) -> Any:
        if str(path).endswith("cellar"):
            raise PermissionError(13, "Permission denied", str(path))
        return real(path)

    monkeypatch.setattr(os, "scandir", refuse)
    found = read(tmp_path, {**GOOD, "foods/peas.yaml": PEAS, "foods/cellar/rye.yaml": PEAS})
    assert lines(found) == [
        "foods/cellar:1:1: error: this folder cannot be read (Permission denied) — check the folder and its permissions [file]"
    ]
    assert {"peas", "beans"} <= set(found.content.foods)


def test_a_trip_may_have_a_folder_with_other_files_in_it(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        **GOOD,
        "trips/ridge/trip.yaml": TRIP,
        "trips/ridge/notes.yaml": "title: [",
        "trips/ridge/track.gpx": b"\xff",
        "trips/ridge/old/trip.yaml": "title: [",
    }
    found = read(tmp_path, files)
    assert lines(found) == []
    assert set(found.content.trips) == {"tarrow", "ridge"}
    assert found.texts["trip", "ridge"].path == "trips/ridge/trip.yaml"
    assert found.texts["trip", "ridge"].whole_file


def test_a_trip_is_kept_as_its_words_and_its_places_are_told_as_before(tmp_path: Path) -> None:
    # Of a thousand trips all that was read would take four times the memory.
    kept = read(tmp_path, {**GOOD, "trips/tarrow.yaml": TRIP}).texts["trip", "tarrow"]
    assert kept.kept_node is None
    assert kept.node.entries["days"].place.file == "my/trips/tarrow.yaml"


# -- files --------------------------------------------------------------------------------------


def test_files_that_are_not_read_are_named(tmp_path: Path) -> None:
    files = {
        **GOOD,
        "foods/peas.yml": PEAS,
        "foods/more.YAML": PEAS,
        "trips/ridge/trip.yml": TRIP,
        "foods/empty.yaml": "# nothing yet\n",
        "sources.yml": "[]",
        "home.yml": "{}",
        "recipe/soup.yaml": BEAN_POT,
        "foods.yaml": PEAS,
        "pictures/hut.yaml": "x",
        "foods/notes.txt": "x",
        "foods/.hidden.yaml": "[",
        ".cache/foods/peas.yaml": "[",
        "foods/.old/peas.yaml": "[",
    }
    found = read(tmp_path, files)
    assert lines(found) == [
        "foods.yaml:1:1: warning: this file is not read here — move it into foods/ [file-name]",
        "foods/empty.yaml:1:1: warning: this file is empty — write a record, or delete it [file-name]",
        "foods/more.YAML:1:1: warning: this file is not read: its name ends in .YAML — call it more.yaml [file-name]",
        "foods/peas.yml:1:1: warning: this file is not read: its name ends in .yml — call it peas.yaml [file-name]",
        "home.yml:1:1: warning: this file is not read — call it home.yaml [file-name]",
        "recipe:1:1: warning: this folder is not read — call it recipes [file-name]",
        "sources.yml:1:1: warning: this file is not read — call it sources.yaml [file-name]",
        "trips/ridge/trip.yml:1:1: warning: this file is not read: its name ends in .yml — call it trip.yaml [file-name]",
    ]
    assert "tarrow" in found.content.trips


@pytest.mark.parametrize(
    ("name", "shown", "says"),
    [
        ("AUX", "AUX", "Windows can have no file of this name"),
        ("nul.x", "nul.x", "Windows can have no file of this name"),
        ("peas?", "peas?", "Windows can have no file of this name"),
        ('a"b', 'a"b', "Windows can have no file of this name"),
        ("peas ", "peas ", "Windows can have no file of this name"),
        ("a\u202eb", "a\ufffdb", "this file's name holds signs that nobody sees"),
        ("a\nb", "a\ufffdb", "this file's name holds signs that nobody sees"),
    ],
)
def test_a_file_whose_name_kits_cannot_hand_on_is_told_and_read(
    name: str, shown: str, says: str, tmp_path: Path
) -> None:
    found = read(tmp_path, {**GOOD, f"foods/{name}.yaml": PEAS})
    assert lines(found) == [
        f"foods/{shown}.yaml:1:1: warning: {says} — give it another name [file-name]"
    ]
    assert "peas" in found.content.foods


def test_a_file_that_cannot_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Path.open

    def refuse(path: Path, mode: str = "r", *more: Any, **named: Any) -> Any:
        if path.name == "beans.yaml" and mode == "rb":
            raise PermissionError(13, "Permission denied", str(path))
        return real(path, mode, *more, **named)

    monkeypatch.setattr(Path, "open", refuse)
    found = read(tmp_path, {**GOOD, "foods/peas.yaml": PEAS})
    assert lines(found) == [
        "batches/beans.yaml:1:1: error: this file cannot be read (Permission denied) — check the file and its permissions [file]",
    ]


def test_what_may_stand_in_a_file_that_is_no_yaml_is_not_told_to_be_missing(tmp_path: Path) -> None:
    trip = changed(TRIP, "[pot]", "[pot, big]")
    files = {**GOOD, "trips/tarrow.yaml": trip, "foods/peas.yaml": PEAS}
    assert any("'big'" in line for line in lines(read(tmp_path / "none", files)))
    files["gear/ours.yaml"] = "pots: [{id: big, name: 'Oma's pot'}]"
    (told,) = lines(read(tmp_path / "broken", files))
    assert told.startswith("gear/ours.yaml:") and told.endswith("[yaml]")


def test_what_is_meant_by_an_id_that_is_none_is_not_told_to_be_missing(tmp_path: Path) -> None:
    files = {**GOOD, "batches/beans.yaml": BEANS_IN_MAY.replace("beans-may", "beans_may", 1)}
    (told,) = lines(read(tmp_path, {**files, "foods/peas.yaml": PEAS}))
    assert told.startswith("batches/beans.yaml:") and told.endswith("[id]")


def test_a_file_may_have_a_name_that_cannot_be_printed(tmp_path: Path) -> None:
    folder = write(tmp_path / "my", {"foods/a.yaml": PEAS})
    try:
        os.rename(folder / "foods/a.yaml", os.fsencode(folder) + b"/foods/\xff\n.yaml")
    except OSError:
        pytest.skip("this disk takes no such names")
    (folder / "trips").mkdir()
    (folder / "trips" / "a\nb.yaml").write_text(TRIP)
    found = read_folder([Layer(folder, "my")])
    shown = [str(problem) for problem in found.problems]
    assert shown == [
        "my/foods/\ufffd\ufffd.yaml:1:1: warning: this file's name holds signs that nobody sees — give it another name [file-name]",
        "my/trips/a\ufffdb.yaml:1:1: error: 'a\\nb' cannot be a trip's id — name the file with lower-case letters, digits and hyphens [id]",
    ]
    assert found.content.foods["peas"].places.record.file == "my/foods/\ufffd\ufffd.yaml"
    assert str(found.content.foods["peas"].places.record).encode()


def test_a_loop_of_links_ends(tmp_path: Path) -> None:
    folder = write(tmp_path / "my", {"foods/a.yaml": PEAS})
    (folder / "foods" / "loop").symlink_to(folder / "foods")
    (folder / "foods" / "self.yaml").symlink_to(folder / "foods" / "self.yaml")
    found = read_folder([Layer(folder, "my")])
    assert list(found.content.foods) == ["peas"]


@pytest.mark.parametrize("room", ["foods", "recipes", "batches", "cautions", "gear", "trips"])
@pytest.mark.parametrize("text", ["5", "text", "[1, [2], null]", "{}", "[{}]", "- - -", "true"])
def test_a_file_of_something_else_is_told_and_never_raises(
    room: str, text: str, tmp_path: Path
) -> None:
    found = read(tmp_path, {**GOOD, f"{room}/other.yaml": text})
    own = [line for line in lines(found) if line.startswith(f"{room}/other.yaml:")]
    assert own or (room == "gear" and text == "{}")
    assert "tarrow" in found.content.trips


# -- all problems at once -----------------------------------------------------------------------


def test_all_problems_come_at_once_in_one_order_and_good_records_stay(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {
        **GOOD,
        "foods/b.yaml": f"- {PEAS}- {PEAS.replace('peas', 'split-peas').replace('12 g', '12')}",
        "foods/a.yaml": "- id: lentils\n\tname: Lentils\n",
        "gear/a.yaml": b"\xff",
        "batches/x.yaml": changed(BEANS_IN_MAY, "beans-may", "beans-june").replace(
            "900 g", "9 kcal"
        ),
        "recipes/soup.yaml": "id: soup\nname: Soup\nserves: none\ncook_in: pot\nuses: []\nsteps: []\n",
        "trips/ridge.yaml": changed(TRIP, "cook: bean-pot", "cook: soup"),
        "trips/tops.yaml": changed(TRIP, "each: 30 g", "eech: 30 g"),
    }
    found = read(tmp_path, files)
    assert lines(found) == [
        "batches/x.yaml:5:8: error: fresh: 'kcal' is no unit of mass — known are mg, g, kg, oz, lb, lbs; write 250 g, 1.5 kg or 9 oz [unit-unknown]",
        "foods/a.yaml:2:1: error: a tab stands here — indent with spaces, not with a tab [yaml]",
        "foods/b.yaml:2:78: error: water: '12' has no unit — write one of mg, g, kg, oz, lb, lbs behind it, such as 250 g, 1.5 kg or 9 oz [unit-missing]",
        "gear/a.yaml:1:1: error: this is no UTF-8 text — save the file as UTF-8 [not-utf8]",
        "recipes/soup.yaml:3:9: error: serves takes a bare number, found 'none' — write the number alone, such as `serves: 2` [not-a-number]",
        "recipes/soup.yaml:5:7: error: this recipe uses nothing — name at least one food [empty]",
        "recipes/soup.yaml:6:8: error: this recipe has no steps — write at least `- {do: serve}` [empty]",
        "trips/tops.yaml:9:15: error: this meal has no `each` — write `each: 60 g` [missing]",
        "trips/tops.yaml:9:27: error: a meal has no field 'eech' — did you mean each? [key-unknown]",
    ]
    assert found.problems == in_order(reversed(found.problems))
    content = found.content
    assert set(content.foods) == {"beans", "rice", "oil", "peas"}
    assert (list(content.recipes), list(content.batches)) == (["bean-pot"], ["beans-may"])
    assert list(content.trips) == ["tarrow"]
    assert dangling(content) == []


def test_problems_come_in_the_same_order_each_time(tmp_path: Path) -> None:
    files = {f"foods/f{n}.yaml": f"- {PEAS.replace('12 g', str(n))}" for n in range(9)}
    first, again = read(tmp_path / "a", files), read(tmp_path / "b", files)
    assert lines(first) == lines(again)
    assert [problem.place.file for problem in first.problems] == [
        f"my/foods/f{n}.yaml" for n in range(9)
    ]


def test_a_folder_with_very_many_mistakes_is_answered(tmp_path: Path) -> None:
    text = "".join(f"- {{id: f{n}, nam: x, per_100g: {{water: {n}}}}}\n" for n in range(1500))
    found = read(tmp_path, {**GOOD, "foods/many.yaml": text})
    assert len(found.problems) == 1500 * 5
    assert "tarrow" in found.content.trips


def test_a_bomb_in_one_file_leaves_the_others_readable(tmp_path: Path) -> None:
    bomb = "a: &a [x, x, x, x, x, x, x, x, x, x]\n" + "".join(
        f"{here}: &{here} [{', '.join([f'*{above}'] * 10)}]\n"
        for above, here in zip("abcdefgh", "bcdefghi", strict=True)
    )
    found = read(tmp_path, {**GOOD, "trips/bomb.yaml": bomb})
    assert [problem.kind for problem in found.problems] == ["too-large"]
    assert list(found.content.trips) == ["tarrow"]


def test_an_alias_may_share_a_part_between_days(tmp_path: Path) -> None:
    trip = changed(
        TRIP,
        "days:\n  - camp_altitude: 640 m\n",
        "days:\n"
        "  - {camp_altitude: &high 1480 m, air: &cold {low: -4 degC}, meals: {}}\n"
        "  - camp_altitude: *high\n    air: *cold\n",
    )
    found = read(tmp_path, {**GOOD, "trips/tarrow.yaml": trip})
    assert lines(found) == []
    one, two = found.content.trips["tarrow"].days
    assert (
        (two.camp.altitude_m, two.camp.air_low_c)
        == (1480, -4)
        == (one.camp.altitude_m, one.camp.air_low_c)
    )


def test_a_deep_alias_in_every_day_does_not_exhaust_the_stack(tmp_path: Path) -> None:
    """Such a chain once grew behind keys written twice, which are dropped."""
    chain = "k: &a0 {a: x}\n" + "".join(f"k: &a{n} {{a: *a{n - 1}}}\n" for n in range(1, 3000))
    trip = f"{chain}every_day: {{air: *a2999}}\ndays: [{{air: *a2999}}]\n"
    found = read(tmp_path, {"trips/t.yaml": trip})
    assert {problem.kind for problem in found.problems} == {"key-twice", "too-deep"}


def test_each_record_keeps_its_own_text(tmp_path: Path) -> None:
    found = read(tmp_path, GOOD)
    burner = found.texts["stoves", "burner"]
    assert (burner.section, burner.whole_file) == ("stoves", False)
    assert burner.text[burner.node.start : burner.node.end].startswith("{id: burner,")
    recipe = found.texts["recipe", "bean-pot"]
    assert (recipe.text, recipe.whole_file) == (BEAN_POT, True)
    rice = found.content.foods["rice"]
    assert rice.places.record == Place("small/foods/all.yaml", 3, 3)
    assert rice.places.of("name") == Place("small/foods/all.yaml", 3, 20)


@pytest.mark.parametrize(
    ("path", "here", "said"),
    [
        (
            "recipes/bean-pot.yaml",
            "trips/bean-pot.yaml",
            "a recipe, and not read here — move it into recipes/",
        ),
        (
            "trips/tarrow.yaml",
            "recipes/tarrow.yaml",
            "a trip, and not read here — move it into trips/",
        ),
        (
            "batches/beans.yaml",
            "foods/beans.yaml",
            "a batch, and not read here — move it into batches/",
        ),
        ("home.yaml", "gear/home.yaml", "a home, and not read here — move it out, as home.yaml"),
    ],
)
def test_a_file_in_the_room_of_others_is_told_once_where_it_belongs(
    path: str, here: str, said: str, tmp_path: Path
) -> None:
    files = {**GOOD, "foods/peas.yaml": PEAS, "home.yaml": "{dryers: [], currency: EUR}"}
    files[here] = files.pop(path)
    told = lines(read(tmp_path, files))
    assert told == [f"{here}:1:1: error: these are the keys of {said} [wrong-room]"]
