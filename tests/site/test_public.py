"""A public build holds nothing private in any of its files: pages, data, zips, stamps."""

from __future__ import annotations

import json
import re
import zipfile
from pathlib import Path

import jsonschema

from tests.conftest import tripkit
from tests.pictured import from_a_camera
from tests.planning.folders import Record, write_folder
from tests.planning.test_public import BATCH, STEW, private_trip

# Words and numbers as the files of private_trip tell them.
PRIVATE = (
    "zq", "2031-", "62.3", "165.7", "12.7", "81.9", "181.3", "18.1", "1213", "871.3", "437", "213",
    "11.37", "11370", "9100", "62300", "700.7", "500.3", "hand.yaml", "foods/", "12700", "18100",
)  # fmt: skip


def all_files(out: Path) -> dict[str, bytes]:
    """Give every file of a folder with its name, and those in zips."""
    found: dict[str, bytes] = {}
    for path in sorted(out.rglob("*")):
        name = path.relative_to(out).as_posix()
        if path.is_file() and path.suffix != ".zip":
            found[name] = path.read_bytes()
        if path.suffix == ".zip":
            with zipfile.ZipFile(path) as packed:
                found |= {f"{name}/{each}": packed.read(each) for each in packed.namelist()}
                assert not any(each.comment or each.extra for each in packed.infolist())
    return found


def told_in(files: dict[str, bytes], mark: str, but: str = "") -> list[str]:
    """Name the files in which a word or a whole number stands."""
    number = rf"(?<![\w.,]){re.escape(mark)}(?!\w)"  # and no part of a hash
    looked_for = re.compile(number if mark[-1].isdigit() else re.escape(mark))
    return [
        name
        for name, content in files.items()
        if looked_for.search(f"{name}\n{content.decode('utf-8', 'ignore')}")
        and not (but and re.search(but, name))
    ]


def with_pictures() -> tuple[dict[str, Record], list[Record], list[Record]]:
    """Give a trip, a recipe and a batch that tell pictures wherever one may stand."""
    picture = {"picture": {"file": "zqPicture.jpg", "shows": "zqShows"}}
    trip = private_trip(**picture)
    trip["days"] = [{**each, **picture} for each in trip["days"]]
    steps = [{**each, **picture} for each in STEW["steps"]]  # type: ignore[attr-defined]
    return {"hand": trip}, [{**STEW, **picture, "steps": steps}], [{**BATCH, **picture}]


def test_no_file_of_a_public_build_holds_what_is_private(in_empty_folder: Path) -> None:
    write_folder(Path("content"), *with_pictures())
    for room in ("trips", "recipes", "batches"):
        Path("content", room, "zqPicture.jpg").write_bytes(from_a_camera())
    for out, arguments in (("public", ("--public",)), ("private", ())):
        result = tripkit("build", *arguments, "--out", out)
        assert result.exit_code == 0, result.output
    public, private = all_files(Path("public")), all_files(Path("private"))
    # The theme's own files hold numbers of all kinds.
    theme = r"assets/|\.png$|licences"
    found = {mark: told_in(public, mark, theme) for mark in (*PRIVATE, str(in_empty_folder))}
    assert not {mark: names for mark, names in found.items() if names}
    assert not any("pictures/" in name for name in public)
    assert any("pictures/" in name for name in private)
    for mark in ("zqEa", "zqTitle", "zqNotes", "zqShows", "62.3", "2031-", "1213"):
        assert told_in(private, mark, theme), mark
    assert not any(name.endswith("content.zip") for name in public)
    assert not any("person-" in name for name in public)
    assert told_in(public, "stew", theme)
    numbers = "".join(public[f"hand/{page}.html"].decode() for page in ("numbers", "numbers/day-1"))
    assert "the party&#x27;s own files" in numbers and "of all, in steps" in numbers
    assert not re.search(r">\s*days\.\d", numbers)
    data = json.loads(public["hand/kit.json"])
    jsonschema.validate(data, json.loads(public["hand/kit.schema.json"]))
    # Nothing says of what all was made: a private number could be tried against it.
    assert not any("_last" in name for name in public)
    assert any("_last" in name for name in private)


def test_a_change_within_a_step_gives_the_same_bytes(in_empty_folder: Path) -> None:
    built: list[dict[str, bytes]] = []
    for mass, height in (("62.3 kg", "1213 m"), ("63.7 kg", "1280 m")):
        trip = private_trip()
        trip["party"][0]["mass"] = mass
        trip["days"][0]["camp_altitude"] = height
        write_folder(Path("content"), {"hand": trip}, [STEW], [BATCH])
        result = tripkit("build", "--public", "--out", f"out-{len(built)}")
        assert result.exit_code == 0, result.output
        built.append(all_files(Path(f"out-{len(built)}")))
    assert built[0] == built[1]


def test_names_are_told_once_where_the_trip_wants_it(in_empty_folder: Path) -> None:
    trip = private_trip(public_names=True)
    write_folder(Path("content"), {"hand": trip}, [STEW], [BATCH])
    assert tripkit("build", "--public", "--out", "out").exit_code == 0
    files = all_files(Path("out/hand"))
    data = json.loads(files["kit.json"])
    assert [each["name"] for each in data["trip"]["party"]] == ["zqEa", "zqBo"]
    assert data["trip"]["party"][0]["energy_need_kcal"] is None
    assert all(not meal["names"] for each in data["days"] for meal in each["meals"])
    html = {name for name in told_in(files, "zqBo") if name.endswith(".html")}
    assert html == {"index.html", "pocket.html"}
