"""A kit from disk in Firefox and in WebKit: it opens, finds, ticks off and times."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from .driven import Driven, NotHere, firefox, webkit

STARTS: dict[str, Callable[[Path], AbstractContextManager[Driven]]] = {
    "firefox": firefox,
    "webkit": webkit,
}


@pytest.fixture(scope="module", params=STARTS)
def driven(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Driven]:
    try:
        with STARTS[request.param](tmp_path_factory.mktemp(request.param)) as started:
            yield started
    except NotHere as missing:
        pytest.skip(str(missing))


@pytest.fixture
def kit(demo_kits: Path) -> Path:
    return demo_kits / "tarrow-tops"


def test_the_front_page_opens_and_its_scripts_start(driven: Driven, kit: Path) -> None:
    driven.open((kit / "index.html").as_uri())
    assert driven.run("return document.querySelector('h1').textContent.trim()") == "Tarrow Tops"
    assert driven.wait_for("return document.documentElement.className.includes('kit-ready')")
    # The style is there too: what only scripts need the words of is not seen.
    hidden = "return getComputedStyle(document.querySelector('.menu .which')).display"
    assert driven.run(hidden) == "none"


def test_typing_into_the_search_finds_pages(driven: Driven, kit: Path) -> None:
    driven.open((kit / "index.html").as_uri())
    driven.type("input.md-search__input", "carbon")
    found = driven.wait_for(
        "return [...document.querySelectorAll('.md-search-result__item a')]"
        ".map(each => each.textContent.trim()).join('|')"
    )
    assert "Stove and embers stay outside" in str(found)


def test_what_is_ticked_off_stays_so(driven: Driven, kit: Path) -> None:
    page = (kit / "shopping.html").as_uri()
    ticked = "return document.querySelectorAll('.steps input:checked').length"
    driven.open(page)
    assert driven.run(ticked) == 0
    driven.click(".steps label")
    assert driven.run(ticked) == 1
    driven.open((kit / "index.html").as_uri())
    driven.open(page)
    assert driven.wait_for(ticked) == 1


def test_a_meal_is_cooked_step_by_step_with_a_timer(driven: Driven, kit: Path) -> None:
    driven.open((kit / "meals" / "day-2-dinner.html").as_uri())
    shown = (
        "return [...document.querySelectorAll('.steps > li')]"
        ".filter(each => each.offsetParent).map(each => each.textContent.trim()).join('|')"
    )
    first = str(driven.wait_for(shown))
    assert "|" not in first and "Soak" in first
    driven.click(".steps > li:not([hidden]) button.timer")
    running = "return document.querySelector('.kit-timers')?.textContent ?? ''"
    assert "Coconut chickpea curry, soaking" in str(driven.wait_for(running))
    next_step = (
        "const next = [...document.querySelectorAll('button')]"
        ".find(each => each.textContent.trim() === 'Next'); next.click(); return true"
    )
    driven.run(next_step)
    assert "Bring to the boil" in str(driven.wait_for(shown))
