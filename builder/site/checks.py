"""What must hold of every finished kit, whatever the pages or the generator did."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from posixpath import dirname, normpath
from urllib.parse import unquote, urlsplit

from builder.model.place import Place
from builder.problems import Problem, in_order

MOST_POCKET_BYTES = 150 * 1024
# Pictures of the user's own are theirs to weigh; a page without them must stay light.
MOST_PAGE_BYTES = 400 * 1024

POCKET_NAME = "pocket.html"
LOADING = {
    "audio": ("src",),
    "embed": ("src",),
    "iframe": ("src",),
    "image": ("href", "xlink:href"),
    "img": ("src", "srcset"),
    "input": ("src",),
    "link": ("href",),
    "object": ("data",),
    "script": ("src",),
    "source": ("src", "srcset"),
    "track": ("src",),
    "use": ("href", "xlink:href"),
    "video": ("src", "poster"),
}
LINKING = {"a": ("href",), "area": ("href",)}
OUTSIDE_SCHEMES = {"http", "https", "mailto"}


@dataclass(slots=True)
class _Page:
    """What one page holds that the checks ask about."""

    ids: set[str] = field(default_factory=set)
    targets: list[tuple[str, bool, Place]] = field(default_factory=list)
    found: list[Problem] = field(default_factory=list)


class _Reader(HTMLParser):
    """Reads one page: its ids, what it links to and loads, and what it must not hold."""

    def __init__(self, name: str, page: _Page) -> None:
        """Start on a page."""
        super().__init__()
        self.name = name
        self.page = page
        self.tables: list[tuple[Place, bool]] = []
        # A picture is all text of its own: nothing in it may run.
        self.in_article = name.endswith(".svg")

    def place(self) -> Place:
        """Give where the reader is."""
        line, column = self.getpos()
        return Place(self.name, line, column + 1)

    def complain(self, kind: str, says: str, mend: str) -> None:
        """Note a problem at this place."""
        self.page.found.append(Problem(self.place(), kind, says, mend))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at one element."""
        given = {name: value or "" for name, value in attrs}
        if "id" in given:
            if given["id"] in self.page.ids:
                self.complain(
                    "id-twice", f'the id "{given["id"]}" is on the page twice', "name it anew"
                )
            self.page.ids.add(given["id"])
        if tag == "html" and not given.get("lang"):
            self.complain("no-language", "the page does not say its language", "set its language")
        self._look_for_forbidden(tag, given)
        for name in LOADING.get(tag, ()):
            if given.get(name):
                self.page.targets.append((given[name], True, self.place()))
        for name in LINKING.get(tag, ()):
            if name in given:
                self.page.targets.append((given[name], False, self.place()))
        if tag == "article":
            self.in_article = True
        elif tag == "table":
            self.tables.append((self.place(), False))
        elif tag == "th" and self.tables:
            self.tables[-1] = (self.tables[-1][0], True)

    def handle_endtag(self, tag: str) -> None:
        """Look at the end of an element."""
        if tag == "article":
            if not self.in_article:
                self.complain("script", "the text ends its own page", "escape it")
            self.in_article = False
        if tag == "table" and self.tables:
            place, has_header = self.tables.pop()
            if not has_header:
                self.page.found.append(
                    Problem(place, "no-header", "a table has no header row", "add one")
                )

    def _look_for_forbidden(self, tag: str, given: Mapping[str, str]) -> None:
        """Note what the page's own policy would block, or what page text must never bring in."""
        if "style" in given:
            self.complain(
                "style-attribute", f"<{tag}> has a style attribute", "use a class of kit.css"
            )
        for name in given:
            if name.startswith("on"):
                self.complain("script", f"<{tag}> has {name}", "escape the text it came from")
        if self.in_article and tag in ("script", "style", "iframe", "object", "embed", "base"):
            self.complain("script", f"<{tag}> stands in the text", "escape the text it came from")


def check_kit(site: Path, trip_id: str) -> tuple[Problem, ...]:
    """Give every fault of a finished kit folder."""
    files = {
        file.relative_to(site).as_posix(): file.stat().st_size
        for file in site.rglob("*")
        if file.is_file()
    }
    pages: dict[str, _Page] = {}
    for name in sorted(files):
        if name.endswith((".html", ".svg")):
            pages[name] = _read_page(f"{trip_id}/{name}", site / name)
    found = [problem for page in pages.values() for problem in page.found]
    for name, page in pages.items():
        for target, loads, place in page.targets:
            fault = _target_fault(name, target, loads, files, pages)
            if fault:
                found.append(Problem(place, *fault))
    found.extend(_size_faults(trip_id, files))
    return in_order(found)


def _read_page(shown_name: str, file: Path) -> _Page:
    """Read one page of the kit."""
    page = _Page()
    reader = _Reader(shown_name, page)
    reader.feed(file.read_text(encoding="utf-8"))
    reader.close()
    return page


def _target_fault(
    name: str,
    target: str,
    loads: bool,
    files: Mapping[str, int],
    pages: Mapping[str, _Page],
) -> tuple[str, str, str] | None:
    """Say what is wrong with something a page links to or loads, or nothing."""
    parts = urlsplit(target)
    if parts.scheme == "data":
        return None if loads else ("outside", f"a link leads to {target[:20]}…", "link to a file")
    if parts.scheme or parts.netloc:
        if not loads and parts.scheme in OUTSIDE_SCHEMES:
            return None
        return ("outside", f"{target} lies outside the kit", "put the file into the kit")
    path = _resolved(name, unquote(parts.path))
    if path not in files:
        return ("dead-link", f"{target} leads nowhere", "link to a page of the kit")
    anchor = unquote(parts.fragment)
    # "__…" are places the theme's script makes.
    if anchor and not anchor.startswith("__") and path in pages and anchor not in pages[path].ids:
        return ("dead-anchor", f"{target} leads to no place on the page", "give it an id")
    return None


def _resolved(name: str, path: str) -> str:
    """Give the path within the kit that a link on a page means."""
    if not path:
        return name
    if path.startswith("/"):
        return path
    return normpath(f"{dirname(name)}/{path}" if dirname(name) else path)


def _size_faults(trip_id: str, files: Mapping[str, int]) -> list[Problem]:
    """Give the faults in how heavy the kit is."""
    limits: list[tuple[Callable[[str], bool], int]] = [
        (lambda name: name == POCKET_NAME, MOST_POCKET_BYTES),
        (lambda name: name.endswith(".html") and name != POCKET_NAME, MOST_PAGE_BYTES),
    ]
    return [
        Problem(
            Place(f"{trip_id}/{name}", 1, 1),
            "too-large",
            f"the page is {size // 1024} KB; {most // 1024} KB is the most",
            "make its pictures smaller or its texts shorter",
            "warning",
        )
        for name, size in sorted(files.items())
        for applies, most in limits
        if applies(name) and size > most
    ]
