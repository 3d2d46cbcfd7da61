"""Zips are the same bytes each time, and a stranger's zip cannot do harm."""

from __future__ import annotations

import random
import stat
import zipfile
from pathlib import Path

import pytest

from builder.site.errors import SiteError
from builder.site.folder import archive

EPOCH = 1_914_883_200


def raw_zip(path: Path, *entries: tuple[str | zipfile.ZipInfo, bytes]) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as target:
        for name, content in entries:
            target.writestr(name, content)
    return path


def link_entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name)
    entry.create_system = 3
    entry.external_attr = (stat.S_IFLNK | 0o777) << 16
    return entry


def test_the_same_files_give_the_same_bytes_in_any_order(tmp_path: Path) -> None:
    archive.zip_files({"b.txt": b"two", "a.txt": b"one"}, tmp_path / "1.zip", EPOCH)
    archive.zip_files({"a.txt": b"one", "b.txt": b"two"}, tmp_path / "2.zip", EPOCH)
    assert (tmp_path / "1.zip").read_bytes() == (tmp_path / "2.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "1.zip") as made:
        assert made.namelist() == ["a.txt", "b.txt"]


@pytest.mark.parametrize(
    ("epoch", "date"),
    [
        (EPOCH, (2030, 9, 6, 0, 0, 0)),
        (0, (1980, 1, 1, 0, 0, 0)),
        (5_000_000_000, (2107, 12, 31, 23, 59, 58)),
    ],
)
def test_entries_carry_the_date_of_the_kit(
    tmp_path: Path, epoch: int, date: tuple[int, ...]
) -> None:
    archive.zip_files({"a.txt": b"one"}, tmp_path / "1.zip", epoch)
    with zipfile.ZipFile(tmp_path / "1.zip") as made:
        assert made.infolist()[0].date_time == date


def test_a_folder_is_zipped_under_its_name_and_comes_back_the_same(tmp_path: Path) -> None:
    (tmp_path / "kit" / "cook").mkdir(parents=True)
    (tmp_path / "kit" / "index.html").write_bytes(b"<p>hello")
    (tmp_path / "kit" / "cook" / "pot.html").write_bytes(b"\x00\xff" * 50_000)
    archive.zip_folder(tmp_path / "kit", tmp_path / "kit.zip", EPOCH, top="kit")
    names = archive.unpack(tmp_path / "kit.zip", tmp_path / "back")
    assert names == ["kit/cook/pot.html", "kit/index.html"]
    for name in names:
        assert (tmp_path / "back" / name).read_bytes() == (tmp_path / name).read_bytes()


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        ("../out.txt", "leads out of the folder"),
        ("a/../../out.txt", "leads out of the folder"),
        ("/etc/out.txt", "is an absolute name"),
        ("C:/out.txt", "is an absolute name"),
        ("c:out.txt", "is an absolute name"),
        ("note.txt:stream", "is an absolute name"),
        ("a\\..\\out.txt", "is not a plain file name"),
        ("//host/share/out.txt", "is an absolute name"),
    ],
)
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str, reason: str) -> None:
    bad = raw_zip(tmp_path / "bad.zip", ("good.txt", b"x"), (name, b"x"))
    with pytest.raises(SiteError, match=reason):
        archive.unpack(bad, tmp_path / "into")
    assert not (tmp_path / "into").exists()


def test_links_are_refused(tmp_path: Path) -> None:
    bad = raw_zip(tmp_path / "bad.zip", (link_entry("link"), b"/etc/passwd"))
    with pytest.raises(SiteError, match="is a link or a device"):
        archive.unpack(bad, tmp_path / "into")


@pytest.mark.parametrize("second", ["a.txt", "A.TXT"])
@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_a_name_that_comes_twice_is_refused(tmp_path: Path, second: str) -> None:
    bad = raw_zip(tmp_path / "bad.zip", ("a.txt", b"1"), (second, b"2"))
    with pytest.raises(SiteError, match="is in it twice"):
        archive.unpack(bad, tmp_path / "into")


def test_a_bomb_is_refused_by_its_ratio(tmp_path: Path) -> None:
    bad = raw_zip(tmp_path / "bad.zip", ("zeros", bytes(8 * 1024 * 1024)))
    with pytest.raises(SiteError, match="grows more than 200 times"):
        archive.unpack(bad, tmp_path / "into")


