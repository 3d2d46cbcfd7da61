"""What the search looks through: the words of each part of each page, once, as a script."""

from __future__ import annotations

import json
from pathlib import Path

from builder.site.search.search_index import SEARCHED, write_searched


def test_the_words_of_pages_are_kept_without_their_marks(tmp_path: Path) -> None:
    (tmp_path / "search").mkdir()
    index = tmp_path / "search/search_index.json"
    docs = [
        {"location": "day-1.html", "title": "Day 1", "text": ""},
        {
            "location": "day-1.html#eat",
            "title": "Eat &amp; drink",
            "text": "<p>Soak<br>4\n</p><b>g</b>",
        },
    ]
    index.write_text(json.dumps({"config": {"lang": ["en"]}, "docs": docs}))
    write_searched(tmp_path)
    assert not index.exists()
    script = (tmp_path / SEARCHED).read_text("utf-8")
    assert script == (
        'const SEARCHED = [["day-1.html","Day 1",""],'
        '["day-1.html#eat","Eat & drink","Soak 4 g"]];\n'
    )
