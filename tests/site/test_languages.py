"""The frame of a kit, which the theme makes, speaks the language of the trip."""

from __future__ import annotations

import gettext
import json
import re
from pathlib import Path

import pytest

from builder.model.trip import ENGLISH, LANGUAGES
from builder.record import replace
from builder.site import assemble
from builder.site.assemble import build_site
from builder.site.rendering import renderer
from builder.speech import Speech, spoken
from tests.site.sample import ASSETS, BASE_CONFIG, sample_site

OTHERS = tuple(language for language in LANGUAGES if language != ENGLISH)
# By language: something that the theme itself says.
THEME = {"de": "Zum Inhalt", "nb": "Gå til innhold"}
NAMED = re.compile(r'\b(?:aria-label|title|alt|placeholder)="([^"]+)"')


def build(out: Path, language: str) -> Path:
    site = replace(sample_site(), language=language, address="https://example.org/kits/")
    build_site(site, out, ASSETS, BASE_CONFIG)
    return out / site.trip_id


@pytest.fixture(scope="module", params=OTHERS)
def kit(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    language = str(request.param)
    return build(tmp_path_factory.mktemp(language), language).rename(
        tmp_path_factory.mktemp("kits") / language
    )


def test_every_language_of_a_trip_is_one_of_the_theme() -> None:
    assert set(THEME) == set(OTHERS)


def test_pages_tell_their_language_and_the_theme_speaks_it(kit: Path) -> None:
    for page in kit.rglob("*.html"):
        assert re.search(rf'<html lang="{kit.name}"', page.read_text("utf-8")), page
    assert THEME[kit.name] in (kit / "index.html").read_text("utf-8")
    manifest = json.loads((kit / "webmanifest.json").read_text("utf-8"))
    assert manifest["lang"] == kit.name


class Marked(gettext.NullTranslations):
    """Puts every text into marks, so that what is not said stands out."""

    def gettext(self, message: str) -> str:
        """Mark a text."""
        return f"«{message}»"


@pytest.fixture(scope="module", params=OTHERS)
def marked_kit(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    def marked(language: str) -> Speech:
        return spoken(Marked(), language)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(renderer, "speech_of", marked)
        patch.setattr(assemble, "speech_of", marked)
        return build(tmp_path_factory.mktemp("marked"), str(request.param))


def test_what_the_theme_does_not_say_is_said_through_the_catalogue(marked_kit: Path) -> None:
    # The switch of colours stands in a script, once for all pages.
    page = (marked_kit / "index.html").read_text("utf-8") + colours_of(marked_kit)
    for said in (
        "Colours: as the system. Switch to light",
        "Colours: light. Switch to dark",
        "Colours: dark. Switch to dim red for the night",
        "Colours: dim red. Switch to the system's",
        "Header",
        "Footer",
        "Fetch this kit",
        "QR code of the address below",
        "Local rules and official or licensed advice come first. All numbers are estimates.",
        "Point a phone's camera here, or open ",
    ):
        assert f"«{said}" in page, said
        assert page.count(said) == page.count(f"«{said}"), said
    pocket = (marked_kit / "pocket.html").read_text("utf-8")
    for said in ("Fetch this kit", "QR code", "Point a phone's camera here, or open "):
        assert f"«{said}" in pocket, said


def test_nothing_in_the_frame_is_left_in_english(marked_kit: Path, tmp_path: Path) -> None:
    english = names_in_frame(build(tmp_path, ENGLISH))
    assert {"Header", "Search", "Clear"} <= english
    assert names_in_frame(marked_kit) & english <= {"Navigation", "logo"}  # words of both


def names_in_frame(kit: Path) -> set[str]:
    """Give what is told to those who do not see, outside the pages' own text."""
    html = (kit / "index.html").read_text("utf-8")
    frame = re.sub(r"<article\b.*</article>", "", html, flags=re.S)
    grown = re.findall(r'"(?:aria-label|title|placeholder)":"([^"]*)"', colours_of(kit))
    return {*NAMED.findall(frame), *grown} - {"Lake &amp; &lt;Shore&gt; walk"}


def colours_of(kit: Path) -> str:
    """Give the script that makes the switch of colours and the box of the search."""
    return (kit / "assets/colours.js").read_text("utf-8")
