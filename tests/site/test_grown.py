"""What only a script can use is told once a kit, and a page keeps its place."""

from __future__ import annotations

import json
import re

from builder.site.finishing.grown import script_of_grown, ungrown

SWITCH = (
    '<form class="md-header__option" data-md-component="palette"> '
    '<input type="radio" id="__palette_0" aria-label="Colours: light">'
    '<label for="__palette_1" hidden title="Colours: a &amp; b">'
    '<svg class="kit-mark kit-mark-1"></svg></label></form>'
)
BOX = (
    '<div class="md-search" data-md-component="search" role="dialog">\n'
    '<div class="md-search__output"><div class="scroll" tabindex="0" data-md-scrollfix>'
    '<div data-md-component="search-result"> Type\n what &amp; go </div></div></div>\n</div>\n'
)
BEHIND = '<script src="../assets/colours.js"></script>'


def test_a_page_keeps_the_form_and_not_what_stands_in_it() -> None:
    html = ungrown(f"<header>{SWITCH}<p>x</p></header>")
    assert html == (
        '<header><form class="md-header__option" data-md-component="palette"></form>'
        "<p>x</p></header>"
    )


def test_the_script_is_told_every_element_with_its_attributes() -> None:
    found = re.fullmatch(r"showColours\((.*)\);\n", script_of_grown(SWITCH))
    assert found
    assert json.loads(found[1]) == [
        ["input", {"type": "radio", "id": "__palette_0", "aria-label": "Colours: light"}],
        [
            "label",
            {"for": "__palette_1", "hidden": "", "title": "Colours: a & b"},
            ["svg", {"class": "kit-mark kit-mark-1"}],
        ],
    ]


def test_a_page_keeps_the_box_of_the_search_empty() -> None:
    html = ungrown(f"<header>{SWITCH}{BOX}{BEHIND}</header><div>x</div>")
    assert '<div class="md-search" data-md-component="search" role="dialog"></div>' in html
    assert html.endswith(f"{BEHIND}</header><div>x</div>")


def test_the_script_is_told_the_words_too_and_nothing_for_the_themes_own_script() -> None:
    palette, search = script_of_grown(f"{SWITCH}{BOX}{BEHIND}").splitlines()
    assert palette.startswith("showColours(")
    found = re.fullmatch(r"showSearch\((.*)\);", search)
    assert found
    scroll = ["div", {"class": "scroll", "tabindex": "0"}, ["div", {}, "Type what & go"]]
    assert json.loads(found[1]) == [["div", {"class": "md-search__output"}, scroll]]


def test_a_page_without_a_switch_tells_nothing() -> None:
    assert script_of_grown("<header></header>") == ""
