"""The address of a hosted kit is checked, written down, and drawn so that a camera reads it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.record import replace
from builder.site.assemble import build_site
from builder.site.errors import SiteError
from builder.site.folder.address import QUIET_ZONE, kit_address, qr_svg
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site

ADDRESS = "https://example.org/kits/lake-walk/"


@pytest.mark.parametrize(
    ("base", "address"),
    [
        ("", ""),
        ("https://example.org/kits/", ADDRESS),
        ("https://example.org/kits", ADDRESS),
        ("http://192.0.2.7:8000", "http://192.0.2.7:8000/lake-walk/"),
    ],
)
def test_a_kit_lies_below_the_address_of_all(base: str, address: str) -> None:
    assert kit_address(base, "lake-walk") == address


@pytest.mark.parametrize(
    "base",
    [
        "example.org/kits",
        "javascript:alert(1)",
        "https://",
        "https://exa mple.org",
        "ftp://x.org",
        'https://example.org/"><script>',
        "https://example.org/?a",
        "https://example.org/#a",
        "https://[",
        "https://example.org/" + "x" * 300,
        "https://ex\u00e4mple.org/",
    ],
)
def test_what_is_no_address_is_refused(base: str) -> None:
    with pytest.raises(SiteError, match="is no address on the web") as stopped:
        kit_address(base, "lake-walk")
    assert "https://example.org/kits/" in stopped.value.hints[0]


def modules(svg: str) -> list[list[bool]]:
    """Read the dark squares back from the picture."""
    side = int(re.findall(r'viewBox="0 0 (\d+) ', svg)[0])
    grid = [[False] * side for _ in range(side)]
    for x, y, length in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", svg):
        for at in range(int(x), int(x) + int(length)):
            grid[int(y)][at] = True
    return grid


def test_the_picture_is_a_code_with_room_around_it() -> None:
    grid = modules(qr_svg(ADDRESS))
    side = len(grid)
    edge = [*range(QUIET_ZONE), *range(side - QUIET_ZONE, side)]
    assert not any(grid[y][x] or grid[x][y] for y in edge for x in range(side))
    finder = ["1111111", "1000001", "1011101", "1011101", "1011101", "1000001", "1111111"]
    for top, left in (
        (QUIET_ZONE, QUIET_ZONE),
        (QUIET_ZONE, side - QUIET_ZONE - 7),
        (side - QUIET_ZONE - 7, QUIET_ZONE),
    ):
        rows = [
            "".join(str(int(dark)) for dark in grid[top + y][left : left + 7]) for y in range(7)
        ]
        assert rows == finder
    assert qr_svg(ADDRESS) != qr_svg(ADDRESS + "x")


def test_pages_tell_the_address_only_where_there_is_one(tmp_path: Path) -> None:
    site = sample_site()
    build_site(site, tmp_path / "disk", ASSETS, BASE_CONFIG)
    hosted = replace(site, address="https://example.org/kits/")
    build_site(hosted, tmp_path / "hosted", ASSETS, BASE_CONFIG)
    for page in ("index.html", "pocket.html"):
        assert "Fetch this kit" not in (tmp_path / "disk/lake-walk" / page).read_text("utf-8")
        assert ADDRESS in (tmp_path / "hosted/lake-walk" / page).read_text("utf-8")
    assert not (tmp_path / "disk/lake-walk/assets/address.svg").exists()
    picture = (tmp_path / "hosted/lake-walk/assets/address.svg").read_text("utf-8")
    assert picture == qr_svg(ADDRESS)
    assert picture.split("<path", 1)[1] in (tmp_path / "hosted/lake-walk/pocket.html").read_text()
