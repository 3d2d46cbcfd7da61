"""What a recipe's page carries, so that its figures follow who eats and how high the camp lies.

The part of the kit's graph that rests on these two, as in kit.json; all else in it is a number.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping

from builder.formulas.air import pressure_hpa
from builder.formulas.boiling import boiling_point_c, time_factor
from builder.formulas.declaring import FORMULAS
from builder.formulas.fire import iron_minutes, open_fire_w
from builder.formulas.heat import (
    heating_min,
    pot_heat_kj,
    snow_to_boil_kj,
    water_heat_kj,
    whole_units,
)
from builder.model.figure import (
    Count,
    Figure,
    Found,
    Origin,
    Reckoned,
    Told,
    Traced,
    Worked,
    behind,
)
from builder.model.kit import Kit, PlannedMeal
from builder.pages.figures import number as as_text
from builder.pages.pieces import Scale
from builder.pages.trip.origins.graph_json import number
from builder.pages.trip.origins.leaves import inside
from builder.planning.graph import Graph, Node, graph_of, held_in
from builder.planning.tracing import work
from builder.record import dataclass

Data = dict[str, object]
# What recipe pages work out anew again and again comes with the kit's script, once for all pages.
SHARED = {
    FORMULAS[each].id: FORMULAS[each]
    for each in (
        pressure_hpa,
        boiling_point_c,
        time_factor,
        iron_minutes,
        open_fire_w,
        heating_min,
        pot_heat_kj,
        snow_to_boil_kj,
        water_heat_kj,
        whole_units,
    )
}
# The height that somebody asks for, where a barometer told the pressure.
_ASKED = "height"


@dataclass(frozen=True, slots=True)
class Controls:
    """What one may change of a meal, each by the place where it was told."""

    names: str  # of the eaters, as JSON; none in a public kit
    eaters: str
    height: str  # "" where no height was told
    altitude_m: str
    through: str  # the figure that gives, for a height, the pressure that was told; "" for none


def controls_of(kit: Kit, meal: PlannedMeal, at: str) -> Controls:
    """Give what one may change of a meal that stands at an address in kit.json."""
    here = meal.conditions
    barometer = _is_leaf(here.pressure_hpa)
    return Controls(
        names=json.dumps([] if kit.public else list(meal.eaters), ensure_ascii=False),
        eaters=_key(kit, meal.heads, "eaters"),
        height=_key(kit, here.pressure_hpa if barometer else here.altitude_m, _ASKED),
        altitude_m=as_text(here.altitude_m),
        through=f"{at}.pressure_hpa" if barometer else "",
    )


def _is_leaf(value: float) -> bool:
    return isinstance(value, (Figure, Count)) and not isinstance(value.origin, (Worked, Reckoned))


def _key(kit: Kit, value: float, word: str) -> str:
    """Give the place in a file that a leaf was told at; a public kit tells none."""
    if not _is_leaf(value):
        return ""
    assert isinstance(value, (Figure, Count))
    if kit.public or not isinstance(value.origin, Told):
        return word
    return inside(kit, value.origin.place)


def shown_in(record: object) -> Iterator[Scale]:
    """Give all figures in a record that follow, in its order."""
    return held_in(record, (Scale,))


def figures_of_page(kit: Kit, meals: Mapping[str, PlannedMeal], shown: Iterable[Scale]) -> Data:
    """Give the figures of a page that follow what one changes; meals by their address."""
    told: dict[str, float] = {}
    keys: dict[Origin, str] = {}
    for at, meal in meals.items():
        own, here = controls_of(kit, meal, at), meal.conditions
        keys |= _leaf(meal.heads, own.eaters) | _leaf(here.pressure_hpa, own.height)
        keys |= _leaf(here.altitude_m, _ASKED if own.through else own.height)
        if own.through:
            asked = Figure(here.altitude_m, Found("altitude_m", _ASKED))
            keys[asked.origin] = _ASKED
            told[own.through] = work(pressure_hpa, asked)
    for each in shown:
        told.setdefault(each.figure, each.value)
    return part_of(told, keys, with_values=False)


def part_of(
    told: Mapping[str, float], keys: Mapping[Origin, str], with_values: bool = True
) -> Data:
    """Give the part of some figures that rests on some leaves, each by the key it is changed by.

    Without the values of what is worked out, a page works them out as planned too.
    """
    return Part(graph_of(told), keys, with_values).data()


def _leaf(value: float, key: str) -> dict[Origin, str]:
    return {value.origin: key} if isinstance(value, (Figure, Count)) and _is_leaf(value) else {}


def shared_formulas() -> Data:
    """Give the formulas that pages leave out, each with its constants."""
    return {
        id_: {
            "expression": formula.expression,
            "constants": {name: each.value for name, each in formula.constants.items()},
        }
        for id_, formula in sorted(SHARED.items())
    }


class Part:
    """The part of a graph that rests on some leaves; what does not is told as a number."""

    def __init__(self, graph: Graph, keys: Mapping[Origin, str], with_values: bool = False) -> None:
        """Take a graph, and the key of each leaf that may change."""
        self.graph, self.keys, self.with_values = graph, keys, with_values
        self._follow: dict[int, bool] = {}
        self.figures: dict[str, Data] = {}
        self.formulas: dict[str, str] = {}  # short ids: an expression is its own in kit.json

    def data(self) -> Data:
        """Give `formulas` and `figures`."""
        nodes = [node for node in self.graph.nodes.values() if self.follows(node.value)]
        for node in nodes:
            self.figures[node.id] = self._figure(node)
        formulas = {short: {"expression": each} for each, short in self.formulas.items()}
        return {"formulas": formulas, "figures": self.figures}

    def follows(self, value: float) -> bool:
        """Tell whether a figure rests on one of the leaves."""
        if not isinstance(value, (Figure, Count)):
            return False
        known = self._follow.get(id(value))
        if known is None:
            known = self._follow[id(value)] = self._rests(value.origin)
        return known

    def _rests(self, origin: Origin) -> bool:
        if isinstance(origin, (Worked, Reckoned)):
            return any(map(self.follows, behind(origin)))
        return origin in self.keys

    def _figure(self, node: Node) -> Data:
        if not node.formula:
            return self._number(node.value)
        declared = FORMULAS[node.declared] if node.declared else None
        shared = SHARED.get(declared.id) if declared else None
        told: Data = {
            "formula": shared.id if shared else self._short(node.expression),
            "inputs": {
                symbol: self._input(given)
                for symbol, given in node.inputs.items()
                if not shared or symbol not in shared.constants
            },
        }
        if self.with_values:
            told["value"] = number(node.value)
        if node.guards:
            told["guards"] = [self._named(guard) for guard in node.guards]
        return told

    def _short(self, expression: str) -> str:
        """Give the short id of an expression that only this page tells."""
        return self.formulas.setdefault(expression, f"f{len(self.formulas) + 1}")

    def _input(self, given: Traced | tuple[Traced, ...]) -> Data:
        if isinstance(given, tuple):
            return {"figures": [self._named(each) for each in given]}
        name = self.graph.id_of(given)
        if name in self.graph.nodes and self.follows(given):
            return {"figure": name}
        return self._number(given)

    def _named(self, figure: Traced) -> str:
        """Give the id of a figure that stands in a list, told as a number where it stays."""
        name = self.graph.inner_id(figure)
        if not self.follows(figure):
            self.figures.setdefault(name, self._number(figure))
        return name

    def _number(self, figure: Traced) -> Data:
        key = self.keys.get(figure.origin) if self.follows(figure) else None
        return {"value": number(figure), **({"place": key} if key else {})}
