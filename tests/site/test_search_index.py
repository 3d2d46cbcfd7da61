"""What the search looks through: the words of each part of each page, once, as a script."""

from __future__ import annotations

from pathlib import Path

from builder.site.rendering.renderer import Part
from builder.site.search.search_index import SEARCHED, write_searched


def test_the_words_of_pages_are_kept_without_their_marks(tmp_path: Path) -> None:
    parts = [
        Part("day-1.html", "Day 1", ""),
        Part("day-1.html#eat", "Eat &amp; drink", "<p>Soak<br>4\n</p><b>g</b>"),
    ]
    write_searched(tmp_path, parts)
    script = (tmp_path / SEARCHED).read_text("utf-8")
    assert script == (
        'const SEARCHED = [["day-1.html","Day 1",""],'
        '["day-1.html#eat","Eat & drink","Soak 4 g"]];\n'
    )
