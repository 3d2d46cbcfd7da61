"""Content and kits that lie where only a URL leads: they are fetched, built here, and put back.

Kits are put when they are whole, the list of kits last. What was not made by the tool is neither
written over nor removed: names in the way stop the build, as in a folder.
"""

from __future__ import annotations

import contextlib
import json
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath

import click

from builder.cli.base import BuilderStop
from builder.cli.places import Place
from builder.problems import printable
from builder.reading.files import ENDINGS, ROOMS
from builder.record import asdict, replace
from builder.site.folder.index_page import INDEX_NAME
from builder.site.folder.made import OWN_FOLDER, Made, is_ours, made_of, sha256_of
from builder.site.folder.swap import remove

_LAST = (f"{OWN_FOLDER}/_last.json",)  # what tells that all is there
_OF_THIS_DISK = (".lock", ".seen", ".new")


@contextlib.contextmanager
def content_at(url: str) -> Iterator[Place]:
    """Fetch the files of a content folder for as long as it is read."""
    shown = printable(url.rstrip("/"))
    with tempfile.TemporaryDirectory(prefix="tripkit-") as scratch, _told_plainly(shown):
        store = _Store(url)
        names = store.names()
        if not names:
            raise BuilderStop(f"there is nothing at {shown}", ["see to the address"])
        folder = Path(scratch) / "content"
        for name in names:
            top = name.split("/")[0]
            if top in ROOMS:
                store.fetch(name, folder / name)
            elif top != name:  # what lies beside the rooms may be told to be misnamed
                (folder / top).mkdir(parents=True, exist_ok=True)
            elif top.lower().endswith(ENDINGS):
                folder.mkdir(parents=True, exist_ok=True)
                (folder / top).touch()
        folder.mkdir(parents=True, exist_ok=True)
        yield Place(folder, shown, False)


@contextlib.contextmanager
def kits_at(url: str) -> Iterator[Path]:
    """Fetch what the tool made there for as long as it is built on, then put what has changed."""
    shown = printable(url.rstrip("/"))
    with tempfile.TemporaryDirectory(prefix="tripkit-") as scratch:
        out = Path(scratch) / "kits"
        try:
            with _told_plainly(shown):
                store = _Store(url)
                before = _fetch_kits(store, out)
            stopped: BaseException | None = None
            try:
                yield out
            except (BuilderStop, SystemExit) as error:
                stopped = error  # the kits that were built are whole all the same
            if out.is_dir():
                with _told_plainly(shown):
                    _put_kits(store, out, before)
            if stopped is not None:
                raise stopped
        except BuilderStop as stop:  # people know the folder by its URL
            told = (text.replace(str(out), shown) for text in (stop.message, *stop.hints))
            message, *hints = told
            raise BuilderStop(message, hints) from stop


class _Store:
    """A folder behind a URL, file by file."""

    def __init__(self, url: str) -> None:
        try:
            import fsspec
        except ImportError as error:
            raise BuilderStop(
                "a URL instead of a folder needs the library fsspec",
                ["install it with `pip install 'trip-kit-builder[remote]'`"],
            ) from error
        self.files, self.root = fsspec.core.url_to_fs(url)
        self.root = self.root.rstrip("/")

    def names(self) -> list[str]:
        """Give all files by their path in there."""
        self.files.invalidate_cache()
        try:
            found = self.files.find(self.root)
        except FileNotFoundError:
            return []
        names = (path[len(self.root) :].lstrip("/") for path in found)
        return sorted(name for name in names if _is_safe(name))

    def fetch(self, name: str, target: Path) -> None:
        """Fetch a file."""
        target.parent.mkdir(parents=True, exist_ok=True)
        self.files.get_file(f"{self.root}/{name}", str(target))

    def put(self, name: str, source: Path) -> None:
        """Put a file in its place."""
        path = f"{self.root}/{name}"
        self.files.makedirs(path.rpartition("/")[0], exist_ok=True)
        self.files.put_file(str(source), path)

    def remove(self, name: str) -> None:
        """Remove a file that the tool made."""
        with contextlib.suppress(FileNotFoundError):
            self.files.rm_file(f"{self.root}/{name}")


def _is_safe(name: str) -> bool:
    parts = PurePosixPath(name).parts
    return bool(parts) and ".." not in parts and "\\" not in name and ":" not in name


