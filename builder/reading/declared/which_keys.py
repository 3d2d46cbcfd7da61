"""Which keys go together, for editors: JSON Schema of what reading asks in `amiss_among`."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]


def told(*names: str) -> Schema:
    """Say that keys are told."""
    return {"required": list(names)}


def left_out(*names: str) -> Schema:
    """Say that keys are left out; editors underline each that is told."""
    return {"properties": dict.fromkeys(names, False)}


def told_as(name: str, *words: str) -> Schema:
    """Say that a key is told as one of a few words."""
    return {"properties": {name: {"enum": list(words)}}, "required": [name]}


def where(this: Schema, then: Schema, otherwise: Schema | None = None) -> Schema:
    """Say what holds where something else does, and where it does not."""
    found = {"if": this, "then": then}
    return found if otherwise is None else {**found, "else": otherwise}


def at_least_one(*names: str) -> Schema:
    """Say that one of a few keys is told, or several."""
    return {"anyOf": [told(each) for each in names]}


def just_one(one: str, other: str) -> Schema:
    """Say that one of two keys is told, not both."""
    either = f"write `{one}` or `{other}`"
    return where(
        told(one),
        {**left_out(other), "errorMessage": f"{either}, not both"},
        {**told(other), "errorMessage": either},
    )
