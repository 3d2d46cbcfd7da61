"""New folders and records from the commented examples that lie beside this file."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterable, Mapping
from pathlib import Path

from builder.reading.declared.values import DEVICES, can_be_id, write_id
from builder.reading.folder import Layer, read_folder
from builder.site.folder.kit_files import files_below
from builder.starts.editors import (
    SCHEMAS,
    SETTINGS,
    bring_schemas,
    schema_files,
    settings,
    with_schema_line,
)

EXAMPLES = Path(__file__).parent / "examples"
CONTENT = "content"  # of a folder that is started
ROOM_OF = {"recipe": "recipes", "batch": "batches", "food": "foods"}


class StartError(Exception):
    """Something that cannot be started; says why and what would do."""

    def __init__(self, says: str, mend: str) -> None:
        """Keep what is wrong and what would do."""
        super().__init__(says)
        self.says, self.mend = says, mend


def checked_id(name: str) -> str:
    """Give the name back where it can be an id."""
    if name in DEVICES:
        raise StartError(
            f"{name!r} cannot be an id: Windows can have no file of that name", f"use {name}-1"
        )
    if not can_be_id(name):
        raise StartError(f"{name!r} cannot be an id", write_id(name))
    return name


def write_new(files: Mapping[Path, bytes]) -> list[Path]:
    """Write files that must not exist yet: all of them, or none."""
    there = [path for path in files if path.exists() or path.is_symlink()]
    if there:
        raise StartError(
            f"{there[0].as_posix()} is there already", "choose another name, or edit that file"
        )
    written: list[Path] = []
    try:
        for path, content in files.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            # "x" fails where somebody else was quicker, instead of writing over their file.
            with path.open("xb") as file:
                written.append(path)
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
    except OSError as error:
        for path in written:
            path.unlink(missing_ok=True)
        raise StartError(
            f"{error.filename} could not be written ({error.strerror})",
            "check the folder, its rights and the space left",
        ) from error
    return list(files)


def start_folder(folder: Path) -> list[Path]:
    """Make a folder with a small trip that builds."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise StartError(
            f"{folder.as_posix()} is there already and not empty", "choose another name"
        )
    files = {name: file.read_bytes() for name, file in files_below(EXAMPLES / "folder").items()}
    in_content = len(f"{CONTENT}/")
    for name in files:
        if name.startswith(f"{CONTENT}/"):
            files[name] = with_schema_line(name[in_content:], files[name])
    schemas = {f"{CONTENT}/{name}": raw for name, raw in schema_files().items()}
    helps = {**schemas, SETTINGS: settings(CONTENT)}
    written = write_new({folder / name: raw for name, raw in {**files, **helps}.items()})
    return [path for path in written if path.parent.name != SCHEMAS]


def write_content(folder: Path, files: Mapping[str, bytes]) -> list[Path]:
    """Write new files of a content folder, each with the line by which editors know its keys."""
    written = write_new({folder / path: with_schema_line(path, raw) for path, raw in files.items()})
    with contextlib.suppress(OSError):  # without schemas all is as well, but for editors
        bring_schemas(folder)
    return written


def start_record(folder: Path, layers: Iterable[Layer], kind: str, name: str) -> list[Path]:
    """Write one commented record into a file of its own."""
    checked_id(name)
    there = read_folder(layers).texts.get((kind, name))
    if there is not None:
        raise StartError(
            f"there is a {kind} {name!r} already, in {there.path}",
            "choose another name" + (", or edit that one" if kind != "food" else ""),
        )
    text = example(f"{kind}.yaml", name)
    return write_content(folder, {f"{ROOM_OF[kind]}/{name}.yaml": text.encode("utf-8")})


def example(file: str, name: str) -> str:
    """Give an example with its placeholders filled in."""
    text = (EXAMPLES / file).read_text("utf-8").replace("NAME-ID", name)
    return text.replace("NAME-SAID", title_of(name))


def title_of(name: str) -> str:
    """Give what something new is called at first."""
    return name.replace("-", " ").capitalize()
