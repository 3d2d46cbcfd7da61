"""What lets editors complete and underline a content folder, with no network.

JSON Schemas lie in the folder, each file's first line names its own, and settings name them for
files that lack the line. Reading passes all of it over: its names begin with a dot, the line is
a comment.
"""

from __future__ import annotations

import json
import os
from pathlib import Path, PurePosixPath

from builder.reading.declared.json_schemas import schema_text
from builder.reading.kinds import KINDS, kind_of_file

SCHEMAS = ".schemas"  # in a content folder
SETTINGS = ".vscode/settings.json"  # beside it
_LINE = b"# yaml-language-server: $schema="
_BOM = b"\xef\xbb\xbf"


def with_schema_line(path: str, raw: bytes) -> bytes:
    """Give a file of a content folder that names its schema on its first line."""
    kind = kind_of_file(path)
    if kind is None:
        return raw
    up = "../" * (len(PurePosixPath(path).parts) - 1)
    mark = _BOM if raw.startswith(_BOM) else b""
    raw = raw.removeprefix(mark)
    if raw.startswith(_LINE):
        raw = raw.partition(b"\n")[2]  # names it from where it lay before
    ending = b"\r\n" if b"\r\n" in raw else b"\n"
    return mark + _LINE + f"{up}{SCHEMAS}/{kind.schema_name}".encode() + ending + raw


def schema_files() -> dict[str, bytes]:
    """Give the schemas by their path in a content folder."""
    return {
        f"{SCHEMAS}/{kind.schema_name}": schema_text(kind).encode("utf-8")
        for kind in KINDS.values()
    }


def bring_schemas(folder: Path) -> None:
    """Put the schemas into a content folder, or bring those up to date that the tool made."""
    if (folder / SCHEMAS).is_symlink():
        return
    (folder / SCHEMAS).mkdir(exist_ok=True)
    for path, raw in schema_files().items():
        there = folder / path
        if there.is_symlink() or (there.exists() and not _is_made_by_us(there)):
            continue
        if not there.exists() or there.read_bytes() != raw:
            fresh = there.with_name(f"{there.name}.{os.getpid()}.new")
            fresh.write_bytes(raw)
            os.replace(fresh, there)


def _is_made_by_us(schema: Path) -> bool:
    try:
        told = json.loads(schema.read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return False
    return isinstance(told, dict) and str(told.get("$comment", "")).startswith("Made by tripkit")


def settings(content: str) -> bytes:
    """Give an editor's settings for a folder in which the content lies under a name."""
    schemas = {
        f"./{content}/{SCHEMAS}/{kind.schema_name}": [f"{content}/{each}" for each in kind.files]
        for kind in KINDS.values()
    }
    told = {"yaml.schemas": schemas, "yaml.schemaStore.enable": False}
    return (json.dumps(told, indent=2) + "\n").encode("utf-8")
