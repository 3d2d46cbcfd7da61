"""The guide as a reader follows it: its pages in order, the files they write, what they run."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import yaml

GUIDE = Path(__file__).parents[1] / "content" / "guide"
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


if __name__ == "__main__":
    print(script())
