"""The pocket page holds everything itself, and runs nothing but its own script."""

from __future__ import annotations

import re

import pytest

from builder.site.pocket import pocket_page
from builder.site.scripts import POCKET_PARTS, joined
from builder.site.security import hash_source
from builder.speech import speech_of
from tests.site.sample import ASSETS

SCRIPT = joined(ASSETS / "assets", POCKET_PARTS, speech_of("en"))


def page(body: str) -> str:
    return pocket_page(body, "fell", 'Fell & "<round>"', "en", ASSETS / "assets")


def test_nothing_lies_beside_it() -> None:
    html = page("<main><h1>Fell</h1></main>")
    assert not re.search(r"\b(?:src|href)=", html)
    assert html.count("<style>") == 1
    assert f"<script>{SCRIPT}</script>" in html


def test_its_policy_names_its_own_script_and_style_only() -> None:
    html = page("<main><script>bad()</script></main>")
    content = html.split('content="', 1)[1].split('"', 1)[0]
    assert hash_source(SCRIPT) in content
    assert hash_source("bad()") not in content
    assert "'self'" not in content
    assert html.index("Content-Security-Policy") < html.index("<title>")


def test_the_title_is_only_text() -> None:
    assert "<title>Fell &amp; &quot;&lt;round&gt;&quot;</title>" in page("<main></main>")


@pytest.mark.parametrize(
    "whole",
    [
        '<!doctype html>\n<html lang="en"><head><link rel="stylesheet" href="assets/pocket.css">'
        '</head><body class="x">\n<main>words</main><script src="assets/pocket.js" defer></script>'
        "</body></html>",
        "<main>words</main>",
    ],
    ids=["whole page", "body"],
)
def test_a_whole_page_and_a_body_give_the_same(whole: str) -> None:
    html = page(whole)
    assert html.count("<main>words</main>") == 1
    assert html.count("<html") == html.count("<body>") == html.count("<!doctype") == 1
    assert "assets/pocket" not in html
