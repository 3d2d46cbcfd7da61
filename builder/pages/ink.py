"""The one template environment, and the filters that make people's text harmless on a page."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from html import escape
from pathlib import Path

from jinja2 import (
    BytecodeCache,
    Environment,
    FileSystemBytecodeCache,
    FileSystemLoader,
    StrictUndefined,
    pass_context,
)
from jinja2.runtime import Context

from builder.pages.pieces import Piece, Scale
from builder.speech import Speech

# Every sign that Markdown or HTML reads as more than itself, inside a line.
_SIGNS = str.maketrans({sign: f"&#{ord(sign)};" for sign in '"#$*<>[\\]^_`{}~='} | {"&": "&amp;"})
# Signs that mean something only at the start of a line: lists, headings, admonitions, rules.
_AT_START = re.compile(r"^( ?)([-+:!])")
_NUMBER_DOT = re.compile(r"^( ?\d+)([.)])(?=\s|$)")
# Most of a page: words and numbers in which nothing can hide.
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9,.()\u00a0]*(?: [A-Za-z0-9,.()\u00a0]+)*")
_SPACES = re.compile(r"[\t\n\v\f\r\x1c-\x1f\x85\u2028\u2029 ]+")
_EMPTY_LINES = re.compile(r"\n{3,}")
# Joins emoji and the letters of some scripts; all other unseen signs can hide or reorder text.
_JOINERS = "\u200c\u200d"


@lru_cache(maxsize=8192)  # units, names and days come again and again
def line(text: str) -> str:
    """Give a text as one line that neither Markdown nor HTML reads as anything but text."""
    if _PLAIN.fullmatch(text):
        return text
    seen = _seen(text).translate(_SIGNS)
    for sign in (_NUMBER_DOT, _AT_START):
        seen = sign.sub(lambda found: f"{found[1]}&#{ord(found[2])};", seen)
    return seen


@lru_cache(maxsize=8192)
def html(text: str) -> str:
    """Give a text as one line that stands in HTML, where no sign of Markdown needs hiding."""
    return escape(_seen(text))


def data(value: object) -> str:
    """Give JSON for a script element, where nothing may look like the element's end."""
    packed = json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return packed.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


@lru_cache(maxsize=8192)
def cell(text: str) -> str:
    """Give a text as `line` does, fit to stand in a table."""
    return line(text).replace("|", "&#124;")


def _seen(text: str) -> str:
    """Give a text as one line, without the signs that cannot be shown."""
    # Of most texts that is known at once: no space but the usual one, and the one that keeps a
    # number and its unit on one line, is printable.
    if text.replace("\u00a0", "_").isprintable() and "  " not in text:
        return text
    return "".join(sign for sign in _SPACES.sub(" ", text) if _is_seen(sign))


def _is_seen(sign: str) -> bool:
    """Tell whether a sign can be shown, and so cannot hide or turn round what stands beside it."""
    hidden = unicodedata.category(sign) in ("Cc", "Cf", "Cs") or sign in "\ufffe\uffff"
    return not hidden or sign in _JOINERS


@pass_context
def address(context: Context, target: str) -> str:
    """Give a link to a page of the kit, as seen from the page that is being written.

    One that leads to the same page stays as it is.
    """
    return target if target.startswith("#") else str(context["up"]) + target


@pass_context
def run(context: Context, pieces: Iterable[Piece]) -> str:
    """Give a run of text. Pages hold thousands, and a macro takes five times as long for each."""
    up = str(context["up"])
    return "".join([_piece(each, up) for each in pieces])


def _piece(piece: Piece, up: str) -> str:
    words = cell(piece.text)
    if piece.mark:
        data = "".join(f' data-{cell(name)}="{cell(value)}"' for name, value in piece.mark.data)
        return f'<span class="{_small(piece)}{cell(piece.mark.name)}"{data}>{words}</span>'
    if piece.href:
        to = piece.href if piece.href.startswith("#") else up + piece.href
        linked = f"[{words}]({to})"
        if piece.strong:
            return f"<strong>{linked}</strong>"
        return f'<span class="small">{linked}</span>' if piece.small else linked
    if piece.scale:
        scaled = _scaled(piece, piece.scale, words)
        return f"<strong>{scaled}</strong>" if piece.strong else scaled
    if piece.small:
        return f'<span class="small">{words}</span>'
    return f"<strong>{words}</strong>" if piece.strong else words


def _scaled(piece: Piece, scale: Scale, words: str) -> str:
    told = {
        "units": scale.units,
        "step": scale.step,
        "mug": scale.mug,
        "before": scale.before,
        "after": scale.after,
    }
    more = "".join(f' data-{name}="{cell(value)}"' for name, value in told.items() if value)
    return (
        f'<span class="{_small(piece)}{cell(scale.name)}" data-figure="{cell(scale.figure)}" '
        f'data-kind="{cell(scale.kind)}"{more}>{words}</span>'
    )


def _small(piece: Piece) -> str:
    return "small " if piece.small else ""


def at(anchor: str) -> str:
    """Give a heading its own address, `{#water}`, which is the same with every generator."""
    return f"{{#{anchor}}}"


def often(text: str, times: int) -> str:
    """Give what a macro wrote so many times, one behind the other."""
    return text * times


def kept_templates() -> BytecodeCache | None:
    """Keep compiled templates between runs, where the system has a private folder for it."""
    try:
        return FileSystemBytecodeCache()
    except (RuntimeError, OSError):
        return None


@cache
def environment(templates: Path) -> Environment:
    """Give the environment for a templates folder; compiled templates are kept between kits."""
    made = Environment(
        loader=FileSystemLoader(templates),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        bytecode_cache=kept_templates(),
        autoescape=False,  # most of it is Markdown; `line` and `cell` take its place
        auto_reload=False,
    )
    made.globals["run"] = run
    filters = (line, cell, html, data, address, at, often)
    made.filters.update({each.__name__: each for each in filters})
    return made


def write(templates: Path, name: str, up: str, page: object, say: Speech) -> str:
    """Fill in a template with a view; `up` leads from the page to the top of the kit.

    A template says its own words by `say`, `count` and `of`; they may hold Markdown, so what fills
    their blanks goes through `line` or `cell` first.
    """
    template = environment(templates).get_template(name)
    text = template.render(page=page, up=up, say=say, count=say.count, of=say.of)
    return _EMPTY_LINES.sub("\n\n", text).strip("\n") + "\n"
