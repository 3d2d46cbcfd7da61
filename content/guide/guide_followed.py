"""The guide as a reader follows it: its pages in order, the files they write, what they run.

As a command it prints one script that does all of it.
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import yaml

import builder

GUIDE = Path(__file__).parent
FOLDER = "my-trips"  # that its first commands make
DAY = "1946030400"  # 2031-09-01, the day on which it is followed: at home, things hang on the day
_BLOCK = re.compile(
    r'^```(?P<kind>\w+)(?: title="(?P<title>[^"]+)")?\n(?P<text>.*?)^```$', re.MULTILINE | re.DOTALL
)


@dataclass(frozen=True, slots=True)
class Block:
    """A block of a page: commands, a file, or what the commands before it print."""

    page: str
    line: int
    kind: str  # sh, yaml, text
    file: str  # that a block of YAML is; "" where it is a part of one
    text: str

    def __str__(self) -> str:
        """Say where it stands."""
        return f"{self.page}:{self.line}"


def pages() -> list[str]:
    """Give the pages in the order of the site."""
    told = yaml.safe_load((GUIDE / "mkdocs.yml").read_text("utf-8"))
    return [str(each) for each in told["nav"]]


def blocks() -> Iterator[Block]:
    """Give all blocks in the order they are followed."""
    for page in pages():
        text = (GUIDE / "pages" / page).read_text("utf-8")
        for found in _BLOCK.finditer(text):
            line = text.count("\n", 0, found.start()) + 1
            yield Block(page, line, found["kind"], found["title"] or "", found["text"])


def script() -> str:
    """Give one script that does what the guide says, and marks what each block prints."""
    lines = ["set -euo pipefail"]
    for number, block in enumerate(blocks()):
        if block.kind == "sh":
            lines += [f"echo '== {number}'", block.text.rstrip()]
        elif block.file:
            name = shlex.quote(block.file)
            lines += [f"mkdir -p $(dirname {name})", f"cat > {name} <<'END OF FILE'"]
            lines += [block.text.rstrip(), "END OF FILE"]
    return "\n".join(lines) + "\n"


def follow(at: Path) -> Mapping[int, str]:
    """Do all of it in an empty folder; give what each block of commands printed, by its number."""
    command = at / "bin" / "tripkit"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m builder "$@"\n', "utf-8")
    command.chmod(0o755)
    done = subprocess.run(
        ["bash", "-c", script()],
        cwd=at,
        env={
            **os.environ,
            "PATH": f"{command.parent}{os.pathsep}{os.environ['PATH']}",
            "PYTHONPATH": str(Path(builder.__file__).parents[1]),
            "SOURCE_DATE_EPOCH": DAY,
        },
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        raise RuntimeError(f"the guide fails:\n{done.stdout[-2000:]}\n{done.stderr[-2000:]}")
    parts = re.split(r"^== (\d+)\n", done.stdout, flags=re.MULTILINE)
    return dict(zip(map(int, parts[1::2]), parts[2::2], strict=True))


if __name__ == "__main__":
    print(script())
