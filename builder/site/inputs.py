"""What a kit is made from, put into one short name; the same on every machine."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from builder.site.folder.kit_files import files_below

# Another version of these may write other bytes.
LIBRARIES = (
    "astral",
    "babel",
    "gpxpy",
    "jinja2",
    "markdown",
    "mkdocs",
    "mkdocs-material",
    "pillow",
    "segno",
    "zensical",
)
# What a system or Python leaves beside the files that ship; and in a wheel, the shipped folders,
# which are asked for by themselves.
_PASSED_OVER = {"__pycache__", "shipped"}


def fingerprint(parts: Mapping[str, bytes]) -> str:
    """Give a short name for a set of named contents."""
    digest = hashlib.sha256()
    for name, content in sorted(parts.items()):
        for each in (name.encode("utf-8", "surrogateescape"), content):
            digest.update(len(each).to_bytes(8, "big"))
            digest.update(each)
    return digest.hexdigest()


def shipped_files(name: str, folder: Path) -> dict[str, bytes]:
    """Give every file below a folder of the tool's own, by its path in there under a name."""
    return {
        f"{name}/{inside}": file.read_bytes()
        for inside, file in files_below(folder).items()
        if not _PASSED_OVER.intersection(inside.split("/"))
    }


@cache
def tool_of_sites(templates: Path, base_config: Path) -> str:
    """Name all of the tool that makes a site of pages: no file of it changes while it runs."""
    parts = shipped_files("site", Path(__file__).resolve().parent)
    for folder in ("assets", "theme", "languages"):
        parts |= shipped_files(folder, templates / folder)
    for name in ("successor-search.css", "labels.html.j2"):
        parts[name] = (templates / name).read_bytes()
    parts["base configuration"] = base_config.read_bytes()
    return fingerprint({**parts, **libraries()})


@cache
def libraries() -> dict[str, bytes]:
    """Give the versions of what turns pages into a kit."""
    return {f"library {name}": _version(name).encode("ascii") for name in LIBRARIES}


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return ""
