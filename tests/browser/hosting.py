"""Web hosts on this machine: one that can be switched off, one that packs what it sends."""

from __future__ import annotations

import gzip
import http.server
import threading
import time
from functools import partial
from pathlib import Path

PACKED = (".html", ".css", ".js", ".json", ".svg")


class Silent(http.server.SimpleHTTPRequestHandler):
    """Serves a folder and says nothing."""

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""


class Packing(Silent):
    """Serves a folder as web hosts do: text is sent gzipped."""

    def do_GET(self) -> None:
        """Send one file."""
        path = Path(self.translate_path(self.path))
        if not path.is_file():
            self.send_error(404)
            return
        body = path.read_bytes()
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(path)))
        if path.suffix in PACKED:
            body = gzip.compress(body, 6)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


class Halting(Silent):
    """Serves a folder as a weak network does: a page comes in two halves, parted at `HALTS_AT`."""

    HALTS_AT = b'<h2 id="next">'

    def do_GET(self) -> None:
        """Send one file."""
        path = Path(self.translate_path(self.path))
        if path.suffix != ".html" or not path.is_file():
            super().do_GET()
            return
        first, sign, rest = path.read_bytes().partition(self.HALTS_AT)
        self.send_response(200)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(first + sign + rest)))
        self.end_headers()
        self.wfile.write(first)
        time.sleep(1)  # long enough that the first half is painted
        self.wfile.write(sign + rest)


class Host:
    """A web host that can be switched off."""

    def __init__(self, folder: Path, handler: type[Silent] = Silent) -> None:
        """Serve a folder from now on."""
        self.server = http.server.ThreadingHTTPServer(
            ("127.0.0.1", 0), partial(handler, directory=str(folder))
        )
        self.server.daemon_threads = True
        self.thread = threading.Thread(target=self.server.serve_forever)
        self.thread.start()
        self.address = f"http://127.0.0.1:{self.server.server_port}"
        self.running = True

    def stop(self) -> None:
        """Switch the host off."""
        if self.running:
            self.server.shutdown()
            self.server.server_close()
            self.thread.join()
            self.running = False
