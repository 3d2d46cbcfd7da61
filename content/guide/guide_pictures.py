"""Puts pictures where a page of the guide asks for them, out of what its own commands made.

`<!-- chart PAGE NAME -->` is a chart of a page of a kit, which tells its own words;
`<!-- screen PAGE WIDTHxHEIGHT: WORDS -->` is the top of a page as a phone or a printer shows it, or
what follows from an element of it on (`PAGE#ID`). PAGE lies in the folder that the guide makes.
No picture is kept: each build of the guide follows it from its first command to its last.
"""

from __future__ import annotations

import html
import re
import tempfile
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from guide_followed import FOLDER, GUIDE, follow, pages
from guide_screens import Picture, chart, screen
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files

_MARK = re.compile(
    r"^<!-- (?:chart (?P<chart_on>\S+) (?P<chart>\S+)"
    r"|screen (?P<page>[^\s#]+)(?:#(?P<start>\S+))? (?P<width>\d+)x(?P<height>\d+): (?P<words>.+?))"
    r" -->$",
    re.MULTILINE | re.DOTALL,
)
_ANY_MARK = re.compile(r"<!-- (?:chart|screen)\b")


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Write the pictures into the site."""
    for name, picture in made().values():
        files.append(File.generated(config, name, content=picture.svg))
    return files


def on_page_markdown(markdown: str, **_: object) -> str:
    """Show each picture where its mark stands."""
    return _MARK.sub(lambda mark: _shown(*made()[mark[0]]), markdown)


@cache
def made() -> dict[str, tuple[str, Picture]]:
    """Follow the guide and make its pictures; give each with its file, by its mark."""
    with tempfile.TemporaryDirectory() as name:
        follow(Path(name))
        return dict(pictures(Path(name) / FOLDER))


def pictures(folder: Path) -> Iterator[tuple[str, tuple[str, Picture]]]:
    """Give each mark with the file and the picture that it asks for, out of what was made."""
    for page in pages():
        text = (GUIDE / "pages" / page).read_text("utf-8")
        marks = list(_MARK.finditer(text))
        if len(marks) != len(_ANY_MARK.findall(text)):
            raise PluginError(f"{page} asks for a picture in words that nobody knows")
        for mark in marks:
            try:
                picture = _picture(folder, mark)
            except (LookupError, OSError) as error:
                raise PluginError(f"{page} asks for a picture: {error}") from error
            on = Path(mark["chart_on"] or mark["page"]).with_suffix("")
            parts = (*on.parts[-2:], mark["chart"] or mark["start"] or "screen")
            yield mark[0], (f"pictures/{'-'.join(parts)}.svg", picture)


def _picture(folder: Path, mark: re.Match[str]) -> Picture:
    if mark["chart"]:
        return chart(folder / mark["chart_on"], mark["chart"])
    words = " ".join(mark["words"].split())
    size = int(mark["width"]), int(mark["height"])
    return screen(folder / mark["page"], *size, words, mark["start"] or "")


def _shown(name: str, picture: Picture) -> str:
    words = html.escape(picture.words)
    size = f'width="{picture.width}" height="{picture.height}"'
    below = f"<figcaption>{html.escape(picture.caption)}</figcaption>" if picture.caption else ""
    return f'<figure><img src="{name}" {size} loading="lazy" alt="{words}">{below}</figure>'
