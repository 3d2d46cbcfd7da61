"""Writes builder/unit_factors.py anew, out of pint: .venv/bin/python -m tests.unit_factors

A test holds the table to pint; run this where a unit was added.
"""

from __future__ import annotations

from pathlib import Path

import pint

from builder.units import DIMENSIONS

TABLE = Path(__file__).resolve().parent.parent / "builder" / "unit_factors.py"
HEAD = '''"""Factor and offset from each unit that people use to the one we compute in.

Made by `python -m tests.unit_factors` out of pint, so that a build need not import it.
"""

from __future__ import annotations

# (unit, canonical unit): factor, offset, by pint's names.
FACTORS: dict[tuple[str, str], tuple[float, float]] = {
'''


def factors() -> dict[tuple[str, str], tuple[float, float]]:
    """Work out every row."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    rows: dict[tuple[str, str], tuple[float, float]] = {}
    for dimension in DIMENSIONS.values():
        for unit in dimension.units.values():
            zero = registry.Quantity(0.0, unit).to(dimension.canonical).magnitude
            one = registry.Quantity(1.0, unit).to(dimension.canonical).magnitude
            rows[unit, dimension.canonical] = (float(one - zero), float(zero))
    return dict(sorted(rows.items()))


def table() -> str:
    """Give the module as it should be."""
    lines = [
        f'    ("{unit}", "{canonical}"): ({factor!r}, {offset!r}),\n'
        for (unit, canonical), (factor, offset) in factors().items()
    ]
    return HEAD + "".join(lines) + "}\n"


if __name__ == "__main__":
    TABLE.write_text(table(), "utf-8")
