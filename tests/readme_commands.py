"""The two commands under "Set up" in README.md, so that nobody has to write them twice."""

from __future__ import annotations

import re
import sys
from pathlib import Path

README = Path(__file__).resolve().parent.parent / "README.md"


def set_up_commands(readme: str) -> list[str]:
    """Give the commands of the section, in order; each fenced block holds one line."""
    section = re.search(r"^## Set up\n(.*?)(?=^## )", readme, re.DOTALL | re.MULTILINE)
    if section is None:
        raise ValueError("README.md has no section `Set up`")
    return blocks(section[1])


def blocks(readme: str) -> list[str]:
    """Give what stands in the fenced blocks, in order."""
    found = re.findall(r"^```[a-z]*\n(.*?)^```$", readme, re.DOTALL | re.MULTILINE)
    return [block.strip() for block in found]


if __name__ == "__main__":
    run, tests = set_up_commands(README.read_text("utf-8"))
    print({"run": run, "tests": tests}[sys.argv[1]])
