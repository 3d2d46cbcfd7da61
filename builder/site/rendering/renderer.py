"""What a generator of sites is asked for, so that another can take its place.

A renderer takes pages of Markdown, and writes into a folder all other files as they are, and the
theme's style sheets. It gives each page as HTML, the theme's frame round its article, and what
search finds on all of them. It obeys the base configuration, and raises SiteError for dead links
and whatever else it finds wrong.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from html import escape
from pathlib import Path
from typing import Any, NamedTuple, TypeAlias

from builder.pages.navigation import NavItem
from builder.problems import Problem
from builder.record import dataclass
from builder.site.errors import SiteError
from builder.site.footer import RULES_FIRST
from builder.site.rendering.framing import FramedPage
from builder.site.site_input import SiteInput
from builder.speech import Speech, later, speech_of

NavConfig: TypeAlias = "dict[str, str | list[NavConfig]]"

# What the switch of colours says, in the order of the palette in the base configuration.
_COLOURS = (
    later("Colours: as the system. Switch to light"),
    later("Colours: light. Switch to dark"),
    later("Colours: dark. Switch to dim red for the night"),
    later("Colours: dim red. Switch to the system's"),
)


@dataclass(frozen=True, slots=True)
class Rendering:
    """One site to render; its folders are whole paths."""

    site: SiteInput
    files: Mapping[str, bytes]  # by path: pages as Markdown, and what is left as it is
    into: Path
    theme: Path  # the folder with the templates that stand over the theme's
    base_config: Path


class Part(NamedTuple):
    """What search finds: a heading, and what stands below it up to the next, as HTML."""

    address: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Rendered:
    """What became of a site's pages."""

    pages: Mapping[str, FramedPage]  # by path in the kit
    parts: Sequence[Part]
    doubts: tuple[Problem, ...] = ()


Renderer: TypeAlias = Callable[[Rendering], Rendered]


def own_settings(
    asked: Rendering, base: Mapping[str, Any], as_title: Callable[[str], str]
) -> dict[str, Any]:
    """Give the settings that differ by trip, to be put over the base configuration.

    `as_title` makes a user's words harmless in the way that the generator's templates need.
    """
    site, say = asked.site, speech_of(asked.site.language)
    return {
        "site_name": as_title(site.title),
        "site_dir": str(asked.into),
        "nav": _nav_config(site.nav, as_title),
        "theme": {
            **base["theme"],
            "custom_dir": str(asked.theme),
            "language": site.language,
            "palette": _palette(say, base["theme"]["palette"]),
        },
        "copyright": escape(say(RULES_FIRST), quote=False),
        # Tick-offs and timers of two kits on one host are told apart by this.
        "extra": {
            **base["extra"],
            "kit": site.trip_id,
            "dates": list(site.dates),
            "said": _said_by_theme(say),
        },
    }


def refuse_faults(warnings: Sequence[str]) -> None:
    """Stop where the generator warned of anything."""
    if warnings:
        raise SiteError(f"the pages have {len(warnings)} dead links or other faults", warnings)


def _palette(say: Speech, palette: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give the palette with what its switch says."""
    return [
        {**each, "toggle": {**each["toggle"], "name": escape(say(name))}}
        for each, name in zip(palette, _COLOURS, strict=True)
    ]


def _said_by_theme(say: Speech) -> dict[str, str]:
    """Give the words that the theme lacks in one of our languages, or has none for our readers."""
    said = {
        "header": say("Header"),
        "footer": say("Footer"),
        "toc": say("On this page"),
        "search.result.initializer": say("Type what you look for"),
    }
    return {key: escape(words) for key, words in said.items()}


def _nav_config(nav: Sequence[NavItem], as_title: Callable[[str], str]) -> list[NavConfig]:
    """Give the navigation as generators read it."""
    return [
        {as_title(title): target if isinstance(target, str) else _nav_config(target, as_title)}
        for title, target in nav
    ]
