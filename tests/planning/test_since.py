"""What changed since the kit that the companions have."""

from __future__ import annotations

import copy
import json
import zipfile
from pathlib import Path
from typing import Any

import pytest

from builder.model.kit import Kit
from builder.pages.trip.origins.kit_json import kit_data
from builder.planning.since import changes_since
from builder.site.errors import SiteError
from builder.site.folder.old_kit import read_old_kit
from tests.planning.folders import Record, day, day_trip, hand, uses

POT: Record = {
    "id": "kernel-pot", "meal": ["dinner"], "serves": 2, "cook_in": "pot",
    "uses": uses(kernel="200 g", oil="20 g"),
    "steps": [{"do": "boil", "with": ["kernel", "oil"], "water": "600 ml"}],
}  # fmt: skip


def planned(folder: Path, nuts: str = "50 g", **more: object) -> Kit:
    meals: Record = {
        "dinner": [{"cook": "kernel-pot"}],
        "snacks": [{"eat": "kernel-nut", "each": nuts}],
    }
    return hand(folder, day_trip(days=[day(meals)], **more), [POT]).kit()


def data_of(kit: Kit) -> Any:
    return json.loads(json.dumps(kit_data(kit), default=float))


def zipped(folder: Path, data: object, name: str = "hand/kit.json") -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "old.zip"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr(name, data if isinstance(data, str) else json.dumps(data))
    return path


def test_the_same_kit_has_changed_in_nothing(tmp_path: Path) -> None:
    kit = planned(tmp_path / "kit")
    old = read_old_kit(zipped(tmp_path / "zip", data_of(kit)))
    assert old.trip == "hand"
    assert changes_since(old, kit) == ()


def test_amounts_dishes_and_the_date_are_told(tmp_path: Path) -> None:
    kit = planned(tmp_path / "kit")
    old = read_old_kit(zipped(tmp_path / "zip", data_of(kit)))
    new = planned(tmp_path / "new", nuts="80 g", start="2031-06-02")
    told = changes_since(old, new)
    # Who carries what may change with what it weighs.
    assert {each.kind for each in told} - {"carries", "carries-no-more"} == {"start", "amount"}
    amount = next(each for each in told if each.kind == "amount")
    assert (amount.day, amount.before, amount.now) == (1, 100, 160)
    gone = copy.deepcopy(data_of(kit))
    gone["days"][0]["meals"][0]["title"] = "Soup"
    gone["cautions"].append({"id": "x", "title": "Mind the moose", "text": ""})
    gone["weights"]["people"][0]["carries"] = []
    told = changes_since(read_old_kit(zipped(tmp_path / "gone", gone)), kit)
    kinds = {each.kind for each in told}
    assert {"dish-new", "dish-gone", "carries", "caution-gone"} <= kinds
    assert "Soup" in {each.what for each in told if each.kind == "dish-gone"}


def spoilt(**changes: object) -> Any:
    return {
        "format": "trip-kit",
        "version": 2,
        "trip": {"id": "a"},
        "days": [],
        "fuel": None,
        "weights": {"people": []},
        "cautions": [],
        **changes,
    }


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ("{", "damaged, or not of this tool"),
        ("[]", "damaged, or not of this tool"),
        ("[" * 100_000, "damaged, or not of this tool"),
        (spoilt(format="other"), "damaged, or not of this tool"),
        (spoilt(version=99), "made by a newer version"),
        (spoilt(version="2"), "damaged, or not of this tool"),
        (spoilt(days={}), "damaged, or not of this tool"),
        (spoilt(days=[{"day": 1, "meals": [{"meal": "d", "mass_g": -1}]}]), "damaged"),
        (spoilt(cautions=[{"id": 1, "text": ""}]), "damaged, or not of this tool"),
    ],
)
def test_what_is_no_good_kit_is_told_plainly(tmp_path: Path, data: object, says: str) -> None:
    with pytest.raises(SiteError) as stopped:
        read_old_kit(zipped(tmp_path, data))
    assert says in stopped.value.message
    assert stopped.value.hints


def test_a_zip_without_a_kit_and_no_zip_are_told(tmp_path: Path) -> None:
    with pytest.raises(SiteError, match=r"holds no kit\.json"):
        read_old_kit(zipped(tmp_path, "{}", "hand/other.json"))
    (tmp_path / "no.zip").write_text("no zip", "utf-8")
    with pytest.raises(SiteError, match="cannot be unpacked"):
        read_old_kit(tmp_path / "no.zip")
    with pytest.raises(SiteError, match="no file"):
        read_old_kit(tmp_path / "gone.zip")
    assert read_old_kit(zipped(tmp_path / "good", spoilt())).trip == "a"


def test_data_that_is_too_large_is_not_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    archive = zipped(tmp_path / "zip", data_of(planned(tmp_path / "kit")))
    monkeypatch.setattr("builder.site.folder.old_kit.MOST_DATA_BYTES", 1000)
    with pytest.raises(SiteError, match=r"the kit\.json in .*old\.zip is too large"):
        read_old_kit(archive)
