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
        '<td><a title="Sonnenblumenkerne" href="#Sonnenblumenkerne">x</a></td>',
        "<thead><i>Sonnenblumenkerne</i></thead>",
        "<td>&Sonnenblumenkerne;</td>",
    ],
)
def test_nothing_but_words_of_cells_is_parted(html: str) -> None:
    assert with_joints(html, "de") == html


def test_what_is_read_is_the_word_as_it_was_written() -> None:
    html = '<th scope="row"><strong>Zartbitterschokolade</strong>, 30 g</th><td>1</td>'
    parted = with_joints(html, "de")
    assert parted.count(JOINT) == 1
    assert re.sub(r"<[^>]*>", "", parted) == "Zartbitterschokolade, 30 g1"
