"""Declares a formula beside its function: the expression that is printed, names, sources."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Mapping
from functools import cached_property, lru_cache, update_wrapper
from typing import Any, TypeVar

from builder.formulas.expression import names_in
from builder.record import dataclass

Function = TypeVar("Function", bound=Callable[..., Any])

# The unit that the end of a name tells, longest endings first.
UNIT_OF_ENDING = {
    "kj_kg_k": "kJ/(kg K)", "j_kmol_k": "J/(kmol K)", "w_m2_k": "W/(m² K)", "g_m2_h": "g/(m² h)",
    "mg_100g": "mg/100 g", "kwh_kg": "kWh/kg", "kcal_h": "kcal/h", "kcal_day": "kcal/day",
    "kcal_year": "kcal/year",
    "kcal_kg": "kcal/kg", "kcal_g": "kcal/g", "kcal_100g": "kcal/100 g", "kcal_cm": "kcal/cm",
    "g_kg": "g/kg", "g_100g": "g/100 g", "g_h": "g/h", "kj_g": "kJ/g", "kg_kmol": "kg/kmol",
    "ml_h": "ml/h", "ml_day": "ml/day", "mj_kg": "MJ/kg", "kj_kg": "kJ/kg", "kj_k": "kJ/K",
    "kj_min": "kJ/min", "g_ml": "g/ml", "ml_g": "ml/g", "kg_h": "kg/h", "kg_m2": "kg/m²",
    "kg_m3": "kg/m³", "w_m2": "W/m²", "kw_m2": "kW/m²", "w_kg": "W/kg", "w_k": "W/K",
    "km_h": "km/h", "m_s": "m/s", "m_s2": "m/s²", "k_m": "K/m", "k_h": "K/h", "k_mmhg": "K/mmHg",
    "per_min": "1/min", "per_h": "1/h", "per_l": "1/l", "per_kg": "1/kg", "per_cm": "1/cm",
    "share_per_k": "1/K",
    "cm2_per_m2": "cm²/m²", "hpa_per_mpa": "hPa/MPa", "hpa_per_mmhg": "hPa/mmHg",
    "j_per_kcal": "J/kcal", "kj_per_kcal": "kJ/kcal", "cm2": "cm²", "m2": "m²", "mm": "mm",
    "cm": "cm", "kcal": "kcal", "kwh": "kWh", "kj": "kJ", "mj": "MJ", "hpa": "hPa", "kpa": "kPa",
    "mpa": "MPa", "kg": "kg", "mg": "mg", "ml": "ml", "min": "min", "hours": "h", "days": "days",
    "months": "months", "years": "years", "share": "share", "factor": "×", "percent": "%",
    "g": "g", "h": "h", "c": "°C", "k": "K", "w": "W", "kw": "kW", "m": "m", "l": "l",
}  # fmt: skip


def unit_of_name(name: str) -> str:
    """Unit that the end of a name tells.

    Parameters
    ----------
    name : str
        A name such as volume_ml.

    Returns
    -------
    str
        Its unit; "" for a bare number. [-]

    Notes
    -----
    The longest ending that is known decides.
    """
    return UNIT_OF_ENDING.get(ending_of_name(name), "")


@lru_cache(maxsize=4096)
def ending_of_name(name: str) -> str:
    """End of a name that tells its unit.

    Parameters
    ----------
    name : str
        A name such as melting_kj_kg.

    Returns
    -------
    str
        The longest ending that is known, such as kj_kg; "" for a bare number. [-]

    Notes
    -----
    The whole name may be its ending.
    """
    parts = name.split("_")
    endings = ("_".join(parts[start:]) for start in range(len(parts)))
    return next((ending for ending in endings if ending in UNIT_OF_ENDING), "")


@dataclass(frozen=True, slots=True)
class Constant:
    """A number with a name in an expression, and the source that it rests on."""

    value: float
    source: str


@dataclass(frozen=True, slots=True)
class FromTable:
    """A number in an expression that other arguments of the function choose, such as a material."""

    pick: Callable[..., float]
    by: tuple[str, ...]  # the arguments that choose it
    source: str


@dataclass(frozen=True, eq=False)
class Formula:
    """A function, and how a person would write it."""

    function: Callable[..., float]
    expression: str
    constants: Mapping[str, Constant]
    tables: Mapping[str, FromTable]

    @cached_property
    def id(self) -> str:
        """The subject it stands under and its name."""
        return f"{self.function.__module__.rpartition('.')[2]}.{self.function.__name__}"

    @cached_property
    def parameters(self) -> tuple[str, ...]:
        """The arguments of the function, in their order."""
        return tuple(inspect.signature(self.function).parameters)

    @cached_property
    def defaults(self) -> Mapping[str, Any]:
        """What arguments are where they are left out."""
        parameters = inspect.signature(self.function).parameters.values()
        return {each.name: each.default for each in parameters if each.default is not each.empty}

    @cached_property
    def names(self) -> tuple[str, ...]:
        """What the expression needs values for."""
        return names_in(self.expression)

    @cached_property
    def unit(self) -> str:
        """The unit of what it gives, which the end of the function's name tells."""
        return unit_of_name(self.function.__name__)

    @cached_property
    def sources(self) -> tuple[str, ...]:
        """The ids of the sources that its docstring cites, with those of its constants."""
        cited = re.findall(r"^\.\. \[([a-z0-9-]+)\]", inspect.getdoc(self.function) or "", re.M)
        fixed = [each.source for each in self.constants.values()]
        picked = [each.source for each in self.tables.values()]
        return tuple(dict.fromkeys([*cited, *fixed, *picked]))


