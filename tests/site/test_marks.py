"""Marks of buttons are drawn once, in the style sheet, whatever pages hold them."""

from __future__ import annotations

from builder.site.finishing.marks import marks_in, style_of_marks, with_marks


def drawn(path: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24"><path d="{path}"/></svg>'


ONE, TWO = "M3 6h18v2H3z", "M4 11v2h12l-5.5 5.5z"
CHART = '<svg viewBox="0 0 320 120" role="img"><path d="M0 0"/></svg>'


def test_pages_name_their_marks_and_keep_their_charts() -> None:
    pages = [f"<a>{drawn(TWO)}</a>{CHART}", f"{drawn(ONE)}{drawn(TWO)}"]
    marks = marks_in(pages)
    assert list(marks) == [ONE, TWO]
    told = [with_marks(page, marks) for page in pages]
    assert CHART in told[0]
    assert told[1] == (
        '<svg class="kit-mark kit-mark-1"></svg><svg class="kit-mark kit-mark-2"></svg>'
    )


def test_the_style_draws_each_mark_in_the_colour_of_the_text() -> None:
    style = style_of_marks(marks_in([drawn(ONE)]))
    assert "background:currentcolor" in style
    assert style.count("data:image/svg+xml,") == 1
    assert "M3 6h18v2H3z" in style and "<" not in style and "#" not in style


def test_pages_without_marks_need_no_style() -> None:
    assert style_of_marks(marks_in([CHART])) == ""
