"""One style sheet for a kit: the theme's and the kit's own, without what no page can use."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from builder.record import dataclass

STYLE_NAME = "assets/kit.css"
THEME_FOLDER = "assets/stylesheets"
# The theme's sheets in the order in which its pages load them.
THEME_SHEETS = ("main.*.css", "palette.*.css")
THEME_LINK = re.compile(r'<link rel="stylesheet" href="[^"]*assets/stylesheets/[^"]*">\s*')

# The theme's drawings; those of a kit are its own (`marks.py`, kit.css).
DRAWING = re.compile(r'--[\w-]+:\s*url\("data:image/svg\+xml[^"]*"\);?')

COMMENT = re.compile(r"/\*.*?\*/", re.S)
CLASS_IN_SELECTOR = re.compile(r"\.(-?[A-Za-z_](?:[\w-]|\\.)*)")
# Only attributes that the theme writes into each page; pages hold them in double quotes.
ATTRIBUTE = re.compile(r'\[(dir|data-md-color-\w+)="?([\w-]+)"?\]')
EITHER_OR = re.compile(r":(?:not|is|where|has)\((?:[^()]|\([^()]*\))*\)")
# They begin with what they look for, so that a search leaps to it; one that asks for the end of a
# word first takes ten times as long.
ATTRIBUTES_IN_PAGE = (re.compile(r'dir="[\w-]+"'), re.compile(r'data-md-color-\w+="[\w-]+"'))
CLASS_IN_PAGE = re.compile(r'class="([^"]*)"')
SCRIPT_IN_PAGE = re.compile(r"<script>(.*?)</script>", re.S)
VARIABLE = re.compile(r"(--[\w-]+)\s*:((?:[^;{}\"']|\"[^\"]*\"|'[^']*')*);?")
WORD = re.compile(r"[\w-]+")
VARIABLE_USED = re.compile(r"var\(\s*(--[\w-]+)")
GROUPING = ("@media", "@supports", "@layer")


@dataclass(frozen=True, slots=True)
class _Selector:
    """One selector, with what must stand in a page for it to match."""

    text: str
    classes: tuple[str, ...]
    attributes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Rule:
    """A rule with its selectors, a group with its rules, or something to leave as it is."""

    selectors: tuple[_Selector, ...]
    body: str
    group: str = ""
    inner: tuple[_Rule, ...] = ()


def merge_styles(site: Path, pages: Iterable[str], more: str = "") -> None:
    """Put the theme's sheets before the kit's, and cut all down to these pages and the scripts.

    `more` are rules that are made, not written; they come last.
    """
    sheets = [file for each in THEME_SHEETS for file in sorted((site / THEME_FOLDER).glob(each))]
    theme = DRAWING.sub("", "".join(file.read_text(encoding="utf-8") for file in sheets))
    scripts = "".join(
        file.read_text(encoding="utf-8") for file in sorted((site / "assets").rglob("*.js"))
    )
    own = site / STYLE_NAME
    style = theme + squeezed(own.read_text(encoding="utf-8"))
    own.write_text(slim(style, "\n".join(pages), scripts) + more, encoding="utf-8", newline="\n")
    for file in sheets:
        file.unlink()
    if not any((site / THEME_FOLDER).iterdir()):
        (site / THEME_FOLDER).rmdir()


def without_theme_links(html: str) -> str:
    """Take the links to the theme's own sheets off a page."""
    return THEME_LINK.sub("", html)


def slim(css: str, html: str, scripts: str) -> str:
    """Give a style sheet without the rules that match nothing in these pages.

    A class counts as used when a page has it, or a script names it and may put it in, one that
    stands in a page too; a variable when a rule that stays asks for it, or a script does.
    """
    named = _words(scripts).union(*map(_words, set(SCRIPT_IN_PAGE.findall(html))))
    classes = {name for value in set(CLASS_IN_PAGE.findall(html)) for name in value.split()} | named
    attributes = {each for pattern in ATTRIBUTES_IN_PAGE for each in pattern.findall(html)}

    def can_match(selector: _Selector) -> bool:
        return classes.issuperset(selector.classes) and attributes.issuperset(selector.attributes)

    def kept(rules: Iterable[_Rule]) -> Iterator[str]:
        for rule in rules:
            if rule.group:
                inner = "".join(kept(rule.inner))
                if inner:
                    yield f"{rule.group}{{{inner}}}"
            elif not rule.selectors:
                yield rule.body
            elif matching := [each.text for each in rule.selectors if can_match(each)]:
                yield f"{','.join(matching)}{{{rule.body}}}"

    return _without_idle_variables("".join(kept(_rules(css))), named)


