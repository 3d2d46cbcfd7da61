"""Content and kits behind a URL: fetched, built, put back; what is somebody else's stays."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import files_of, tripkit

fsspec = pytest.importorskip("fsspec")

ROOT = Path(__file__).resolve().parents[1]
CONTENT, KITS = "memory://school/content", "memory://school/kits"
PASSED_OVER = (".lock", ".seen", ".new")


@pytest.fixture
def store(in_empty_folder: Path) -> Iterator[Any]:
    """Give a store in memory that holds a small content folder, and its kits built here beside."""
    files = fsspec.filesystem("memory")
    files.store.clear()
    assert tripkit("new", "folder", "mine").exit_code == 0
    for name, held in files_of(Path("mine/content")).items():
        files.pipe_file(f"/school/content/{name}", held)
    assert tripkit("build", "--content", "mine/content", "--out", "here").exit_code == 0
    yield files
    files.store.clear()


def kept(files: Any, at: str = "/school/kits") -> dict[str, bytes]:
    return {path.removeprefix(f"{at}/"): files.cat_file(path) for path in files.find(at)}


def built_here() -> dict[str, bytes]:
    files = files_of(Path("here")).items()
    return {name: held for name, held in files if not name.endswith(PASSED_OVER)}


def build(*more: str) -> Any:
    return tripkit("build", "--content", CONTENT, "--out", KITS, *more)


def change(files: Any, old: str, new: str) -> None:
    trip = "/school/content/trips/first-trip.yaml"
    text = files.cat_file(trip).decode()
    assert old in text
    files.pipe_file(trip, text.replace(old, new, 1).encode())


def test_kits_behind_a_url_are_those_of_a_folder(store: Any) -> None:
    said = build()
    assert said.exit_code == 0, said.output
    assert f"Built {KITS}/first-trip (First trip)" in said.output
    assert f"Open {KITS}/index.html in a browser." in said.output
    assert kept(store) == built_here()
    again = build()
    assert again.output.startswith("Nothing changed: 1 kit up to date."), again.output
    assert "tripkit-" not in said.output + again.output, "a folder that nobody knows of"


def test_what_changed_is_put_and_what_the_kit_no_longer_has_is_removed(store: Any) -> None:
    assert build().exit_code == 0
    before = kept(store)
    change(store, "name: Alder", "name: Aldera")
    assert build().exit_code == 0
    now = kept(store)
    assert now["first-trip.zip"] != before["first-trip.zip"]
    gone = before.keys() - now.keys()
    assert gone and all("alder" in name for name in gone), "the page of a person who goes no more"
    assert build().output.startswith("Nothing changed")


def test_a_kit_that_lost_a_file_there_is_built_anew(store: Any) -> None:
    assert build().exit_code == 0
    before = kept(store)
    store.rm_file("/school/kits/first-trip/index.html")
    assert f"Built {KITS}/first-trip" in build().output
    assert kept(store) == before


@pytest.mark.parametrize("name", ["first-trip/mine.txt", "first-trip.zip", "index.html"])
def test_what_is_somebody_elses_stops_the_build_and_stays(name: str, store: Any) -> None:
    if name == "first-trip/mine.txt":
        assert build().exit_code == 0
        change(store, "title: ", "title: Our ")
    store.pipe_file(f"/school/kits/{name}", b"mine")
    before = kept(store)
    said = build()
    assert said.exit_code == 1
    assert f"{KITS}/{name}" in said.output and "not made by tripkit" in said.output
    now = kept(store)
    assert now[name] == b"mine"
    # The site of the home was built meanwhile, or broken off.
    assert {
        each for each in now if now[each] != before.get(each) and "at-home" not in each
    } == set()
    assert not [each for each in now if ".new/" in each or ".work/" in each]


def test_what_lies_beside_the_kits_is_left_alone(store: Any) -> None:
    store.pipe_file("/school/kits/notes/mine.txt", b"mine")
    assert build().exit_code == 0
    assert kept(store) == {**built_here(), "notes/mine.txt": b"mine"}


@pytest.mark.parametrize("puts", range(0, 34, 8))
def test_a_put_that_breaks_off_is_made_good_by_the_next_build(
    puts: int, store: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert build().exit_code == 0
    change(store, "name: Alder", "name: Aldera")
    whole, left = type(store).put_file, [puts]

    def breaks(self: Any, *given: Any, **more: Any) -> None:
        if not left[0]:
            raise OSError("the line is gone")
        left[0] -= 1
        whole(self, *given, **more)

    with monkeypatch.context() as line:
        line.setattr(type(store), "put_file", breaks)
        said = build()
    assert said.exit_code == 1
    assert "the line is gone" in said.output and "Traceback" not in said.output
    assert build().exit_code == 0
    now = kept(store)
    for name, held in files_of_next(store).items():
        assert now[name] == held, name


def files_of_next(store: Any) -> dict[str, bytes]:
    """Build what the store holds into a folder."""
    said = tripkit("build", "--content", CONTENT, "--out", "next")
    assert said.exit_code == 0, said.output
    return {
        name: held
        for name, held in files_of(Path("next")).items()
        if not name.endswith(PASSED_OVER) and not name.startswith(".built")
    }


def test_mistakes_are_told_where_they_stand(store: Any) -> None:
    change(store, "title:", "titel:")
    said = build()
    assert said.exit_code == 1
    assert f"{CONTENT}/trips/first-trip.yaml:" in said.output
    assert "did you mean title" in said.output
    assert not kept(store)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--content", "memory://nowhere"), "there is nothing at memory://nowhere"),
        (("--content", "nosuch://x"), "nosuch://x cannot be reached"),
        (("--out", "nosuch://x"), "nosuch://x cannot be reached"),
    ],
)
def test_a_url_that_leads_nowhere_is_told(
    arguments: tuple[str, str], says: str, in_empty_folder: Path
) -> None:
    said = tripkit("build", *arguments)
    assert said.exit_code == 1
    assert says in said.output and "Traceback" not in said.output


def test_without_the_library_it_is_said_what_to_install(
    in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "fsspec", None)
    said = tripkit("build", "--out", KITS)
    assert said.exit_code == 1
    assert "pip install 'trip-kit-builder[remote]'" in said.output


# -- an object store on this machine --------------------------------------------------------------


@pytest.fixture
def bucket(in_empty_folder: Path) -> Iterator[dict[str, str]]:
    """Start an object store; give the environment in which fsspec finds it."""
    pytest.importorskip("s3fs")
    pytest.importorskip("moto.server")
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = subprocess.Popen(
        [sys.executable, "-m", "moto.server", "-H", "127.0.0.1", "-p", str(port)],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    address = f"http://127.0.0.1:{port}"
    try:
        for _ in range(1200):
            try:
                urllib.request.urlopen(f"{address}/moto-api/").close()
                break
            except OSError:
                time.sleep(0.1)
        yield {
            **os.environ,
            "PYTHONPATH": str(ROOT),
            "FSSPEC_S3_ENDPOINT_URL": address,
            "FSSPEC_S3_KEY": "nobody",
            "FSSPEC_S3_SECRET": "nothing",
            "AWS_DEFAULT_REGION": "us-east-1",
        }
    finally:
        server.kill()
        server.wait()


def test_an_object_store_holds_content_and_kits(bucket: dict[str, str]) -> None:
    assert tripkit("new", "folder", "mine").exit_code == 0
    begin = "import fsspec, sys; fs = fsspec.filesystem('s3'); "
    put = "fs.mkdir('school'); fs.put(sys.argv[1], 'school/content', recursive=True)"
    get = (
        "fs = __import__('fsspec').filesystem('s3'); fs.get('school/kits/', 'got', recursive=True)"
    )
    run = [sys.executable, "-c"]
    subprocess.run([*run, begin + put, "mine/content/"], env=bucket, check=True)
    build = [sys.executable, "-m", "builder", "build", "--content", "s3://school/content"]
    for word in ("Built s3://school/kits/first-trip", "Nothing changed"):
        said = subprocess.run(
            [*build, "--out", "s3://school/kits"],
            env=bucket, capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert said.returncode == 0, said.stderr
        assert word in said.stdout
    subprocess.run([*run, begin + get], env=bucket, check=True)
    assert tripkit("build", "--content", "mine/content", "--out", "here").exit_code == 0
    assert files_of(Path("got")) == built_here()
