"""What Markdown writes as styles becomes classes, and tables get their scroll box."""

from __future__ import annotations

import markdown
import pytest

from builder.site.finishing.finish import without_idle_space
from builder.site.finishing.pages import finished as finished_pages
from builder.site.finishing.scripts import KIT_SCRIPTS
from builder.site.finishing.security import hash_source
from builder.site.rendering.framing import Frame, FramedPage, mark, put_together, taken_apart
from builder.speech import speech_of

PAGE = '<head><meta charset="utf-8"></head><article>{}</article>'
TABLE = "| a | b | c | d |\n|---|--:|:-:|:--|\n| 1 | 2 | 3 | 4 |\n"


def finish_page(html: str) -> str:
    pages = finished_pages({"day-1.html": taken_apart(html)}, {}, (), speech_of("en"))
    return put_together(pages["day-1.html"])


def finished(text: str) -> str:
    return finish_page(PAGE.format(markdown.markdown(text, extensions=["tables"])))


def test_aligned_columns_become_classes() -> None:
    html = finished(TABLE)
    assert "style=" not in html
    for cell in (
        '<th scope="col">a</th>',
        '<th scope="col" class="num">b</th>',
        '<th scope="col" class="mid">c</th>',
        '<td class="num">2</td>',
        '<td class="mid">3</td>',
        "<td>4</td>",
    ):
        assert cell in html


def test_a_table_lies_in_a_box_that_scrolls() -> None:
    html = finished(TABLE)
    assert '<div class="wide"><table class="rows">' in html
    assert "</table></div>" in html


@pytest.mark.parametrize("words", ['&lt;td style="text-align: right;"&gt;', "a < b", "<table"])
def test_words_that_look_like_cells_stay_words(words: str) -> None:
    html = finish_page(PAGE.format(f"<p>{words}</p>"))
    assert f"<p>{words}</p>" in html


def test_tables_over_several_lines_get_one_box_each_and_others_stay() -> None:
    html = finish_page(
        PAGE.format(
            '<table>\n<tr><th>a</th></tr>\n</table>\n<table class="nums"><tr><th class="num">b</th>'
            '</tr></table><table class="own"><tr><th>c</th></tr></table>'
        )
    )
    assert html.count('<div class="wide">') == 2
    assert '<div class="wide"><table class="rows"> <tr><th scope="col">a</th>' in html
    assert '<table class="rows nums"><tr><th scope="col" class="num">b</th>' in html
    assert '<table class="own"><tr><th>c</th></tr></table>' in html


@pytest.mark.parametrize(
    ("written", "sent"),
    [
        ("<p>a\n   b</p>", "<p>a b</p>"),
        ("<p>a</p>\n\n<p>b</p>", "<p>a</p> <p>b</p>"),
        ("<pre>a\n  b</pre>", "<pre>a\n  b</pre>"),
        ("<script>a\n  b</script>", "<script>a\n  b</script>"),
        ("<p>a</p>\n<textarea>b\n c</textarea>\n", "<p>a</p> <textarea>b\n c</textarea> "),
        ("<p>a\u00a0\u00a0b</p>", "<p>a\u00a0\u00a0b</p>"),
    ],
)
def test_idle_room_goes_and_what_is_set_as_written_stays(written: str, sent: str) -> None:
    assert without_idle_space(written) == sent


def test_the_search_box_takes_its_name_from_its_field() -> None:
    html = finish_page(
        PAGE.format("")
        + '<div class="md-search" data-md-component="search" role="dialog"><form>'
        + '<input type="text" class="md-search__input" aria-label="Suche"></form></div>'
    )
    assert 'role="dialog" aria-label="Suche"><form>' in html


