"""Every word of the pages stands in every catalogue, and none is missing."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from string import Formatter
from typing import Any

import pytest

from builder.model.trip import ENGLISH, LANGUAGES
from tests.catalogues import Text, catalogue, path_of, said_in, speaking, texts, written

OTHERS = [language for language in LANGUAGES if language != ENGLISH]
MEND = "run python -m tests.catalogues, then translate what is empty"
MARKUP = re.compile(r"\*\*|(?<!\*)\*(?!\*)|`|<[^>]+>|\]\([^)]*\)")
# Words that stood beside another for the same thing, or that no camp cook says, and what to say.
UNSAID = {
    ENGLISH: {
        r"gas cans?\b": "gas canister",
        r"mean day": "average day",
        r"\breckon": "work out",
        r"\bnot told\b": "not given",
        r"good until": "best before",
    },
    "de": {
        r"Dörrers?\b": "Gerät, Dörrgerät",
        r"\bSieben?\b": "Gitter",
        r"\bLäufen?\b": "Dörrgang",
        r"\bKits?\b|\bPacks\b": "Tourheft, Packung",
        r"\{volume\} aufbereitetes": "Trinkwasser, which stands behind any word",
        r"zahlt sich": "macht sich bezahlt",
        r"Zangeneisen": "Sandwicheisen",
    },
    "nb": {
        r"tørkeapparat": "tørker",
        r"oksygenfjerner": "oksygenabsorber",
        r"tørkebok": "logg",
        r"stekejern": "toastjern",
        r"\b(?:solen|vekten|natten|gryten|listen|uken)\b": "sola, vekta, natta, gryta, lista, uka",
        r"[Ff]jørfe|[Bb]elgvekster": "fjærkre, belgfrukter",
        r"betaler seg": "lønner seg",
    },
}


def translations(language: str) -> dict[Text, Any]:
    return {(each.context, _form(each.id)): each.string for each in catalogue(language) if each.id}


def _form(text: Any) -> str | tuple[str, str]:
    return text if isinstance(text, str) else (text[0], text[1])


def pairs(language: str) -> list[tuple[str, str]]:
    """Give each English text beside its translation; of two forms, each beside its own."""
    found: list[tuple[str, str]] = []
    for (_, text), said in translations(language).items():
        if isinstance(text, str):
            found.append((text, said))
        else:
            found += zip(text, said, strict=True)
    return found


@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_has_just_the_texts_that_are_said(language: str) -> None:
    today, kept = set(texts()), set(translations(language))
    assert today - kept == set(), f"not in {language}: {MEND}"
    assert kept - today == set(), f"said no more: {MEND}"


@pytest.mark.parametrize("language", OTHERS)
def test_no_text_is_left_untranslated_or_in_doubt(language: str) -> None:
    empty = [text for text, said in pairs(language) if not said.strip()]
    assert empty == [], MEND
    assert [each.id for each in catalogue(language) if each.fuzzy] == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_keeps_blanks_and_markup(language: str) -> None:
    odd = [
        (text, said)
        for text, said in pairs(language)
        if blanks(text) != blanks(said) or markup(text) != markup(said)
    ]
    assert odd == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_keeps_spaces_at_its_ends(language: str) -> None:
    odd = [text for text, said in pairs(language) if ends(text) != ends(said)]
    assert odd == []


@pytest.mark.parametrize("language", OTHERS)
def test_one_and_many_are_told_apart_as_the_scripts_do(language: str) -> None:
    # words.js takes the first form for 1 and the second for all else.
    assert catalogue(language).plural_forms == "nplurals=2; plural=(n != 1);"


@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_stands_as_it_is_written(language: str) -> None:
    kept = catalogue(language)
    kept.header_comment = f"# The words of the pages, {language}."
    assert path_of(language).read_bytes() == written(kept)


@pytest.mark.parametrize("language", [ENGLISH, *OTHERS])
def test_one_thing_has_one_word(language: str) -> None:
    said = [each for _, each in pairs(language)] if language != ENGLISH else []
    for _, text in texts() if language == ENGLISH else ():
        said += [text] if isinstance(text, str) else text
    found = [
        (text, better)
        for text in said
        for word, better in UNSAID[language].items()
        if re.search(word, text)
    ]
    assert found == []


def test_texts_are_found_wherever_they_are_said() -> None:
    module = """
NAMES = {"a": later("One text")}
say.count("{n} drop", "{n} drops", n, of=say("milk" " or water"), when=say.of("date", "May"))
f"{figures.say('Inside')} {say(NAMES['a'])} {text.count('x')} {origins.of(places, 'field')}"
"""
    assert said_in(module) == [
        (None, "One text"),
        (None, ("{n} drop", "{n} drops")),
        (None, "milk or water"),
        ("date", "May"),
        (None, "Inside"),
    ]


@pytest.mark.parametrize("path", list(speaking()), ids=lambda path: path.stem)
def test_what_is_said_is_never_put_together_before(path: Path) -> None:
    made = [
        ast.unparse(call)
        for call in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(call, ast.Call)
        and (getattr(call.func, "attr", "") or getattr(call.func, "id", "")) in ("say", "later")
        and isinstance(call.args[0], ast.JoinedStr | ast.BinOp)
    ]
    assert made == [], "a catalogue knows whole texts only; put what changes into {blanks}"


def blanks(text: str) -> set[str | None]:
    return {name for _, name, _, _ in Formatter().parse(text)} - {None}


def markup(text: str) -> list[str]:
    return sorted(MARKUP.findall(text))


def ends(text: str) -> tuple[bool, bool]:
    return text[:1].isspace(), text[-1:].isspace()
