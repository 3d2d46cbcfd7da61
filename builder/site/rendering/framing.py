"""Pages in pieces: the frame that many pages share, what it tells of each, and their articles.

Whatever is done to a frame is done once for all its pages. Where they differ stands a mark.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from builder.record import dataclass, field

_MARK = re.compile("\x02([^\x02\x03]+)\x03")
# Greedy on purpose: page text that closes the article early stays inside.
_ARTICLE = re.compile(r"<article\b.*</article>", re.S | re.I)
# What is told inside a tag or a title, where no element may stand: its name ends so.
IN_A_TAG = " in a tag"


def mark(name: str) -> str:
    """Give what stands in a frame where its pages differ."""
    return f"\x02{name}\x03"


def is_seen(name: str) -> bool:
    """Tell whether what is told under a name is read on the page, and does not stand in a tag."""
    return name.endswith(("title", "contents"))


def filled(text: str, told: Mapping[str, str]) -> str:
    """Give a text with what is told in place of its marks; what only looks like one stays."""
    return _MARK.sub(lambda found: told.get(found[1], found[0]), text)


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands before and after an article, and the pages that its menu lists one by one."""

    before: str
    after: str
    items: tuple[str, ...] = ()  # of the menu, as another page of this frame shows them
    own_item: str = ""  # as the page itself is shown there

    def texts(self) -> Iterator[str]:
        """Give all that it holds."""
        yield from (self.before, self.after, *self.items, self.own_item)


@dataclass(frozen=True, slots=True)
class FramedPage:
    """One page: its frame, its article with the element that holds it, and what is told of it."""

    frame: Frame
    article: str
    told: Mapping[str, str] = field(default_factory=dict)
    place: int = 0  # of its item among those of the frame


def taken_apart(html: str) -> FramedPage:
    """Give a whole page as one that shares its frame with no other."""
    article = _ARTICLE.search(html)
    if article is None:
        return FramedPage(Frame(html, ""), "")
    return FramedPage(Frame(html[: article.start()], html[article.end() :]), article[0])


def put_together(page: FramedPage) -> str:
    """Give a page as one text."""
    frame, told = page.frame, page.told
    if frame.items:
        items = {name_of_item(number): item for number, item in enumerate(frame.items)}
        items[name_of_item(page.place)] = filled(frame.own_item, told)
        told = {**told, **items}
    return filled(frame.before, told) + page.article + filled(frame.after, told)


def is_all_told(page: FramedPage) -> bool:
    """Tell whether nothing stands in a frame that is not told of its page."""
    frame = page.frame
    known = page.told.keys() | {name_of_item(number) for number in range(len(frame.items))}
    return known >= {name for text in frame.texts() for name in _MARK.findall(text)}


def name_of_item(number: int) -> str:
    """Give the name of the mark where an item of the menu stands."""
    return f"item {number}"
