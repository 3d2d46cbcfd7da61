"""Writes the JSON Schemas of the content, the tables of keys of its README, and facts of its foods.

Run it after changing what may be written: .venv/bin/python -m tests.schemas
"""

from __future__ import annotations

from pathlib import Path

from builder.model.content import Content
from builder.planning.finding.food_facts import FILE, facts_text
from builder.reading.declared.json_schemas import schema_text
from builder.reading.declared.telling import tables
from builder.reading.folder import Layer, read_folder
from builder.reading.kinds import KINDS

ROOT = Path(__file__).parents[1]
SCHEMAS = ROOT / "site_templates" / "schemas"
GUIDE = ROOT / "content" / "README.md"
FACTS = ROOT / "site_templates" / FILE


def files() -> dict[Path, str]:
    """Give all that is made of the declarations: each file with what it must hold."""
    made = {SCHEMAS / kind.schema_name: schema_text(kind) for kind in KINDS.values()}
    guide = GUIDE.read_text("utf-8")
    for name, text in tables():
        guide = with_table(guide, name, text)
    return {**made, GUIDE: guide, FACTS: facts_text(shipped_content())}


def shipped_content() -> Content:
    """Read what ships."""
    return read_folder([Layer(ROOT / "content", "content", vouched=True)]).content


def with_table(guide: str, name: str, text: str) -> str:
    """Put a table between its two marks."""
    begin, end = (f"<!-- keys of {name}: {mark} -->\n" for mark in ("begin", "end"))
    before, found, rest = guide.partition(begin)
    _, found_too, after = rest.partition(end)
    assert found and found_too, f"{GUIDE.name} has no place for the keys of {name}"
    return before + begin + text + end + after


if __name__ == "__main__":
    for path, text in files().items():
        path.write_text(text, "utf-8")
        print(f"Wrote {path.relative_to(ROOT)}")
