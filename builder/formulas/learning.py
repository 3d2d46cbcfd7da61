"""What earlier trips teach the next: used over planned, drawn towards the plan."""

from __future__ import annotations

import math
from collections.abc import Sequence

from builder.formulas.declaring import Constant, declared
from builder.formulas.ranges import require_above

# The plan counts like so many trips of one's own that went just as planned.
PLAN_COUNTS_AS = 2.0
# No few trips may draw a plan further than this: what lies beyond was another sort of trip.
LEAST_FACTOR = 0.7
MOST_FACTOR = 1.5


@declared(
    "max(least_factor, min(most_factor, "
    "exp(sum(ln(used_ratio)) / (sum(used_ratio ^ 0) + plan_counts_as))))",
    {
        "least_factor": Constant(LEAST_FACTOR, "common-practice"),
        "most_factor": Constant(MOST_FACTOR, "common-practice"),
        "plan_counts_as": Constant(PLAN_COUNTS_AS, "common-practice"),
    },
)
def learned_factor(used_ratio: Sequence[float]) -> float:
    """Factor that later plans are multiplied by, from what earlier trips used of their plans.

    Parameters
    ----------
    used_ratio : sequence of float
        Used over planned of each trip, before anything was learned; at least one. [g/g], above 0

    Returns
    -------
    float
        Times as much as planned, 0.7 to 1.5. [-]

    Raises
    ------
    ValueError
        If there is no trip, or a ratio is not above 0.

    Notes
    -----
    exp(sum of ln ratio / (n + 2)), kept from 0.7 to 1.5: a geometric mean in which the plan
    counts like two trips that went as planned.

    References
    ----------
    .. [common-practice] Common practice, no source, for counting the plan as two trips, and for
       the bounds.
    """
    if not used_ratio:
        raise ValueError("there is no trip to learn from; give at least one")
    for each in used_ratio:
        require_above("used over planned", each, "g/g", 0.0)
    drawn = math.exp(math.fsum(map(math.log, used_ratio)) / (len(used_ratio) + PLAN_COUNTS_AS))
    return max(LEAST_FACTOR, min(MOST_FACTOR, drawn))
