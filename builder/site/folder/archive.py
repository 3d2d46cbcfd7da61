"""Zips: written so that the same content gives the same bytes, unpacked so that nothing escapes."""

from __future__ import annotations

import stat
import struct
import zipfile
import zlib
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import BinaryIO

from builder.site.errors import SiteError
from builder.site.folder.kit_files import files_below

MOST_FILES = 5_000
MOST_BYTES = 64 * 1024 * 1024
MOST_RATIO = 200
# Small files may pack well; only from this size on does the ratio tell a bomb.
RATIO_FROM_BYTES = 1024 * 1024
# 8 takes half as long again for seven parts in a thousand; 9 gives next to no more.
PACKED_LEVEL = 7
CHUNK_BYTES = 64 * 1024
LONGEST_NAME = 200

# The zip format counts years from 1980 and stores them in seven bits.
FIRST_DATE = (1980, 1, 1, 0, 0, 0)
LAST_DATE = (2107, 12, 31, 23, 59, 58)
PLAIN_FILE = (stat.S_IFREG | 0o644) << 16

PACKED_BY = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
ENCRYPTED = 0x1
# What a flipped byte makes of a zip, by where it lies: headers, names, lengths, packed bytes.
DAMAGED = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    EOFError,
    NotImplementedError,
    OverflowError,
    RuntimeError,
    ValueError,
)


def zip_folder(folder: Path, target: Path, epoch: int, top: str = "") -> None:
    """Write a folder as a reproducible zip, under a folder name of its own when one is given."""
    files = files_below(folder)
    _write(target, epoch, ((_join(top, name), file.read_bytes()) for name, file in files.items()))


def zip_files(files: Mapping[str, bytes], target: Path | BinaryIO, epoch: int) -> None:
    """Write named contents as a reproducible zip, not packed: it goes into one that is.

    Packed once, as a whole, the texts of a kit take a fifth less than packed twice.
    """
    _write(target, epoch, sorted(files.items()), zipfile.ZIP_STORED)


def unpack(archive: Path, into: Path, shown: str = "") -> list[str]:
    """Unpack a zip that may come from anyone into a new or empty folder; give the names.

    `shown` is what people know it by, where it lies in a place they know nothing of.
    """
    shown = shown or str(archive)
    if into.exists() and any(into.iterdir()):
        raise SiteError(f"{into} is not empty", ["name a folder that does not exist yet"])
    try:
        with zipfile.ZipFile(archive) as source:
            entries = _safe_entries(shown, source.infolist())
            into.mkdir(parents=True, exist_ok=True)
            left = MOST_BYTES
            for entry in entries:
                left -= _unpack_one(source, entry, into / entry.filename, left, shown)
    except DAMAGED as error:
        reason = " ".join(str(error).split()) or "it ends too early"
        raise SiteError(
            f"{shown} cannot be unpacked: {reason}",
            ["it was damaged on the way, or is no zip; fetch it again"],
        ) from error
    except OSError as error:
        if error.filename == str(archive):
            raise SiteError(
                f"{shown} cannot be read ({error.strerror})", ["see to the file and its rights"]
            ) from error
        raise SiteError(
            f"{shown} cannot be unpacked: {error.strerror or error}",
            ["fetch it again, and see to the space left in the folder for temporary files"],
        ) from error
    return [entry.filename for entry in entries]


def _join(top: str, name: str) -> str:
    """Put a name under a folder, where there is one."""
    return f"{top}/{name}" if top else name


def _write(
    target: Path | BinaryIO,
    epoch: int,
    files: Iterable[tuple[str, bytes]],
    packed_by: int = zipfile.ZIP_DEFLATED,
) -> None:
    """Write entries with one fixed date and one kind of permission."""
    date = _zip_date(epoch)
    with zipfile.ZipFile(target, "w") as archive:
        for name, content in files:
            entry = zipfile.ZipInfo(name, date)
            entry.compress_type = packed_by
            entry.external_attr = PLAIN_FILE
            # Unix on every system, or the bytes would differ between them.
            entry.create_system = 3
            archive.writestr(entry, content, compresslevel=PACKED_LEVEL)


def _zip_date(epoch: int) -> tuple[int, int, int, int, int, int]:
    """Give a moment as a zip date; moments a zip cannot tell become the nearest it can."""
    then = datetime.fromtimestamp(epoch, UTC)
    date = (then.year, then.month, then.day, then.hour, then.minute, then.second)
    return min(max(date, FIRST_DATE), LAST_DATE)


def _safe_entries(archive: str, entries: list[zipfile.ZipInfo]) -> list[zipfile.ZipInfo]:
    """Give the files of a zip, after refusing everything a kit never holds."""
    if len(entries) > MOST_FILES:
        raise _refused(archive, f"it holds {len(entries)} files; {MOST_FILES} are the most")
    files = [entry for entry in entries if not entry.is_dir()]
    seen: set[str] = set()
    total_bytes = 0
    for entry in entries:
        reason = _unsafe_name(entry)
        if reason:
            raise _refused(archive, f"{entry.filename!r} {reason}")
    for entry in files:
        # Two names that differ only in case are one file on many disks.
        key = entry.filename.casefold()
        if key in seen:
            raise _refused(archive, f"{entry.filename!r} is in it twice")
        seen.add(key)
        if (
            entry.file_size > RATIO_FROM_BYTES
            and entry.file_size > MOST_RATIO * entry.compress_size
        ):
            raise _refused(archive, f"{entry.filename!r} grows more than {MOST_RATIO} times")
        total_bytes += entry.file_size
    if total_bytes > MOST_BYTES:
        raise _refused(archive, f"it unpacks to more than {MOST_BYTES // 1024 // 1024} MB")
    return files


def _unsafe_name(entry: zipfile.ZipInfo) -> str:
    """Say what is wrong with the name or kind of an entry, or nothing."""
    name = entry.filename
    kind = stat.S_IFMT(entry.external_attr >> 16)
    parts = PurePosixPath(name).parts
    if kind not in (0, stat.S_IFREG, stat.S_IFDIR):
        return "is a link or a device"
    if not name or "\0" in name or "\\" in name:
        return "is not a plain file name"
    if name.startswith("/") or PureWindowsPath(name).drive or ":" in name:
        return "is an absolute name"
    if ".." in parts:
        return "leads out of the folder"
    if not name.isprintable() or any(len(part) > LONGEST_NAME for part in parts):
        return "is not a name that every disk takes"
    if entry.flag_bits & ENCRYPTED:
        return "is locked with a password"
    if entry.compress_type not in PACKED_BY:
        return "is packed in a way that no kit is"
    return ""


def _unpack_one(
    source: zipfile.ZipFile, entry: zipfile.ZipInfo, target: Path, left: int, shown: str
) -> int:
    """Unpack one file and count what really comes out, for a header can lie about the size."""
    target.parent.mkdir(parents=True, exist_ok=True)
    written = 0
    with source.open(entry) as packed, target.open("xb") as file:
        while chunk := packed.read(CHUNK_BYTES):
            written += len(chunk)
            if written > left:
                raise _refused(shown, "it unpacks to more than it says")
            file.write(chunk)
    return written


def _refused(archive: str, reason: str) -> SiteError:
    """Say why a zip is not unpacked."""
    return SiteError(f"{archive} is not unpacked: {reason}", ["use a kit made by this tool"])
