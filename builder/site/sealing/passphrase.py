"""What a passphrase may be, and when it is too easily guessed."""

from __future__ import annotations

import unicodedata

# Common practice, no source.
LEAST_SIGNS = 12
LEAST_WORDS = 4


def as_typed(line: str) -> str:
    """Give a passphrase as it is used: the same from every keyboard, without room at its ends.

    Some keyboards write ä as one sign and some as two, and phones like to add a blank after a word.
    The page does the same to what is typed there.
    """
    return unicodedata.normalize("NFC", line).strip()


def why_refused(passphrase: str) -> str:
    """Say why a passphrase cannot be used; "" where it can."""
    if not passphrase:
        return "an empty passphrase seals nothing"
    if not passphrase.isprintable():
        return "the passphrase holds a sign that cannot be seen, such as a tab"
    return ""


def is_weak(passphrase: str) -> bool:
    """Tell whether a passphrase is so short that a machine soon has tried all such."""
    return len(passphrase) < LEAST_SIGNS and len(passphrase.split()) < LEAST_WORDS
