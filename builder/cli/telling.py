"""How problems are told on a terminal: what is told often is told once, with places and a count.

`check --json` tells each of them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from builder.problems import Problem, counted, in_order_key

# As many as these are told each in its own line; only more of them are drawn together.
MOST_ALIKE = 3  # in the same words
MOST_OF_A_SORT = 6  # of one kind, each in its own words
MOST_PLACES = 8


def told(problems: Sequence[Problem]) -> Iterator[str]:
    """Give the lines that tell some problems, by place as `in_order` has them."""
    alike: dict[tuple[str, ...], list[Problem]] = defaultdict(list)
    for problem in problems:
        alike[problem.severity, problem.kind, problem.says, problem.mend].append(problem)
    sorts: dict[tuple[str, str], list[list[Problem]]] = defaultdict(list)
    for group in alike.values():
        few = [group] if len(group) > MOST_ALIKE else [[each] for each in group]
        sorts[group[0].severity, group[0].kind] += few
    kept = [group for groups in sorts.values() for group in _first(groups)]
    for group in sorted(kept, key=lambda each: in_order_key(each[0])):
        yield str(group[0])
        if len(group) > 1:
            yield f"  and {len(group) - 1} more like it: {_places(group[1:])}"
    for (severity, kind), groups in sorts.items():
        rest = [problem for group in groups[len(_first(groups)) :] for problem in group]
        if rest:
            more = counted(len(rest), f"more {severity}")
            yield f"{more} of this sort [{kind}]: {_places(rest)}; `tripkit check --json` tells all"


def _first(groups: list[list[Problem]]) -> list[list[Problem]]:
    """Give those of one sort that are told in their own words."""
    return groups[: MOST_OF_A_SORT - 1] if len(groups) > MOST_OF_A_SORT else groups


def _places(problems: Sequence[Problem]) -> str:
    places = [str(problem.place) for problem in problems[:MOST_PLACES]]
    if len(problems) > MOST_PLACES:
        places.append(f"and {counted(len(problems) - MOST_PLACES, 'more place')}")
    return ", ".join(places)
