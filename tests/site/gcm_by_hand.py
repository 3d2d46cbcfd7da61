"""AES-256 in GCM, step by step as FIPS 197 and NIST SP 800-38D tell it; slow, for tests only."""

from __future__ import annotations

from functools import cache

WORDS = 60  # of four bytes: 15 round keys of AES-256
BLOCK = 16


def doubled(byte: int) -> int:
    """Multiply by x in the field of AES."""
    return (byte << 1 ^ 0x11B) if byte & 0x80 else byte << 1


def times(a: int, b: int) -> int:
    found = 0
    while b:
        found ^= a if b & 1 else 0
        a, b = doubled(a), b >> 1
    return found


@cache
def box(byte: int) -> int:
    """Substitute a byte: its inverse in the field, then the affine map."""
    inverse = next((each for each in range(256) if times(byte, each) == 1), 0)
    turned = [inverse << n | inverse >> (8 - n) for n in range(5)]
    return (turned[0] ^ turned[1] ^ turned[2] ^ turned[3] ^ turned[4] ^ 0x63) & 0xFF


def round_keys(key: bytes) -> list[bytes]:
    words = [key[n : n + 4] for n in range(0, 32, 4)]
    constant = 1
    for n in range(8, WORDS):
        last = words[-1]
        if n % 8 == 0:
            last = bytes(map(box, last[1:] + last[:1]))
            last = bytes([last[0] ^ constant]) + last[1:]
            constant = doubled(constant)
        elif n % 8 == 4:
            last = bytes(map(box, last))
        words.append(bytes(a ^ b for a, b in zip(words[-8], last, strict=True)))
    return [b"".join(words[n : n + 4]) for n in range(0, WORDS, 4)]


def mixed(column: bytes) -> bytes:
    a, b, c, d = column
    return bytes(
        doubled(p) ^ doubled(q) ^ q ^ r ^ s
        for p, q, r, s in ((a, b, c, d), (b, c, d, a), (c, d, a, b), (d, a, b, c))
    )


def encrypted_block(keys: list[bytes], block: bytes) -> bytes:
    state = bytes(a ^ b for a, b in zip(block, keys[0], strict=True))
    for number, key in enumerate(keys[1:], start=1):
        state = bytes(box(state[(n + 4 * (n % 4)) % BLOCK]) for n in range(BLOCK))
        if number < len(keys) - 1:
            state = b"".join(mixed(state[n : n + 4]) for n in range(0, BLOCK, 4))
        state = bytes(a ^ b for a, b in zip(state, key, strict=True))
    return state


def multiplied(x: int, y: int) -> int:
    """Multiply two blocks as GHASH does: the leftmost bit is the lowest power."""
    found = 0
    for bit in range(127, -1, -1):
        found ^= y if x >> bit & 1 else 0
        y = y >> 1 ^ (0xE1 << 120 if y & 1 else 0)
    return found


def hashed(subkey: int, checked_too: bytes, content: bytes) -> int:
    found = 0
    lengths = (len(checked_too) * 8).to_bytes(8, "big") + (len(content) * 8).to_bytes(8, "big")
    for part in (checked_too, content, lengths):
        for n in range(0, len(part), BLOCK):
            block = part[n : n + BLOCK].ljust(BLOCK, b"\0")
            found = multiplied(found ^ int.from_bytes(block, "big"), subkey)
    return found


def opened(key: bytes, nonce: bytes, sealed: bytes, checked_too: bytes) -> bytes | None:
    """Give what was sealed; None where the check at its end does not hold."""
    content, check = sealed[:-BLOCK], sealed[-BLOCK:]
    keys = round_keys(key)
    subkey = int.from_bytes(encrypted_block(keys, bytes(BLOCK)), "big")
    first = encrypted_block(keys, nonce + (1).to_bytes(4, "big"))
    expected = hashed(subkey, checked_too, content) ^ int.from_bytes(first, "big")
    if expected != int.from_bytes(check, "big"):
        return None
    found = bytearray()
    for n in range(0, len(content), BLOCK):
        pad = encrypted_block(keys, nonce + (n // BLOCK + 2).to_bytes(4, "big"))
        found += bytes(a ^ b for a, b in zip(content[n : n + BLOCK], pad, strict=False))
    return bytes(found)
