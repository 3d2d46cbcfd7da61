"""The search index, kept once: the theme has it as a script for a disk and as JSON for a host."""

from __future__ import annotations

import re
from pathlib import Path

BUNDLES = "assets/javascripts/bundle.*.min.js"
AS_SCRIPT, AS_JSON = "search/search_index.js", "search/search_index.json"
# Where the theme's bundle chooses between the two.
BY_PROTOCOL = re.compile(
    r'location\.protocol==="file:"(?=\?[\w$]+\(`\$\{new URL\("search/search_index\.js")'
)


def keep_one_index(site: Path) -> None:
    """Let the theme take the script wherever the kit is opened, and leave the JSON out.

    A bundle that does not choose in the known place keeps both files.
    """
    for bundle in site.glob(BUNDLES):
        text, changed = BY_PROTOCOL.subn("!0", bundle.read_text(encoding="utf-8"))
        if changed == 1 and (site / AS_SCRIPT).is_file():
            bundle.write_text(text, encoding="utf-8", newline="\n")
            (site / AS_JSON).unlink(missing_ok=True)
