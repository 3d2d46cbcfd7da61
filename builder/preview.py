"""Shows a kit on this machine, and rebuilds it when a file of its content is saved."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

LOOK_EVERY_S = 0.5


class _QuietHandler(SimpleHTTPRequestHandler):
    """Serves files without a line for each."""

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""

    def end_headers(self) -> None:
        """Let the browser ask anew for each page, since files change under it."""
        self.send_header("Cache-Control", "no-store")
        super().end_headers()


def server_for(out: Path, port: int) -> ThreadingHTTPServer:
    """Give a server for a folder of kits, on this machine only."""
    return ThreadingHTTPServer(
        ("127.0.0.1", port), partial(_QuietHandler, directory=str(out.resolve()))
    )


def snapshot(folders: Sequence[Path]) -> dict[str, tuple[int, int]]:
    """Give the state of all files below some folders, cheap enough to ask for often."""
    found: dict[str, tuple[int, int]] = {}
    for folder in folders:
        for path in folder.rglob("*"):
            try:
                told = path.stat()
            except OSError:
                continue
            if path.is_file():
                found[str(path)] = (told.st_mtime_ns, told.st_size)
    return found


def watch(
    folders: Sequence[Path],
    rebuild: Callable[[], None],
    stop: threading.Event,
    every_s: float = LOOK_EVERY_S,
) -> None:
    """Call `rebuild` each time the files differ from before, until told to stop."""
    before = snapshot(folders)
    while not stop.wait(every_s):
        now = snapshot(folders)
        if now != before:
            before = now
            rebuild()


def serve(
    out: Path,
    trip: str,
    folders: Sequence[Path],
    port: int,
    rebuild: Callable[[], None],
    say: Callable[[str], None],
) -> None:
    """Serve until the person stops it."""
    server = server_for(out, port)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    stop = threading.Event()
    say(f"Open http://127.0.0.1:{server.server_address[1]}/{trip}/index.html — end with Ctrl+C.")
    try:
        watch(folders, rebuild, stop)
    except KeyboardInterrupt:
        say("")
    finally:
        stop.set()
        server.shutdown()
        server.server_close()
