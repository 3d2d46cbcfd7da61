"""The one way in which a formula refuses a value that it was not made for."""

from __future__ import annotations

import math
from collections.abc import Iterable


def require(what: str, value: float, unit: str, least: float, most: float = math.inf) -> None:
    """Raise ValueError unless the value is a finite number from least to most.

    Parameters
    ----------
    what : str
        What the value is, as a person would say it.
    value : float
        The value to look at. [unit], any
    unit : str
        Unit shown in the message, may be empty.
    least : float
        Smallest value allowed. [unit]
    most : float
        Largest value allowed; infinite for no limit. [unit]

    Raises
    ------
    ValueError
        If the value is not a number, is infinite, or lies outside the limits.
    """
    if math.isfinite(value) and least <= value <= most:
        return
    shown = f" {unit}" if unit else ""
    limits = (
        f"{least:.10g}{shown} or more"
        if math.isinf(most)
        else f"{least:.10g} to {most:.10g}{shown}"
    )
    raise ValueError(f"{what} is {value:.10g}{shown}; it must be {limits}")


def require_above(what: str, value: float, unit: str, floor: float) -> None:
    """Raise ValueError unless the value is a finite number larger than the floor.

    Parameters
    ----------
    what : str
        What the value is, as a person would say it.
    value : float
        The value to look at. [unit], any
    unit : str
        Unit shown in the message, may be empty.
    floor : float
        The value must be larger than this. [unit]

    Raises
    ------
    ValueError
        If the value is not a number, is infinite, or is not above the floor.
    """
    if math.isfinite(value) and value > floor:
        return
    shown = f" {unit}" if unit else ""
    raise ValueError(f"{what} is {value:.10g}{shown}; it must be more than {floor:.10g}{shown}")


def require_known(what: str, name: str, known: Iterable[str]) -> None:
    """Raise ValueError unless the name is one of the known ones.

    Parameters
    ----------
    what : str
        What is named, as a person would say it.
    name : str
        The name to look at.
    known : iterable of str
        Every name that would do.

    Raises
    ------
    ValueError
        If the name is not known; the message lists those that are.
    """
    names = tuple(known)
    if name not in names:
        raise ValueError(f"{what} {name!r} is not known; known are {', '.join(names)}")