def _fetch_kits(store: _Store, out: Path) -> dict[str, str]:
    """Fetch what the tool made, and what lies among it; give the hash of each file that was there.

    Of what is somebody else's the name is enough: an empty file holds its place.
    """
    names = store.names()
    for name in names:
        if name.startswith(f"{OWN_FOLDER}/") and not name.endswith(_OF_THIS_DISK):
            store.fetch(name, out / name)
    is_known = is_ours(out / OWN_FOLDER)
    kits = {name.removesuffix(".json") for name in _records(out)} if is_known else set()
    for name in names:
        top = name.split("/")[0]
        if top in kits or top.removesuffix(".zip") in kits or name == INDEX_NAME:
            store.fetch(name, out / name)
        elif top != OWN_FOLDER:
            (out / name).parent.mkdir(parents=True, exist_ok=True)
            (out / name).touch()
    return _hashes(out)


def _records(out: Path) -> list[str]:
    found = (each.name for each in (out / OWN_FOLDER).glob("*.json"))
    return [name for name in found if not name.startswith("_")]


def _hashes(out: Path) -> dict[str, str]:
    """Give the hash of each file but those of this disk, or that a build left half done."""
    names = {file.relative_to(out): file for file in sorted(out.rglob("*")) if file.is_file()}
    return {
        name.as_posix(): sha256_of(file)
        for name, file in names.items()
        if not file.name.endswith(_OF_THIS_DISK)
        and not (name.parts[0] == OWN_FOLDER and len(name.parts) > 2)
    }


def _put_kits(store: _Store, out: Path, before: Mapping[str, str]) -> None:
    """Put what has changed: first what marks the folder as ours, then kit by kit, last the list."""
    now = _hashes(out)
    changed = [name for name in now if before.get(name) != now[name]]
    last = [name for name in (INDEX_NAME, *_LAST) if name in changed]
    kits = sorted(name.removesuffix(".json") for name in _records(out))
    of_kits = {name for kit in kits for name in now if _belongs(name, kit)}
    for name in changed:
        if name not in of_kits and name not in last:
            store.put(name, out / name)
    for kit in kits:
        own = [name for name in changed if _belongs(name, kit)]
        gone = [name for name in before if name not in now and name.startswith(f"{kit}/")]
        if own or gone:
            _put_kit(store, out, kit, own, gone)
    for name in last:
        store.put(name, out / name)
    for name in before:  # what was forgotten of a public build
        if name.startswith(f"{OWN_FOLDER}/") and name not in now:
            store.remove(name)


def _belongs(name: str, kit: str) -> bool:
    own = (f"{kit}.zip", f"{OWN_FOLDER}/{kit}.json", f"{OWN_FOLDER}/{kit}.plan")
    return name.startswith(f"{kit}/") or name in own


def _put_kit(store: _Store, out: Path, kit: str, own: list[str], gone: list[str]) -> None:
    """Put a kit file by file, so that it is ours and not taken for whole until all is there."""
    record, plan = f"{OWN_FOLDER}/{kit}.json", f"{OWN_FOLDER}/{kit}.plan"
    if record in own:
        made = made_of(out, kit)
        assert made is not None
        if f"{kit}.zip" in own:
            store.remove(f"{kit}.zip")  # the old one is not what is remembered from now on
        half = replace(made, made_from="", files=_with_gone(made, kit, gone))
        between = out / OWN_FOLDER / "_half.json"
        between.write_text(json.dumps(asdict(half), indent=0, sort_keys=True), "utf-8")
        store.put(record, between)
        remove(between)
    for name in own:
        if name not in (record, plan):
            store.put(name, out / name)
    for name in gone:
        store.remove(name)
    for name in (plan, record):
        if name in own:
            store.put(name, out / name)


def _with_gone(made: Made, kit: str, gone: list[str]) -> dict[str, str]:
    return {**{name.removeprefix(f"{kit}/"): "" for name in gone}, **made.files}


@contextlib.contextmanager
def _told_plainly(shown: str) -> Iterator[None]:
    """Say what a store refuses in plain words: each has errors of its own."""
    try:
        yield
    except (BuilderStop, click.ClickException, AssertionError):
        raise
    except Exception as error:
        why = printable(" ".join(str(error).split()))[:300] or type(error).__name__
        raise BuilderStop(
            f"{shown} cannot be reached, read or written: {why}",
            ["see to the address, to what it asks for, and to the library of its kind"],
        ) from error