def squeezed(css: str) -> str:
    """Give a hand-written sheet without comments and without white space that says nothing."""
    css = re.sub(r"\s+", " ", COMMENT.sub("", css))
    css = re.sub(r"(?<=[\w-]): (?=\S)", ":", css)
    return re.sub(r" ?([{};,]) ?", r"\1", css).strip() + "\n"


@cache
def _rules(css: str) -> tuple[_Rule, ...]:
    """Take a sheet apart; the theme's and the tool's are the same for every kit."""
    return tuple(_read_rules(COMMENT.sub("", css)))


@cache
def _words(scripts: str) -> frozenset[str]:
    """Give every word of the scripts, class names among them."""
    return frozenset(WORD.findall(scripts))


def _read_rules(css: str) -> Iterator[_Rule]:
    position = 0
    while (opened := _find(css, "{;", position)) >= 0:
        head = css[position:opened].strip()
        if css[opened] == ";":
            yield _Rule((), f"{head};")
            position = opened + 1
            continue
        closed = _closing(css, opened)
        body = css[opened + 1 : closed]
        position = closed + 1
        if head.startswith(GROUPING):
            yield _Rule((), "", head, tuple(_read_rules(body)))
        elif head.startswith("@"):
            yield _Rule((), f"{head}{{{body}}}")
        else:
            yield _Rule(tuple(_selector(text) for text in _split(head)), body)


def _selector(text: str) -> _Selector:
    # What stands in :not() or :is() is no condition of its own.
    certain = EITHER_OR.sub("", text)
    classes = tuple(name.replace("\\", "") for name in CLASS_IN_SELECTOR.findall(certain))
    attributes = tuple(f'{name}="{value}"' for name, value in ATTRIBUTE.findall(certain))
    return _Selector(text.strip(), classes, attributes)


_STOP = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^'\\]|\\.)*'|\\.|[{};,()\[\]]", re.S)


def _find(css: str, signs: str, position: int) -> int:
    """Give where one of some signs stands next, outside quotes; -1 for nowhere."""
    for found in _STOP.finditer(css, position):
        if found[0] in signs:
            return found.start()
    return -1


def _closing(css: str, opened: int) -> int:
    """Give where the brace that is open here closes."""
    depth = 0
    for found in _STOP.finditer(css, opened):
        depth += {"{": 1, "}": -1}.get(found[0], 0)
        if depth == 0:
            return found.start()
    return len(css)


def _split(head: str) -> Iterator[str]:
    """Give the selectors of a list, which may hold commas in brackets."""
    depth = start = 0
    for found in _STOP.finditer(head):
        depth += {"(": 1, "[": 1, ")": -1, "]": -1}.get(found[0], 0)
        if found[0] == "," and depth == 0:
            yield head[start : found.start()]
            start = found.end()
    yield head[start:]


def _without_idle_variables(css: str, named: frozenset[str]) -> str:
    """Drop variables that nothing asks for, and then those that only they asked for."""
    while True:
        used = named.union(VARIABLE_USED.findall(css))
        fewer = "".join(_with_variables(css, used))
        if fewer == css:
            return css
        css = fewer


def _with_variables(css: str, used: frozenset[str]) -> Iterator[str]:
    """Give a sheet in pieces, without the variables that are not used."""
    end = 0
    for found in VARIABLE.finditer(css):
        yield css[end : found.start()]
        if found[1] in used:
            yield found[0]
        end = found.end()
    yield css[end:]
