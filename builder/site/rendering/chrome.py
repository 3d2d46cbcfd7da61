"""The theme's frame, made once for all pages that differ in known places only.

The theme makes its menu anew for each page, which takes longer than rendering the page. Here it
makes the frame of a page that has marks for words; the frames of its like are filled in. What it
makes of an ordinary page is held against that each time: where they differ, every page goes
through the theme, so that another theme can make kits slower and never wrong.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from copy import copy
from types import SimpleNamespace
from typing import Any

from markupsafe import Markup
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents
from mkdocs.utils import normalize_url

from builder.record import dataclass
from builder.site.rendering.framing import (
    IN_A_TAG,
    Frame,
    FramedPage,
    filled,
    is_all_told,
    mark,
    name_of_item,
    put_together,
    taken_apart,
)

_OWN_NAME = "the-page-itself.html"
# The theme puts a title over an article that has none, which it sees by this.
_ARTICLE = "\x02article<h1\x03"


class NotLearned(Exception):
    """The theme made of the marks what is not known."""


@dataclass(frozen=True, slots=True)
class ThemeOf:
    """What the theme makes."""

    page: Callable[[Page], str]  # a whole page
    heading: Callable[[AnchorLink], str]  # a line of a page's contents, with those below it


def framed_pages(pages: Sequence[Page], nav: Navigation, theme: ThemeOf) -> dict[str, FramedPage]:
    """Give all pages in their frames, by path; raise `NotLearned` where the theme is another."""
    found: dict[str, FramedPage] = {}
    largest: list[Page] = []
    # A line of a page's contents with none below it is the same but for its words.
    line = theme.heading(_marked_heading())
    for alike in _groups(pages):
        if len(alike) == 1:
            found[alike[0].file.dest_uri] = framed_by_theme(alike[0], theme)
            continue
        if len(alike) > len(largest):
            largest = alike
        frame, article = _learned(alike, nav, theme, line)
        for place, page in enumerate(alike):
            own = article.replace(_ARTICLE, page.content or "")
            found[page.file.dest_uri] = FramedPage(frame, own, _told(page, theme, line), place)
        if not is_all_told(found[alike[0].file.dest_uri]):
            raise NotLearned("the theme tells something of a page in a place that is not known")
    if largest:
        tried = largest[-1]
        if put_together(found[tried.file.dest_uri]).split() != theme.page(tried).split():
            raise NotLearned(f"the frame of {tried.url} is not what the theme makes")
    return found


def framed_by_theme(page: Page, theme: ThemeOf) -> FramedPage:
    """Give a page that went through the theme by itself."""
    return taken_apart(theme.page(page))


def _groups(pages: Sequence[Page]) -> Iterator[list[Page]]:
    """Give the pages in groups of those whose frames differ in marked places only."""
    groups: dict[object, list[Page]] = {}
    for page in pages:
        groups.setdefault(_kind(page), []).append(page)
    yield from groups.values()


def _kind(page: Page) -> object:
    """Give what two pages of one frame have in common; a page that is not ordinary has its own."""
    headings = list(page.toc)
    settings = set(page.meta) - {"search"}
    if page.is_homepage or settings or len(headings) != 1 or headings[0].level != 1:
        return page.url
    folder = page.url.rpartition("/")[0]
    has_contents = bool(headings[0].children)
    neighbours = page.previous_page is None, page.next_page is None
    return id(page.parent), folder, has_contents, neighbours


def _learned(
    alike: Sequence[Page], nav: Navigation, theme: ThemeOf, line: str
) -> tuple[Frame, str]:
    """Let the theme make one page with marks; give its frame, and what it puts round an article."""
    page = alike[0]
    siblings: list[Any] = nav.items if page.parent is None else page.parent.children
    before = list(siblings)
    marked = [_marked_item(each, number) for number, each in enumerate(alike)]
    marked[0] = _marked_page(page)
    stands = {id(each): stand_in for each, stand_in in zip(alike, marked, strict=True)}
    try:
        siblings[:] = [stands.get(id(each), each) for each in siblings]
        html = theme.page(marked[0])
    finally:
        siblings[:] = before
    html = html.replace("/\x02", "\x02").replace(_OWN_NAME, mark("address"))
    if next(iter(page.toc)).children:
        html = html.replace(line, mark("contents"))
    return _with_items(taken_apart(html), alike)


def _marked_page(page: Page) -> Page:
    """Give a page like this one with marks for words."""
    folder = page.url.rpartition("/")[0]
    stand_in = _stand_in(page, mark("title"), f"{folder}/{_OWN_NAME}" if folder else _OWN_NAME)
    stand_in.content = _ARTICLE
    first = AnchorLink("", mark("first"), 1)
    if next(iter(page.toc)).children:
        first.children = [_marked_heading()]
    stand_in.toc = TableOfContents([first])
    neighbours: Any = stand_in
    for way in ("previous", "next"):
        if getattr(page, f"{way}_page"):
            words, address = Markup(mark(f"{way} title")), f"/{mark(f'{way} address')}"
            setattr(neighbours, f"{way}_page", SimpleNamespace(title=words, url=address))
    return stand_in


def _marked_heading() -> AnchorLink:
    return AnchorLink(mark("heading"), mark("place"), 2)


def _marked_item(page: Page, number: int) -> Page:
    """Give what stands for one of the other pages in the menu."""
    return _stand_in(page, mark(f"title {number}"), f"/{mark(f'address {number}')}")


def _stand_in(page: Page, title: str, address: str) -> Page:
    stand_in = copy(page)
    # Written as it is, as all titles are, for they are escaped already.
    stand_in.title = Markup(title)
    stand_in.file = copy(page.file)
    stand_in.file.url = address
    return stand_in


def _with_items(page: FramedPage, alike: Sequence[Page]) -> tuple[Frame, str]:
    """Take the menu's items out of a marked page."""
    before, after = page.frame.before, page.frame.after
    own_item = _item_round(before, mark("address"))
    before = before.replace(own_item, mark(name_of_item(0)))
    items = []
    for number, each in enumerate(alike):
        if number:
            pattern = _item_round(before, mark(f"address {number}"))
            before = before.replace(pattern, mark(name_of_item(number)))
        else:
            # The first one is shown as the page itself; others see it as they see the second.
            pattern = _item_round(before, mark("address 1")).replace(" 1\x03", " 0\x03")
        told = {f"title {number}": str(each.title), f"address {number}": _seen(each, alike[0])}
        items.append(filled(pattern, told))
    texts = (_told_in_tags(each) for each in (before, after, own_item))
    before, after, own_item = texts
    return Frame(before, after, tuple(items), own_item), page.article


