"""What makes a kit work with no network: the needed files only, and a worker that keeps them."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

from builder.site.folder.kit_files import files_below

WORKER_NAME = "sw.js"
MANIFEST_NAME = "webmanifest.json"
THEME_COLOUR = "#17362f"
PAPER_COLOUR = "#fbfaf6"


def is_needed(name: str) -> bool:
    """Tell whether a file of the theme is of any use in a kit, which has scripts of its own."""
    unread = (".map", ".html", ".xml", ".gz")
    return not name.endswith(unread) and not name.startswith(
        ("assets/images/", "assets/javascripts/")
    )


def add_manifest(site: Path, title: str, language: str) -> None:
    """Write what a phone needs to keep a hosted kit beside its other apps."""
    manifest = {
        "name": title,
        "short_name": title[:24],
        "lang": language,
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "background_color": PAPER_COLOUR,
        "theme_color": THEME_COLOUR,
        "icons": [
            {"src": "assets/icon.svg", "sizes": "any", "type": "image/svg+xml"},
            {"src": "assets/icon-192.png", "sizes": "192x192", "type": "image/png"},
            {"src": "assets/icon-512.png", "sizes": "512x512", "type": "image/png"},
        ],
    }
    text = json.dumps(manifest, ensure_ascii=False, indent=1)
    (site / MANIFEST_NAME).write_text(text + "\n", encoding="utf-8", newline="\n")


def add_service_worker(site: Path, source: Path) -> None:
    """Write the worker with the list of all files and a mark that changes with any of them."""
    files = {name: file for name, file in files_below(site).items() if file.name != WORKER_NAME}
    mark = hashlib.sha256()
    for name, file in files.items():
        mark.update(f"{name}\n".encode())
        mark.update(hashlib.sha256(file.read_bytes()).digest())
    head = (
        f"const MARK = {json.dumps(mark.hexdigest()[:16])};\n"
        f"const FILES = {json.dumps(list(files), indent=0)};\n"
    )
    body = source.read_text(encoding="utf-8")
    (site / WORKER_NAME).write_text(head + body, encoding="utf-8", newline="\n")
