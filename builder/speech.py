"""Words and numbers in the language of a trip: English stands in the code, the rest in catalogues.

A catalogue is a plain `.po` file in `site_templates/languages/`. What stands in the code is the
English text itself, so English is whole by itself:

    say("Carry {water} from {camp}.", water=say.show(1500, "volume_ml"), camp=day.title)
    say.count("{n} drop", "{n} drops", drops)
    say.of("date", "May")                  # one English word with several meanings
    NAMES = {"pot": later("In the pot")}   # told in a table, and said by say(NAMES["pot"])
"""

from __future__ import annotations

import datetime
import gettext
import io
import re
import struct
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path

from babel.numbers import get_decimal_symbol, get_group_symbol

from builder.model.trip import ENGLISH, LANGUAGES
from builder.record import dataclass
from builder.shipped import shipped_root
from builder.units import (
    NBSP,
    System,
    in_both,
    in_units,
    ladles,
    mugs,
    show,
    show_at_least,
    shown_both,
)

NAME = "name"  # what a food, a pot or a bag is called
_NOUNS_KEEP_CAPITALS = ("de",)
_ESCAPED = re.compile(r"\\(.)")
_COMPILED = 0x950412DE  # how a compiled catalogue begins


def later(text: str) -> str:
    """Mark a text that stands in a table, to be said when it is needed."""
    return text


_WEEKDAYS = (
    later("Mon"), later("Tue"), later("Wed"), later("Thu"), later("Fri"), later("Sat"),
    later("Sun"),
)  # fmt: skip
_MONTHS = (
    later("Jan"), later("Feb"), later("Mar"), later("Apr"), later("May"), later("Jun"),
    later("Jul"), later("Aug"), later("Sep"), later("Oct"), later("Nov"), later("Dec"),
)  # fmt: skip
# Words that stand behind a number; signs such as g, ml or °C are the same in all languages.
_UNIT_WORDS = frozenset((
    later("mug"), later("mugs"), later("ladle"), later("ladles"), later("cup"), later("cups"),
    later("tsp"), later("h"),
))  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Speech:
    """Says everything in one language."""

    language: str
    _words: gettext.NullTranslations
    _signs: dict[int, str]  # how this language writes the signs in an English number

    def __call__(self, text: str, /, **blanks: object) -> str:
        """Say a text; each {blank} in it is filled by the value of that name."""
        said = self._words.gettext(text)
        return said.format(**blanks) if blanks else said

    def count(self, one: str, many: str, n: int, /, **blanks: object) -> str:
        """Say a text that hangs on a number, which stands in it as {n}."""
        return self._words.ngettext(one, many, n).format(n=self.number(n), **blanks)

    def forms(self, one: str, many: str) -> tuple[str, str]:
        """Give a text for one and for several, its blanks still open, for the scripts in a page."""
        return self._words.ngettext(one, many, 1), self._words.ngettext(one, many, 2)

    def of(self, meaning: str, text: str, /, **blanks: object) -> str:
        """Say a text that means something else elsewhere."""
        said = self._words.pgettext(meaning, text)
        return said.format(**blanks) if blanks else said

    def name(self, name: str) -> str:
        """Give what a shipped food or piece of gear is called; other names stay as they are."""
        return self._words.pgettext(NAME, name)

    def number(self, value: float, decimals: int = 0) -> str:
        """Write a number with its thousands apart."""
        return self.signs(f"{value:,.{decimals}f}")

    def signs(self, number: str) -> str:
        """Write an English number, with whatever stands behind it, as this language does."""
        return number.translate(self._signs)

    def show(self, value: float, quantity: str, units: System = "metric") -> str:
        """Give a quantity as people read it, as `units.show` does."""
        return self._worded(show(value, quantity, units))

    def shown_both(self, value: float, quantity: str, units: System = "metric") -> tuple[str, str]:
        """Give a quantity in the trip's units and in the other ones, as `units.shown_both` does."""
        first, other = shown_both(value, quantity, units)
        return self._worded(first), self._worded(other)

    def show_at_least(self, temperature_c: float, units: System = "metric") -> str:
        """Give a temperature to reach, rounded up."""
        return self._worded(show_at_least(temperature_c, units))

    def in_units(self, text: str, units: System = "metric") -> str:
        """Fill the quantities of a text, which stand in it as {74 degC|165 degF}."""
        return in_units(text, units, self._worded)

    def in_both(self, text: str, units: System = "metric") -> str:
        """Fill the quantities of a text, each with that of the other system in brackets behind."""
        return in_both(text, units, self._worded)

    def mugs(self, volume_ml: float, mug_ml: float) -> str:
        """Give a volume in mugs of the trip's own size."""
        return self._worded(mugs(volume_ml, mug_ml))

    def ladles(self, halves: int) -> str:
        """Give so many half ladles."""
        return self._worded(ladles(halves))

    def _worded(self, shown: str) -> str:
        """Put a shown quantity into this language: its number's signs, and its unit's word."""
        if self.language == ENGLISH:
            return shown
        return " ".join(self._quantity(each) for each in shown.split(" "))

    def _quantity(self, shown: str) -> str:
        number, space, unit = shown.partition(NBSP)
        return f"{self.signs(number)}{space}{self.unit(unit)}"

    def unit(self, unit: str) -> str:
        """Give a unit's sign, such as `ml/h`, or its word."""
        return "/".join(self(each) if each in _UNIT_WORDS else each for each in unit.split("/"))

    def listed(self, names: Iterable[str]) -> str:
        """Give names as a sentence has them: `a, b and c`."""
        every = list(names)
        if len(every) < 2:
            return "".join(every)
        say = self
        return say("{some} and {last}", some=", ".join(every[:-1]), last=every[-1])

    def date(self, day: datetime.date) -> str:
        """Give a date such as `Thu 4 Sep 2031`."""
        say = self
        return say(
            "{weekday} {day} {month} {year}",
            weekday=self(_WEEKDAYS[day.weekday()]),
            day=day.day,
            month=self(_MONTHS[day.month - 1]),
            year=day.year,
        )

    def short_date(self, day: datetime.date) -> str:
        """Give a date for a narrow column, such as `4 Sep 2031`, on one line."""
        say = self
        return say(
            "{day}\u00a0{month} {year}",
            day=day.day,
            month=self(_MONTHS[day.month - 1]),
            year=day.year,
        )

    def inside(self, name: str) -> str:
        """Give a name as it stands inside a sentence; abbreviations keep their capitals."""
        if self.language in _NOUNS_KEEP_CAPITALS:
            return name
        if len(name) > 1 and name[0].isupper() and name[1].islower():
            return name[0].lower() + name[1:]
        return name


