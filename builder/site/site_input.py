"""All that a site is made of, before anything is rendered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.pages.navigation import NavItem
from builder.record import dataclass
from builder.site.outfit import TRIP, Outfit


@dataclass(frozen=True, slots=True)
class SiteInput:
    """All that one kit is made of."""

    trip_id: str
    title: str
    language: str
    pages: Mapping[str, str]  # Markdown by path, in reading order
    nav: Sequence[NavItem]
    files: Mapping[str, bytes]  # written as they are, kit.json among them
    pocket_html: str  # the body; its head, style, script and policy are added here; "" for none
    epoch: int  # seconds since 1970, the date of everything in the kit
    dates: tuple[str, ...] = ()  # first and last day, as ISO dates; none where the trip has none
    address: str = ""  # of all kits on the web, where they are to be put there
    outfit: Outfit = TRIP
