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
        "<table><tr><th>a</th></tr></table><table><tr><th>b</th></tr></table>",
        '<a href="mailto:hut@example.org">write</a>',
        '<a href="http://example.org">source</a>',
        '<a href="cook/p%6Ft.html#st%65ps">steps</a>',
        '<a href="./cook/../kit.json">data</a>',
        '<a href="#__search">search</a>',
        '<img src="kit.json" srcset="kit.json 1x, cook/pot.html 2x" alt="">',
        '<p id="one"><p id="two">',
        '<a name="x">no address</a><img alt="none">',
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
        *(
            (f"<{name}>", "script")
            for name in ("style", "object", "embed", "base", "meta", "link", "script")
        ),
        *(
            (f'<{name} {attribute}="https://example.org/x">', "outside")
            for name, attribute in (
                *(("audio", "src"), ("embed", "src"), ("iframe", "src"), ("image", "href")),
                *(("image", "xlink:href"), ("img", "src"), ("img", "srcset"), ("input", "src")),
                *(("object", "data"), ("script", "src"), ("source", "src"), ("source", "srcset")),
                *(("track", "src"), ("use", "href"), ("use", "xlink:href"), ("video", "src")),
                *(("video", "poster"), ("link", "href")),
            )
        ),
        ('<a href="ftp://example.org/x">x</a>', "outside"),
        ('<a href="//example.org/x">x</a>', "outside"),
        ('<area href="gone.html">', "dead-link"),
        ('<img srcset="kit.json 1x, gone.png 2x" alt="">', "dead-link"),
        ('<img src="gone.png" alt="">', "dead-link"),
        ("<table><tr><th>a</th></tr></table><table><tr><td>1</td></tr></table>", "no-header"),
        ("<table><tr><td><table><tr><th>a</th></tr></table></td></tr></table>", "no-header"),
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


def test_a_link_is_read_from_the_folder_of_its_page(tmp_path: Path) -> None:
    assert faults(tmp_path, "") == []
    page = tmp_path / "cook" / "pot.html"
    page.write_text(GOOD.format('<a href="../kit.json">x</a><a href="kit.json">x</a>'))
    assert [str(each) for each in check_kit(tmp_path, "fell")] == [
        "fell/cook/pot.html:3:28: error: kit.json leads nowhere"
        " — link to a page of the kit [dead-link]"
    ]


def test_what_stands_outside_the_text_may_be_script(tmp_path: Path) -> None:
    page = "<html lang=nb><head><script>go()</script></head><article>{}</article><script></script>"
    assert faults(tmp_path, "", page) == []


@pytest.mark.parametrize(
    ("name", "size", "told"),
    [
        ("pocket.html", 150 * 1024, False),
        ("pocket.html", 150 * 1024 + 1, True),
        ("carry.html", 400 * 1024, False),
        ("carry.html", 400 * 1024 + 1, True),
        ("photo.jpg", 900 * 1024, False),
        # Nobody can make these lighter: they grow with days and people.
        ("numbers.html", 900 * 1024, False),
        ("numbers/day-2.html", 900 * 1024, False),
    ],
)
def test_how_heavy_a_page_may_be(tmp_path: Path, name: str, size: int, told: bool) -> None:
    start = '<html lang="en">'
    (tmp_path / name).parent.mkdir(exist_ok=True)
    (tmp_path / name).write_text(start + "x" * (size - len(start)))
    assert [text.rpartition("[")[2] for text in faults(tmp_path, "")] == ["too-large]"] * told


def test_a_script_in_a_picture_is_told(tmp_path: Path) -> None:
    (tmp_path / "map.svg").write_text("<svg><script>go()</script></svg>")
    assert any("[script]" in text for text in faults(tmp_path, ""))


def test_a_heavy_page_is_a_warning(tmp_path: Path) -> None:
    (tmp_path / "pocket.html").write_text('<html lang="en">' + "x" * 200_000)
    assert faults(tmp_path, "") == [
        "fell/pocket.html:1:1: warning: the page is 195 KB; 150 KB is the most"
        " — make its pictures smaller or its texts shorter, or plan a long way as two trips"
        " [too-large]"
    ]
