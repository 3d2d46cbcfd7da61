"""Writes what each source checks: a table in DEVELOPERS.md, and data for the page of sources.

Run it after changing a row or a source: .venv/bin/python -m tests.published.table_of_sources
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, get_args

import yaml

from builder.model.source import Known, Source
from builder.model.trip import ENGLISH
from builder.pages.trip.origins.sources import (
    CHECKED_NAME,
    SUBJECTS,
    Checked,
    checks_said,
    known_said,
)
from builder.record import asdict
from builder.speech import speech_of

from .published import SOURCES_YAML
from .rows import called_by, row_tests

ROOT = Path(__file__).parents[2]
DATA = ROOT / "site_templates" / CHECKED_NAME
TABLE = ROOT / "DEVELOPERS.md"
BEGIN = "<!-- table of sources: begin -->\n"
END = "<!-- table of sources: end -->\n"

# Tests that hold a constant or a table, and the formula it belongs to or else its own name.
OF_CONSTANTS = {
    "test_energy_need.test_intensities_are_those_of_the_compendium": "effort.met_kcal",
    "test_fuels.test_heating_values_follow_from_heats_of_formation": "fuels.energy_mj_kg",
    "test_keeping.test_jerky": "keeping.table_months",
    "test_rules_of_the_trade.test_dry_enough_without_oxygen": "drying.dry_enough_share",
    "test_keeping.test_the_factor_for_ten_kelvin": "keeping.months_kept",
    "test_embers.test_hand": "embers.HAND_TEST",
    "test_heat_drying.test_air": "heat_drying.AIR_C",
    "test_heat_drying.test_slices": "heat_drying.PIECES_MM",
    "test_heat_drying.test_hours": "heat_drying.HOURS",
    "test_heat_drying.test_blanching": "heat_drying.BOIL_MIN",
    "test_heat_drying.test_blanching_takes_longer_above": "heat_drying.BOIL_MIN",
    "test_heat_drying.test_the_sun_dries_from": "heat_drying.SUN_AIR_C",
    "test_heat_drying.test_air_too_damp_for_the_sun": "heat_drying.SUN_AIR_C",
}
# From sure to unsure: a figure is never better known than the document it stands in.
_SURENESS: tuple[str, ...] = get_args(Known)


@cache
def all_checked() -> tuple[Checked, ...]:
    """Every source that has a row, in the order of the list of sources."""
    sources = _sources()
    figures: dict[str, dict[str, dict[str, int]]] = {}
    for name, test, rows in row_tests():
        for row in rows:
            called = called_by(lambda test=test, row=row: test(row))  # type: ignore[misc]
            # What is called last gives the figure; what comes before gives it its arguments.
            formula = called[-1] if called else OF_CONSTANTS[name]
            known = figures.setdefault(row.source, {}).setdefault(formula, {})
            how = as_sure_as_its_source(row.known, sources[row.source].how)
            known[how] = known.get(how, 0) + 1
    wordless = {at for each in figures.values() for at in each} - set(words_of_formulas())
    assert not wordless, f"say in builder/pages/sources.py what is checked by {sorted(wordless)}"
    return tuple(
        Checked(source, {at: figures[source.id][at] for at in sorted(figures[source.id])})
        for source in sources.values()
        if source.id in figures
    )


def as_sure_as_its_source(known: str, how: Known) -> str:
    """How a row is known, but never better than its document is."""
    if known in _SURENESS and how != "practice":
        return max(known, how, key=_SURENESS.index)
    return known


def _sources() -> Mapping[str, Source]:
    rows = yaml.safe_load(SOURCES_YAML.read_text(encoding="utf-8"))
    told = ("id", "title", "how", "publisher", "author", "year", "url")
    return {row["id"]: Source(**{key: row[key] for key in told if key in row}) for row in rows}


def words_of_formulas() -> dict[str, str]:
    """What each formula works out, in plain words."""
    return {formula: said for each in SUBJECTS.values() for formula, said in each.items()}


def data() -> str:
    """What the page of sources shows, a line for each source."""
    lines = (json.dumps(_record(each), ensure_ascii=False) for each in all_checked())
    return "[\n" + ",\n".join(lines) + "\n]\n"


def _record(each: Checked) -> dict[str, Any]:
    source = {key: value for key, value in asdict(each.source).items() if value}
    source.pop("places", None)
    return {"source": source, "figures": each.figures}


def table() -> str:
    """The same as Markdown, a row for each source."""
    say, words = speech_of(ENGLISH), words_of_formulas()
    lines = "| source | what it checks | rows | how known |\n| --- | --- | --: | --- |\n"
    for each in all_checked():
        rows, known = known_said(say, each, words)
        cited, checks = _cited(each.source), checks_said(say, each, words)
        lines += f"| {cited} | {checks} | {rows} | {known} |\n"
    return lines


def _cited(source: Source) -> str:
    parts = (source.title, source.publisher, str(source.year or ""))
    return ", ".join(part for part in parts if part).replace("|", "\\|")


def between_markers(text: str) -> str:
    """The table that stands in DEVELOPERS.md now."""
    return text.partition(BEGIN)[2].partition(END)[0]


def main() -> None:
    """Write both anew."""
    DATA.write_text(data(), encoding="utf-8", newline="\n")
    text = TABLE.read_text(encoding="utf-8")
    before, after = text.partition(BEGIN)[0], text.partition(END)[2]
    TABLE.write_text(f"{before}{BEGIN}{table()}{END}{after}", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
