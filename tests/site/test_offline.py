"""Only needed files come along, and the worker's mark follows every byte."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from builder.site.finishing.offline import add_manifest, add_service_worker, is_needed


@pytest.mark.parametrize(
    ("name", "needed"),
    [
        ("assets/stylesheets/main.57a0d79d.min.css", True),
        ("assets/stylesheets/main.57a0d79d.min.css.map", False),
        ("assets/javascripts/bundle.a5f9d56c.min.js", False),  # a kit has scripts of its own
        ("assets/javascripts/lunr/min/lunr.de.min.js", False),
        ("assets/images/favicon.png", False),
        ("assets/images.css", True),
        ("sitemap.xml.gz", False),
        ("sitemap.xml", False),
        ("index.html", False),
        ("404.html", False),
    ],
)
def test_files_of_the_theme_come_along_only_when_of_use(name: str, needed: bool) -> None:
    assert is_needed(name) is needed


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


def test_the_mark_follows_names_as_well_as_bytes_and_the_worker_is_not_in_its_own_list(
    tmp_path: Path,
) -> None:
    site = tmp_path / "site"
    site.mkdir()
    (site / "a.html").write_text("x")
    first = worker(site, tmp_path)
    assert json.loads(first.split("const FILES = ")[1].split(";\n")[0]) == ["a.html"]
    assert first.endswith("use(MARK, FILES);\n")
    mark = first.split('const MARK = "')[1].split('"')[0]
    assert len(mark) == 16
    (site / "a.html").rename(site / "b.html")
    assert mark not in worker(site, tmp_path)


def test_what_a_phone_is_told_of_a_kit(tmp_path: Path) -> None:
    """Its names by the words of the format, with which a browser looks for them."""
    add_manifest(tmp_path, "A round over the fell and back", "nb")
    manifest = json.loads((tmp_path / "webmanifest.json").read_text(encoding="utf-8"))
    icons = manifest.pop("icons")
    assert manifest == {
        "name": "A round over the fell and back",
        "short_name": "A round over the fell an",  # 24 letters are all that stand below an icon
        "lang": "nb",
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "background_color": "#fbfaf6",
        "theme_color": "#17362f",
    }
    assert [(each["sizes"], each["type"]) for each in icons] == [
        ("any", "image/svg+xml"),
        ("192x192", "image/png"),
        ("512x512", "image/png"),
    ]
    assets = Path(__file__).parents[2] / "site_templates"
    assert all((assets / each["src"]).is_file() for each in icons)


def test_the_manifest_stays_inside_the_kit(tmp_path: Path) -> None:
    add_manifest(tmp_path, 'Fell "round" ø', "en")
    manifest = json.loads((tmp_path / "webmanifest.json").read_text(encoding="utf-8"))
    assert manifest["name"] == 'Fell "round" ø'
    assert manifest["start_url"] == "index.html"
    assert all(icon["src"].startswith("assets/") for icon in manifest["icons"])
