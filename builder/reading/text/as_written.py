"""A file's bytes with some of them changed: its line ends and byte order mark stay as they are."""

from __future__ import annotations

import codecs
import re
from bisect import bisect_left
from collections.abc import Iterable

from builder.reading.text.spelling import Edit, edited

_WINDOWS = "\r\n"


def edited_bytes(raw: bytes, edits: Iterable[Edit]) -> bytes:
    """Change a file by edits of its text as `yaml_door.decode` gives it; all else stays.

    What is put in gets the line ends that most lines of the file have.
    """
    text = raw.decode("utf-8-sig")
    ends = [match.start() for match in re.finditer(_WINDOWS, text)]
    # In the decoded text each of these is one character, so that what follows moves up by one.
    decoded = [end - number for number, end in enumerate(ends)]
    windows = 2 * len(ends) > text.count("\n")

    def in_file(edit: Edit) -> Edit:
        start, end = (at + bisect_left(decoded, at) for at in (edit.start, edit.end))
        return Edit(start, end, edit.text.replace("\n", _WINDOWS) if windows else edit.text)

    mark = codecs.BOM_UTF8 if raw.startswith(codecs.BOM_UTF8) else b""
    return mark + edited(text, [in_file(each) for each in edits]).encode("utf-8")
