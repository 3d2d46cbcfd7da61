"""Colours of the style sheets: text stands out at 7:1 or better, in every scheme."""

from __future__ import annotations

import re

import pytest

from builder.site.folder.index_page import STYLE
from tests.site.sample import ASSETS

KIT_CSS = (ASSETS / "assets" / "kit.css").read_text(encoding="utf-8")
POCKET_CSS = (ASSETS / "assets" / "pocket.css").read_text(encoding="utf-8")
# The schemes stand at the top of each sheet, the light one first, before print turns all black.
SCREEN_SHEETS = {
    "kit.css": KIT_CSS.split("@media print")[0],
    "pocket.css": POCKET_CSS.split("@media print")[0],
    "index": STYLE.split("@media print")[0],
}
SCHEMES = {"kit.css": 3, "pocket.css": 3, "index": 2}  # light, dark, and dim red for the night
TEXT_RATIO = 7.0
LINE_RATIO = 3.0


def colours(sheet: str, name: str) -> list[str]:
    return re.findall(rf"--(?:kit-)?{name}: (#[0-9a-f]{{6}})", SCREEN_SHEETS[sheet])


def luminance(colour: str) -> float:
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    dark, light = sorted([luminance(one), luminance(other)])
    return (light + 0.05) / (dark + 0.05)


def test_contrast_agrees_with_the_definition_at_its_ends() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21, abs=1e-9)
    assert contrast("#777777", "#777777") == 1


@pytest.mark.parametrize("ground", ["paper", "panel"])
@pytest.mark.parametrize("text", ["ink", "soft", "link", "accent"])
@pytest.mark.parametrize("sheet", sorted(SCREEN_SHEETS))
def test_text_stands_out_in_every_scheme(sheet: str, text: str, ground: str) -> None:
    grounds = colours(sheet, ground) or colours(sheet, "paper")
    texts = colours(sheet, text)
    assert len(grounds) == len(texts) == SCHEMES[sheet]
    for one, other in zip(texts, grounds, strict=True):
        assert contrast(one, other) >= TEXT_RATIO, (one, other)


@pytest.mark.parametrize("sheet", sorted(SCREEN_SHEETS))
def test_lines_can_be_seen_in_every_scheme(sheet: str) -> None:
    for line, paper in zip(colours(sheet, "line"), colours(sheet, "paper"), strict=True):
        assert contrast(line, paper) >= LINE_RATIO


BARS = ("bar", "bar-ink")


@pytest.mark.parametrize(("sheet", "more"), [("kit.css", BARS), ("pocket.css", ())])
def test_the_night_is_dim_and_red(sheet: str, more: tuple[str, ...]) -> None:
    for name in ("ink", "soft", "link", "accent", "line", "paper", "panel", *more):
        colour = colours(sheet, name)[2]
        red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
        assert luminance(colour) < 0.4
        assert red >= 2 * green and green >= blue, (name, colour)


def test_the_bar_can_be_read() -> None:
    for ink, bar in zip(colours("kit.css", "bar-ink"), colours("kit.css", "bar"), strict=True):
        assert contrast(ink, bar) >= TEXT_RATIO


@pytest.mark.parametrize("sheet", [KIT_CSS, POCKET_CSS, STYLE])
def test_nothing_is_fetched(sheet: str) -> None:
    assert "url(" not in sheet
    assert "@import" not in sheet


@pytest.mark.parametrize(("name", "size"), [("icon-192.png", 192), ("icon-512.png", 512)])
def test_icons_have_the_size_they_say(name: str, size: int) -> None:
    data = (ASSETS / "assets" / name).read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert (int.from_bytes(data[16:20], "big"), int.from_bytes(data[20:24], "big")) == (size, size)
