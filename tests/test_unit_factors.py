"""The table of unit factors is the one that pint makes."""

from __future__ import annotations

import subprocess
import sys

from builder.unit_factors import FACTORS
from tests.unit_factors import TABLE, factors, table


def test_the_table_is_the_one_that_pint_makes() -> None:
    assert factors() == FACTORS
    assert TABLE.read_text("utf-8") == table()


def test_reading_the_demo_needs_no_pint() -> None:
    script = (
        "import sys\n"
        "from builder.reading.folder import Layer, read_folder\n"
        "assert not read_folder([Layer('content', 'content')]).content.trips == {}\n"
        "assert 'pint' not in sys.modules\n"
    ).replace("Layer('content'", "Layer(__import__('pathlib').Path('content')")
    done = subprocess.run([sys.executable, "-c", script], cwd=TABLE.parent.parent, check=False)
    assert done.returncode == 0
