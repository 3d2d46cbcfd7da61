"""Shows a kit on this machine, and rebuilds it when a file of its content is saved."""

from __future__ import annotations

import io
import threading
from collections.abc import Callable, Sequence
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, BinaryIO
from urllib.parse import urlsplit

LOOK_EVERY_S = 0.5
WORKER_NAME = "sw.js"
# Tells the kit's script to keep nothing: what is kept would be shown instead of what was saved.
PREVIEW_MARK = b'<meta name="kit-preview">'
# In the place of a worker that kept an earlier kit from this address: it lets go of all of it.
LETTING_GO = b"""self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith("trip-kit " + self.registration.scope)) await caches.delete(name);
  }
  await self.registration.unregister();
  for (const page of await self.clients.matchAll({ type: "window" })) page.navigate(page.url);
})()));
"""


class _QuietHandler(SimpleHTTPRequestHandler):
    """Serves files as they are on the disk now, to this machine only, without a line for each."""

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""

    def end_headers(self) -> None:
        """Let the browser ask anew for each page, since files change under it."""
        self.send_header("Cache-Control", "no-store")
        super().end_headers()

    def send_head(self) -> Any:
        """Answer with the file itself, never with "you have it already"."""
        del self.headers["If-Modified-Since"]
        path = urlsplit(self.path).path
        if not self._asked_from_here():
            # A page of somebody else whose name was made to lead to this machine.
            self.send_error(HTTPStatus.FORBIDDEN)
            return None
        if "/." in path:
            self.send_error(HTTPStatus.NOT_FOUND)
            return None
        if path.endswith(f"/{WORKER_NAME}"):
            return self._answer(LETTING_GO, "text/javascript")
        page = Path(self.translate_path(path + "index.html" * path.endswith("/")))
        if page.suffix == ".html" and page.is_file():
            marked = page.read_bytes().replace(b"<head>", b"<head>" + PREVIEW_MARK, 1)
            return self._answer(marked, "text/html; charset=utf-8")
        return super().send_head()

    def _asked_from_here(self) -> bool:
        name, _, port = self.headers.get("Host", "").partition(":")
        return name in ("127.0.0.1", "localhost") and port == str(self.connection.getsockname()[1])

    def _answer(self, content: bytes, kind: str) -> BinaryIO:
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        return io.BytesIO(content)


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
    *,
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
