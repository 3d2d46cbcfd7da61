"""Serves a folder of kits to this machine, each page with what makes it follow what is saved."""

from __future__ import annotations

import io
from functools import partial
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, BinaryIO
from urllib.parse import urlsplit

from builder.preview.shown import Shown

WORKER_NAME = "sw.js"
OWN = "/.preview/"  # what is served beside the kits
EVENTS = "events"
_LIVE = {"live.js": "text/javascript", "live.css": "text/css"}  # they lie beside this file
_CALL_EVERY_S = 10.0  # so that a browser that went away is noticed
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


def preview_mark(build: str) -> bytes:
    """Give what is put into each page.

    The first part names its build, and tells the kit's script to keep nothing: what is kept would
    be shown instead of what was saved. A page that stands alone (pocket.html) may ask nobody, so
    it does not follow.
    """
    return (
        f'<meta name="kit-preview" content="{build}">'
        f'<link rel="stylesheet" href="{OWN}live.css">'
        f'<script src="{OWN}live.js" defer></script>'
    ).encode("ascii")


class _QuietHandler(SimpleHTTPRequestHandler):
    """Serves files as they are on the disk now, to this machine only, without a line for each."""

    def __init__(self, *args: Any, shown: Shown, **named: Any) -> None:
        """Serve with what is shown at hand."""
        self.shown = shown
        super().__init__(*args, **named)

    def do_GET(self) -> None:
        """Answer with a file, or tell what is shown as long as the page is open."""
        if urlsplit(self.path).path == OWN + EVENTS and self._asked_from_here():
            self._tell_on()
        else:
            super().do_GET()

    def list_directory(self, path: Any) -> None:
        """List no folder: a kit is found by its own page."""
        self.send_error(HTTPStatus.NOT_FOUND)

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """Answer in words of its own: those of others repeat what was asked, whoever asked it."""
        super().send_error(code)

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
        live = path.removeprefix(OWN)
        if path.startswith(OWN) and live in _LIVE:
            return self._answer((Path(__file__).parent / live).read_bytes(), _LIVE[live])
        if "/." in path:
            self.send_error(HTTPStatus.NOT_FOUND)
            return None
        if path.endswith(f"/{WORKER_NAME}"):
            return self._answer(LETTING_GO, "text/javascript")
        page = Path(self.translate_path(path + "index.html" * path.endswith("/")))
        if page.suffix == ".html" and page.is_file():
            mark = preview_mark(self.shown.build)
            marked = page.read_bytes().replace(b"<head>", b"<head>" + mark, 1)
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

    def _tell_on(self) -> None:
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.end_headers()
        told = ""
        while not self.shown.is_over:
            now = self.shown.wait(told, _CALL_EVERY_S)
            try:
                self.wfile.write(f"data: {now}\n\n".encode() if now != told else b":\n\n")
                self.wfile.flush()
            except OSError:  # the page was closed
                return
            told = now


def server_for(out: Path, port: int, shown: Shown) -> ThreadingHTTPServer:
    """Give a server for a folder of kits, on this machine only."""
    handler = partial(_QuietHandler, directory=str(out.resolve()), shown=shown)
    return ThreadingHTTPServer(("127.0.0.1", port), handler)
