"""Long words of narrow cells may be parted where two words meet, and stay whole for all readers."""

from __future__ import annotations

import re

import pytest

from builder.site.finishing.joints import JOINT, with_joints


@pytest.mark.parametrize(
    ("language", "parted"),
    [
        ("de", "Sonnen|blumen|kerne"),
        ("de", "Trink|schokoladen|pulver, gezuckert"),
        ("de", "Gemüse|brüh|pulver"),
        ("de", "Roggen|knäcke|brot"),
        ("de", "Heiß|getränke"),
        ("de", "Wahrscheinlich"),
        ("de", "Apfelbrot"),  # short
        ("nb", "Grønnsaks|buljong|pulver"),
        ("nb", "Sjokolade|drikk|pulver"),
        ("nb", "gjennomsnittet"),
        ("en", "Sonnenblumenkerne"),
        ("xx", "Sonnenblumenkerne"),
    ],
)
def test_words_are_parted_where_two_meet(language: str, parted: str) -> None:
    html = f"<table><tr><td>{parted.replace('|', '')}</td></tr></table>"
    assert with_joints(html, language) == f"<table><tr><td>{parted}</td></tr></table>".replace(
        "|", JOINT
    )


@pytest.mark.parametrize(
    "html",
    [
        "<p>Sonnenblumenkerne</p>",
        "<h4>Sonnenblumenkerne</h4>",
        "<h1>Sonnenblumenöl</h1>",  # a heading has room for it
        '<h2 id="Sonnenblumenkerne">x</h2>',
        '<td><a title="Sonnenblumenkerne" href="#Sonnenblumenkerne">x</a></td>',
        "<thead><i>Sonnenblumenkerne</i></thead>",
        "<td>&Sonnenblumenkerne;</td>",
    ],
)
def test_nothing_but_words_of_headings_and_cells_is_parted(html: str) -> None:
    assert with_joints(html, "de") == html


@pytest.mark.parametrize("heading", ["h1", "h2", "h3"])
def test_a_heading_is_parted_where_its_word_is_wider_than_a_phone(heading: str) -> None:
    html = f'<{heading} id="a">Mit Sonnenblumenkernen, gesund</{heading}>'
    assert with_joints(html, "de") == html.replace("blumenkernen", f"{JOINT}blumen{JOINT}kernen")


def test_what_is_read_is_the_word_as_it_was_written() -> None:
    html = '<th scope="row"><strong>Zartbitterschokolade</strong>, 30 g</th><td>1</td>'
    parted = with_joints(html, "de")
    assert parted.count(JOINT) == 1
    assert re.sub(r"<[^>]*>", "", parted) == "Zartbitterschokolade, 30 g1"
