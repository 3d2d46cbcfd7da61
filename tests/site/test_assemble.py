"""A small kit end to end: whole, harmless, reproducible, and never at the old one's cost."""

from __future__ import annotations

import contextlib
import json
import os
import re
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

import pytest

from builder.record import replace
from builder.site.assemble import build_site
from builder.site.errors import SiteError, of_the_system
from builder.site.folder import archive, swap
from builder.site.site_input import SiteInput
from tests.conftest import files_of
from tests.site.sample import ASSETS, BASE_CONFIG, ROOT, sample_site

MOST_ZIP_BYTES = 500 * 1024


def build(out: Path, site: SiteInput | None = None) -> Path:
    site = site or sample_site()
    build_site(site, out, ASSETS, BASE_CONFIG)
    return out / site.trip_id


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(tmp_path_factory.mktemp("kits"))


def test_the_kit_holds_what_was_given_and_what_a_kit_needs(kit: Path) -> None:
    names = set(files_of(kit))
    assert {
        "index.html",
        "day-1.html",
        "day-2.html",
        "cook/bean-pot.html",
        "cautions.html",
        "pocket.html",
        "kit.json",
        "sw.js",
        "webmanifest.json",
        "search/search_index.js",
        "assets/licences.txt",
        "assets/kit.css",
        "assets/kit.js",
        "assets/search.js",
        "assets/icon.svg",
    } <= names


def test_the_kit_holds_nothing_no_one_uses(kit: Path) -> None:
    odd = [
        name
        for name in files_of(kit)
        if name.endswith((".map", ".md", ".gz", "search_index.json"))
        or name.startswith("assets/javascripts")
        or name in ("404.html", "sitemap.xml")
        or name.startswith("assets/pocket")
    ]
    assert odd == []


def test_nothing_is_left_beside_the_kit(kit: Path) -> None:
    names = [path.relative_to(kit.parent).as_posix() for path in kit.parent.glob("*")]
    own = [path.relative_to(kit.parent).as_posix() for path in kit.parent.glob(".built/*")]
    assert sorted(names) == [".built", "lake-walk", "lake-walk.zip"]
    assert sorted(own) == [
        ".built/lake-walk.json",
        ".built/lake-walk.lock",
        ".built/trip-kits.txt",
    ]


def test_the_zip_is_the_folder_and_small(kit: Path, tmp_path: Path) -> None:
    packed = kit.parent / "lake-walk.zip"
    assert packed.stat().st_size <= MOST_ZIP_BYTES
    archive.unpack(packed, tmp_path / "back")
    assert files_of(tmp_path / "back" / "lake-walk") == files_of(kit)


def test_each_page_carries_its_policy_first_and_no_outside_address(kit: Path) -> None:
    for name, content in files_of(kit).items():
        if not name.endswith(".html"):
            continue
        html = content.decode()
        head = html[: html.index("<title>")]
        assert re.search(
            r'<meta charset="utf-8">\s*<meta http-equiv="Content-Security-Policy"', head
        ), name
        assert not re.search(r'\b(?:src|srcset)="(?:https?:)?//', html), name
        assert not re.search(r'<link[^>]+href="(?:https?:)?//', html), name
        assert " style=" not in html, name


def test_every_page_says_the_standing_sentence(kit: Path) -> None:
    for page in ["index.html", "day-1.html", "cook/bean-pot.html", "cautions.html"]:
        html = (kit / page).read_text(encoding="utf-8")
        assert "Local rules and official or licensed advice come first." in html


def test_titles_are_only_text_everywhere(tmp_path: Path) -> None:
    bad = "</title><script>bad()</script>\"'&amp; <b>"
    site = sample_site(title=bad)
    site = replace(site, nav=((bad, "index.md"), (bad, (*site.nav[1:],))))
    kit = build(tmp_path, site)
    for page in kit.rglob("*.html"):
        html = page.read_text(encoding="utf-8")
        assert "<script>bad()" not in html, page
        assert "<b>" not in html, page


