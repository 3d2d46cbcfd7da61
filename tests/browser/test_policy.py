"""No browser finds a page against its own policy: Firefox and WebKit tell of one of each kind.

Of every page Chromium tells in `test_from_disk.py`.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from .driven import NotHere, firefox, webkit_complaints
from .looking import pages_of

POLICY = re.compile(r'Security-Policy" content="([^"]*)"')
SCRIPTS = re.compile(r'<script src="(?:[^"]*/)?([^"/]*)"')
HASH = re.compile(r"'sha256-[^']*'")
# Against every policy, and last on the page: who tells of it would have told of others too.
FAULT = '<p style="color: red"></p></body>'
TABS = 6


@pytest.fixture(scope="module")
def faulty(demo_kits: Path, tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Give one page of each kind, by its policy and its scripts, each with a fault at its end."""
    kits = tmp_path_factory.mktemp("policy") / "kits"
    shutil.copytree(demo_kits, kits, ignore=shutil.ignore_patterns(".built"))
    kinds = {}
    for page in pages_of(kits):
        html = page.read_text("utf-8")
        policy = POLICY.search(html)
        assert policy, page
        kinds[HASH.sub("'sha256'", policy[1]), *SCRIPTS.findall(html)] = page
    assert len(kinds) > 10
    for page in kinds.values():
        html = page.read_text("utf-8")
        page.write_text(html.replace("</body>", FAULT), "utf-8")
    return list(kinds.values())


def test_in_firefox(faulty: list[Path], tmp_path: Path) -> None:
    told = {}
    try:
        with firefox(tmp_path) as driven:
            for page in faulty:
                driven.open(page.as_uri())
                driven.wait_for("return document.readyState === 'complete'")
                told[page] = driven.complaints()
    except NotHere as missing:
        pytest.skip(str(missing))
    for page, complaints in told.items():
        assert len(complaints) == 1 and "color: red" in complaints[0], (page, complaints)


def test_in_webkit(faulty: list[Path], tmp_path: Path) -> None:
    for number in range(0, len(faulty), TABS):
        pages = [page.as_uri() for page in faulty[number : number + TABS]]
        home = tmp_path / str(number)
        home.mkdir()
        try:
            told = webkit_complaints(home, pages, [f"{page}:" for page in pages])
        except NotHere as missing:
            pytest.skip(str(missing))
        assert told.count("CONSOLE") == len(pages), told
