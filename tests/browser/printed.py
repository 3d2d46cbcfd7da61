"""Reading back what stands on which sheet of a printed page, from the tags of its PDF."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.record import dataclass, field

OBJECT = re.compile(r"(?:^|\n)(\d+) 0 obj\n(.*?)\nendobj", re.S)
CHILDREN = re.compile(r"/K (?:\[(?P<many>[^\]]*)\]|(?P<one>\d+ 0 R|\d+))")
# What is smaller is not read at arm's length, by a headlamp.
SMALLEST_POINTS = 9.0
# Round a box whose lines are of two kinds Chromium's PDF loses some of them.
LINES_LOST = """() => [...document.querySelectorAll(".caution, .next")].filter(one => {
  const { borderTopStyle, borderLeftStyle } = getComputedStyle(one);
  return borderTopStyle !== borderLeftStyle;
}).map(one => one.className)"""
BOX = re.compile(r"/MediaBox \[([^\]]*)\]")


@dataclass(slots=True)
class Element:
    """A heading, a table, a row …, with what is in it and the sheet its own text stands on."""

    kind: str
    sheet: int | None = None
    inside: list[Element] = field(default_factory=list)

    def all(self, kind: str) -> Iterator[Element]:
        """Give every element of a kind in here, in reading order."""
        for each in self.inside:
            if each.kind == kind:
                yield each
            yield from each.all(kind)

    @property
    def sheets(self) -> list[int]:
        """Give the sheets that it stands on, in reading order."""
        found = [] if self.sheet is None else [self.sheet]
        for each in self.inside:
            found += each.sheets
        return found


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF: the size of each sheet, and what stands on them."""

    sizes: tuple[tuple[float, float], ...]
    document: Element


def read_pdf(data: bytes) -> Printed:
    """Read the tags of a PDF as Chromium writes it."""
    objects = dict(OBJECT.findall(data.decode("latin-1")))
    pages = [number for number, text in objects.items() if re.search(r"/Type /Page\b", text)]
    sizes = []
    for number in pages:
        box = BOX.search(objects[number])
        assert box is not None
        left, bottom, right, top = (float(part) for part in box[1].split())
        sizes.append((right - left, top - bottom))
    root = next(number for number, text in objects.items() if "/S /Document" in text)
    return Printed(tuple(sizes), _element(root, objects, pages))


def _element(number: str, objects: dict[str, str], pages: list[str]) -> Element:
    text = objects[number]
    kind = re.search(r"/S /(\w+)", text)
    sheet = re.search(r"/Pg (\d+) 0 R", text)
    element = Element(kind[1] if kind else "", pages.index(sheet[1]) if sheet else None)
    children = CHILDREN.search(text)
    listed = (children["many"] or children["one"]) if children else ""
    for child in re.findall(r"(\d+) 0 R", listed):
        if "/StructElem" in objects.get(child, ""):
            element.inside.append(_element(child, objects, pages))
    return element
