"""Words from right to left stand alone, and nothing else is touched."""

from __future__ import annotations

import pytest

from builder.site.finishing.directions import isolated


@pytest.mark.parametrize(
    ("html", "shown"),
    [
        ("<p>Ash, Bo.</p>", "<p>Ash, Bo.</p>"),
        ("<p>ליל, قمر 7 kg</p>", "<p><bdi>ליל</bdi>, <bdi>قمر</bdi> 7 kg</p>"),
        ("<b>نجمة الصباح:</b>", "<b><bdi>نجمة الصباح</bdi>:</b>"),
        ("בן־שחר-טל", "<bdi>בן־שחר-טל</bdi>"),
        ('<a title="قمر">قمر</a>', '<a title="قمر"><bdi>قمر</bdi></a>'),
        ("<title>قمر</title>", "<title>قمر</title>"),
        ("<svg><text>قمر</text></svg>קמר", "<svg><text>قمر</text></svg><bdi>קמר</bdi>"),
        ("<script>'قمر'</script>", "<script>'قمر'</script>"),
        ("<!-- قمر -->", "<!-- قمر -->"),
    ],
)
def test_each_run_stands_alone(html: str, shown: str) -> None:
    assert isolated(html) == shown


def test_doing_it_again_keeps_the_same_words() -> None:
    once = isolated("<p>قمر, נר</p>")
    assert isolated(once).replace("<bdi>", "").replace("</bdi>", "") == "<p>قمر, נר</p>"