def test_too_many_files_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(archive, "MOST_FILES", 3)
    bad = raw_zip(tmp_path / "bad.zip", *[(f"{n}.txt", b"x") for n in range(4)])
    with pytest.raises(SiteError, match="holds 4 files; 3 are the most"):
        archive.unpack(bad, tmp_path / "into")


def test_too_many_bytes_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(archive, "MOST_BYTES", 1024 * 1024)
    bad = raw_zip(tmp_path / "bad.zip", ("a", bytes(700_000)), ("b", bytes(700_000)))
    with pytest.raises(SiteError, match="unpacks to more than 1 MB"):
        archive.unpack(bad, tmp_path / "into")


def test_as_many_files_as_may_be_are_unpacked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(archive, "MOST_FILES", 3)
    monkeypatch.setattr(archive, "MOST_BYTES", 6)
    good = raw_zip(tmp_path / "good.zip", *[(f"{n}.txt", b"xy") for n in range(3)])
    assert archive.unpack(good, tmp_path / "into") == ["0.txt", "1.txt", "2.txt"]
    monkeypatch.setattr(archive, "MOST_BYTES", 5)
    with pytest.raises(SiteError, match="unpacks to more than"):
        archive.unpack(good, tmp_path / "other")


@pytest.mark.parametrize(
    ("size", "packed", "refused"),
    [
        (archive.RATIO_FROM_BYTES, 1, False),  # small ones may pack well
        (archive.RATIO_FROM_BYTES + 1, 1, True),
        (archive.MOST_RATIO * 10_000, 10_000, False),
        (archive.MOST_RATIO * 10_000 + 1, 10_000, True),
        (archive.MOST_BYTES, archive.MOST_BYTES, False),
        (archive.MOST_BYTES + 1, archive.MOST_BYTES, True),
    ],
)
def test_how_far_a_file_may_grow(size: int, packed: int, refused: bool) -> None:
    entry = zipfile.ZipInfo("a.txt")
    entry.file_size, entry.compress_size = size, packed
    if refused:
        with pytest.raises(SiteError, match="is not unpacked"):
            archive._safe_entries("a.zip", [entry])
    else:
        assert archive._safe_entries("a.zip", [entry]) == [entry]


