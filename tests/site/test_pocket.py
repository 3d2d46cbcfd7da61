"""The pocket page holds everything itself, and runs nothing but its own script."""

from __future__ import annotations

import re
from base64 import b64encode

import pytest

from builder.site.finishing.scripts import POCKET_SCRIPT, written
from builder.site.finishing.security import hash_source
from builder.site.finishing.tags import read_tags
from builder.site.pocket import MOST_PICTURES_BYTES, pocket_page, slimmed, with_pictures
from builder.speech import speech_of
from tests.site.sample import ASSETS

SCRIPT = written(ASSETS / "assets", POCKET_SCRIPT, speech_of("en"))


def page(body: str) -> str:
    return pocket_page(
        body, trip_id="fell", title='Fell & "<round>"', language="en", assets=ASSETS / "assets"
    )


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


def test_slimming_takes_nothing_that_a_reader_sees() -> None:
    html = (
        '<ul class="steps"><li data-minutes="5"><label><input type="checkbox"> Soak.</label></li>\n'
        '<li id="a b">Two <small>1 oz</small> <small>of</small></li></ul>\n<p>End, href="x".</p>\n'
        '<a href="#day-1">Day 1</a>'
        '<table class="rows"><tbody><tr><td class="num">1</td><td>2</td></tr></tbody></table>'
    )
    slim = slimmed(html)
    assert slim == (
        "<ul class=steps><li data-minutes=5><label><input type=checkbox> Soak.</label>"
        '<li id="a b">Two <small>1 oz of</small></ul><p>End, href="x".'
        "<a href=#day-1>Day 1</a><table class=rows><tbody><tr><td class=num>1<td>2</table>"
    )
    starts = [(tag.name, dict(tag.attributes)) for tag in read_tags(slim) if not tag.is_end]
    before = [(tag.name, dict(tag.attributes)) for tag in read_tags(html) if not tag.is_end]
    before.remove(("small", {}))  # two that stood beside each other are one
    assert starts == before


def test_pictures_go_inside_while_there_is_room_and_no_other_is_asked_for() -> None:
    shown = '<figure class="picture"><img src="pictures/{}.webp" alt="{}"></figure>'
    body = "".join(shown.format(name, name) for name in ("small", "large", "lost", "last"))
    pictures = {
        "pictures/small.webp": b"RIFF",
        "pictures/large.webp": bytes(MOST_PICTURES_BYTES),
        "pictures/last.webp": b"WEBP",
    }
    html = with_pictures(body, pictures)
    assert re.findall(r'alt="(\w+)"', html) == ["small", "last"]
    assert re.findall(r'src="([^"]*)"', html) == [
        f"data:image/webp;base64,{b64encode(pictures[f'pictures/{name}.webp']).decode()}"
        for name in ("small", "last")
    ]
