"""Only needed files come along, and the worker's mark follows every byte."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.site.offline import add_manifest, add_service_worker, is_needed


@pytest.mark.parametrize(
    ("name", "language", "needed"),
    [
        ("assets/javascripts/bundle.a5f9d56c.min.js", "en", True),
        ("assets/javascripts/bundle.a5f9d56c.min.js.map", "en", False),
        ("assets/stylesheets/main.57a0d79d.min.css", "en", True),
        ("assets/javascripts/lunr/min/lunr.de.min.js", "en", False),
        ("assets/javascripts/lunr/min/lunr.de.min.js", "de", True),
        ("assets/javascripts/lunr/min/lunr.stemmer.support.min.js", "de", True),
        ("assets/javascripts/lunr/min/lunr.no.min.js", "nb", True),
        ("assets/javascripts/lunr/min/lunr.no.min.js", "de", False),
        ("assets/javascripts/lunr/min/lunr.stemmer.support.min.js", "nb", True),
        ("assets/javascripts/lunr/min/lunr.stemmer.support.min.js", "en", False),
        ("assets/javascripts/lunr/wordcut.js", "de", False),
        ("assets/images/favicon.png", "en", False),
        ("sitemap.xml", "en", False),
        ("404.html", "en", False),
    ],
)
def test_files_of_the_theme_come_along_only_when_of_use(
    name: str, language: str, needed: bool
) -> None:
    assert is_needed(name, language) is needed


def worker(site: Path, tmp_path: Path) -> str:
    source = tmp_path / "source.js"
    source.write_text("use(MARK, FILES);\n")
    add_service_worker(site, source)
    return (site / "sw.js").read_text()


def test_the_worker_lists_every_file_and_marks_every_change(tmp_path: Path) -> None:
    site = tmp_path / "site"
    (site / "cook").mkdir(parents=True)
    (site / "index.html").write_text("one")
    (site / "cook" / "pot.html").write_text("two")
    first = worker(site, tmp_path)
    listed = json.loads(first.split("const FILES = ")[1].split(";\n")[0])
    assert listed == ["cook/pot.html", "index.html"]
    assert worker(site, tmp_path) == first
    (site / "index.html").write_text("One")
    assert worker(site, tmp_path) != first


def test_the_manifest_stays_inside_the_kit(tmp_path: Path) -> None:
    add_manifest(tmp_path, 'Fell "round" ø', "en")
    manifest = json.loads((tmp_path / "webmanifest.json").read_text(encoding="utf-8"))
    assert manifest["name"] == 'Fell "round" ø'
    assert manifest["start_url"] == "index.html"
    assert all(icon["src"].startswith("assets/") for icon in manifest["icons"])
