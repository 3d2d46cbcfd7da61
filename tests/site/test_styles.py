"""The one style sheet holds all that pages can use, and little else."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.site.finishing.styles import merge_styles, slim, squeezed, without_theme_links

PAGE = '<body dir="ltr" data-md-color-scheme="default"><p class="here there">x</p></body>'
SCRIPT = 'element.classList.add("made"); style.getPropertyValue("--asked");'


@pytest.mark.parametrize(
    ("css", "left"),
    [
        (".here{a:b}", ".here{a:b}"),
        (".gone{a:b}", ""),
        (".made{a:b}", ".made{a:b}"),
        ("p{a:b}#id{a:b}[hidden]{a:b}", "p{a:b}#id{a:b}[hidden]{a:b}"),
        (".here .gone,.there>p{a:b}", ".there>p{a:b}"),
        (".here:not(.gone){a:b}", ".here:not(.gone){a:b}"),
        (":is(.gone,.here) p,.gone{a:b}", ":is(.gone,.here) p{a:b}"),
        ("@media print{.gone{a:b}.here{a:b}}", "@media print{.here{a:b}}"),
        ("@media print{@media (min-width:1em){.gone{a:b}}}", ""),
        ("@keyframes gone{0%{a:b}to{a:c}}", "@keyframes gone{0%{a:b}to{a:c}}"),
        ('@charset "UTF-8";.here{a:b}', '@charset "UTF-8";.here{a:b}'),
        ("@page{margin:1mm}", "@page{margin:1mm}"),
        ('.here::after{content:"}.gone{"}', '.here::after{content:"}.gone{"}'),
        ("[dir=rtl] .here,[dir=ltr] .here{a:b}", "[dir=ltr] .here{a:b}"),
        ("[data-md-color-scheme=slate]{a:b}[data-md-color-scheme=default]{a:c}",
         "[data-md-color-scheme=default]{a:c}"),
        ("/* .here{} */.there{a:b}", ".there{a:b}"),
        (".here\\:x{a:b}", ""),
        (":root{--one:1;--two:var(--one);--three:3}.here{a:var(--three)}",
         ":root{--three:3}.here{a:var(--three)}"),
        (':root{--asked:url("data:a;b,c");--idle:url("data:a;b,c")}',
         ':root{--asked:url("data:a;b,c");}'),
    ],
)  # fmt: skip
def test_what_can_match_stays_and_the_rest_goes(css: str, left: str) -> None:
    assert slim(css, PAGE, SCRIPT) == left


def test_what_a_script_in_a_page_may_put_in_stays() -> None:
    page = f'{PAGE}<script>root.classList.add("kit-today");</script><script src="a.js"></script>'
    assert slim(".kit-today .here{a:b}.gone{a:b}", page, SCRIPT) == ".kit-today .here{a:b}"


def test_comments_and_idle_white_space_go() -> None:
    css = "/* why */\n.a > .b,\n.c { margin: 0 auto;\n  color: red; }\n"
    assert squeezed(css) == ".a > .b,.c{margin:0 auto;color:red;}\n"


def test_pages_lose_the_links_to_what_is_merged() -> None:
    html = (
        '<head>\n  <link rel="stylesheet" href="../assets/stylesheets/main.1.min.css">\n'
        '  <link rel="stylesheet" href="../assets/kit.css">\n</head>'
    )
    left = '<head>\n  <link rel="stylesheet" href="../assets/kit.css">\n</head>'
    assert without_theme_links(html) == left


def test_the_theme_comes_before_the_kits_own_and_both_are_cut_down(tmp_path: Path) -> None:
    sheets = tmp_path / "assets" / "stylesheets"
    sheets.mkdir(parents=True)
    (sheets / "palette.1.min.css").write_text(".there{c:d}")
    (sheets / "main.1.min.css").write_text(".here{a:b}.gone{a:b}")
    (tmp_path / "assets" / "kit.css").write_text(".there p { e: f; }\n.idle { e: f; }\n")
    merge_styles(tmp_path, [PAGE])
    style = (tmp_path / "assets" / "kit.css").read_text()
    assert style == ".here{a:b}.there{c:d}.there p{e:f;}"
    assert not sheets.exists()
