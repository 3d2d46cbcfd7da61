"""A sealed page is put in place whole, and over nothing that the tool did not make."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder.site.errors import SiteError
from builder.site.folder.made import OWN_FOLDER
from builder.site.folder.swap import recover
from builder.site.sealing.place import put_page, sealed_file

PAGES = ("one", "two", "three")


def test_each_page_takes_the_place_of_the_one_before(tmp_path: Path) -> None:
    for page in PAGES:
        assert put_page(tmp_path, "fell", page) == tmp_path / "fell-sealed.html"
        assert sealed_file(tmp_path, "fell").read_text() == page
    assert not list((tmp_path / OWN_FOLDER).glob("*.new"))


@pytest.mark.parametrize("kind", ["file", "edited", "folder", "link", "dead link", "forgotten"])
def test_what_is_not_ours_stays(kind: str, tmp_path: Path) -> None:
    out = tmp_path / "kits"
    place = sealed_file(out, "fell")
    put_page(out, "fell", "one")
    (tmp_path / "theirs").write_text("one")
    if kind == "edited":
        place.write_text("one, and a note of mine")
    elif kind == "forgotten":
        (out / OWN_FOLDER / "_sealed-fell.json").write_text("[")
    else:
        place.unlink()
        if kind == "file":
            place.write_text("mine")
        elif kind == "folder":
            place.mkdir()
        else:
            place.symlink_to(tmp_path / ("theirs" if kind == "link" else "nowhere"))
    with pytest.raises(SiteError, match="was not made by tripkit"):
        put_page(out, "fell", "two")
    assert (tmp_path / "theirs").read_text() == "one"
    assert place.is_symlink() or place.is_dir() or place.read_text() != "two"


@pytest.mark.parametrize("after", [0, 1])
def test_a_kill_leaves_one_of_both_whole(
    after: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_page(tmp_path, "fell", "one")
    replaced: list[Path] = []
    real = os.replace

    def killed(source: Path, target: Path) -> None:
        if len(replaced) == after:
            raise KeyboardInterrupt
        replaced.append(target)
        real(source, target)

    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", killed)
        with pytest.raises(KeyboardInterrupt):
            put_page(tmp_path, "fell", "two")
    recover(tmp_path)
    assert sealed_file(tmp_path, "fell").read_text() == "one"
    put_page(tmp_path, "fell", "three")
    assert sealed_file(tmp_path, "fell").read_text() == "three"
