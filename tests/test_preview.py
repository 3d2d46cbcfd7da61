"""The preview: serves a folder on this machine only, and notices saved files."""

from __future__ import annotations

import threading
import urllib.request
from pathlib import Path

from builder.preview import server_for, snapshot, watch


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
