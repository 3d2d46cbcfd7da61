"""The switch of colours is told once a kit, and a page keeps its room."""

from __future__ import annotations

import json
import re

from builder.site.finishing.grown import script_of_palette, without_palette

SWITCH = (
    '<form class="md-header__option" data-md-component="palette"> '
    '<input type="radio" id="__palette_0" aria-label="Colours: light">'
    '<label for="__palette_1" hidden title="Colours: a &amp; b">'
    '<svg class="kit-mark kit-mark-1"></svg></label></form>'
)


def test_a_page_keeps_the_form_and_not_what_stands_in_it() -> None:
    html = without_palette(f"<header>{SWITCH}<p>x</p></header>")
    assert html == (
        '<header><form class="md-header__option" data-md-component="palette"></form>'
        "<p>x</p></header>"
    )


def test_the_script_is_told_every_element_with_its_attributes() -> None:
    found = re.fullmatch(r"showColours\((.*)\);\n", script_of_palette(SWITCH))
    assert found
    assert json.loads(found[1]) == [
        ["input", {"type": "radio", "id": "__palette_0", "aria-label": "Colours: light"}],
        [
            "label",
            {"for": "__palette_1", "hidden": "", "title": "Colours: a & b"},
            ["svg", {"class": "kit-mark kit-mark-1"}],
        ],
    ]


def test_a_page_without_a_switch_tells_nothing() -> None:
    assert script_of_palette("<header></header>") == ""
