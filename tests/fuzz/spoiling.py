"""Ways to spoil a folder of texts, a file's bytes, or a kit's zip; all from one seed."""

from __future__ import annotations

import copy
import json
import random
import zipfile
from collections.abc import Callable, Mapping
from io import BytesIO
from typing import Any

from tests.reading.test_fuzz import ODD, paths, put

Files = dict[str, bytes]

# What tends to break readers of bytes: ends, quotes, signs of YAML, half letters, unseen signs.
JUNK = (
    b"",
    b":",
    b"\t",
    b"'",
    b'"',
    b"[",
    b"}",
    b"{",
    b"&x ",
    b"*x",
    b"\x00",
    b"- ",
    b"\n",
    b"\r\n",
    b"!",
    b"!!python/object:os.system",
    b"#",
    "½".encode(),
    b"\xff",
    b"\xe2\x80",
    b"\xef\xbb\xbf",
    b"---\n",
    b"...",
    "\u202e".encode(),
    "\u200b".encode(),
    "🍲".encode(),
    b"<<: *x",
    b"? ",
    b"|",
    b">",
    b"%YAML 9.9\n",
)
# What a text could do where it is shown: run as a script, lead out, fill in, or turn round.
SCRIPTS = (
    "<script>alert(1)</script>",
    "</script><script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "javascript:alert(1)",
    "{{ 7*7 }}",
    "{% include '/etc/passwd' %}",
    "[x](javascript:alert(1))",
    "=cmd|' /C calc'!A0",
    "+1+1",
    "@SUM(1)",
    "BEGIN:VALARM",
    "END:VCALENDAR\r\nX:1",
    "<!-- ",
    "--> ",
    "]]>",
    "../../etc/passwd",
    "a\x00b",
    "%s%n",
    "`id`",
    "$(id)",
    "&lt;b&gt;",
    "\u202egnp.exe",
    "\ufeff",
    "CON",
    "nul.html",
)
NAMES = (
    "../out.yaml",
    "/tmp/out.yaml",
    "trips/../../x.yaml",
    "con",
    "x" * 300,
    "a\nb",
    "‮",
    "",
    "kit.json/x",
)


def spoiled_bytes(rng: random.Random, raw: bytes) -> bytes:
    """Give bytes with a few places hit, cut, doubled or moved."""
    for _ in range(rng.randint(1, 4)):
        at, to = sorted(rng.randint(0, len(raw)) for _ in range(2))
        to = min(to, at + rng.choice((0, 1, 2, 8, 60)))
        raw = rng.choice(
            (
                raw[:at] + rng.choice(JUNK) + raw[to:],
                raw[:at] + raw[to:],
                raw[:to] + raw[at:],
                raw[:at],
                raw[:at] + bytes([rng.randrange(256)]) + raw[at + 1 :],
                raw[:at] + rng.choice(SCRIPTS).encode() + raw[to:],
            )
        )
    return raw


def spoiled_tree(rng: random.Random, tree: Any) -> Any:
    """Give nested data with a few nodes gone, changed, doubled, or standing for another."""
    tree = copy.deepcopy(tree)
    for _ in range(rng.randint(1, 4)):
        spots = [path for path in paths(tree) if path]
        if not spots:
            return rng.choice(ODD)
        path = rng.choice(spots)
        parent = _at(tree, path[:-1])
        way = rng.randrange(5)
        if way == 0:
            del parent[path[-1]]
        elif way == 1:
            put(tree, path, copy.deepcopy(rng.choice(ODD)))
        elif way == 2:
            put(tree, path, rng.choice(SCRIPTS))
        elif way == 3:
            put(tree, path, copy.deepcopy(_at(tree, rng.choice(spots))))
        elif isinstance(parent, list):
            parent.extend(copy.deepcopy(parent[: rng.randint(1, 3)]))
        else:
            parent[rng.choice((*SCRIPTS, "id", "name", "food", "for"))] = parent.pop(path[-1])
    return tree


def _at(tree: Any, path: tuple[Any, ...]) -> Any:
    for step in path:
        tree = tree[step]
    return tree


def spoiled_folder(rng: random.Random, texts: Mapping[str, str], trees: Mapping[str, Any]) -> Files:
    """Give the files of a content folder, of which one or two are spoiled in one way or another."""
    files = {name: text.encode() for name, text in texts.items()}
    for name in rng.sample(sorted(files), rng.randint(1, 2)):
        way = rng.randrange(8)
        if way < 3:
            files[name] = spoiled_bytes(rng, files[name])
        elif way < 7 and name in trees:
            files[name] = json.dumps(spoiled_tree(rng, trees[name]), ensure_ascii=False).encode(
                errors="surrogatepass"
            )
        else:
            files[name] = files[rng.choice(sorted(files))]
    return files


def spoiled_zip(rng: random.Random, raw: bytes) -> bytes:
    """Give a kit's zip that is broken, or whole with odd members in it."""
    if rng.random() < 0.4:
        return spoiled_bytes(rng, raw)
    members = _members(raw)
    change: Callable[[random.Random, Files], None] = rng.choice(
        (_rename, _spoil, _drop, _nest, _swell)
    )
    for _ in range(rng.randint(1, 3)):
        change(rng, members)
    return _packed(members)


def _members(raw: bytes) -> Files:
    with zipfile.ZipFile(BytesIO(raw)) as packed:
        return {each.filename: packed.read(each) for each in packed.infolist()}


def _packed(members: Files) -> bytes:
    target = BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in members.items():
            packed.writestr(name or "_", content)
    return target.getvalue()


def _told(members: Files) -> list[str]:
    """Give the members that are read again: the data of the kit, and its records."""
    return [name for name in sorted(members) if name.endswith((".json", ".yaml", ".zip"))]


def _rename(rng: random.Random, members: Files) -> None:
    name = rng.choice(sorted(members))
    members[rng.choice(NAMES)] = members.pop(name)


def _spoil(rng: random.Random, members: Files) -> None:
    for name in _told(members)[:8]:
        if rng.random() < 0.5:
            raw = members[name]
            # The records lie in a zip within the zip, which stays whole here: its files are hit.
            members[name] = _within(rng, raw) if name.endswith(".zip") else spoiled_bytes(rng, raw)


def _within(rng: random.Random, raw: bytes) -> bytes:
    try:
        inner = _members(raw)
    except zipfile.BadZipFile:
        return raw
    if inner:
        name = rng.choice(sorted(inner))
        inner[name] = spoiled_bytes(rng, inner[name])
    if rng.random() < 0.3 and inner:
        _rename(rng, inner)
    return _packed(inner)


def _drop(rng: random.Random, members: Files) -> None:
    for name in rng.sample(sorted(members), min(len(members), rng.randint(1, 5))):
        del members[name]


def _nest(rng: random.Random, members: Files) -> None:
    members[rng.choice(NAMES)] = _packed(dict(list(members.items())[:3]))


def _swell(rng: random.Random, members: Files) -> None:
    members[rng.choice(_told(members) or ["content.zip"])] = b"[" * rng.choice((100, 10**5, 10**6))
