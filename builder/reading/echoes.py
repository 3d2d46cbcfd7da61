"""Problems that only say again what another one says: they are left out."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping

from builder.problems import Problem
from builder.reading.declared.declaring import keys_of
from builder.reading.gear.gear_files import GearFile
from builder.reading.text.yaml_door import quoted

_ECHOES = {
    "food-unknown": ("food", "recipe"),
    "recipe-unknown": ("recipe",),
    "avoids-unknown": ("food",),
}
_QUOTED = re.compile(r"""'(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*\"""")


# Where those stand that a problem says are not there.
_LOOKED_FOR_IN: Mapping[str, tuple[str, ...]] = {
    "food-unknown": ("foods", "recipes"),
    "avoids-unknown": ("foods",),
    "recipe-unknown": ("recipes",),
    "batch-unknown": ("batches",),
    "person-unknown": ("home.yaml",),
    "source-unknown": ("sources.yaml",),
    **{f"{section.rstrip('s')}-unknown": ("gear",) for section in keys_of(GearFile)},
}


def without_echoes_of_unread(problems: Iterable[Problem], unread: Collection[str]) -> list[Problem]:
    """Leave out "there is no pot x" while a file that may hold it cannot be read.

    What is wrong with that file is told, so that nothing is built before it is mended.
    """
    return [
        problem
        for problem in problems
        if not any(room in unread for room in _LOOKED_FOR_IN.get(problem.kind, ()))
    ]


def without_echoes_of_broken(
    problems: Iterable[Problem], broken: Collection[tuple[str, str]]
) -> list[Problem]:
    """Leave out "there is no food x" where x is there, with errors of its own."""
    there = {(kind, quoted(name)) for kind, name in broken}
    return [
        problem
        for problem in problems
        if not any(
            (kind, name) in there
            for kind in _ECHOES.get(problem.kind, ())
            for name in _QUOTED.findall(problem.says)
        )
    ]
