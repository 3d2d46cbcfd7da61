"""Reading back what stands on which sheet of a printed page, from the tags of its PDF."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from io import BytesIO

from pypdf import PdfReader
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject

from builder.record import dataclass, field

# What is smaller is not read at arm's length, by a headlamp.
SMALLEST_POINTS = 9.0
# Round a box whose lines are of two kinds Chromium's PDF loses some of them.
LINES_LOST = """() => [...document.querySelectorAll(".caution, .next")].filter(one => {
  const { borderTopStyle, borderLeftStyle } = getComputedStyle(one);
  return borderTopStyle !== borderLeftStyle;
}).map(one => one.className)"""


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
    """Read the sheets of a PDF and the tags of what stands on them."""
    reader = PdfReader(BytesIO(data))
    sizes = tuple(
        (float(page.mediabox.width), float(page.mediabox.height)) for page in reader.pages
    )
    tags = reader.root_object.get("/StructTreeRoot", DictionaryObject())
    sheets = {page.indirect_reference: number for number, page in enumerate(reader.pages)}
    return Printed(sizes, _element(tags, sheets))


def words_of(data: bytes) -> str:
    """Give what stands in a PDF, as one who marks and copies it gets it."""
    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(data)).pages)


def _element(tag: DictionaryObject, sheets: Mapping[IndirectObject | None, int]) -> Element:
    sheet = sheets.get(tag.raw_get("/Pg")) if "/Pg" in tag else None
    element = Element(str(tag.get("/S", "")).removeprefix("/"), sheet)
    inside = tag.get("/K", ())
    for each in inside if isinstance(inside, ArrayObject) else (inside,):
        # A number is text on the sheet itself; so is a dictionary without a kind.
        child = each.get_object() if isinstance(each, IndirectObject) else each
        if isinstance(child, DictionaryObject) and "/S" in child:
            element.inside.append(_element(child, sheets))
    return element
