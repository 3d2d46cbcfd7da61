"""What must hold of every finished kit, whatever the pages or the generator did."""

from __future__ import annotations

import re
from collections.abc import Mapping, Set
from functools import lru_cache
from pathlib import Path
from posixpath import dirname, normpath
from urllib.parse import unquote, urlsplit

from builder.model.place import Place
from builder.problems import Problem, in_order
from builder.record import dataclass, field
from builder.site.finishing.tags import Tag, line_and_column, read_tags, tag_but_plain
from builder.site.folder.kit_files import POCKET_NAME, files_below
from builder.site.looking import (
    DATA_OF_PAGE,
    LINKING,
    LOADING,
    NEVER_IN_TEXT,
    Seen,
    Target,
    look,
)

MOST_POCKET_BYTES = 150 * 1024
# Pictures of the user's own are theirs to weigh; a page without them must stay light.
MOST_PAGE_BYTES = 400 * 1024
# How every figure came about: it grows with days and people, and no text of theirs stands there.
OF_THE_TOOL_ALONE = ("numbers.html", "numbers/")

OUTSIDE_SCHEMES = {"http", "https", "mailto"}
# A path and perhaps a place on the page, with no sign that means anything else.
PLAIN_ADDRESS = re.compile(r"(?!/)[\w./-]*(?:#[\w-]*)?", re.ASCII)
TELLING_TAG = tag_but_plain(
    starts=("html", "article", "table", "th", *LOADING, *LINKING, *NEVER_IN_TEXT),
    ends=("article", "table"),
)

Fault = tuple[str, str, str]  # its kind, what it is, what would mend it


@dataclass(frozen=True, slots=True)
class _Target:
    """Something a page links to or loads."""

    address: str
    is_loaded: bool
    position: int


@dataclass(slots=True)
class _Page:
    """What one page holds that the checks ask about."""

    name: str
    html: str
    ids: set[str] = field(default_factory=set)
    targets: list[_Target] = field(default_factory=list)
    found: list[Problem] = field(default_factory=list)

    def complain(self, position: int, kind: str, says: str, mend: str) -> None:
        """Note a problem at a place of the page."""
        place = Place(self.name, *line_and_column(self.html, position))
        self.found.append(Problem(place, kind, says, mend))


def check_kit(
    site: Path, trip_id: str, texts: Mapping[str, str] | None = None
) -> tuple[Problem, ...]:
    """Give every fault of a finished kit folder; `texts` are pages of it that need no reading."""
    files = {name: file.stat().st_size for name, file in files_below(site).items()}
    texts = {
        name: (texts or {}).get(name) or (site / name).read_text("utf-8", errors="replace")
        for name in files
        if name.endswith((".html", ".svg"))
    }
    # A picture is all text of its own: nothing in it may run.
    seen = {name: None if name.endswith(".svg") else look(text) for name, text in texts.items()}
    # What is odd is read tag by tag, and so is in the end what leads where it should not.
    read = {name: _read_page(f"{trip_id}/{name}", texts[name]) for name in texts if not seen[name]}
    ids = {name: each.ids if each else read[name].ids for name, each in seen.items()}
    good: dict[str, set[Target]] = {}  # what pages of a folder lead to, once it was found good
    for name, each in seen.items():
        if each and not _leads_well(name, each, files, ids, good.setdefault(dirname(name), set())):
            read[name] = _read_page(f"{trip_id}/{name}", texts[name])
    for name, page in read.items():
        faults: dict[Target, Fault | None] = {}  # many links of a page lead to one place
        for target in page.targets:
            led = (target.address, target.is_loaded)
            if led not in faults:
                faults[led] = _target_fault(name, *led, files, ids)
            if fault := faults[led]:
                page.complain(target.position, *fault)
    found = [problem for page in read.values() for problem in page.found]
    found.extend(_size_faults(trip_id, files))
    return in_order(found)


def _leads_well(
    name: str,
    seen: Seen,
    files: Mapping[str, int],
    ids: Mapping[str, Set[str]],
    good: set[Target],
) -> bool:
    """Tell whether all that a page links to and loads is there; notes what is."""
    for target in seen.targets - good:
        if _target_fault(name, *target, files, ids):
            return False
        # What leads within the page means another place on the next.
        if not target[0].startswith("#"):
            good.add(target)
    return True


