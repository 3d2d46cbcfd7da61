"""Files that take their time are taken over where they would be the same, and only there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from builder.site.folder.made import claim
from builder.site.folder.taken_over import taken_over

FILES = {"labels/a4.html": b"<p>old</p>", "labels/letter.html": b""}
ANEW = {"labels/a4.html": b"<p>new</p>"}


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """Give a folder of kits in which files of one were made before."""
    claim(tmp_path)
    for name, content in FILES.items():
        (tmp_path / "at-home" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "at-home" / name).write_bytes(content)
    taken_over(tmp_path, "at-home", "this", lambda: FILES)
    return tmp_path


def taken(out: Path, made_from: str = "this") -> object:
    return taken_over(out, "at-home", made_from, lambda: ANEW)


def test_what_would_be_the_same_is_not_made(out: Path) -> None:
    assert taken(out) == FILES


def test_what_comes_from_something_else_is_made(out: Path) -> None:
    assert taken(out, "that") == ANEW


def written(name: str, content: bytes) -> Callable[[Path], object]:
    return lambda out: (out / name).write_bytes(content)


@pytest.mark.parametrize(
    "spoil",
    [
        written("at-home/labels/a4.html", b"<p>odd</p>"),
        lambda out: (out / "at-home/labels/letter.html").unlink(),
        lambda out: (out / ".built/at-home.late").unlink(),
        *(
            written(".built/at-home.late", content)
            for content in (
                b"",
                b"[]",
                b'{"made_from": "this"}',
                b'{"made_from": "this", "files": 5}',
                b'{"made_from": "this", "files": ["labels/a4.html"]}',
                b'{"made_from": "this", "files": {"labels/a4.html": "0"}}',
                b"\xff",
                b"[" * 100_000,
            )
        ),
    ],
)
def test_what_is_not_there_as_it_was_is_made(spoil: Callable[[Path], object], out: Path) -> None:
    spoil(out)
    assert taken(out) == ANEW
