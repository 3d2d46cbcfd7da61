"""What the food of a batch, or of a line that names none, is called as it is now."""

from __future__ import annotations

from builder.planning.batches.judging import Judged
from builder.planning.foods import Substance
from builder.planning.naming import dried_name
from builder.speech import Speech


def name_now(say: Speech, judged: Judged) -> str:
    """Name the food of a batch by what it is once dried."""
    return dried_name(
        say,
        judged.substance.name,
        judged.substance.state,
        judged.batch.method,
        stays_raw=judged.stays_raw,
        heated=judged.substance.is_raw_animal and not judged.stays_raw,
        jerky=judged.batch.jerky,
    )


def name_as_dried(say: Speech, substance: Substance, dried_by: str | None) -> str:
    """Name food of no batch: nobody told that raw meat, fish or egg was heated, so it is raw."""
    return dried_name(
        say, substance.name, substance.state, dried_by, stays_raw=substance.is_raw_animal
    )
