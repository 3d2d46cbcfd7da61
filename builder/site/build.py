"""One kit from its computed records: pages, then site; skipped where nothing would change."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from builder.model.kit import Kit
from builder.pages.trip.book import Book, write_book
from builder.problems import Problem
from builder.site.archive import zip_files
from builder.site.assemble import SiteInput, build_site
from builder.site.inputs import fingerprint, libraries, shipped_files
from builder.site.kit_files import CONTENT_ZIP
from builder.site.swap import is_current


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
    force: bool = False  # build also where a whole kit stands that was made from the same


@dataclass(frozen=True, slots=True)
class Built:
    """What became of an order."""

    trip_id: str
    title: str
    changed: bool
    doubts: tuple[Problem, ...]
    made_from: str


def build_kit(order: Order) -> Built:
    """Build one kit, unless a whole one is there that was made from just the same."""
    kit = order.kit
    book = write_book(kit, order.templates)
    files = dict(book.files)
    if order.content:
        files[CONTENT_ZIP] = _zipped(order.content, order.epoch)
    made_from = _made_from(book, files, order)
    if not order.force and is_current(order.out, kit.id, made_from):
        return Built(kit.id, kit.title, False, (), made_from)
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
    doubts = build_site(site, order.out, order.templates, order.base_config, made_from)
    return Built(kit.id, kit.title, True, doubts, made_from)


def _dates(kit: Kit) -> tuple[str, ...]:
    """Give the first and the last day, where the trip has dates."""
    if kit.start is None:
        return ()
    last = kit.start + datetime.timedelta(days=len(kit.days) - 1)
    return (kit.start.isoformat(), last.isoformat())


def _zipped(files: Mapping[str, bytes], epoch: int) -> bytes:
    target = BytesIO()
    zip_files(files, target, epoch)
    return target.getvalue()


def _made_from(book: Book, files: Mapping[str, bytes], order: Order) -> str:
    """Name all that the kit is made from; what is not in here must not change a byte of it."""
    parts = {f"page {path}": text.encode("utf-8") for path, text in book.markdown.items()}
    parts |= {f"file {path}": content for path, content in files.items()}
    parts["pocket"] = book.pocket_html.encode("utf-8")
    parts["title"] = repr((order.kit.title, order.kit.language, _dates(order.kit))).encode("utf-8")
    parts["address"] = order.address.encode("utf-8")
    parts["epoch"] = str(order.epoch).encode("ascii")
    parts["nav"] = repr(book.nav).encode("utf-8")
    parts |= shipped_files("site", Path(__file__).resolve().parent)
    parts |= shipped_files("assets", order.templates / "assets")
    parts |= shipped_files("theme", order.templates / "theme")
    parts |= shipped_files("languages", order.templates / "languages")
    parts["base configuration"] = order.base_config.read_bytes()
    return fingerprint({**parts, **libraries()})
