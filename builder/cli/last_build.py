"""What the last build of a folder of kits was made from, and what it said; to be quick again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import TypeAlias

from builder.cli.dangers import Dangers
from builder.cli.places import Place, shown_path
from builder.clock import told_epoch
from builder.record import dataclass, replace
from builder.shipped import shipped_root
from builder.site.folder.memory import as_text, told_in, write_over

FolderMarks: TypeAlias = "Sequence[tuple[str, str]]"

# Stand for folders in what is remembered: paths of a machine do not.
_OWN, _SHIPPED = "\x01own\x01/", "\x01shipped\x01/"


@dataclass(frozen=True, slots=True)
class LastBuild:
    """One build of some trips."""

    made_from: str
    kits: Mapping[str, str]  # what each was made from, by trip
    index_sha256: str
    warnings: tuple[str, ...]
    dangers: Dangers


def state_of(place: Place, order: object) -> str:
    """Name all that a build depends on: content, the tool itself, and what was ordered."""
    from builder.reading.files import ROOMS, state_of_content
    from builder.site.inputs import fingerprint

    own = state_of_content(place.folder, ROOMS)
    return fingerprint(
        {
            **{f"own {name}": state for name, state in own.items()},
            "tool": state_of_tool(place.is_demo).encode("ascii"),
            "order": repr(order).encode("utf-8"),
        }
    )


def state_of_tool(is_demo: bool) -> str:
    """Name the tool, with all that it ships, and what else changes a build from outside."""
    from builder.site.inputs import fingerprint

    parts = {"files": _files_of_tool(is_demo), "date": told_epoch()}
    return fingerprint(
        {name: told.encode("utf-8", "surrogateescape") for name, told in parts.items()}
    )


@cache
def _files_of_tool(is_demo: bool) -> str:
    """Name what is installed: none of it changes while it runs, unlike the date that is told."""
    from builder.site.inputs import fingerprint, libraries, shipped_files

    root = shipped_root()
    return fingerprint(
        {
            # The demo's own records are told apart one by one.
            **({} if is_demo else shipped_files("content", root / "content")),
            **shipped_files("site_templates", root / "site_templates"),
            **shipped_files("builder", Path(__file__).resolve().parent.parent),
            **libraries(),
            "base configuration": (root / "mkdocs.yml").read_bytes(),
        }
    )


def remember(out: Path, place: Place, last: LastBuild) -> None:
    """Write down what was built."""
    from builder.site.folder.swap import INDEX, kit_lock

    marks = folder_marks(place)
    warnings = tuple(without_folders(text, marks) for text in last.warnings)
    with kit_lock(out, INDEX):
        write_over(_file(out), as_text(replace(last, warnings=warnings)))


def forget(out: Path) -> None:
    """Take away what was written down of a build."""
    _file(out).unlink(missing_ok=True)


def unchanged(out: Path, place: Place, made_from: str) -> LastBuild | None:
    """Give the last build where it was made from the same, and all it made is whole."""
    from builder.site.folder.index_page import INDEX_NAME
    from builder.site.folder.made import sha256_of
    from builder.site.folder.swap import is_current

    last = _read(out, place)
    if last is None or last.made_from != made_from:
        return None
    try:
        if sha256_of(out / INDEX_NAME) != last.index_sha256:
            return None
    except OSError:
        return None
    whole = all(is_current(out, name, kit_from) for name, kit_from in last.kits.items())
    return last if whole else None


def _file(out: Path) -> Path:
    from builder.site.folder.made import OWN_FOLDER

    return out / OWN_FOLDER / "_last.json"


def _read(out: Path, place: Place) -> LastBuild | None:
    told = told_in(_file(out), LastBuild)
    if told is None:
        return None
    marks = folder_marks(place)
    return replace(told, warnings=tuple(with_folders(text, marks) for text in told.warnings))


def folder_marks(place: Place) -> FolderMarks:
    """Give the folders as they are shown, the longer one first, and what stands for each."""
    shipped = shown_path(shipped_root() / "content")
    pairs = [(f"{place.shown}/", _OWN)]
    if not place.is_demo:
        pairs.append((f"{shipped}/", _SHIPPED))
    return sorted(pairs, key=lambda pair: -len(pair[0]))


def without_folders(text: str, marks: FolderMarks) -> str:
    """Give a text with marks in the place of folders."""
    for folder, mark in marks:
        text = text.replace(folder, mark)
    return text


def with_folders(text: str, marks: FolderMarks) -> str:
    """Give a text with folders in the place of marks."""
    for folder, mark in marks:
        text = text.replace(mark, folder)
    return text
