"""A kit, or the site of the home, from its records: pages, then site; skipped if unchanged."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from builder.model.home import AT_HOME
from builder.model.kit import Kit
from builder.pages.trip.book import write_book
from builder.problems import Problem
from builder.record import dataclass, replace
from builder.site.assemble import build_site
from builder.site.folder.archive import zip_files
from builder.site.folder.kit_files import CONTENT_ZIP
from builder.site.folder.swap import is_current
from builder.site.folder.taken_over import taken_over
from builder.site.inputs import fingerprint, tool_of_sites
from builder.site.labels_page import labels_page
from builder.site.outfit import HOME
from builder.site.rendering.generators import USUAL_GENERATOR
from builder.site.site_input import SiteInput

if TYPE_CHECKING:
    from builder.planning.home import HomePlan


class Copies(Protocol):
    """Small copies of pictures, made when they are asked for."""

    @property
    def named(self) -> str:
        """Name all that the copies follow from."""

    def __call__(self) -> Mapping[str, bytes]:
        """Give them by where they lie in a kit."""


@dataclass(frozen=True, slots=True)
class Pictures:
    """The pictures of a kit."""

    copies: Copies
    shown: tuple[str, ...]  # on its pages, by where they lie
    beside: Mapping[str, str]  # those of content.zip by their path there: which of the copies

    @property
    def named(self) -> str:
        """Name all that the files of the pictures follow from."""
        return repr((self.copies.named, sorted(self.shown), sorted(self.beside.items())))


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
    pictures: Pictures | None = None
    generator: str = USUAL_GENERATOR
    stands: str = ""  # what a whole kit of the trip was made from that lies elsewhere


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
    pictures = order.pictures
    return _built(
        site,
        order,
        late_from=pictures.named if pictures else "",
        late=lambda: _with_pictures(order, pictures) if pictures else {},
        stands=order.stands,
    )


def _with_pictures(order: Order, pictures: Pictures) -> dict[str, bytes]:
    """Give the files that are pictures, or hold some."""
    copies = pictures.copies()
    files = {path: copies[path] for path in pictures.shown}
    if order.content:
        beside = {path: copies[copy] for path, copy in pictures.beside.items()}
        files[CONTENT_ZIP] = _zipped({**order.content, **beside}, order.epoch)
    return files


@dataclass(frozen=True, slots=True)
class HomeOrder:
    """The site of what belongs to no trip, with all that it is made from."""

    plan: HomePlan
    tool: str  # names its state: what another made before is not taken over
    epoch: int
    out: Path
    templates: Path
    base_config: Path
    force: bool = False
    copies: Copies | None = None  # of the pictures that it shows
    generator: str = USUAL_GENERATOR


def build_home(order: HomeOrder) -> Built:
    """Build the site of the home, unless a whole one is there that was made from just the same."""
    # Imported here, since trips alone need none of the home's pages.
    from builder.pages.home.book import write_home_book

    plan = order.plan
    book = write_home_book(plan, order.templates)
    site = SiteInput(
        trip_id=AT_HOME,
        title=book.title,
        language=plan.home.language,
        pages=book.markdown,
        nav=book.nav,
        files=book.files,
        pocket_html="",
        epoch=order.epoch,
        outfit=HOME,
    )
    copies = order.copies
    labels_from = fingerprint({"tool": order.tool.encode(), "labels": book.late_from.encode()})

    def make_labels() -> dict[str, bytes]:
        return {path: labels_page(html).encode() for path, html in book.late_pages().items()}

    def late() -> dict[str, bytes]:
        labels = taken_over(order.out, AT_HOME, labels_from, make_labels, not order.force)
        return {**labels, **(copies() if copies else {})}

    late_from = repr((book.late_from, copies.named if copies else ""))
    return _built(site, order, late_from, late)


def _built(
    site: SiteInput,
    order: Order | HomeOrder,
    late_from: str,
    late: Callable[[], Mapping[str, bytes]],
    stands: str = "",
) -> Built:
    """Build a site, unless a whole one is there, or elsewhere, that was made from just the same.

    `late` are files that take their time: they follow from what `late_from` names, so that they
    need not be made to know whether a site is there.
    """
    named = replace(site, files={**site.files, "late": late_from.encode("utf-8")})
    made_from = _made_from(named, order.templates, order.base_config, order.generator)
    is_there = stands == made_from or is_current(order.out, site.trip_id, made_from)
    if is_there and not order.force:
        return Built(site.trip_id, site.title, False, (), made_from)
    doubts = build_site(
        replace(site, files={**site.files, **late()}),
        order.out,
        order.templates,
        order.base_config,
        made_from,
        generator=order.generator,
    )
    return Built(site.trip_id, site.title, True, doubts, made_from)


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


def _made_from(site: SiteInput, templates: Path, base_config: Path, generator: str) -> str:
    """Name all that a site is made from; what is not in here must not change a byte of it."""
    parts = {f"page {path}": text.encode("utf-8") for path, text in site.pages.items()}
    parts |= {f"file {path}": content for path, content in site.files.items()}
    parts["pocket"] = site.pocket_html.encode("utf-8")
    parts["title"] = repr((site.title, site.language, site.dates)).encode("utf-8")
    parts["address"] = site.address.encode("utf-8")
    parts["epoch"] = str(site.epoch).encode("ascii")
    parts["nav"] = repr(site.nav).encode("utf-8")
    parts["generator"] = generator.encode("ascii")
    parts["outfit"] = repr(site.outfit).encode("utf-8")
    parts["tool"] = tool_of_sites(templates, base_config).encode("ascii")
    return fingerprint(parts)
