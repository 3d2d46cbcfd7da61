"""Sums and shares: the arithmetic that every subject uses, in whatever unit the parts have."""

from __future__ import annotations

import math
from collections.abc import Sequence

from builder.formulas.declaring import declared
from builder.formulas.ranges import require_above


@declared("sum(parts)")
def total(parts: Sequence[float]) -> float:
    """Sum of parts.

    Parameters
    ----------
    parts : sequence of float
        What is added up, all in one unit. [same unit], any

    Returns
    -------
    float
        The sum, 0 for no parts. [same unit]

    Notes
    -----
    sum(parts).
    """
    return math.fsum(parts)


@declared("amount * part")
def scaled(amount: float, part: float) -> float:
    """Amount for more or fewer than it was told for.

    Parameters
    ----------
    amount : float
        What was told. [same unit], any
    part : float
        How many times as much, or which part of it. [-], any

    Returns
    -------
    float
        The scaled amount. [same unit]

    Notes
    -----
    amount * part.
    """
    return amount * part


@declared("part / whole")
def part_of(part: float, whole: float) -> float:
    """Part of a whole, or how many times as much.

    Parameters
    ----------
    part : float
        What is compared. [same unit], any
    whole : float
        What it is compared with. [same unit], above 0

    Returns
    -------
    float
        The part. [-]

    Raises
    ------
    ValueError
        If the whole is not above 0.

    Notes
    -----
    part / whole.
    """
    require_above("whole", whole, "", 0.0)
    return part / whole


@declared("sum(parts * weights)")
def weighted(parts: Sequence[float], weights: Sequence[float]) -> float:
    """Sum of parts, each as often as its weight.

    Parameters
    ----------
    parts : sequence of float
        What is added up. [same unit], any
    weights : sequence of float
        How often each counts. [-], any

    Returns
    -------
    float
        The sum. [same unit]

    Raises
    ------
    ValueError
        If there are not as many weights as parts.

    Notes
    -----
    sum(parts * weights).
    """
    return math.fsum(part * weight for part, weight in zip(parts, weights, strict=True))


@declared("max(whole - taken, 0)")
def left_over(whole: float, taken: float) -> float:
    """What is left when something is taken away, never below nothing.

    Parameters
    ----------
    whole : float
        What there was. [same unit], any
    taken : float
        What is taken away. [same unit], any

    Returns
    -------
    float
        What is left. [same unit]

    Notes
    -----
    max(whole - taken, 0).
    """
    return max(whole - taken, 0.0)


@declared("min(parts)")
def least(parts: Sequence[float]) -> float:
    """Smallest of some values.

    Parameters
    ----------
    parts : sequence of float
        The values, one or more. [same unit], any

    Returns
    -------
    float
        The smallest. [same unit]

    Raises
    ------
    ValueError
        If there is no value.

    Notes
    -----
    min(parts).
    """
    return min(parts)


@declared("max(parts)")
def most(parts: Sequence[float]) -> float:
    """Largest of some values.

    Parameters
    ----------
    parts : sequence of float
        The values, one or more. [same unit], any

    Returns
    -------
    float
        The largest. [same unit]

    Raises
    ------
    ValueError
        If there is no value.

    Notes
    -----
    max(parts).
    """
    return max(parts)


@declared("value")
def as_chosen(value: float) -> float:
    """Value that a choice led to; the choice stands beside it as a guard.

    Parameters
    ----------
    value : float
        What was chosen. [same unit], any

    Returns
    -------
    float
        The same. [same unit]

    Notes
    -----
    value.
    """
    return value
