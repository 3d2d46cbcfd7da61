"""Every word of a page comes from the catalogue, from the people or from the kit itself."""

from __future__ import annotations

import gettext
import re
import sys
from collections.abc import Iterator

import pytest

from builder.model.kit import Kit
from builder.pages.navigation import NavItem
from builder.pages.trip.book import Book, write_book
from builder.record import fields, is_dataclass, replace
from builder.speech import Speech, spoken
from tests.pages.conftest import TEMPLATES
from tests.pages.sample_kit import sample_kit
from tests.pages.seen import Seen, seen_in, seen_in_html

WORD = re.compile(r"[A-Za-zé]{2,}")
BLANK_OR_MARK = re.compile(r"\{[^}]*\}|\]\([^)]*\)")
# Signs that stand behind numbers, the same in all languages.
SIGNS = {
    "kcal",
    "kg",
    "ml",
    "oz",
    "fl",
    "gal",
    "lb",
    "ft",
    "mi",
    "km",
    "min",
    "kJ",
    "MJ",
    "hPa",
    "kPa",
    "Pa",
    "mTorr",
    "kWh",
    "mg",
    "mm",
    "cm",
}
# Whom a curve is named after; and by whom a source or a batch is known that the kit tells no more.
NAMES = {"Page", "schofield", "nasem", "mifflin", "oats", "winter"}
# What one types into a terminal or a file: the same in all languages.
TYPED = {"tripkit", "review", "from", "yaml", "sample"}
# Printed arithmetic is the same in all languages.
ARITHMETIC = {"sum", "part"}
TOLD = {"aria-label", "title", "alt", "placeholder"}
# Words of the people and of the shipped content: other letters tell them from the pages' own.
THEIRS = {
    "title",
    "name",
    "text",
    "because",
    "notes",
    "reasons",
    "act",
    "what",
    "value",
    "why",
    "formula",
    "say",
    "origin",
    "eaters",
    "stove",
    "irons",
    "used_in",
    "note",
    "publisher",
    "pots",
    "pot",
    "slowest",
    "dryer",
}
GREEK = str.maketrans(
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "αβψδεφγηιξκλμνοπϟρστθωϛχυζΑΒΨΔΕΦΓΗΙΞΚΛΜΝΟΠϞΡΣΤΘΩϚΧΥΖ",
)


class Silent(gettext.NullTranslations):
    """Says no word, only what stands between words; names stay."""

    def gettext(self, message: str) -> str:
        """Give a text without its words."""
        kept = iter([*BLANK_OR_MARK.findall(message), ""])
        return "".join(WORD.sub("¤", part) + next(kept) for part in BLANK_OR_MARK.split(message))

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """Give a text that hangs on a number, without its words."""
        return self.gettext(msgid1 if n == 1 else msgid2)

    def pgettext(self, context: str, message: str) -> str:
        """Give a text of one meaning, without its words."""
        return self.gettext(message)


def in_greek(told: object, is_theirs: bool = False) -> object:
    """Give a record with the words that are not the pages' own in other letters."""
    if isinstance(told, str):
        return told.translate(GREEK) if is_theirs else told
    if isinstance(told, tuple):
        return tuple(in_greek(each, is_theirs) for each in told)
    if is_dataclass(told) and not isinstance(told, type):
        held = {field.name: getattr(told, field.name) for field in fields(told)}
        return replace(
            told, **{name: in_greek(value, name in THEIRS) for name, value in held.items()}
        )
    return told


@pytest.fixture(scope="module")
def silent_book() -> Book:
    def silent(language: str) -> Speech:
        return spoken(Silent(), "de")

    kit = in_greek(sample_kit())
    assert isinstance(kit, Kit)
    with pytest.MonkeyPatch.context() as patch:
        for name, module in list(sys.modules.items()):
            if name.startswith("builder.pages.") and hasattr(module, "speech_of"):
                patch.setattr(module, "speech_of", silent)
        return write_book(kit, TEMPLATES)


def unsaid(seen: Seen) -> set[str]:
    """Give the words that are read, or told to those who do not see, and that nothing said."""
    told = [value or "" for _, given in seen.tags for name, value in given.items() if name in TOLD]
    return set(WORD.findall(" ".join([seen.words, *told]))) - SIGNS - NAMES - TYPED - ARITHMETIC


def test_every_word_of_a_page_is_said(silent_book: Book) -> None:
    found = {
        path: unsaid(seen_in(text))
        for path, text in silent_book.markdown.items()
        if path != "sources.md"  # publications, whose names are theirs
    }
    assert {path: words for path, words in found.items() if words} == {}


def test_every_word_of_the_pocket_page_is_said(silent_book: Book) -> None:
    assert unsaid(seen_in_html(silent_book.pocket_html)) == set()


def titles(nav: tuple[NavItem, ...]) -> Iterator[str]:
    for title, target in nav:
        yield title
        if not isinstance(target, str):
            yield from titles(target)


def test_every_word_of_the_navigation_is_said(silent_book: Book) -> None:
    assert unsaid(Seen(words=" ".join(titles(silent_book.nav)))) == set()


def test_a_word_that_nothing_said_is_found(book: Book) -> None:
    assert {"Batches", "guideline"} <= unsaid(seen_in(book.markdown["drying.md"]))
    button = seen_in_html('<button aria-label="Close" title="¤">5 min</button>')
    assert unsaid(button) == {"Close"}