def _read_page(shown_name: str, html: str) -> _Page:
    """Read one page: its ids, what it links to and loads, and what it must not hold."""
    page = _Page(shown_name, html)
    in_text = shown_name.endswith(".svg")
    tables: list[tuple[int, bool]] = []
    has_data = False
    for tag in read_tags(html, TELLING_TAG):
        if tag.is_end:
            if tag.name == "article":
                if not in_text:
                    page.complain(tag.position, "script", "the text ends its own page", "escape it")
                in_text = False
            elif tag.name == "table" and tables:
                position, has_header = tables.pop()
                if not has_header:
                    page.complain(position, "no-header", "a table has no header row", "add one")
            continue
        if tag.attributes:
            _look_at_attributes(page, tag)
        if tag.name == "html" and not tag.attributes.get("lang"):
            page.complain(
                tag.position,
                "no-language",
                "the page does not say its language",
                "set its language",
            )
        elif tag.name == "article":
            in_text = True
        elif tag.name == "table":
            tables.append((tag.position, False))
        elif tag.name == "th" and tables:
            tables[-1] = (tables[-1][0], True)
        elif tag.name == "script" and tag.attributes == DATA_OF_PAGE and not has_data:
            has_data = True
        elif in_text and tag.name in NEVER_IN_TEXT:
            page.complain(
                tag.position,
                "script",
                f"<{tag.name}> stands in the text",
                "escape the text it came from",
            )
    return page


def _look_at_attributes(page: _Page, tag: Tag) -> None:
    """Note an element's id and addresses, and what the page's own policy would block."""
    given = tag.attributes
    if "id" in given:
        if given["id"] in page.ids:
            page.complain(
                tag.position, "id-twice", f'the id "{given["id"]}" is there twice', "name it anew"
            )
        page.ids.add(given["id"])
    if "style" in given:
        page.complain(
            tag.position,
            "style-attribute",
            f"<{tag.name}> has a style attribute",
            "use a class of kit.css",
        )
    for name in given:
        if name.startswith("on"):
            page.complain(
                tag.position, "script", f"<{tag.name}> has {name}", "escape the text it came from"
            )
    for name in LOADING.get(tag.name, ()):
        for address in _addresses(name, given.get(name, "")):
            page.targets.append(_Target(address, True, tag.position))
    for name in LINKING.get(tag.name, ()):
        if name in given:
            page.targets.append(_Target(given[name], False, tag.position))


def _addresses(attribute: str, value: str) -> list[str]:
    """Give the addresses of an attribute; a srcset holds several, each with its size."""
    if attribute != "srcset":
        return [value] if value else []
    return [part.split()[0] for part in value.split(",") if part.strip()]


def _target_fault(
    name: str,
    target: str,
    loads: bool,
    files: Mapping[str, int],
    ids: Mapping[str, Set[str]],
) -> Fault | None:
    """Say what is wrong with something a page links to or loads, or nothing."""
    if PLAIN_ADDRESS.fullmatch(target):
        path, _, anchor = target.partition("#")
    else:
        parts = urlsplit(target)
        if parts.scheme == "data":
            says = f"a link leads to {target[:20]}…"
            return None if loads else ("outside", says, "link to a file")
        if parts.scheme or parts.netloc:
            if not loads and parts.scheme in OUTSIDE_SCHEMES:
                return None
            return ("outside", f"{target} lies outside the kit", "put the file into the kit")
        path, anchor = unquote(parts.path), unquote(parts.fragment)
    path = _resolved(dirname(name), path) if path else name
    if path not in files:
        return ("dead-link", f"{target} leads nowhere", "link to a page of the kit")
    # "__…" are places the theme's script makes.
    if anchor and not anchor.startswith("__") and path in ids and anchor not in ids[path]:
        return ("dead-anchor", f"{target} leads to no place on the page", "give it an id")
    return None


@lru_cache(maxsize=1024)
def _resolved(folder: str, path: str) -> str:
    """Give the path within the kit that a link on a page of this folder means."""
    if path.startswith("/"):
        return path
    return normpath(f"{folder}/{path}" if folder else path)


def _size_faults(trip_id: str, files: Mapping[str, int]) -> list[Problem]:
    """Give the faults in how heavy the kit is, of pages that somebody can make lighter."""
    found = []
    for name, size in files.items():
        if not name.endswith(".html") or name.startswith(OF_THE_TOOL_ALONE):
            continue
        is_pocket = name == POCKET_NAME
        most = MOST_POCKET_BYTES if is_pocket else MOST_PAGE_BYTES
        if size > most:
            lighter = "make its pictures smaller or its texts shorter"
            found.append(
                Problem(
                    Place(f"{trip_id}/{name}", 1, 1),
                    "too-large",
                    f"the page is {size // 1024} KB; {most // 1024} KB is the most",
                    f"{lighter}, or plan a long way as two trips" if is_pocket else lighter,
                    "warning",
                )
            )
    return found