def test_the_same_input_gives_the_same_bytes(
    kit: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1")
    again = build(tmp_path)
    assert files_of(again) == files_of(kit)
    assert (tmp_path / "lake-walk.zip").read_bytes() == (kit.parent / "lake-walk.zip").read_bytes()
    assert os.environ["SOURCE_DATE_EPOCH"] == "1"


def test_a_second_build_replaces_the_first(tmp_path: Path) -> None:
    build(tmp_path)
    site = sample_site(extra_page="\nA new line.\n")
    kit = build(tmp_path, replace(site, files={**site.files, "map.svg": b"<svg></svg>"}))
    assert "A new line." in (kit / "cautions.html").read_text(encoding="utf-8")
    again = build(tmp_path)
    assert not (again / "map.svg").exists()


FAULTY_TEXTS = {
    # On a plain page our own checks find it, on any other the generator does, which is first.
    "dead link": ("\n[x](gone.md)\n", "did not pass the checks"),
    "dead anchor": ("\n[x](day-1.md#gone)\n", "did not pass the checks"),
    "dead link, not plain": ("\n[`x`](gone.md)\n", "dead links"),
    "dead anchor, not plain": ("\n[`x`](day-1.md#gone)\n", "dead links"),
    "script": ("\n<script>bad()</script>\n", "did not pass the checks"),
    "handler": ('\n<p onclick="bad()">x</p>\n', "did not pass the checks"),
    "style": ('\n<p style="color:red">x</p>\n', "did not pass the checks"),
    "outside picture": ("\n![x](https://example.org/x.png)\n", "did not pass the checks"),
    "script link": ("\n[x](javascript:bad())\n", "did not pass the checks"),
}


@pytest.mark.parametrize("fault", sorted(FAULTY_TEXTS))
def test_a_faulty_page_stops_the_build_and_leaves_the_old_kit(tmp_path: Path, fault: str) -> None:
    kit = build(tmp_path)
    before = files_of(tmp_path)
    text, message = FAULTY_TEXTS[fault]
    with pytest.raises(SiteError, match=message) as stopped:
        build(tmp_path, sample_site(extra_page=text))
    assert stopped.value.hints or stopped.value.problems
    assert files_of(tmp_path) == before
    assert kit.exists()


@pytest.mark.parametrize(("word", "page"), [("x", "gone.html"), ("`x`", "gone.md")])
def test_every_dead_link_is_told_at_once(tmp_path: Path, word: str, page: str) -> None:
    with pytest.raises(SiteError) as stopped:
        build(tmp_path, sample_site(extra_page=f"\n[{word}](gone.md) [y](day-1.md#gone)\n"))
    told = "\n".join([*stopped.value.hints, *map(str, stopped.value.problems)])
    assert page in told
    assert "#gone" in told


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"trip_id": "../walk"}, "cannot be files of a kit"),
        ({"trip_id": "a/walk"}, "cannot be files of a kit"),
        ({"files": {"kit.json": b"{}", "../x": b""}}, "cannot be files of a kit"),
        ({"files": {"kit.json": b"{}", "KIT.json": b""}}, "taken twice"),
        ({"files": {"kit.json": b"{}", "pocket.html": b""}}, "taken twice"),
        ({"files": {"kit.json": b"{}", "day-1.html": b""}}, "taken twice"),
        ({"files": {"kit.json": b"{}", "assets/kit.js": b""}}, "cannot be files of a kit"),
        ({"files": {}}, "needs its kit.json"),
        ({"nav": (("A", "index.md"),)}, "does not list each page once"),
    ],
)
def test_input_that_cannot_be_a_kit_is_refused(
    tmp_path: Path, change: dict[str, object], message: str
) -> None:
    with pytest.raises(SiteError, match=message):
        build(tmp_path, replace(sample_site(), **change))  # type: ignore[arg-type]
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_came_into_the_kit_while_it_was_built_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kit = build(tmp_path)
    real = archive.zip_folder

    def meanwhile(folder: Path, target: Path, epoch: int, top: str = "") -> None:
        (kit / "photo.jpg").write_text("mine")
        real(folder, target, epoch, top)

    monkeypatch.setattr("builder.site.folder.archive.zip_folder", meanwhile)
    with pytest.raises(SiteError, match=r"photo\.jpg is there already and was not made by tripkit"):
        build(tmp_path)
    assert (kit / "photo.jpg").read_text() == "mine"
    assert [path.name for path in sorted(tmp_path.glob(".built/*"))] == [
        "lake-walk.json",
        "lake-walk.lock",
        "trip-kits.txt",
    ]


def test_a_full_disk_leaves_the_old_kit_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    build(tmp_path)
    before = files_of(tmp_path)

    def full(_: object, target: Path, *__: object, **___: object) -> None:
        raise OSError(28, "No space left on device", str(target))

    monkeypatch.setattr("builder.site.folder.archive.zip_folder", full)
    with pytest.raises(SiteError) as stopped:
        build(tmp_path)
    # Where the build keeps its own files for a while is nothing a person knows of.
    says = f"the kit lake-walk could not be written: No space left on device ({tmp_path})"
    assert stopped.value.message == says
    assert "whole kits stay as they are" in stopped.value.hints[0]
    assert files_of(tmp_path) == before