def test_what_comes_out_is_counted_over_all_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Headers that lie are not believed: 12 bytes come out where 10 are the most."""
    good = raw_zip(tmp_path / "good.zip", ("a", b"x" * 6), ("b", b"x" * 6))
    monkeypatch.setattr(archive, "_safe_entries", lambda _, entries: entries)
    monkeypatch.setattr(archive, "MOST_BYTES", 12)
    assert archive.unpack(good, tmp_path / "into") == ["a", "b"]
    monkeypatch.setattr(archive, "MOST_BYTES", 11)
    with pytest.raises(SiteError, match="it unpacks to more than it says"):
        archive.unpack(good, tmp_path / "other")


def test_folders_in_a_zip_are_no_files_but_their_names_count(tmp_path: Path) -> None:
    good = raw_zip(tmp_path / "good.zip", ("trips/", b""), ("trips/a.yaml", b"x"))
    assert archive.unpack(good, tmp_path / "into") == ["trips/a.yaml"]
    bad = raw_zip(tmp_path / "bad.zip", ("../trips/", b""))
    with pytest.raises(SiteError, match="leads out of the folder"):
        archive.unpack(bad, tmp_path / "other")


def test_an_empty_folder_may_be_unpacked_into(tmp_path: Path) -> None:
    (tmp_path / "into").mkdir()
    good = raw_zip(tmp_path / "good.zip", ("a" * archive.LONGEST_NAME, b"x"))
    assert archive.unpack(good, tmp_path / "into") == ["a" * archive.LONGEST_NAME]


@pytest.mark.parametrize(
    ("kind", "good"),
    [
        (0, True),
        (stat.S_IFREG | 0o600, True),
        (stat.S_IFLNK | 0o777, False),
        (stat.S_IFIFO | 0o644, False),
        (stat.S_IFCHR | 0o644, False),
    ],
)
def test_only_plain_files_come_out(tmp_path: Path, kind: int, good: bool) -> None:
    entry = zipfile.ZipInfo("a.txt")
    entry.external_attr = kind << 16
    path = raw_zip(tmp_path / "a.zip", (entry, b"x"))
    if good:
        assert archive.unpack(path, tmp_path / "into") == ["a.txt"]
    else:
        with pytest.raises(SiteError, match="is a link or a device"):
            archive.unpack(path, tmp_path / "into")


# What goes into a kit is packed with it, once.
@pytest.mark.parametrize("whole", [True, False], ids=["the kit", "what goes into it"])
def test_all_entries_are_plain_files_packed_alike(tmp_path: Path, whole: bool) -> None:
    files = {"b": b"y" * 500, "a": b"x"}
    if whole:
        (tmp_path / "kit").mkdir()
        for name, text in files.items():
            (tmp_path / "kit" / name).write_bytes(text)
        archive.zip_folder(tmp_path / "kit", tmp_path / "kit.zip", EPOCH)
    else:
        archive.zip_files(files, tmp_path / "kit.zip", EPOCH)
    with zipfile.ZipFile(tmp_path / "kit.zip") as kit:
        told = [
            (e.filename, e.compress_type, e.external_attr, e.create_system) for e in kit.filelist
        ]
    packed_by = zipfile.ZIP_DEFLATED if whole else zipfile.ZIP_STORED
    packed = (packed_by, (stat.S_IFREG | 0o644) << 16, 3)
    assert told == [("a", *packed), ("b", *packed)]


def test_a_header_that_lies_about_the_size_is_found_out(tmp_path: Path) -> None:
    honest = raw_zip(tmp_path / "honest.zip", ("a.txt", b"x" * 1000))
    size = (1000).to_bytes(4, "little")
    lying = tmp_path / "lying.zip"
    lying.write_bytes(honest.read_bytes().replace(size, (10).to_bytes(4, "little")))
    with pytest.raises(SiteError):
        archive.unpack(lying, tmp_path / "into")


@pytest.mark.parametrize("content", [b"", b"not a zip", b"PK\x05\x06" + bytes(17)])
def test_a_file_that_is_no_zip_is_told(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "odd.zip").write_bytes(content)
    with pytest.raises(SiteError, match="cannot be unpacked"):
        archive.unpack(tmp_path / "odd.zip", tmp_path / "into")


def test_a_full_folder_is_not_unpacked_into(tmp_path: Path) -> None:
    good = raw_zip(tmp_path / "good.zip", ("a.txt", b"x"))
    (tmp_path / "into").mkdir()
    (tmp_path / "into" / "mine.txt").write_text("mine")
    with pytest.raises(SiteError, match="is not empty"):
        archive.unpack(good, tmp_path / "into")
    assert (tmp_path / "into" / "mine.txt").read_text() == "mine"


def a_kit_zip(path: Path) -> Path:
    """Give a zip as a kit is: pages, a picture, and the content in a zip of its own."""
    words = "\n".join(f"- {{id: food-{n}, water: {n % 90} g}}" for n in range(200)).encode()
    inner = path.with_name("content.zip")
    archive.zip_files({"trips/a.yaml": b"title: A\n" * 50, "foods/é.yaml": words}, inner, EPOCH)
    noise = random.Random(4).randbytes(3_000)
    files = {"kit/index.html": words, "kit/a.png": noise, "kit/content.zip": inner.read_bytes()}
    archive.zip_files(files, path, EPOCH)
    inner.unlink()
    return path


def told_or_unpacked(damaged: Path, into: Path) -> str:
    """Unpack both zips; give what was told, or nothing where no damage mattered."""
    try:
        archive.unpack(damaged, into)
        archive.unpack(into / "kit" / "content.zip", into / "content")
    except SiteError as error:
        assert error.hints and str(damaged.parent) in error.message
        return error.message
    except FileNotFoundError:
        return "the content has another name"  # the caller looks for it by name
    return ""


def test_a_zip_with_flipped_bytes_is_told_and_nothing_more(tmp_path: Path) -> None:
    whole = a_kit_zip(tmp_path / "kit.zip").read_bytes()
    draw, told = random.Random(20), 0
    for number in range(600):
        damaged = bytearray(whole)
        # The headers at the end hold the most ways to go wrong.
        start = len(whole) - 400 if number % 2 else 0
        for _ in range(draw.choice((1, 1, 1, 4, 16))):
            damaged[draw.randrange(start, len(whole))] = draw.randrange(256)
        (tmp_path / "bad.zip").write_bytes(damaged)
        into = tmp_path / str(number)
        told += bool(told_or_unpacked(tmp_path / "bad.zip", into))
        left = {path for path in tmp_path.iterdir() if path.is_file()}
        assert left == {tmp_path / "kit.zip", tmp_path / "bad.zip"}
    assert told > 450


def test_a_zip_cut_off_anywhere_is_told(tmp_path: Path) -> None:
    whole = a_kit_zip(tmp_path / "kit.zip").read_bytes()
    for length in range(0, len(whole), 97):
        (tmp_path / "bad.zip").write_bytes(whole[:length])
        assert told_or_unpacked(tmp_path / "bad.zip", tmp_path / str(length))


def test_a_wrong_check_sum_is_told(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "bad.zip", "w", zipfile.ZIP_STORED) as target:
        target.writestr("a.txt", b"gluten")
    bad = (tmp_path / "bad.zip").read_bytes().replace(b"gluten", b"butter")
    (tmp_path / "bad.zip").write_bytes(bad)
    with pytest.raises(SiteError, match="Bad CRC-32"):
        archive.unpack(tmp_path / "bad.zip", tmp_path / "into")


def _changed(path: Path, header: int, value: int) -> Path:
    """Set a byte of the first entry in both of its headers."""
    raw = bytearray(path.read_bytes())
    raw[header] = value
    raw[raw.index(b"PK\x01\x02") + header + 2] = value
    path.write_bytes(raw)
    return path


@pytest.mark.parametrize(
    ("header", "value", "reason"),
    [
        (6, 1, "is locked with a password"),
        (8, 14, "is packed in a way that no kit is"),
        (8, 99, "is packed in a way that no kit is"),
        (8, 12, "is packed in a way that no kit is"),
    ],
)
def test_what_no_kit_is_packed_with_is_refused(
    tmp_path: Path, header: int, value: int, reason: str
) -> None:
    bad = _changed(raw_zip(tmp_path / "bad.zip", ("a.txt", b"x" * 50)), header, value)
    with pytest.raises(SiteError, match=reason):
        archive.unpack(bad, tmp_path / "into")


@pytest.mark.parametrize("name", ["a" * 300, "trips/" + "b" * 250, "a\tb.yaml", "\u202egnp.yaml"])
def test_names_that_no_disk_takes_are_refused(tmp_path: Path, name: str) -> None:
    bad = raw_zip(tmp_path / "bad.zip", (name, b"x"))
    with pytest.raises(SiteError, match="is not a name that every disk takes"):
        archive.unpack(bad, tmp_path / "into")


def test_a_file_and_a_folder_of_one_name_are_told(tmp_path: Path) -> None:
    bad = raw_zip(tmp_path / "bad.zip", ("a", b"x"), ("a/b", b"y"))
    with pytest.raises(SiteError, match="cannot be unpacked"):
        archive.unpack(bad, tmp_path / "into")


def test_a_zip_inside_a_zip_is_told_by_a_name_that_people_know(tmp_path: Path) -> None:
    damaged, bad = tmp_path / "damaged.zip", tmp_path / "bad.zip"
    damaged.write_bytes(b"PK")
    raw_zip(bad, ("../a", b"x"))
    for path, says in ((damaged, "cannot be unpacked"), (bad, "is not unpacked")):
        with pytest.raises(SiteError, match=f"^old-trip.zip/content.zip {says}"):
            archive.unpack(path, tmp_path / "into", "old-trip.zip/content.zip")


def test_a_zip_that_cannot_be_read_is_told_so(tmp_path: Path) -> None:
    (tmp_path / "folder.zip").mkdir()
    with pytest.raises(SiteError, match=r"folder\.zip cannot be read \(Is a directory\)"):
        archive.unpack(tmp_path / "folder.zip", tmp_path / "into")
