"""Brings the catalogues of words up to date: adds new texts, drops those that are gone.

Run it after changing what a page says: .venv/bin/python -m tests.catalogues
Then fill in the empty translations that it names.
"""

from __future__ import annotations

import ast
import datetime
import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po, write_po
from jinja2.ext import babel_extract

from builder.model.trip import ENGLISH, LANGUAGES
from builder.speech import NAME, catalogues

ROOT = Path(__file__).resolve().parent.parent
# Which of its arguments a function says; of "of", the first tells the meaning.
SAYING = {"say": (0,), "later": (0,), "count": (0, 1), "forms": (0, 1), "of": (0, 1)}
NO_DATE = datetime.datetime(2000, 1, 1, tzinfo=datetime.UTC)  # the writer wants one; none is kept
SPEAKING = (
    "speech.py",
    "reading",
    "planning",
    "pages",
    "site",
)  # the rooms that say what a kit shows
# What stands in a catalogue to tell one meaning of a word from another.
Text = tuple[str | None, str | tuple[str, str]]


def texts() -> dict[Text, list[str]]:
    """Give every text of the pages, with the files that say it."""
    found: dict[Text, list[str]] = {}
    for text, path in _texts():
        files = found.setdefault(text, [])
        name = path.relative_to(ROOT).as_posix()
        if name not in files:
            files.append(name)
    return found


def _texts() -> Iterator[tuple[Text, Path]]:
    for path in speaking():
        for text in said_in(path.read_text("utf-8")):
            yield text, path
    for path in sorted((ROOT / "site_templates").rglob("*.j2")):
        with path.open("rb") as file:
            trimmed = {"trim_blocks": "true", "lstrip_blocks": "true"}
            for _, name, said, _ in babel_extract(file, tuple(SAYING), [], trimmed):
                words = [said] if isinstance(said, str) else [each for each in said or () if each]
                if name == "of":
                    yield (words[0], words[1]), path
                else:
                    yield (None, _one_or_both(tuple(words))), path
    for path in sorted((ROOT / "content" / "cautions").glob("*.yaml")):
        for row in yaml.safe_load(path.read_text("utf-8")):
            for field in ("title", "text"):
                if row.get(field):
                    yield (None, row[field].strip()), path
    for folder in ("foods", "gear"):
        for path in sorted((ROOT / "content" / folder).rglob("*.yaml")):
            for name in _names(yaml.safe_load(path.read_text("utf-8"))):
                yield (NAME, name), path


def said_in(module: str) -> list[Text]:
    """Give the texts that a module says, in their order."""
    calls = [each for each in ast.walk(ast.parse(module)) if isinstance(each, ast.Call)]
    calls.sort(key=lambda call: (call.lineno, call.col_offset))
    return [text for call in calls if (text := _said_by(call)) is not None]


def _said_by(call: ast.Call) -> Text | None:
    name = call.func.attr if isinstance(call.func, ast.Attribute) else ""
    name = call.func.id if isinstance(call.func, ast.Name) else name
    places = SAYING.get(name, ())
    words = [call.args[place] for place in places if place < len(call.args)]
    texts = tuple(
        each.value
        for each in words
        if isinstance(each, ast.Constant) and isinstance(each.value, str)
    )
    if not texts or len(texts) != len(places):
        return None  # a text from a table that was marked by `later`, or another function
    if name == "of":
        return texts[0], texts[1]
    return None, _one_or_both(texts)


def speaking() -> Iterator[Path]:
    """Give the modules that say what a kit shows."""
    for room in SPEAKING:
        path = ROOT / "builder" / room
        yield from [path] if path.is_file() else sorted(path.rglob("*.py"))


def _names(loaded: Any) -> Iterator[str]:
    """Give every name in a file of foods or gear, and the shelves of the shop."""
    if isinstance(loaded, list):
        for each in loaded:
            yield from _names(each)
    elif isinstance(loaded, dict):
        yield from (loaded[key] for key in ("name", "shelf") if isinstance(loaded.get(key), str))
        for each in loaded.values():
            yield from _names(each)


def _one_or_both(text: str | tuple[str, ...]) -> str | tuple[str, str]:
    if isinstance(text, str):
        return text
    return text[0] if len(text) == 1 else (text[0], text[1])


def path_of(language: str) -> Path:
    """Give where a language's catalogue stands."""
    return catalogues() / f"{language}.po"


def catalogue(language: str) -> Catalog:
    """Read a catalogue; a language without one gets an empty one."""
    path = path_of(language)
    if not path.exists():
        return Catalog(locale=language)
    return read_po(io.BytesIO(path.read_bytes()), locale=language)


def brought_up_to_date(old: Catalog, language: str) -> Catalog:
    """Give a catalogue with just the texts of today, and the translations that it has for them."""
    new = Catalog(
        locale=language,
        header_comment=f"# The words of the pages, {language}.",
        fuzzy=False,
        project="trip-kit-builder",
        creation_date=NO_DATE,
        revision_date=NO_DATE,
    )
    for (meaning, text), files in texts().items():
        known = old.get(text, context=meaning)
        empty: Any = ("", "") if isinstance(text, tuple) else ""
        said = known.string if known is not None and _fits(known, text) else empty
        new.add(text, said, locations=[(name, 0) for name in files], context=meaning)
    return new


def _fits(known: Message, text: str | tuple[str, str]) -> bool:
    return isinstance(known.string, tuple) == isinstance(text, tuple)


def written(made: Catalog) -> bytes:
    """Give a catalogue as it is kept: without dates and line numbers, so that nothing churns."""
    kept = io.BytesIO()
    write_po(kept, made, width=100, omit_header=True, include_lineno=False)
    head = (
        f"{made.header_comment}\n"
        'msgid ""\n'
        'msgstr ""\n'
        f'"Language: {made.locale_identifier}\\n"\n'
        '"Content-Type: text/plain; charset=utf-8\\n"\n'
        '"Content-Transfer-Encoding: 8bit\\n"\n'
        f'"Plural-Forms: {made.plural_forms}\\n"\n'
        "\n"
    )
    return head.encode() + kept.getvalue()


def main() -> None:
    """Bring every catalogue up to date, and tell what is left to translate."""
    catalogues().mkdir(exist_ok=True)
    for language in LANGUAGES:
        if language == ENGLISH:
            continue
        made = brought_up_to_date(catalogue(language), language)
        path = path_of(language)
        path.write_bytes(written(made))
        empty = sum(1 for each in made if each.id and not any(each.string or ()))
        print(f"{path.relative_to(ROOT)}: {len(made)} texts, {empty} to translate")


if __name__ == "__main__":
    main()
