"""Which file of a zip tells the kit: one that lies at its top, or in the one folder there."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from builder.site.errors import SiteError
from builder.site.folder.old_kit import read_old_kit


@pytest.mark.parametrize(
    "names",
    [
        (),
        ("index.html",),
        ("trip/index.html",),
        ("trip/deep/kit.json",),
        ("one/kit.json", "other/kit.json"),
        ("kit.json", "trip/kit.json"),
        ("trip/not-kit.json",),
    ],
)
def test_a_zip_that_tells_no_one_kit_is_none(names: tuple[str, ...], tmp_path: Path) -> None:
    archive = tmp_path / "kit.zip"
    with zipfile.ZipFile(archive, "w") as file:
        for name in names:
            file.writestr(name, "{}")
    with pytest.raises(SiteError, match=r"is no kit: it holds no kit\.json"):
        read_old_kit(archive)


@pytest.mark.parametrize("name", ["kit.json", "trip/kit.json"])
def test_the_file_is_found_at_the_top_and_in_a_folder(name: str, tmp_path: Path) -> None:
    archive = tmp_path / "kit.zip"
    with zipfile.ZipFile(archive, "w") as file:
        file.writestr(name, "{}")
        file.writestr("trip/deep/kit.json", "{}")
    with pytest.raises(SiteError) as told:
        read_old_kit(archive)
    assert "holds no" not in str(told.value)