def _item_round(html: str, marked: str) -> str:
    """Give the item of a list in which a mark stands."""
    at = html.find(marked)
    begins, ends = html.rfind("<li", 0, at), html.find("</li>", at)
    if min(at, begins, ends) < 0:
        raise NotLearned("the menu has no item for a page")
    return html[begins : ends + len("</li>")]


def _told_in_tags(html: str) -> str:
    """Give other names to the titles that are told inside a tag, or as the page's own title."""
    pieces = html.split("\x02")
    read = pieces[0]
    for piece in pieces[1:]:
        name, _, rest = piece.partition("\x03")
        in_tag = read.rfind("<") > read.rfind(">") or read.rfind("<title>") > read.rfind("</title>")
        is_title = name.endswith("title")
        read += mark(f"{name}{IN_A_TAG}" if in_tag and is_title else name) + rest
    return read


def _told(page: Page, theme: ThemeOf, line: str) -> dict[str, str]:
    """Give what a frame tells of a page; `line` is one of its contents, with marks."""
    first = next(iter(page.toc))
    told = {
        "title": str(page.title),
        "address": page.url.rpartition("/")[2],
        "first": first.id,
        "contents": "\n".join(
            theme.heading(each)
            if each.children
            else filled(line, {"heading": each.title, "place": each.id})
            for each in first.children
        ),
    }
    for way, other in (("previous", page.previous_page), ("next", page.next_page)):
        if other is not None:
            told[f"{way} title"] = str(other.title)
            told[f"{way} address"] = _seen(other, page)
    titles = [name for name in told if name.endswith("title")]
    return told | {f"{name}{IN_A_TAG}": told[name] for name in titles}


def _seen(page: Page, from_page: Page) -> str:
    """Give the address of a page as a link on another."""
    return normalize_url(page.url, from_page)
