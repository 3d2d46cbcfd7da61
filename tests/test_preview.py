"""The preview: serves a folder on this machine only, notices saved files, tells open pages."""

from __future__ import annotations

import json
import os
import threading
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

from builder.cli import planner
from builder.model.kit import Kit
from builder.model.trip import Trip
from builder.planning.lessons import plan_learned
from builder.preview import Rebuilt, Shown, serving
from builder.preview.server import LETTING_GO, preview_mark, server_for
from builder.preview.watching import snapshot, watch
from builder.problems import Problem
from builder.reading.text import yaml_door
from builder.reading.text.yaml_door import Node
from tests.conftest import tripkit
from tests.previewing import previewing

ROOT = Path(__file__).resolve().parent.parent
TRIP = "trips/first-trip.yaml"


def test_the_server_answers_here_and_keeps_nothing(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("<p>one</p>")
    server = server_for(tmp_path, 0, Shown())
    assert server.server_address[0] == "127.0.0.1"
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        address = f"http://127.0.0.1:{server.server_address[1]}/index.html"
        with urllib.request.urlopen(address, timeout=5) as answer:
            assert answer.read() == b"<p>one</p>"
            assert answer.headers["Cache-Control"] == "no-store"
    finally:
        server.shutdown()
        server.server_close()
        thread.join(timeout=5)


@contextmanager
def served(folder: Path, shown: Shown | None = None) -> Iterator[tuple[str, int]]:
    server = server_for(folder, 0, shown or Shown())
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield "127.0.0.1", server.server_address[1]
    finally:
        server.shutdown()
        server.server_close()
        thread.join(timeout=5)


def asked(where: tuple[str, int], path: str, **headers: str) -> tuple[int, bytes]:
    connection = HTTPConnection(*where, timeout=5)
    connection.request(
        "GET", path, headers={key.replace("_", "-"): headers[key] for key in headers}
    )
    answer = connection.getresponse()
    try:
        assert answer.headers["Cache-Control"] == "no-store"
        return answer.status, answer.read()
    finally:
        connection.close()


def test_a_browser_is_never_told_that_it_has_the_page_already(tmp_path: Path) -> None:
    since = "Fri, 01 Jan 2100 00:00:00 GMT"
    shown = Shown()
    mark = preview_mark(shown.build)
    with served(tmp_path, shown) as where:
        for text in (b"<head></head>one", b"<head></head>two"):
            for name in ("index.html", "kit.css"):
                (tmp_path / name).write_bytes(text)
                os.utime(tmp_path / name, (1, 1))
            marked = text.replace(b"<head>", b"<head>" + mark)
            for path in ("/index.html", "/", "/?again"):
                assert asked(where, path, If_Modified_Since=since) == (200, marked)
            assert asked(where, "/kit.css", If_Modified_Since=since) == (200, text)


def test_no_worker_keeps_pages_and_one_of_before_lets_go(tmp_path: Path) -> None:
    (tmp_path / "walk").mkdir()
    (tmp_path / "walk/sw.js").write_text("keeps all")
    with served(tmp_path) as where:
        assert asked(where, "/walk/sw.js") == (200, LETTING_GO)
    script = (ROOT / "site_templates/assets/kit/settings.js").read_text("utf-8")
    assert 'document.querySelector("meta[name=kit-preview]")) return;' in script


@pytest.mark.parametrize(
    ("path", "host", "status"),
    [
        ("/index.html", "localhost:{port}", 200),
        ("/index.html", "evil.example:{port}", 403),
        ("/index.html", "evil.example", 403),
        ("/index.html", "127.0.0.1:1", 403),
        ("/.built/_last.json", "127.0.0.1:{port}", 404),
        ("/walk/../.built/_last.json", "127.0.0.1:{port}", 404),
        ("/gone.html", "127.0.0.1:{port}", 404),
        # No folder is listed: neither one that has no page in it, nor the one above.
        ("/walk/", "127.0.0.1:{port}", 404),
        ("/walk", "127.0.0.1:{port}", 301),
        ("/../", "127.0.0.1:{port}", 404),
        ("/.preview/live.js", "127.0.0.1:{port}", 200),
        ("/.preview/live.css", "127.0.0.1:{port}", 200),
        ("/.preview/shown.py", "127.0.0.1:{port}", 404),
        ("/.preview/live.js", "evil.example:{port}", 403),
        ("/.preview/events", "evil.example:{port}", 403),
    ],
)
def test_only_this_machine_is_answered_and_only_kits(
    tmp_path: Path, path: str, host: str, status: int
) -> None:
    (tmp_path / "index.html").write_text("x")
    (tmp_path / "walk").mkdir()
    (tmp_path / ".built").mkdir()
    (tmp_path / ".built/_last.json").write_text("x")
    with served(tmp_path) as where:
        assert asked(where, path, Host=host.format(port=where[1]))[0] == status


def test_a_snapshot_tells_saved_new_and_deleted_files(tmp_path: Path) -> None:
    (tmp_path / "trips").mkdir()
    trip = tmp_path / "trips" / "a.yaml"
    trip.write_text("title: A\n")
    before = snapshot([tmp_path])
    assert snapshot([tmp_path]) == before
    trip.write_text("title: Another\n")
    saved = snapshot([tmp_path])
    assert saved != before
    (tmp_path / "trips" / "b.yaml").write_text("title: B\n")
    assert snapshot([tmp_path]) != saved
    trip.unlink()
    assert str(trip) not in snapshot([tmp_path])


def test_watching_rebuilds_once_for_each_change_and_stops_when_told(tmp_path: Path) -> None:
    trip = tmp_path / "a.yaml"
    trip.write_text("title: A\n")
    stop, rebuilt = threading.Event(), threading.Event()
    calls: list[str] = []

    def rebuild() -> None:
        calls.append(trip.read_text())
        rebuilt.set()

    thread = threading.Thread(target=watch, args=([tmp_path], rebuild, stop, 0.02), daemon=True)
    thread.start()
    try:
        # Without a change nothing is rebuilt, however often it looks.
        assert not rebuilt.wait(0.3)
        trip.write_text("title: Another\n")
        assert rebuilt.wait(10)
    finally:
        stop.set()
        thread.join(timeout=5)
    assert not thread.is_alive()
    assert calls[-1] == "title: Another\n"


def test_a_file_saved_in_several_steps_is_rebuilt_once_it_is_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    looks: list[dict[str, tuple[int, int]]] = [{}, {"a": (1, 0)}, {"a": (1, 9)}, {"a": (1, 9)}]
    stop, seen = threading.Event(), []
    monkeypatch.setattr("builder.preview.watching.snapshot", lambda _: looks.pop(0))

    def rebuild() -> None:
        seen.append(len(looks))
        stop.set()

    watch([tmp_path], rebuild, stop, 0.001)
    assert seen == [0]


def events(where: tuple[str, int], count: int, until: threading.Event) -> list[dict[str, object]]:
    """Read some of what a page is told; `until` is set when the first came."""
    connection = HTTPConnection(*where, timeout=10)
    connection.request("GET", "/.preview/events")
    answer = connection.getresponse()
    found: list[dict[str, object]] = []
    while len(found) < count:
        line = answer.fp.readline()
        if line.startswith(b"data: "):
            found.append(json.loads(line[6:]))
            until.set()
    answer.close()
    connection.close()
    return found


def test_an_open_page_is_told_of_each_rebuild_and_of_what_is_wrong(tmp_path: Path) -> None:
    shown = Shown()
    before = shown.build
    open_now = threading.Event()
    told: list[dict[str, object]] = []
    with served(tmp_path, shown) as where:
        page = threading.Thread(target=lambda: told.extend(events(where, 3, open_now)))
        page.start()
        assert open_now.wait(10)
        shown.tell(Rebuilt(stopped=True, said=("a.yaml:1:1: wrong",)))
        threading.Event().wait(0.2)  # else the page is told only the last of both
        shown.tell(Rebuilt(stopped=False))
        page.join(timeout=10)
    first, wrong, right = told
    assert (first["build"], first["said"]) == (before, [])
    assert (wrong["build"], wrong["stopped"], wrong["said"]) == (
        before,
        True,
        ["a.yaml:1:1: wrong"],
    )
    assert str(wrong["title"]).startswith("Not rebuilt")
    assert right["build"] == shown.build != before and right["said"] == []


def test_no_page_of_an_earlier_preview_takes_this_for_its_own() -> None:
    assert Shown().build != Shown().build


def test_who_waits_is_let_go_at_the_end() -> None:
    shown = Shown()
    threading.Timer(0.05, shown.end).start()
    assert shown.wait(shown.told, 60) == shown.told
    assert shown.is_over


def test_the_usual_port_is_taken_where_it_is_free_so_that_ticks_are_found_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with served(tmp_path) as (_, taken):
        monkeypatch.setattr(serving, "USUAL_PORT", taken)
        other = serving._server(tmp_path, None, Shown())
        assert other.server_address[1] != taken
        other.server_close()
    again = serving._server(tmp_path, None, Shown())
    assert again.server_address[1] == taken
    again.server_close()


Save = Callable[[str, str], Rebuilt]  # a file of the content, and what it says now


def previewed(monkeypatch: pytest.MonkeyPatch, work: Callable[[Save], None]) -> Result:
    """Run the command in a folder that was just begun; instead of serving, save some files."""
    assert tripkit("new", "folder", ".").exit_code == 0

    def serve(*arguments: object, tidy: Callable[[], None], say: object) -> None:
        rebuild = arguments[-1]
        assert callable(rebuild)

        def save(name: str, text: str) -> Rebuilt:
            Path("content", name).write_text(text, "utf-8")
            rebuilt = rebuild()
            tidy()
            assert isinstance(rebuilt, Rebuilt)
            return rebuilt

        work(save)

    monkeypatch.setattr("builder.preview.serve", serve)
    return tripkit("preview", "first-trip")


def test_the_command_says_in_the_page_what_it_says_on_the_terminal(
    in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    found: list[Rebuilt] = []

    def work(save: Save) -> None:
        right = (in_empty_folder / "content" / TRIP).read_text("utf-8")
        found.append(save(TRIP, right.replace("title:", "tilte:")))
        found.append(save(TRIP, right + "\n# as it was\n"))

    said = previewed(monkeypatch, work)
    assert said.exit_code == 0, said.output
    wrong, mended = found
    assert wrong.stopped and "first-trip.yaml:" in wrong.said[0] and "title" in wrong.said[0]
    assert wrong.said[-1] == "The kit stays as it was."
    assert all(line in said.output for line in wrong.said)
    assert mended == Rebuilt(stopped=False, said=[])


def test_what_was_saved_is_read_and_what_hangs_on_it_planned_and_nothing_else(
    in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[str] = []
    planned: list[str] = []
    compose, plan = yaml_door._compose, plan_learned

    def composed(text: str, file: str, problems: list[Problem]) -> Node | None:
        if file:  # a text without a name is no file
            read.append(file)
        return compose(text, file, problems)

    def learned(trip: Trip, *others: Any, **how: Any) -> Kit:
        planned.append(trip.id)
        return plan(trip, *others, **how)

    def work(save: Save) -> None:
        monkeypatch.setattr(yaml_door, "_compose", composed)
        monkeypatch.setattr(planner, "plan_learned", learned)
        kit = in_empty_folder / "kits/first-trip"
        text = (in_empty_folder / "content" / TRIP).read_text("utf-8")
        for times in range(2):
            save(TRIP, text.replace("title: ", f"title: Number {times} "))
            assert (read, planned) == ([f"content/{TRIP}"], ["first-trip"])
            assert f"Number {times}" in (kit / "index.html").read_text("utf-8")
            read.clear()
            planned.clear()
        # What belongs to another trip is read, and this one is neither planned nor built.
        built = kit.stat().st_mtime_ns
        other = text.replace("title: ", "title: Other ").replace(", from: carrots-first", "")
        assert not save("trips/other.yaml", other).stopped
        assert (read, planned) == (["content/trips/other.yaml"], [])
        assert kit.stat().st_mtime_ns == built and not Path("kits/other").exists()

    said = previewed(monkeypatch, work)
    assert said.exit_code == 0, said.output


def test_a_page_is_told_of_what_was_saved_once_it_is_there(in_empty_folder: Path) -> None:
    assert tripkit("new", "folder", ".").exit_code == 0
    trip, page = in_empty_folder / "content" / TRIP, "/first-trip/index.html"
    text = trip.read_text("utf-8")
    with previewing(in_empty_folder, "first-trip") as preview:
        trip.write_text(text.replace("title: ", "title: Further "), "utf-8")
        right = preview.next_told()
        assert right["build"] != preview.first["build"] and not right["stopped"]
        assert b"Further" in preview.page(page)
        trip.write_text(text.replace("title: ", "tilte: "), "utf-8")
        wrong = preview.next_told()
        assert wrong["build"] == right["build"] and wrong["stopped"]
        assert f"content/{TRIP}:" in wrong["said"][0]
        assert b"Further" in preview.page(page)
