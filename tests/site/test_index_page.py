"""The list of kits: newest first, harmless, and never over someone else's page."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path

import pytest

from builder.site.errors import SiteError
from builder.site.folder.index_page import LARGEST_DATA_BYTES, MARK, find_kits, write_index


def put_kit(out: Path, folder: str, title: object, start: object, days: int = 2) -> None:
    (out / folder).mkdir(parents=True)
    trip = {"id": folder, "title": title, "start": start, "party": [{}, {}]}
    data = {"format": "trip-kit", "trip": trip, "days": [{}] * days}
    (out / folder / "kit.json").write_text(json.dumps(data))


def test_kits_come_newest_first_and_undated_ones_last(tmp_path: Path) -> None:
    put_kit(tmp_path, "old", "Old", "2030-05-01")
    put_kit(tmp_path, "plain-b", "b plain", None)
    put_kit(tmp_path, "new", "New", "2031-05-01")
    put_kit(tmp_path, "plain-a", "A plain", "")
    assert [kit.folder for kit in find_kits(tmp_path)] == ["new", "old", "plain-a", "plain-b"]


def test_the_page_names_each_kit_with_its_ways_in(tmp_path: Path) -> None:
    put_kit(tmp_path, "fell", "Fell", "2031-05-01", days=1)
    write_index(tmp_path)
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    for part in ("fell/index.html", "fell/pocket.html", "fell.zip"):
        assert f'href="{part}"' in page
    assert "2031-05-01 · 1 day · 2 people" in page
    assert 'lang="en"' in page
    assert page.index("Content-Security-Policy") < page.index("<title>")
    assert "<script" not in page


def test_one_kit_is_told_in_just_these_words(tmp_path: Path) -> None:
    put_kit(tmp_path, "fell", "Fell & back", None, days=0)
    write_index(tmp_path)
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert page.partition("<ul>\n")[2].partition("\n</ul>")[0] == (
        '<li><a href="fell/index.html">Fell &amp; back</a>\n<p class="facts">2 people</p>\n'
        '<p><a href="fell/pocket.html" aria-label="On one page: Fell &amp; back">On one page</a>'
        '<a href="fell.zip" aria-label="As a zip to hand around: Fell &amp; back">'
        "As a zip to hand around</a></p></li>"
    )


def test_kits_of_one_day_come_by_title_and_then_by_folder(tmp_path: Path) -> None:
    assert find_kits(tmp_path) == []
    for folder, title in (("b", "same"), ("a", "Same"), ("c", "Other"), ("d", "same")):
        put_kit(tmp_path, folder, title, "2031-05-01")
    assert [kit.folder for kit in find_kits(tmp_path)] == ["c", "a", "b", "d"]
    write_index(tmp_path)
    assert "2031-05-01 · 2 days · 2 people" in (tmp_path / "index.html").read_text("utf-8")


def test_the_list_is_remembered_by_its_hash(tmp_path: Path) -> None:
    put_kit(tmp_path, "fell", "Fell", "2031-05-01")
    told = write_index(tmp_path)
    assert told == hashlib.sha256((tmp_path / "index.html").read_bytes()).hexdigest()
    put_kit(tmp_path, "tarn", "Tarn", "2032-05-01")
    assert write_index(tmp_path) != told


def test_titles_are_only_text(tmp_path: Path) -> None:
    put_kit(tmp_path, "fell", '<script>"x"</script>&', "2031-05-01<b>")
    write_index(tmp_path)
    page = (tmp_path / "index.html").read_text(encoding="utf-8")
    assert "<script" not in page
    assert "&lt;script&gt;&quot;x&quot;&lt;/script&gt;&amp;" in page
    assert "<b>" not in page


@pytest.mark.parametrize("text", ["", "[]", "{}", "nonsense", '{"format": "other"}', "[" * 100_000])
def test_folders_that_are_no_kits_are_left_out(tmp_path: Path, text: str) -> None:
    (tmp_path / "odd").mkdir()
    (tmp_path / "odd" / "kit.json").write_text(text)
    write_index(tmp_path)
    assert "No kit has been built yet" in (tmp_path / "index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("trip", [None, [], {"title": 5, "party": "x", "start": 7}])
def test_a_kit_with_odd_data_is_listed_all_the_same(tmp_path: Path, trip: object) -> None:
    (tmp_path / "odd").mkdir()
    (tmp_path / "odd" / "kit.json").write_text(json.dumps({"format": "trip-kit", "trip": trip}))
    (kit,) = find_kits(tmp_path)
    title = "5" if isinstance(trip, dict) else "odd"
    assert (kit.folder, kit.title, kit.start, kit.people_count) == ("odd", title, "", 0)


def test_an_unchanged_list_is_not_written_again(tmp_path: Path) -> None:
    put_kit(tmp_path, "fell", "Fell", "2031-05-01")
    write_index(tmp_path)
    before = (tmp_path / "index.html").stat().st_mtime_ns
    write_index(tmp_path)
    assert (tmp_path / "index.html").stat().st_mtime_ns == before


@pytest.mark.parametrize("kind", ["page", "long page", "folder", "link", "dead link"])
def test_a_page_of_someone_else_is_not_overwritten(tmp_path: Path, kind: str) -> None:
    index, mine = tmp_path / "index.html", tmp_path / "mine.html"
    mine.write_text(MARK)
    if kind == "folder":
        index.mkdir()
    elif "link" in kind:
        index.symlink_to(mine if kind == "link" else tmp_path / "gone.html")
    else:
        index.write_text("my own page" + kind.count("long") * (" " * 5000 + MARK))
    before = index.lstat()
    with pytest.raises(SiteError, match=r"index\.html is there already and was not made by trip"):
        write_index(tmp_path)
    assert index.lstat() == before
    assert mine.read_text() == MARK
    assert not (tmp_path / "gone.html").exists()


def test_a_list_that_was_cut_off_is_written_anew(tmp_path: Path) -> None:
    write_index(tmp_path)
    whole = (tmp_path / "index.html").read_text(encoding="utf-8")
    for rest in (whole[:-200], ""):
        (tmp_path / "index.html").write_text(rest, encoding="utf-8")
        write_index(tmp_path)
        assert (tmp_path / "index.html").read_text(encoding="utf-8") == whole


def test_hidden_folders_of_a_running_build_are_not_listed(tmp_path: Path) -> None:
    put_kit(tmp_path, ".fell.new", "Fell", "2031-05-01")
    assert find_kits(tmp_path) == []


def test_data_that_no_kit_has_is_passed_over(tmp_path: Path) -> None:
    for folder, size in (("huge", LARGEST_DATA_BYTES + 1), ("large", LARGEST_DATA_BYTES)):
        put_kit(tmp_path, folder, folder, "2031-04-01")
        text = (tmp_path / folder / "kit.json").read_text()
        (tmp_path / folder / "kit.json").write_text(text + " " * (size - len(text)))
    (tmp_path / "pipe").mkdir()
    os.mkfifo(tmp_path / "pipe/kit.json")
    put_kit(tmp_path, "fell", "Fell", "2031-05-01")
    assert [kit.folder for kit in find_kits(tmp_path)] == ["fell", "large"]


@pytest.mark.parametrize(
    ("languages", "lang", "title"),
    [(("de", "de"), "de", "Tourhefte"), (("de", "nb"), "en", "Trip kits"), (("xx",), "en", "Trip")],
)
def test_the_page_speaks_the_language_that_all_kits_share(
    tmp_path: Path, languages: tuple[str, ...], lang: str, title: str
) -> None:
    for number, language in enumerate(languages):
        put_kit(tmp_path, f"kit-{number}", "Fell", "2031-05-01")
        data = json.loads((tmp_path / f"kit-{number}" / "kit.json").read_text())
        data["trip"]["language"] = language
        (tmp_path / f"kit-{number}" / "kit.json").write_text(json.dumps(data))
    write_index(tmp_path)
    page = (tmp_path / "index.html").read_text("utf-8")
    assert f'<html lang="{lang}">' in page
    assert f"<h1>{title}" in page
