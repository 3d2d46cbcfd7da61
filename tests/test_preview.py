"""The preview: serves a folder on this machine only, and notices saved files."""

from __future__ import annotations

import os
import threading
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPConnection
from pathlib import Path

import pytest

from builder.preview import LETTING_GO, PREVIEW_MARK, server_for, snapshot, watch

ROOT = Path(__file__).resolve().parent.parent


def test_the_server_answers_here_and_keeps_nothing(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("<p>one</p>")
    server = server_for(tmp_path, 0)
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
def served(folder: Path) -> Iterator[tuple[str, int]]:
    server = server_for(folder, 0)
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
    with served(tmp_path) as where:
        for text in (b"<head></head>one", b"<head></head>two"):
            for name in ("index.html", "kit.css"):
                (tmp_path / name).write_bytes(text)
                os.utime(tmp_path / name, (1, 1))
            marked = text.replace(b"<head>", b"<head>" + PREVIEW_MARK)
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
    ],
)
def test_only_this_machine_is_answered_and_only_kits(
    tmp_path: Path, path: str, host: str, status: int
) -> None:
    (tmp_path / "index.html").write_text("x")
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
