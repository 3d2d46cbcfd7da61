"""Draws the pictures of the demo anew: `python -m tests.demo_pictures`, then look at them.

They are drawn four times as large as they are shown, so that edges are smooth.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw

from builder.reading.pictures.small_copies import small_copy

CONTENT = Path(__file__).resolve().parents[1] / "content"
WIDTH, HEIGHT = 640, 400  # of the field that is drawn in
FINER = 3
SIZE_PX = (480, 300)
COLOURS = 48

Points = Sequence[tuple[float, float]]


class Sheet:
    """A picture while it is drawn."""

    def __init__(self, ground: str) -> None:
        self.image = Image.new("RGB", (WIDTH * FINER, HEIGHT * FINER), ground)
        self._draw = ImageDraw.Draw(self.image)

    def area(self, points: Points, colour: str) -> None:
        """Fill what some points go round."""
        self._draw.polygon([(x * FINER, y * FINER) for x, y in points], fill=colour)

    def oval(self, x: float, y: float, across: float, up: float, colour: str) -> None:
        """Fill an oval round its middle."""
        box = [(x - across) * FINER, (y - up) * FINER, (x + across) * FINER, (y + up) * FINER]
        self._draw.ellipse(box, fill=colour)

    def line(self, points: Points, colour: str, width: float) -> None:
        """Draw through some points."""
        at = [(x * FINER, y * FINER) for x, y in points]
        self._draw.line(at, fill=colour, width=round(width * FINER), joint="curve")

    def done(self) -> bytes:
        """Give it in its own size and in few colours, as the small copy that kits show."""
        small = self.image.resize(SIZE_PX, Image.Resampling.LANCZOS)
        target = BytesIO()
        small.quantize(COLOURS, dither=Image.Dither.NONE).save(target, "PNG")
        return small_copy(target.getvalue(), "drawn")


def heron_camp() -> Sheet:
    """Draw a tarp on a low bank, two canoes drawn up, reeds, and a heron in the shallows."""
    sheet = Sheet("#f3e3c3")
    sheet.oval(490, 150, 42, 42, "#f6c66f")
    hills = [(x, 172 - 14 * math.sin(x / 90) - 8 * math.sin(x / 37)) for x in range(0, 641, 8)]
    sheet.area([*hills, (640, 230), (0, 230)], "#93a894")
    sheet.area([(0, 205), (640, 196), (640, 400), (0, 400)], "#8fb3b8")
    for y in range(222, 390, 22):
        start = (y * 37) % 170
        for x in range(start, 640, 210):
            sheet.line([(x, y), (x + 74, y)], "#b7d0d0", 2)
    bank = [(0, 252), (120, 240), (260, 246), (380, 268), (430, 300), (330, 340), (0, 360)]
    sheet.area(bank, "#5f7550")
    sheet.area([(70, 268), (150, 186), (262, 268)], "#b5552f")
    sheet.area([(150, 186), (262, 268), (282, 250), (176, 178)], "#8c3f22")
    sheet.area([(118, 268), (152, 214), (196, 268)], "#3b2a22")
    for x, y in ((286, 296), (214, 318)):
        hull = [(x, y), (x + 26, y + 16), (x + 96, y + 16), (x + 124, y - 2), (x + 92, y + 6)]
        sheet.area([*hull, (x + 30, y + 7)], "#2f4a52")
    for n in range(26):
        x, top = 470 + n * 7, 262 - 34 * abs(math.sin(n * 2.3))
        sheet.line([(x, 330), (x + 4 * math.sin(n), top)], "#48603f", 3)
        if n % 3 == 0:
            sheet.oval(x + 4 * math.sin(n), top, 4, 13, "#5c3b23")
    sheet.oval(420, 300, 24, 12, "#55636b")
    sheet.line([(438, 294), (450, 270), (443, 252), (452, 244)], "#55636b", 6)
    sheet.line([(450, 244), (478, 250)], "#d89a2b", 4)
    for x in (414, 426):
        sheet.line([(x, 308), (x, 346)], "#3d474d", 2.5)
    return sheet


def apricot_halves() -> Sheet:
    """Draw a tray of dried apricot halves, no two of one size."""
    sheet = Sheet("#d9cfbd")
    sheet.area([(30, 40), (610, 40), (610, 360), (30, 360)], "#8a7c66")
    sheet.area([(44, 54), (596, 54), (596, 346), (44, 346)], "#efe8da")
    for x in range(80, 596, 54):
        sheet.line([(x, 54), (x, 346)], "#d4c8b2", 2)
    for y in range(86, 346, 47):
        sheet.line([(44, y), (596, y)], "#d4c8b2", 2)
    for row in range(3):
        for column in range(5):
            x, y = 104 + 108 * column, 106 + 94 * row
            wide, high = 44 - 3 * ((row + column) % 3), 40 - 4 * ((row + 2 * column) % 3)
            sheet.oval(x, y, wide, high, "#9a4f17")
            sheet.oval(x, y, wide - 6, high - 6, "#d8812f")
            sheet.oval(x + 1, y + 2, wide - 17, high - 16, "#bd6a22")
            sheet.oval(x - 2, y - 1, wide - 25, high - 23, "#e49a4b")
    return sheet


def soda_bread() -> Sheet:
    """Draw a round loaf with a cross cut into it, turned out of a black pot beside its lid."""
    sheet = Sheet("#c9b79a")
    for y in range(0, 400, 50):
        sheet.line([(0, y), (640, y + 12)], "#b7a283", 3)
    sheet.oval(500, 150, 118, 74, "#2a2726")
    sheet.oval(500, 144, 104, 62, "#3d3937")
    sheet.oval(500, 140, 20, 12, "#1c1a19")
    sheet.oval(250, 262, 196, 104, "#9a8564")
    sheet.oval(250, 240, 186, 112, "#8f5426")
    sheet.oval(250, 222, 176, 98, "#c07f3d")
    sheet.oval(242, 212, 150, 78, "#d39a55")
    for points in ([(120, 196), (250, 220), (384, 204)], [(232, 138), (250, 220), (262, 306)]):
        sheet.line(points, "#8f5426", 15)
        sheet.line(points, "#f0dcb4", 9)
    for n in range(34):
        angle, far = n * 2.4, 22 + 3.6 * n
        sheet.oval(250 + far * math.cos(angle), 216 + 0.55 * far * math.sin(angle), 3, 2, "#f3e6c8")
    return sheet


PICTURES: dict[str, Callable[[], Sheet]] = {
    "trips/heron-camp.webp": heron_camp,
    "batches/apricot-halves.webp": apricot_halves,
    "recipes/ember-soda-bread.webp": soda_bread,
}

if __name__ == "__main__":
    for path, draw in PICTURES.items():
        (CONTENT / path).write_bytes(draw().done())
        print(f"Drew content/{path}")
