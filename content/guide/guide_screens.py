"""Pictures of what a page made: a drawing cut out of it, or a screen as a phone shows it.

A screen is one SVG that holds the page's own words and its own style sheet, and asks for nothing
else: no browser takes it, and it looks as the page does, since a browser lays it out.
"""

from __future__ import annotations

import base64
import html
import mimetypes
import re
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

_VOID = frozenset(
    ("area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "wbr")
)
# What has no place in a picture: what runs, what is not seen on a phone before one asks for it.
_LEFT_OUT = frozenset(("script", "link", "meta", "title", "noscript", "template", "dialog"))
_NOT_SEEN = re.compile(r"md-(?:sidebar|overlay|skip|toggle)\b(?!__)")
# Elements that one may leave open, and what ends them.
_ENDED_BY = {
    "li": ("li", "p"), "p": ("p",), "tr": ("td", "th", "tr", "thead"), "td": ("td", "th"),
    "th": ("td", "th"), "tbody": ("td", "th", "tr", "thead", "tbody"), "dt": ("dt", "dd"),
    "dd": ("dt", "dd"),
    **dict.fromkeys(("h1", "h2", "h3", "ul", "ol", "div", "section", "table", "figure"), ("p",)),
}  # fmt: skip
_PAGE = "http://www.w3.org/1999/xhtml"
_DRAWING = "http://www.w3.org/2000/svg"
# In a picture nothing scrolls, no link leads anywhere, and the drawing is what `rem` goes by.
_IN_A_PICTURE = """html, body { overflow: hidden !important; }
html { font-size: inherit !important; }
:where(a[href]) { text-decoration: underline; }"""
_ROOT = re.compile(r"\bhtml\s*\{[^}]*?font-size:\s*([\d.]+)%")
_USUAL_PX = 16
_CHART_PX, _LETTERS_PX = 400, 16  # as on a phone's page: letters of four hundredths of the width


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture, and what it shows in words."""

    svg: str
    width: int
    height: int
    words: str
    caption: str = ""  # what stands below it for all


def chart(page: Path, name: str) -> Picture:
    """Cut a chart out of a page; its words are those that it tells who cannot see it."""
    text = page.read_text("utf-8")
    begins = re.search(rf'<svg (?=[^>]*aria-labelledby="{re.escape(name)}-title )', text)
    if begins is None:
        raise LookupError(f"there is no chart {name} on {page.name}")
    found = _drawing_from(text[begins.start() :])
    root, rest = found.split(">", 1)
    height, unit = re.findall(r'\bheight="([\d.]+)(em)?"', root)[0]
    size = _LETTERS_PX if unit else 1
    height_px = round(float(height) * size)
    # On its page it is as wide as the column, in letters and ink of the page.
    for told in ("width", "height", "font-size", "color"):
        root = re.sub(rf' {told}="[^"]*"', "", root)
    look = f'font-size="{_LETTERS_PX}" font-family="sans-serif" color="#1d1d1f"'
    drawn = f'width="{_CHART_PX}" height="{height_px}" {look}'
    root = root.replace("<svg", f'<svg xmlns="{_DRAWING}" {drawn}', 1)
    paper = '<rect width="100%" height="100%" fill="#fff"/>'
    svg = f"{root}>{rest.replace('</desc>', f'</desc>{paper}', 1)}\n"
    caption, words = (
        html.unescape(_part(rf"<{part}\b[^>]*>(.*?)</{part}>", found)) for part in ("title", "desc")
    )
    return Picture(svg, _CHART_PX, height_px, words.strip(), caption.strip())


def _drawing_from(text: str) -> str:
    """Give the drawing that a text begins with; in it there may be others."""
    depth = 0
    for tag in re.finditer(r"<(/?)svg\b", text):
        depth += -1 if tag[1] else 1
        if not depth:
            return text[: text.index(">", tag.end()) + 1]
    raise LookupError("a drawing does not end")


def screen(page: Path, width: int, height: int, words: str, start: str = "") -> Picture:
    """Draw the top of a page, or what follows from the element of that id on."""
    told = _Told(page, start)
    if start and not told.started:
        raise LookupError(f"there is no {start} on {page.name}")
    style = "\n".join((*told.styles, _IN_A_PICTURE)).replace("]]>", "")
    root = _ROOT.search(style)
    root_px = _USUAL_PX * float(root[1]) / 100 if root else _USUAL_PX
    svg = (
        f'<svg xmlns="{_DRAWING}" width="{width}" height="{height}"'
        f' viewBox="0 0 {width} {height}" font-size="{root_px:g}">'
        f"<title>{html.escape(words)}</title><style><![CDATA[{style}]]></style>"
        f'<rect width="{width}" height="{height}" fill="#fff"/>'
        f'<foreignObject width="{width}" height="{height}">{told.text}</foreignObject>'
        f'<rect x=".5" y=".5" width="{width - 1}" height="{height - 1}" rx="8" fill="none"'
        ' stroke="#888"/></svg>\n'
    )
    return Picture(svg, width, height, words)


def _part(pattern: str, text: str) -> str:
    found = re.search(pattern, text, re.DOTALL)
    assert found is not None, pattern
    return found[1]


def _within(file: Path) -> str:
    """Give a picture of the page as a part of the drawing."""
    kind, _ = mimetypes.guess_type(file.name)
    return f"data:{kind};base64,{base64.b64encode(file.read_bytes()).decode('ascii')}"


class _Told(HTMLParser):
    """A page as XML, without what is not seen, and the style sheets that it names."""

    def __init__(self, page: Path, start: str) -> None:
        super().__init__()
        self.styles: list[str] = []
        self.started = not start
        self._page, self._start = page, start
        self._parts: list[str] = []
        self._open: list[str] = []
        self._left_out = 0  # how many elements are open in one that is left out
        self._drawing = 0
        self._holds_style = False
        self.feed(page.read_text("utf-8"))
        self.close()

    @property
    def text(self) -> str:
        """Give the page as XML."""
        return "".join(self._parts)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._begin(tag, attrs, closed=tag in _VOID)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._begin(tag, attrs, closed=True)

    def _begin(self, tag: str, attrs: list[tuple[str, str | None]], closed: bool) -> None:
        told = {name: value or "" for name, value in attrs}
        if tag == "link" and told.get("rel") == "stylesheet":
            self.styles.append((self._page.parent / told["href"]).read_text("utf-8"))
        self._holds_style = tag == "style"
        while self._open and self._open[-1] in _ENDED_BY.get(tag, ()):
            self._end()
        if not closed:
            self._open.append(tag)
        if self._left_out or self._is_left_out(tag, told):
            self._left_out += not closed
            return
        if tag == "svg" or self._drawing:
            # Names in drawings keep their capitals, which this parser takes from them.
            raw = (self.get_starttag_text() or "").rstrip("/> ")
            named = f' xmlns="{_DRAWING}"' if tag == "svg" and "xmlns" not in told else ""
            self._drawing += not closed
            self._parts.append(f"{raw}{named}{'/' * closed}>")
            return
        named = f' xmlns="{_PAGE}"' if tag == "html" else ""
        if tag == "img":
            told["src"] = _within(self._page.parent / told["src"])
        if tag == "html":
            told["class"] = told.get("class", "").replace("no-js", "js")
        words = "".join(f' {name}="{html.escape(value)}"' for name, value in told.items())
        self._parts.append(f"<{tag}{named}{words}{'/' * closed}>")

    def _is_left_out(self, tag: str, told: dict[str, str]) -> bool:
        if told.get("id") == self._start:
            self.started = True
        if tag in _LEFT_OUT or tag == "style" or _NOT_SEEN.search(told.get("class", "")):
            return True
        # Before the start the article is empty, but for what the start itself lies in.
        return not self.started and "article" in self._open and tag != "article"

    def handle_endtag(self, tag: str) -> None:
        self._holds_style = False
        if tag in self._open:
            while self._open[-1] != tag:
                self._end()
            self._end()

    def _end(self) -> None:
        tag = self._open.pop()
        if self._left_out:
            self._left_out -= 1
            return
        self._drawing -= bool(self._drawing)
        self._parts.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        if self._holds_style:
            self.styles.append(data)
        elif not self._left_out and (self.started or "article" not in self._open):
            self._parts.append(html.escape(data, quote=False))
