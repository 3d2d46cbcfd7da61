"""Serves the preview, watches the content, and rebuilds, until the person stops it."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from http.server import ThreadingHTTPServer
from pathlib import Path

from builder.preview.server import server_for
from builder.preview.shown import Rebuilt, Shown
from builder.preview.watching import watch

# A browser keeps ticks by the address: so it stays the same where it can.
USUAL_PORT = 8710


def serve(
    out: Path,
    trip: str,
    folders: Sequence[Path],
    port: int | None,
    rebuild: Callable[[], Rebuilt],
    *,
    tidy: Callable[[], None],
    say: Callable[[str], None],
) -> None:
    """Serve until the person stops it; what is to be tidied is left until the pages are told."""
    shown = Shown()
    server = _server(out, port, shown)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    stop = threading.Event()

    def follow() -> None:
        shown.tell(rebuild())
        tidy()

    say(f"Open http://127.0.0.1:{server.server_address[1]}/{trip}/index.html — end with Ctrl+C.")
    try:
        watch(folders, follow, stop)
    except KeyboardInterrupt:
        say("")
    finally:
        stop.set()
        shown.end()
        server.shutdown()
        server.server_close()


def _server(out: Path, port: int | None, shown: Shown) -> ThreadingHTTPServer:
    """Give the server at the port that is asked for; else at the usual one, or at a free one."""
    if port is not None:
        return server_for(out, port, shown)
    try:
        return server_for(out, USUAL_PORT, shown)
    except OSError:
        return server_for(out, 0, shown)
