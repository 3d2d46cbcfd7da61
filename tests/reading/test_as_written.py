"""A file that is changed in one place keeps every other byte."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.reading.text.as_written import edited_bytes
from builder.reading.text.spelling import Edit, edited
from builder.reading.text.yaml_door import decode


@pytest.mark.parametrize(
    ("raw", "edit", "expected"),
    [
        (b"a\nb\n", Edit(2, 3, "x\ny"), b"a\nx\ny\n"),
        (b"a\r\nb\r\n", Edit(2, 3, "x\ny"), b"a\r\nx\r\ny\r\n"),
        (b"a\r\nb", Edit(3, 3, "\nc"), b"a\r\nb\r\nc"),
        (b"\xef\xbb\xbfa\n", Edit(0, 1, "b"), b"\xef\xbb\xbfb\n"),
        (b"\xef\xbb\xbf", Edit(0, 0, "b\n"), b"\xef\xbb\xbfb\n"),
        # Of mixed line ends each stays, and what is put in goes with most of them.
        (b"a\r\nb\nc\r\nd", Edit(4, 5, "x\n"), b"a\r\nb\nx\r\n\r\nd"),
        (b"a\nb\nc\r\nd", Edit(0, 0, "x\n"), b"x\na\nb\nc\r\nd"),
        ("ä\r\nß".encode(), Edit(2, 3, "ö"), "ä\r\nö".encode()),
    ],
)
def test_line_ends_and_mark_stay(raw: bytes, edit: Edit, expected: bytes) -> None:
    assert edited_bytes(raw, [edit]) == expected


RAW = st.lists(st.sampled_from([b"a", b"b", b"\n", b"\r\n", "ß".encode()]), max_size=12)


@given(RAW, st.integers(0, 12), st.integers(0, 12), st.sampled_from(["", "x", "\n"]))
def test_what_is_read_back_is_the_edited_text(
    parts: list[bytes], one: int, other: int, put_in: str
) -> None:
    raw = b"".join(parts)
    text, problems = decode(raw, "")
    assert not problems
    start, end = sorted((min(one, len(text)), min(other, len(text))))
    found = edited_bytes(raw, [Edit(start, end, put_in)])
    assert decode(found, "")[0] == edited(text, [Edit(start, end, put_in)])
    # What stood before and behind stays as the bytes it was.
    lines = raw.replace(b"\r\n", b"\r")  # each line end one byte
    before, behind = text[:start].encode(), text[end:].encode()
    assert found.replace(b"\r\n", b"\r").startswith(lines[: len(before)])
    assert found.replace(b"\r\n", b"\r").endswith(lines[len(lines) - len(behind) :])


def test_what_several_put_in_at_one_place_stands_in_their_order() -> None:
    edits = [Edit(1, 1, "x"), Edit(1, 1, "y"), Edit(1, 2, "z")]
    assert edited("abc", edits) == "axyzc"
    assert edited_bytes(b"abc", edits) == b"axyzc"