FORMULAS: dict[Callable[..., Any], Formula] = {}
# Of a function that gives a range: a function for each of its ends, least first.
ENDS: dict[Callable[..., Any], tuple[Callable[..., float], ...]] = {}
_NAMES_OF_ENDS = {2: ("least", "most"), 3: ("least", "likely", "most")}


def declared(
    expression: str,
    constants: Mapping[str, Constant] | None = None,
    tables: Mapping[str, FromTable] | None = None,
) -> Callable[[Function], Function]:
    """Say beside a function how a person would write it.

    Parameters
    ----------
    expression : str
        The arithmetic, over the function's own arguments, its constants and what it looks up.
    constants : mapping of str to Constant, optional
        Numbers with a name in the expression.
    tables : mapping of str to FromTable, optional
        Numbers that arguments such as a material or an age choose from a table.

    Returns
    -------
    callable
        What notes the function and gives it back as it is. [-]

    Notes
    -----
    The function stays a plain one; who wants its expression asks FORMULAS.
    """

    def note(function: Function) -> Function:
        FORMULAS[function] = Formula(function, expression, constants or {}, tables or {})
        return function

    return note


def declared_ends(
    *expressions: str,
    constants: Mapping[str, Constant] | None = None,
    tables: Mapping[str, FromTable] | None = None,
) -> Callable[[Function], Function]:
    """Say beside a function that gives a range how a person would write each end of it.

    Parameters
    ----------
    expressions : str
        The arithmetic of the least, perhaps the likely, and the most, in this order.
    constants : mapping of str to Constant, optional
        Numbers with a name in the expressions.
    tables : mapping of str to FromTable, optional
        Numbers that arguments choose from a table.

    Returns
    -------
    callable
        What notes the ends and gives the function back as it is. [-]

    Notes
    -----
    Each end is a formula of its own, named after the function: least_loss_w_k, most_loss_w_k.
    """

    def note(function: Function) -> Function:
        ends = []
        for place, (name, expression) in enumerate(
            zip(_NAMES_OF_ENDS[len(expressions)], expressions, strict=True)
        ):
            names = names_in(expression)
            end = _End(function, place, name)
            FORMULAS[end] = Formula(
                end,
                expression,
                {each: value for each, value in (constants or {}).items() if each in names},
                {each: value for each, value in (tables or {}).items() if each in names},
            )
            ends.append(end)
        ENDS[function] = tuple(ends)
        return function

    return note


class _End:
    """The function of one end of a range."""

    def __init__(self, function: Callable[..., Any], place: int, name: str) -> None:
        update_wrapper(self, function)
        self.function = function
        self.place = place
        self.__name__ = f"{name}_{function.__name__.replace('_range', '')}"

    def __call__(self, *args: Any, **named: Any) -> float:
        return float(self.function(*args, **named)[self.place])

    def __reduce__(self) -> tuple[Any, ...]:
        """Be the very same function again where a worker gets it: FORMULAS knows it by that."""
        return _end_of, (self.function, self.place)


def _end_of(function: Callable[..., Any], place: int) -> Callable[..., float]:
    """Give an end that was declared."""
    return ENDS[function][place]
