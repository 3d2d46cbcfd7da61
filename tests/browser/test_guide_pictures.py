"""A screen in the guide looks as the page looks on a phone, dot for dot."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from guide_screens import screen
from PIL import Image, ImageChops
from playwright.sync_api import Browser, Page

WIDTH, HEIGHT, HEADER = 360, 560, 56
ROUND = 10  # the corners of the frame, and its line


def taken(page: Page) -> Image.Image:
    shot = Image.open(io.BytesIO(page.screenshot())).convert("L")
    return shot.crop((ROUND, HEADER, WIDTH - ROUND, HEIGHT - ROUND))


@pytest.mark.parametrize(
    "path",
    ["index.html", "cook/mushroom-pasta.html", "meals/day-1-dinner.html", "pocket.html"],
)
def test_a_screen_looks_as_its_page(
    path: str, browser: Browser, demo_kits: Path, tmp_path: Path
) -> None:
    kit = demo_kits / "tarrow-tops"
    context = browser.new_context(
        viewport={"width": WIDTH, "height": HEIGHT}, java_script_enabled=False
    )
    try:
        page = context.new_page()
        page.goto((kit / path).as_uri())
        real = taken(page)
        picture = screen(kit / path, WIDTH, HEIGHT, "A page.")
        (tmp_path / "picture.svg").write_text(picture.svg, "utf-8")
        (tmp_path / "page.html").write_text(
            '<!doctype html><body style="margin:0"><img src="picture.svg" alt="">', "utf-8"
        )
        page.goto((tmp_path / "page.html").as_uri())
        drawn = taken(page)
    finally:
        context.close()
    assert len(real.getcolors() or ()) > 50  # a page, not a sheet of paper
    unlike = sum(ImageChops.difference(real, drawn).histogram()[32:])
    assert unlike < 0.001 * real.width * real.height
