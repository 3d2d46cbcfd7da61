"""Every fault a finished kit may have is told with its page and line."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.site.checks import check_kit

GOOD = '<html lang="en"><body>\n<article>\n{}\n</article></body></html>'


def faults(tmp_path: Path, body: str, page: str = GOOD) -> list[str]:
    (tmp_path / "cook").mkdir(exist_ok=True)
    (tmp_path / "kit.json").write_text("{}")
    (tmp_path / "cook" / "pot.html").write_text(GOOD.format('<h2 id="steps">Steps</h2>'))
    (tmp_path / "index.html").write_text(page.format(body), encoding="utf-8")
    return [str(problem) for problem in check_kit(tmp_path, "fell")]


@pytest.mark.parametrize(
    "body",
    [
        '<a href="cook/pot.html">pot</a>',
        '<a href="cook/pot.html#steps">steps</a>',
        '<a href="kit.json">data</a>',
        '<a href="#here">here</a><p id="here">',
        '<a href="https://example.org/source">source</a>',
        '<img src="data:image/png;base64,AAAA" alt="dot">',
        "<table><tr><th>a</th></tr><tr><td>1</td></tr></table>",
        '<script type="application/json" class="figures">{"a":1}</script>',
    ],
)
def test_what_is_right_passes(tmp_path: Path, body: str) -> None:
    assert faults(tmp_path, body) == []


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        ('<a href="gone.html">x</a>', "dead-link"),
        ('<a href="/kit.json">x</a>', "dead-link"),
        ('<a href="../outside.html">x</a>', "dead-link"),
        ('<a href="cook/">x</a>', "dead-link"),
        ('<a href="cook/pot.html#gone">x</a>', "dead-anchor"),
        ('<a href="#gone">x</a>', "dead-anchor"),
        ('<a href="javascript:go()">x</a>', "outside"),
        ('<a href="data:text/html,x">x</a>', "outside"),
        ('<img src="https://example.org/x.png" alt="x">', "outside"),
        ('<img src="//example.org/x.png" alt="x">', "outside"),
        ('<link rel="stylesheet" href="https://example.org/x.css">', "outside"),
        ('<svg><use href="https://example.org/x.svg#y"/></svg>', "outside"),
        ('<p style="color:red">x</p>', "style-attribute"),
        ('<svg><rect style="fill:red"/></svg>', "style-attribute"),
        ('<p onclick="go()">x</p>', "script"),
        ("<script>go()</script>", "script"),
        ('<iframe src="kit.json"></iframe>', "script"),
        ("</article><script>go()</script>", "script"),
        ('<script type="application/json">{}</script>', "script"),
        ('<script type="application/json" class="figures" src="kit.js"></script>', "script"),
        ('<script type="module" class="figures">go()</script>', "script"),
        (2 * '<script type="application/json" class="figures">{}</script>', "script"),
        ("<table><tr><td>1</td></tr></table>", "no-header"),
        ('<p id="a"><p id="a">', "id-twice"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(tmp_path: Path, body: str, kind: str) -> None:
    found = faults(tmp_path, body)
    assert found
    assert any(text.endswith(f"[{kind}]") for text in found), found
    assert all(text.startswith("fell/index.html:3:") or kind == "script" for text in found)


def test_a_page_without_a_language_is_told(tmp_path: Path) -> None:
    found = faults(tmp_path, "", page="<html><body><article>{}</article></body></html>")
    assert found == [
        "fell/index.html:1:1: error: the page does not say its language"
        " — set its language [no-language]"
    ]


def test_a_script_in_a_picture_is_told(tmp_path: Path) -> None:
    (tmp_path / "map.svg").write_text("<svg><script>go()</script></svg>")
    assert any("[script]" in text for text in faults(tmp_path, ""))


def test_a_heavy_page_is_a_warning(tmp_path: Path) -> None:
    (tmp_path / "pocket.html").write_text('<html lang="en">' + "x" * 200_000)
    assert faults(tmp_path, "") == [
        "fell/pocket.html:1:1: warning: the page is 195 KB; 150 KB is the most"
        " — make its pictures smaller or its texts shorter [too-large]"
    ]
