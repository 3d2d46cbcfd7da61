"""Encrypts bytes with a passphrase, so that a browser's own cryptography opens them.

The key is PBKDF2 of the passphrase with HMAC-SHA-256, the cipher AES-256 in GCM, which also tells
whether a byte was changed. Nothing here is of our own making but the order of the calls.
"""

from __future__ import annotations

import base64
import hashlib
import json
import secrets

from builder.record import dataclass
from builder.site.errors import SiteError

# The OWASP Password Storage Cheat Sheet of 2023 asks for so many with SHA-256 (quoted from memory).
ROUNDS = 600_000
SALT_BYTES = 16  # at least so many in NIST SP 800-132, section 5.1 (quoted from memory)
NONCE_BYTES = 12  # what GCM is made for, NIST SP 800-38D, section 8.2 (quoted from memory)
KEY_BYTES = 32
# Goes into the check of every byte, and tells a kit from what the page keeps of it on a phone.
PURPOSE = "trip kit, sealed, 1"


@dataclass(frozen=True, slots=True)
class Sealed:
    """What was encrypted, with all but the passphrase that opens it."""

    rounds: int
    salt: bytes
    nonce: bytes
    content: bytes  # with the check of 16 bytes at its end

    @property
    def as_json(self) -> str:
        """Give it as the page reads it."""
        parts = {"salt": self.salt, "nonce": self.nonce, "content": self.content}
        texts = {name: base64.b64encode(part).decode("ascii") for name, part in parts.items()}
        return json.dumps({"rounds": self.rounds, "purpose": PURPOSE, **texts})


def refuse_without_library() -> None:
    """Refuse where the library that encrypts is not installed."""
    try:
        import cryptography  # noqa: F401
    except ImportError as error:
        raise SiteError(
            "sealing needs the library cryptography, which is not installed",
            ["install it with `pip install cryptography`, then build again"],
        ) from error


def key_of(passphrase: str, salt: bytes, rounds: int = ROUNDS) -> bytes:
    """Give the key that a passphrase makes with a salt."""
    return hashlib.pbkdf2_hmac("sha256", passphrase.encode("utf-8"), salt, rounds, KEY_BYTES)


def locked(content: bytes, key: bytes, nonce: bytes, checked_too: bytes) -> bytes:
    """Give bytes encrypted, with the check at their end that also covers `checked_too`."""
    # Here, not above: only sealing needs it, and it is an extra.
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

    return AESGCM(key).encrypt(nonce, content, checked_too)


def seal(content: bytes, passphrase: str) -> Sealed:
    """Encrypt bytes, with a salt and a nonce that were never used before."""
    salt, nonce = secrets.token_bytes(SALT_BYTES), secrets.token_bytes(NONCE_BYTES)
    key = key_of(passphrase, salt)
    return Sealed(ROUNDS, salt, nonce, locked(content, key, nonce, PURPOSE.encode("ascii")))
