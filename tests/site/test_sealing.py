"""What encrypts a kit, against published vectors and an implementation that shares none of it."""

from __future__ import annotations

import hmac
import sys

import pytest

from builder.site.errors import SiteError
from builder.site.sealing.locking import (
    KEY_BYTES,
    NONCE_BYTES,
    PURPOSE,
    ROUNDS,
    SALT_BYTES,
    key_of,
    locked,
    refuse_without_library,
    seal,
)
from builder.site.sealing.passphrase import as_typed, is_weak, why_refused
from tests.site.gcm_by_hand import encrypted_block, opened, round_keys

# RFC 7914, section 11: the first 32 of the 64 bytes that it tells (quoted from memory).
OF_RFC_7914 = [
    ("passwd", "salt", 1, "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc"),
    (
        "Password",
        "NaCl",
        80_000,
        "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56",
    ),
]
# The Galois/Counter Mode of Operation, McGrew and Viega, test cases 13 to 16, which NIST's own
# examples for SP 800-38D follow (quoted from memory): key, nonce, content, checked too, sealed.
LONG_KEY = "feffe9928665731c6d6a8f9467308308" * 2
LONG_NONCE = "cafebabefacedbaddecaf888"
LONG = (
    "d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a72"
    "1c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b391aafd255"
)
LONG_SEALED = (
    "522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa"
    "8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662898015ad"
)
OF_GCM = [
    ("00" * 32, "00" * 12, "", "", "530f8afbc74536b9a963b4f1c4cb738b"),
    (
        *("00" * 32, "00" * 12, "00" * 16, ""),
        "cea7403d4d606b6e074ec5d3baf39d18d0d1c8a799996bf0265b98b5d48ab919",
    ),
    (LONG_KEY, LONG_NONCE, LONG, "", f"{LONG_SEALED}b094dac5d93471bdec1a502270e3cc6c"),
    (
        *(LONG_KEY, LONG_NONCE, LONG[:-8], "feedfacedeadbeeffeedfacedeadbeefabaddad2"),
        f"{LONG_SEALED[:-8]}76fc6ece0f4e1768cddf8853bb2d551b",
    ),
]
GCM_CASES = [tuple(bytes.fromhex(part) for part in row) for row in OF_GCM]


@pytest.mark.parametrize(("passphrase", "salt", "rounds", "key"), OF_RFC_7914)
def test_the_key_is_that_of_the_rfc(passphrase: str, salt: str, rounds: int, key: str) -> None:
    assert key_of(passphrase, salt.encode(), rounds).hex() == key


@pytest.mark.parametrize(("key", "nonce", "content", "checked_too", "sealed"), GCM_CASES)
def test_what_is_locked_is_that_of_the_published_cases(
    key: bytes, nonce: bytes, content: bytes, checked_too: bytes, sealed: bytes
) -> None:
    assert locked(content, key, nonce, checked_too) == sealed
    assert opened(key, nonce, sealed, checked_too) == content


def test_the_cipher_by_hand_is_that_of_its_standard() -> None:
    # FIPS 197, appendix C.3 (quoted from memory).
    keys = round_keys(bytes(range(32)))
    block = bytes.fromhex("00112233445566778899aabbccddeeff")
    assert encrypted_block(keys, block).hex() == "8ea2b7ca516745bfeafc49904b496089"


def key_by_hand(passphrase: str, salt: bytes, rounds: int) -> bytes:
    """Make the key as RFC 8018 tells it: one block of 32 bytes."""
    last = hmac.digest(passphrase.encode(), salt + (1).to_bytes(4, "big"), "sha256")
    found = int.from_bytes(last, "big")
    for _ in range(rounds - 1):
        last = hmac.digest(passphrase.encode(), last, "sha256")
        found ^= int.from_bytes(last, "big")
    return found.to_bytes(KEY_BYTES, "big")


CONTENT = b"Tea at Lake Emmerin, for two. " * 7


def test_another_implementation_opens_what_was_sealed() -> None:
    sealed = seal(CONTENT, "öäü four words here")
    key = key_by_hand("öäü four words here", sealed.salt, sealed.rounds)
    assert opened(key, sealed.nonce, sealed.content, PURPOSE.encode()) == CONTENT
    wrong = key_by_hand("oau four words here", sealed.salt, 1)
    assert opened(wrong, sealed.nonce, sealed.content, PURPOSE.encode()) is None


@pytest.mark.parametrize("at", [0, 100, -17, -1])
def test_one_changed_bit_is_refused(at: int) -> None:
    sealed = seal(CONTENT, "four words of ours")
    spoiled = bytearray(sealed.content)
    spoiled[at] ^= 1
    key = key_of("four words of ours", sealed.salt)
    assert opened(key, sealed.nonce, bytes(spoiled), PURPOSE.encode()) is None


def test_salt_and_nonce_are_never_the_same_twice() -> None:
    one, other = (seal(CONTENT, "the same passphrase") for _ in range(2))
    assert (len(one.salt), len(one.nonce)) == (SALT_BYTES, NONCE_BYTES)
    assert one.salt != other.salt and one.nonce != other.nonce
    assert one.content[:32] != other.content[:32]
    assert one.rounds == ROUNDS >= 600_000


def test_without_the_library_it_is_told_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    refuse_without_library()
    monkeypatch.setitem(sys.modules, "cryptography", None)
    with pytest.raises(SiteError, match="needs the library cryptography") as stop:
        refuse_without_library()
    assert "pip install cryptography" in stop.value.hints[0]


@pytest.mark.parametrize(
    ("line", "used"),
    [
        ("four words", "four words"),
        ("  four words ", "four words"),
        ("a\u0308pfel", "äpfel"),
        ("ﬁsch", "ﬁsch"),  # only what looks the same is made the same
    ],
)
def test_a_passphrase_is_the_same_from_every_keyboard(line: str, used: str) -> None:
    assert as_typed(line) == used


@pytest.mark.parametrize("line", ["", "   ", "\t", "a\tb", "a\x00b", "a\u200bb"])
def test_what_cannot_be_typed_again_is_refused(line: str) -> None:
    assert why_refused(as_typed(line))


@pytest.mark.parametrize(
    ("passphrase", "weak"),
    [
        ("lake", True),
        ("elevensigns", True),
        ("twelve-signs", False),
        ("is it so", True),
        ("so it is ok", False),
        ("湖 山 霧 霜", False),
    ],
)
def test_a_short_passphrase_is_weak(passphrase: str, weak: bool) -> None:
    assert why_refused(passphrase) == ""
    assert is_weak(passphrase) == weak
