"""Where the numbers of a kit are from, told so that it is the same on every machine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from builder.model.kit import Kit


def from_inside(kit: Kit, folders: Sequence[str]) -> Kit:
    """Give a kit whose places in files begin inside the content folder, such as trips/fell.yaml.

    `folders` are the content folders as people are shown them: paths of one machine.
    """
    beginnings = sorted((f"{folder}/" for folder in folders), key=len, reverse=True)

    def inside(origin: str) -> str:
        return next(
            (origin.removeprefix(each) for each in beginnings if origin.startswith(each)), origin
        )

    return replace(
        kit,
        derivations=tuple(
            replace(
                derivation,
                inputs=tuple(
                    replace(given, origin=inside(given.origin)) for given in derivation.inputs
                ),
            )
            for derivation in kit.derivations
        ),
    )