def test_what_only_the_themes_own_script_asks_for_goes() -> None:
    html = finish_page(
        PAGE.format("")
        + '<div data-md-component="announce"> </div><div data-md-component="skip">a</div>'
        + '<form data-md-component="palette"></form><nav data-md-level="1" data-md-type="toc" >b'
        + '</nav><ul data-md-scrollfix>c</ul><div class="md-dialog" data-md-component="dialog">'
        + ' <div class="md-dialog__inner md-typeset"></div> </div><p>d</p>'
    )
    assert html.endswith(
        '<div>a</div><form data-md-component="palette"></form><nav data-md-level="1" >b</nav>'
        "<ul>c</ul><p>d</p>"
    )


def test_what_people_write_about_the_theme_stays() -> None:
    text = '<p>Set data-md-type="x" and <code>&lt;div data-md-scrollfix&gt;</code></p>'
    assert text in finish_page(PAGE.format(text))


def test_the_parts_of_a_page_are_listed_beside_it_and_not_in_the_menu_too() -> None:
    parts = '<nav class="md-nav md-nav--secondary"><ul><li><nav>inner</nav></li></ul></nav>'
    own = '<a href="day-2.html" class="md-nav__link md-nav__link--active">Day 2</a>'
    html = finish_page(
        '<head><meta charset="utf-8"></head>'
        '<input class="md-nav__toggle md-toggle" type="checkbox" id="__toc">'
        '<label class="md-nav__link md-nav__link--active" for="__toc">Day 2</label>'
        f"{own}{parts}<p>after</p>{parts}<article><h1>Day 2</h1></article>"
    )
    assert html.count("md-nav--secondary") == 1
    assert html.index(own) < html.index("<p>after</p>") < html.index("md-nav--secondary")
    assert "__toc" not in html


def test_no_page_is_fetched_ahead_and_the_logo_is_named_by_its_link() -> None:
    html = finish_page(
        '<head><meta charset="utf-8"><link rel="prev" href="a.html"> <link rel="next" '
        'href="b.html"><link rel="icon" href="i.svg"></head><img src="i.svg" alt="logo">'
    )
    assert "prev" not in html and "next" not in html
    assert 'rel="icon"' in html and '<img src="i.svg" alt="">' in html


def test_what_people_write_is_never_taken_for_the_frame() -> None:
    text = '<p><img src="camp.svg" alt="logo"></p>'
    html = finish_page(PAGE.format(text) + '<img src="i.svg" alt="logo">')
    assert text in html
    assert '<img src="i.svg" alt="">' in html


def test_a_frame_is_finished_once_and_each_page_says_its_own_words_in_it() -> None:
    script, title = "<script>go()</script>", "Tag \u05e9\u05dc\u05d5\u05dd   2"
    frame = Frame(
        f'<head><meta charset="utf-8"><title>{mark("title in a tag")}</title></head><ul>\n\n'
        f"{mark('item 0')}\n{mark('item 1')}</ul>",
        f'{script}<p>{mark("title")}</p><script src="assets/kit.js"></script>',
        (f"<li>{title}</li>", "<li>Two</li>"),
        f"<li class=here>{mark('title')}</li>",
    )
    told = [{"title": each, "title in a tag": each} for each in (title, "Two")]
    pages = {
        "one.html": FramedPage(frame, '<article><ol class="steps"></ol></article>', told[0], 0),
        "two.html": FramedPage(frame, "<article>2</article>", told[1], 1),
    }
    done = finished_pages(pages, {}, KIT_SCRIPTS, speech_of("en"))
    assert done["one.html"].frame is done["two.html"].frame
    one, two = (put_together(page) for page in done.values())
    shown = "Tag <bdi>\u05e9\u05dc\u05d5\u05dd</bdi> 2"
    assert f"<title>{title.replace('   ', ' ')}</title>" in one
    assert f"<ul> <li class=here>{shown}</li> <li>Two</li></ul>" in one
    assert f"<ul> <li>{shown}</li> <li class=here>Two</li></ul>" in two
    assert f"<p>{shown}</p>" in one and "<p>Two</p>" in two
    assert hash_source("go()") in one and hash_source("go()") in two
    assert 'kit.js"></script><script src="assets/lists.js"></script>' in one
    assert "lists.js" not in two