# The administrator may write anywhere, so the build steps down to "nobody" once all is imported.
BUILD_AS_NOBODY = """
import os, sys
from pathlib import Path
from builder.site.assemble import build_site
from builder.site.errors import SiteError, of_the_system
from tests.conftest import files_of
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site
if os.geteuid() == 0:
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
out = Path(sys.argv[1])
assert os.listdir(out) == ["readable.txt"]
try:
    build_site(sample_site(), out, ASSETS, BASE_CONFIG)
except SiteError as error:
    print(error)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="rights of folders are a Unix thing")
def test_a_read_only_folder_is_told() -> None:
    # Not below pytest's own folder, which nobody else may enter.
    with tempfile.TemporaryDirectory() as name:
        os.chmod(name, 0o755)
        out = Path(name) / "kits"
        out.mkdir()
        (out / "readable.txt").write_text("x")
        out.chmod(0o555)
        told = subprocess.run(
            [sys.executable, "-c", BUILD_AS_NOBODY, str(out)],
            cwd=ROOT,
            capture_output=True,
            text=True,
            timeout=60,
        )
        out.chmod(0o755)
        left = [path.name for path in out.iterdir()]
    assert told.stderr == ""
    assert "could not be written: Permission denied" in told.stdout
    assert left == ["readable.txt"]


def test_a_file_of_the_tool_that_cannot_be_read_is_told_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    build(tmp_path)
    before = files_of(tmp_path)

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied", str(ASSETS / "assets/kit.css"))

    monkeypatch.setattr("builder.site.assemble.written", refuse)
    with pytest.raises(SiteError) as stopped:
        build(tmp_path)
    assert stopped.value.message == f"{ASSETS}/assets/kit.css cannot be read (Permission denied)"
    assert files_of(tmp_path) == before


@pytest.mark.parametrize(
    ("number", "path", "says"),
    [
        (13, "kits", "x could not be written: Permission denied (kits)"),
        (13, "kits/fell", "x could not be written: Permission denied (kits/fell)"),
        (13, "kits/.built", "x could not be written: Permission denied (kits/.built)"),
        (13, "kits/.built/fell.new/a.html", "x could not be written: Permission denied (kits)"),
        (28, None, "x could not be written: No space left on device (kits)"),
        (13, "trips/a.yaml", "trips/a.yaml cannot be read (Permission denied)"),
        (13, "kits-of-mine/a.css", "kits-of-mine/a.css cannot be read (Permission denied)"),
        # Where the folder of kits is to be made, and what only writing meets.
        (13, ".", "x could not be written: Permission denied (.)"),
        (28, "/elsewhere", "x could not be written: No space left on device (/elsewhere)"),
    ],
)
def test_what_the_system_refuses_is_told_as_it_is(number: int, path: str | None, says: str) -> None:
    error = OSError(number, os.strerror(number), path)
    out = Path("kits")
    assert of_the_system(error, "x", out, out / ".built").message == says


def test_a_file_in_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "kits").write_text("x")
    with pytest.raises(SiteError, match="could not be written"):
        build(tmp_path / "kits")


def test_an_interrupted_swap_is_finished_before_the_next_build(tmp_path: Path) -> None:
    kit = build(tmp_path)
    kit.rename(swap.old_folder(tmp_path, "lake-walk"))
    build(tmp_path, sample_site(trip_id="other-walk"))
    assert json.loads((kit / "kit.json").read_text())["trip"]["id"] == "lake-walk"
    assert not swap.old_folder(tmp_path, "lake-walk").exists()


def test_the_zip_carries_the_date_of_the_trip(kit: Path) -> None:
    with zipfile.ZipFile(kit.parent / "lake-walk.zip") as packed:
        assert {entry.date_time for entry in packed.infolist()} == {(2030, 9, 6, 0, 0, 0)}


BUILD_IT = """
import sys
from pathlib import Path
from builder.site.assemble import build_site
from tests.conftest import files_of
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site
build_site(sample_site(extra_page=sys.argv[2]), Path(sys.argv[1]), ASSETS, BASE_CONFIG)
"""


def test_two_builds_at_once_leave_one_whole_kit(tmp_path: Path) -> None:
    running = [
        subprocess.Popen([sys.executable, "-c", BUILD_IT, str(tmp_path), line], cwd=ROOT)
        for line in ("First line.", "Second line.")
    ]
    assert [process.wait(timeout=60) for process in running] == [0, 0]
    archive.unpack(tmp_path / "lake-walk.zip", tmp_path / "back")
    assert files_of(tmp_path / "back" / "lake-walk") == files_of(tmp_path / "lake-walk")
    assert not swap.old_folder(tmp_path, "lake-walk").exists()


@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is a Unix thing")
@pytest.mark.parametrize("after_s", [0.2, 0.4, 0.6, 0.8])
def test_a_build_killed_at_any_moment_leaves_the_old_kit_or_the_new(
    tmp_path: Path, after_s: float
) -> None:
    build(tmp_path)
    before = files_of(tmp_path / "lake-walk")
    process = subprocess.Popen(
        [sys.executable, "-c", BUILD_IT, str(tmp_path), "A new line."], cwd=ROOT
    )
    with contextlib.suppress(subprocess.TimeoutExpired):
        process.wait(timeout=after_s)
    process.kill()
    process.wait()
    swap.recover(tmp_path)
    after = files_of(tmp_path / "lake-walk")
    assert after == before or b"A new line." in after["cautions.html"]
    archive.unpack(tmp_path / "lake-walk.zip", tmp_path / "back")
    assert files_of(tmp_path / "back" / "lake-walk") == after
