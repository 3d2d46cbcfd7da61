"""One kit from its computed records: pages, then site; skipped where nothing would change."""

from __future__ import annotations

import datetime
import hashlib
import json
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from builder.model.kit import Kit
from builder.pages.trip.book import Book, write_book
from builder.problems import Problem
from builder.site.archive import zip_files
from builder.site.assemble import SiteInput, build_site

CONTENT_ZIP = "content.zip"
STAMPS = ".built"  # in the folder of kits: what each kit was made from


@dataclass(frozen=True, slots=True)
class Order:
    """A kit to build, with all that it is made from."""

    kit: Kit
    content: Mapping[str, bytes]  # the files of content.zip; empty for a public kit
    epoch: int
    out: Path
    templates: Path
    base_config: Path
    address: str = ""  # of all kits on the web, where they are to be put there


@dataclass(frozen=True, slots=True)
class Built:
    """What became of an order."""

    trip_id: str
    title: str
    changed: bool
    doubts: tuple[Problem, ...]


def build_kit(order: Order) -> Built:
    """Build one kit, unless the one that is there was made from just the same."""
    kit = order.kit
    book = write_book(kit, order.templates)
    files = dict(book.files)
    if order.content:
        files[CONTENT_ZIP] = _zipped(order.content, order.epoch)
    stamp = _stamp_of(book, files, order)
    if is_current(order.out, kit.id, stamp):
        return Built(kit.id, kit.title, False, ())
    site = SiteInput(
        trip_id=kit.id,
        title=kit.title,
        language=kit.language,
        pages=book.markdown,
        nav=book.nav,
        files=files,
        pocket_html=book.pocket_html,
        epoch=order.epoch,
        dates=_dates(kit),
        address=order.address,
    )
    doubts = build_site(site, order.out, order.templates, order.base_config)
    _write_stamp(order.out, kit.id, stamp)
    return Built(kit.id, kit.title, True, doubts)


def _dates(kit: Kit) -> tuple[str, ...]:
    """Give the first and the last day, where the trip has dates."""
    if kit.start is None:
        return ()
    last = kit.start + datetime.timedelta(days=len(kit.days) - 1)
    return (kit.start.isoformat(), last.isoformat())


def _zipped(files: Mapping[str, bytes], epoch: int) -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / CONTENT_ZIP
        zip_files(files, target, epoch)
        return target.read_bytes()


# -- what was made from what --------------------------------------------------------------------


def fingerprint(parts: Mapping[str, bytes]) -> str:
    """Give a short name for a set of named contents."""
    digest = hashlib.sha256()
    for name, content in sorted(parts.items()):
        for each in (name.encode("utf-8"), content):
            digest.update(len(each).to_bytes(8, "big"))
            digest.update(each)
    return digest.hexdigest()


def files_below(*folders: Path) -> dict[str, bytes]:
    """Give every file below some folders, by its path."""
    return {
        path.as_posix(): path.read_bytes()
        for folder in folders
        for path in ([folder] if folder.is_file() else sorted(folder.rglob("*")))
        if path.is_file() and "__pycache__" not in path.parts
    }


def _content_of(path: Path) -> bytes:
    """Give a file's content; one that cannot be read is told of where it is needed."""
    try:
        return path.read_bytes()
    except OSError:
        return b""


def is_current(out: Path, trip_id: str, stamp: str) -> bool:
    """Tell whether a whole kit stands there that was made from this."""
    try:
        told = json.loads((out / STAMPS / f"{trip_id}.json").read_text("utf-8"))
    except (OSError, ValueError):
        return False
    whole = (out / trip_id / "index.html").is_file() and (out / f"{trip_id}.zip").is_file()
    return whole and isinstance(told, dict) and told.get("made_from") == stamp


def _stamp_of(book: Book, files: Mapping[str, bytes], order: Order) -> str:
    parts = {f"page {path}": text.encode("utf-8") for path, text in book.markdown.items()}
    parts |= {f"file {path}": content for path, content in files.items()}
    parts["pocket"] = book.pocket_html.encode("utf-8")
    parts["address"] = order.address.encode("utf-8")
    parts["epoch"] = str(order.epoch).encode("ascii")
    parts["nav"] = repr(book.nav).encode("utf-8")
    code = Path(__file__).resolve().parent
    parts |= files_below(code, order.templates / "assets", order.templates / "theme")
    parts["base configuration"] = order.base_config.read_bytes()
    return fingerprint(parts)


def _write_stamp(out: Path, trip_id: str, stamp: str) -> None:
    (out / STAMPS).mkdir(exist_ok=True)
    (out / STAMPS / f"{trip_id}.json").write_text(json.dumps({"made_from": stamp}), "utf-8")
