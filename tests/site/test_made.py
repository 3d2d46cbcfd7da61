"""Only what the tool made is touched, and a kit that was damaged is known."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from builder.site.errors import SiteError
from builder.site.folder import made, swap

TRIP = "fell"


def put_kit(out: Path) -> made.Made:
    """Put a kit of a few files, and what is remembered of it."""
    kit = out / TRIP
    (kit / "cook").mkdir(parents=True)
    for name in ("index.html", "kit.json", "cook/soup.html"):
        (kit / name).write_text(f"text of {name}")
    (out / f"{TRIP}.zip").write_bytes(b"PK" + bytes(range(200)))
    made.claim(out)
    told = made.describe(kit, out / f"{TRIP}.zip", "this")
    made.write_made(made.record(out, TRIP), told)
    return told


def refused(out: Path) -> list[str]:
    """Give what a build would refuse to write over."""
    before = everything(out)
    try:
        made.refuse_foreign(out, TRIP)
    except SiteError as error:
        named = [error.message.split(" ")[0], *error.hints[:-1]]
        assert everything(out) == before
        return sorted({Path(name).relative_to(out).as_posix() for name in named})
    return []


def everything(out: Path) -> Mapping[str, tuple[str, int]]:
    """Give all that lies in a folder, links not followed."""
    found = {}
    for at, folders, files in os.walk(out):
        for name in (*folders, *files):
            path = Path(at, name)
            told = path.lstat()
            found[str(path)] = (os.readlink(path) if path.is_symlink() else "", told.st_mtime_ns)
    return found


def test_what_is_remembered_reads_as_it_was_written(tmp_path: Path) -> None:
    told = put_kit(tmp_path)
    assert made.made_of(tmp_path, TRIP) == told
    assert set(told.files) == {"index.html", "kit.json", "cook/soup.html"}
    assert refused(tmp_path) == []


@pytest.mark.parametrize(
    "text",
    [
        *("", "{}", "[]", "5", '{"made_from": "x"}', "\ud800", "[" * 100_000),
        '{"made_from":1,"files":{},"zip_sha256":"","zip_bytes":1,"zip_begins":""}',
        '{"made_from":"","files":{"a":1},"zip_sha256":"","zip_bytes":1,"zip_begins":""}',
        '{"made_from":"","files":[],"zip_sha256":"","zip_bytes":1,"zip_begins":""}',
        '{"made_from":"","files":{},"zip_sha256":"","zip_bytes":"1","zip_begins":""}',
        '{"made_from":"","files":{},"zip_sha256":"","zip_bytes":1,"zip_begins":1}',
    ],
)
def test_a_record_that_is_damaged_is_told_and_the_kit_left_alone(tmp_path: Path, text: str) -> None:
    put_kit(tmp_path)
    made.record(tmp_path, TRIP).write_bytes(text.encode("utf-8", "surrogatepass"))
    assert not swap.is_current(tmp_path, TRIP, "this")
    before = everything(tmp_path)
    with pytest.raises(
        SiteError, match=r"fell\.json is damaged or cannot be read, so that"
    ) as told:
        made.refuse_foreign(tmp_path, TRIP)
    assert told.value.hints[0].endswith(f"{tmp_path}/fell and {tmp_path}/fell.zip")
    assert everything(tmp_path) == before


# -- damage ---------------------------------------------------------------------------------------


def cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:-1])


def flip(path: Path, at: int = 5) -> None:
    content = bytearray(path.read_bytes())
    content[at] ^= 1
    path.write_bytes(content)


@pytest.mark.parametrize("name", ["fell/index.html", "fell/cook/soup.html", "fell.zip"])
@pytest.mark.parametrize(
    "damage",
    [cut, flip, Path.unlink, lambda path: path.write_bytes(b""), lambda path: flip(path, 0)],
    ids=["cut", "flipped", "lost", "emptied", "flipped at the start"],
)
def test_damage_is_seen_and_may_be_built_over(
    tmp_path: Path, name: str, damage: Callable[[Path], object]
) -> None:
    put_kit(tmp_path)
    assert swap.is_current(tmp_path, TRIP, "this")
    assert not swap.is_current(tmp_path, TRIP, "that")
    damage(tmp_path / name)
    assert not swap.is_current(tmp_path, TRIP, "this")
    assert refused(tmp_path) == []


def test_what_was_found_whole_is_not_read_again_until_somebody_writes_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_kit(tmp_path)
    page = tmp_path / TRIP / "index.html"
    times = (page.stat().st_atime_ns, page.stat().st_mtime_ns)
    read: list[Path] = []
    sha256_of = made.sha256_of

    def reading(file: Path) -> str:
        read.append(file)
        return sha256_of(file)

    monkeypatch.setattr(made, "sha256_of", reading)
    assert swap.is_current(tmp_path, TRIP, "this")
    assert len(read) == 4
    assert swap.is_current(tmp_path, TRIP, "this")
    assert len(read) == 8, "what was written just now may be written again unseen"
    monkeypatch.setattr(made, "SETTLED_NS", -1)
    assert swap.is_current(tmp_path, TRIP, "this")
    read.clear()
    assert swap.is_current(tmp_path, TRIP, "this")
    assert not swap.is_current(tmp_path, TRIP, "that")
    assert read == []
    flip(page)
    os.utime(page, ns=times)  # as if nothing had happened
    assert not swap.is_current(tmp_path, TRIP, "this")
    flip(page)
    assert swap.is_current(tmp_path, TRIP, "this")


def test_what_systems_leave_in_folders_is_neither_damage_nor_in_the_way(tmp_path: Path) -> None:
    put_kit(tmp_path)
    for name in (".DS_Store", "cook/Thumbs.db", "desktop.ini", "cook/._soup.html"):
        (tmp_path / TRIP / name).write_text("litter")
    assert swap.is_current(tmp_path, TRIP, "this")
    assert refused(tmp_path) == []


@pytest.mark.parametrize("name", ["fell", "fell/cook/soup.html", "fell.zip"])
def test_the_same_bytes_behind_a_link_are_not_the_kit(tmp_path: Path, name: str) -> None:
    put_kit(tmp_path)
    replaced_by_a_link(tmp_path, name)
    assert not swap.is_current(tmp_path, TRIP, "this")


@pytest.mark.parametrize("left", [["fell"], ["fell.zip"], []])
def test_a_kit_that_was_taken_away_may_be_built_anew(tmp_path: Path, left: list[str]) -> None:
    put_kit(tmp_path)
    for name in {"fell", "fell.zip"} - set(left):
        swap.remove(tmp_path / name)
    assert refused(tmp_path) == []
    assert not swap.is_current(tmp_path, TRIP, "this")


def test_a_damaged_record_without_a_kit_is_in_nobodys_way(tmp_path: Path) -> None:
    put_kit(tmp_path)
    made.record(tmp_path, TRIP).write_text("{")
    swap.remove(tmp_path / "fell")
    swap.remove(tmp_path / "fell.zip")
    assert refused(tmp_path) == []


# -- what is somebody else's ----------------------------------------------------------------------


def replaced_by_a_link(out: Path, name: str) -> None:
    path = out / name
    path.rename(out / "elsewhere")
    path.symlink_to(out / "elsewhere")


def replaced_by_a_file(path: Path) -> None:
    shutil.rmtree(path)
    path.write_text("mine")


def replaced_by_a_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


def other_zip(out: Path, content: bytes) -> None:
    (out / "fell.zip").write_bytes(content)


FOREIGN: Mapping[str, tuple[Callable[[Path], object], list[str]]] = {
    "a file in the kit": (lambda out: (out / "fell/notes.txt").write_text("x"), ["fell/notes.txt"]),
    "a file deep in the kit": (lambda out: (out / "fell/cook/a").write_text("x"), ["fell/cook/a"]),
    "a folder in the kit": (lambda out: (out / "fell/photos").mkdir(), ["fell/photos"]),
    "a link in the kit": (lambda out: (out / "fell/l").symlink_to(out), ["fell/l"]),
    "a page that is a link": (
        lambda out: replaced_by_a_link(out, "fell/index.html"),
        ["fell/index.html"],
    ),
    "a folder of pages that is a link": (
        lambda out: replaced_by_a_link(out, "fell/cook"),
        ["fell/cook"],
    ),
    "a kit that is a link": (lambda out: replaced_by_a_link(out, "fell"), ["fell"]),
    "a zip that is a link": (lambda out: replaced_by_a_link(out, "fell.zip"), ["fell.zip"]),
    "another zip": (lambda out: other_zip(out, b"PK other" + bytes(500)), ["fell.zip"]),
    "a zip of the same beginning as any": (
        lambda out: other_zip(out, b"PK" + bytes(range(9)) + bytes(300)),
        ["fell.zip"],
    ),
    "a kit that is a file": (lambda out: replaced_by_a_file(out / "fell"), ["fell"]),
    "a zip that is a folder": (lambda out: replaced_by_a_folder(out / "fell.zip"), ["fell.zip"]),
    "a page that is a folder": (
        lambda out: replaced_by_a_folder(out / "fell/index.html"),
        ["fell/index.html"],
    ),
    "several": (
        lambda out: [(out / "fell" / name).write_text("x") for name in ("b", "a", "c")],
        ["fell/a", "fell/b", "fell/c"],
    ),
}


@pytest.mark.parametrize("name", sorted(FOREIGN))
def test_what_is_somebody_elses_is_refused_and_left_as_it_was(tmp_path: Path, name: str) -> None:
    put_kit(tmp_path)
    change, expected = FOREIGN[name]
    change(tmp_path)
    assert refused(tmp_path) == expected


@pytest.mark.parametrize("kind", ["folder", "empty folder", "file", "link", "dead link"])
@pytest.mark.parametrize("name", ["fell", "fell.zip"])
def test_a_name_that_was_never_built_is_somebody_elses(
    tmp_path: Path, name: str, kind: str
) -> None:
    path = tmp_path / name
    if "folder" in kind:
        path.mkdir()
        if kind == "folder":
            (path / "kit.json").write_text('{"format": "trip-kit"}')
    elif kind == "file":
        path.write_text("mine")
    else:
        path.symlink_to(tmp_path / ("." if kind == "link" else "gone"))
    assert refused(tmp_path) == [name]


# -- the tool's own folder ------------------------------------------------------------------------


def test_the_own_folder_is_made_once_and_known_again(tmp_path: Path) -> None:
    own = made.claim(tmp_path / "kits")
    before = everything(tmp_path)
    assert made.is_ours(own)
    assert (own / made.MARK_NAME).read_text("utf-8") == made.MARK_TEXT
    assert made.claim(tmp_path / "kits") == own
    assert everything(tmp_path) == before
    assert made.claim(tmp_path / "new" / "and" / "deep").is_dir()


def test_an_own_folder_killed_before_its_mark_is_used(tmp_path: Path) -> None:
    (tmp_path / made.OWN_FOLDER).mkdir()
    assert not made.is_ours(tmp_path / made.OWN_FOLDER)
    assert made.is_ours(made.claim(tmp_path))


def test_two_builds_that_begin_at_once_mark_the_folder_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(made, "is_ours", lambda own: False)
    for _ in range(2):
        own = made.claim(tmp_path)
    assert (own / made.MARK_NAME).read_text("utf-8") == made.MARK_TEXT


@pytest.mark.parametrize("kind", ["full folder", "file", "link", "dead link"])
def test_an_own_folder_of_somebody_else_is_refused(tmp_path: Path, kind: str) -> None:
    own, other = tmp_path / "kits" / made.OWN_FOLDER, tmp_path / "other"
    made.claim(other)
    own.parent.mkdir()
    if kind == "full folder":
        own.mkdir()
        (own / "fell.old").mkdir()
    elif kind == "file":
        own.write_text("mine")
    else:
        own.symlink_to(other / made.OWN_FOLDER if kind == "link" else tmp_path / "gone")
    before = everything(tmp_path)
    for touch in (made.claim, swap.recover):
        with pytest.raises(SiteError, match=r"\.built is there already and was not made by trip"):
            touch(own.parent)
    assert everything(tmp_path) == before


@pytest.mark.parametrize(
    ("names", "says", "hints"),
    [
        (["a"], "a is there already and was not made by tripkit", 0),
        (["a", "b"], "a and 1 more are there already and were not made by tripkit", 2),
    ],
)
def test_what_is_in_the_way_is_counted(names: list[str], says: str, hints: int) -> None:
    stop = made.refused([Path(name) for name in names])
    assert (stop.message, len(stop.hints)) == (says, hints + 1)


def test_many_strangers_are_told_with_the_way_out(tmp_path: Path) -> None:
    put_kit(tmp_path)
    for number in range(30):
        (tmp_path / TRIP / f"photo-{number:02}.jpg").write_text("x")
    with pytest.raises(SiteError) as stopped:
        made.refuse_foreign(tmp_path, TRIP)
    assert "photo-00.jpg and 29 more are there already" in stopped.value.message
    assert len(stopped.value.hints) == made.MOST_SHOWN + 1
    assert "nothing was touched" in stopped.value.hints[-1]
