"""The one module that knows the successor of the theme's generator, which is not all there yet.

It is run as a program: it has one line of Python to be called by, and keeps its settings for as
long as a process lives. DEVELOPERS.md tells what it cannot do.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import tempfile
from html import escape
from importlib.util import find_spec
from pathlib import Path

import yaml

from builder.site.errors import SiteError
from builder.site.finishing.styles import THEME_FOLDER
from builder.site.folder.kit_files import files_below, write_files
from builder.site.rendering.framing import FramedPage, taken_apart
from builder.site.rendering.generators import SUCCESSOR
from builder.site.rendering.plain_markdown import READY_BEGINS, READY_ENDS
from builder.site.rendering.renderer import (
    Part,
    Rendered,
    Rendering,
    own_settings,
    refuse_faults,
)

_VARIANT = "classic"  # it looks as the theme does
_ITS_INDEX = "search.json"
_SEARCH_STYLES = "successor-search.css"
_COLOUR = re.compile(r"\x1b\[[0-9;]*m")
_FOUND = re.compile(r"^\w+: (?P<what>.*)\n\W*\[ (?P<where>\S+) \]$", re.MULTILINE)
_FRAME_LINK = re.compile(r'<a [^>]*class="md-(?:header|nav|footer)__[^>]*>')
_ESCAPED_TWICE = re.compile(r"&amp;(#?\w+);")
_CANONICAL = re.compile(r'\s*<link rel="canonical"[^>]*>')  # a kit lies at any address
_OF_THE_THEME = (
    *("assets/images/", "assets/javascripts/", f"{THEME_FOLDER}/modern/"),
    *("404.html", "sitemap.xml", _ITS_INDEX),
)


def render(asked: Rendering) -> Rendered:
    """Render pages of Markdown; any warning of the generator stops the kit."""
    if find_spec(SUCCESSOR) is None:
        raise SiteError(
            f"the generator {SUCCESSOR} is not installed", ["pip install '.[successor]'"]
        )
    with tempfile.TemporaryDirectory() as scratch:
        # Pages, settings and what it makes have to lie in one folder.
        project = Path(scratch)
        write_files(project / "docs", asked.files)
        (project / "mkdocs.yml").write_text(_settings(asked), "utf-8")
        _run(project)
        site = project / "site"
        pages: dict[str, FramedPage] = {}
        for name, file in files_below(site).items():
            if name.startswith(_OF_THE_THEME):
                continue
            # The usual theme's sheets lie a folder higher.
            target = asked.into / name.replace(f"{THEME_FOLDER}/{_VARIANT}/", f"{THEME_FOLDER}/")
            if name.endswith(".html") and name not in asked.files:
                pages[name] = taken_apart(_tidied(file.read_text("utf-8")))
                continue
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(file, target)
        items = json.loads((site / _ITS_INDEX).read_text("utf-8"))["items"]

    # By its name it is one of the theme's sheets, and goes the way of these.
    search = asked.into / THEME_FOLDER / "main.search.css"
    shutil.copyfile(asked.theme.parent / _SEARCH_STYLES, search)
    parts = [Part(item["location"], item["title"], item["text"]) for item in items]
    return Rendered(pages, parts)


def _settings(asked: Rendering) -> str:
    """Give the whole configuration as JSON, which is YAML too."""
    base = yaml.safe_load(asked.base_config.read_bytes())
    own = own_settings(asked, base, as_title=escape)
    own["theme"]["variant"] = _VARIANT
    return json.dumps({**base, **own, "docs_dir": "docs", "site_dir": "site"}, ensure_ascii=False)


def _run(project: Path) -> None:
    """Build; where it does not end well, tell what it found and where, or else its last word."""
    command = [sys.executable, "-m", SUCCESSOR, "build", "--strict"]
    done = subprocess.run(command, cwd=project, capture_output=True, text=True, check=False)
    if done.returncode:
        said = _COLOUR.sub("", done.stdout + done.stderr)
        found = [f"{each['where']}: {each['what']}" for each in _FOUND.finditer(said)]
        refuse_faults(found or said.splitlines()[-1:])


def _tidied(html: str) -> str:
    """Give a page without an address of its own, and without the marks of ready HTML.

    Its theme escapes titles once more in what it tells of a link.
    """
    html = _FRAME_LINK.sub(lambda link: _ESCAPED_TWICE.sub(r"&\1;", link[0]), html)
    return _CANONICAL.sub("", html).replace(READY_BEGINS, "").replace(READY_ENDS, "")