def catalogues() -> Path:
    """Give the folder of the catalogues."""
    return shipped_root() / "site_templates" / "languages"


@cache
def speech_of(language: str) -> Speech:
    """Give what says everything in a language; raises KeyError where it has no catalogue."""
    if language == ENGLISH:
        return Speech(ENGLISH, gettext.NullTranslations(), {})
    if language not in LANGUAGES:
        raise KeyError(language)
    with (catalogues() / f"{language}.po").open("rb") as file:
        return spoken(read_words(file.read()), language)


def read_words(catalogue: bytes) -> gettext.GNUTranslations:
    """Give the words of a catalogue; what is not translated, or doubtful, is left out.

    Every process reads those of all languages, so they are read here and not by Babel, which takes
    four times as long; a test holds the one against the other.
    """
    words: dict[str, str] = {}
    for entry in catalogue.decode("utf-8").split("\n\n"):
        parts = _parts(entry)
        said = "\0".join(text for part, text in parts.items() if part.startswith("msgstr"))
        if said.strip("\0") and "msgid" in parts:
            name = "\0".join(parts[part] for part in ("msgid", "msgid_plural") if part in parts)
            words[f"{parts['msgctxt']}\4{name}" if "msgctxt" in parts else name] = said
    return gettext.GNUTranslations(io.BytesIO(_compiled(words)))


def _parts(entry: str) -> dict[str, str]:
    """Give the parts of an entry of a catalogue by their keywords; none of a doubtful one."""
    parts: dict[str, str] = {}
    part = ""
    for line in entry.splitlines():
        if line.startswith("#"):
            if line.startswith("#,") and "fuzzy" in line:
                return {}
        elif line:
            word, _, rest = line.partition('"')
            part = word.strip() or part
            parts[part] = parts.get(part, "") + _ESCAPED.sub(_unescaped, rest.rstrip()[:-1])
    return parts


def _unescaped(escaped: re.Match[str]) -> str:
    return {"n": "\n", "t": "\t", "r": "\r"}.get(escaped[1], escaped[1])


def _compiled(words: Mapping[str, str]) -> bytes:
    """Give words as a compiled catalogue, the form that gettext reads."""
    rows = [text.encode("utf-8") for pair in words.items() for text in pair]
    first = at = 28 + 8 * len(rows)
    places = []
    for row in rows:
        places.append((len(row), at))
        at += len(row) + 1
    tables = [
        number for table in (places[::2], places[1::2]) for place in table for number in place
    ]
    head = (_COMPILED, 0, len(words), 28, 28 + 8 * len(words), 0, first)
    return struct.pack(f"<{7 + len(tables)}I", *head, *tables) + b"".join(
        row + b"\0" for row in rows
    )


def spoken(words: gettext.NullTranslations, language: str) -> Speech:
    """Give what says everything with some words, and writes numbers as a language does."""
    signs = {",": get_group_symbol(language), ".": get_decimal_symbol(language)}
    return Speech(language, words, str.maketrans(signs))


def with_capital(said: str) -> str:
    """Give words as they begin a line; a name within them stays as it is written."""
    return f"{said[:1].upper()}{said[1:]}"
