"""The marks on a page's buttons: drawn once in the kit's style sheet, not in every page."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from urllib.parse import quote

# As the theme draws a button's mark: one path in a square of 24.
DRAWN = re.compile(
    r'<svg xmlns="http://www\.w3\.org/2000/svg" viewBox="0 0 24 24"><path d="([^"]+)"/></svg>'
)
# In a reader's own colours only the outline of a mark may be coloured, and it has none.
STYLE = (
    ".kit-mark{{background:currentcolor;-webkit-mask:var(--kit-mark) center/contain no-repeat;"
    "mask:var(--kit-mark) center/contain no-repeat}}"
    "@media (forced-colors:active){{.kit-mark{{forced-color-adjust:none;background:buttontext}}}}"
    "{each}\n"
)


def marks_in(pages: Iterable[str]) -> Mapping[str, str]:
    """Give the class of each mark that is drawn in some pages, by its path."""
    found = sorted({path for page in pages for path in DRAWN.findall(page)})
    return {path: f"kit-mark-{number}" for number, path in enumerate(found, start=1)}


def with_marks(html: str, marks: Mapping[str, str]) -> str:
    """Name the marks of a page by their class instead of drawing them."""
    return DRAWN.sub(lambda drawn: f'<svg class="kit-mark {marks[drawn[1]]}"></svg>', html)


def style_of_marks(marks: Mapping[str, str]) -> str:
    """Give the rules that draw the marks, in the colour of the text around them."""
    drawn = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 24 24'><path d='{path}'/></svg>"
    each = "".join(
        f'.{name}{{--kit-mark:url("data:image/svg+xml,'
        f'{quote(drawn.format(path=path), safe=_PLAIN)}")}}'
        for path, name in marks.items()
    )
    return STYLE.format(each=each) if marks else ""


_PLAIN = " :/='.-,"  # what needs no other form in an address in double quotes
