"""A choice that planning makes stands beside its figure, and turns where it would choose anew."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from builder.formulas.heat import whole_units
from builder.model.figure import Count, Figure, Reckoned, Worked, guarded, holds
from builder.model.gear import Pot
from builder.planning.cooking.hearth import Hearth
from builder.planning.graph import graph_of


def pot(name: str, holds_ml: float, mass_g: float) -> Pot:
    return Pot(name, name, holds_ml, mass_g, "steel", fill_share=1.0)


def hearth(*pots: Pot) -> Hearth:
    return Hearth(None, (), pots, (), 16.0)


def still_holds(guard: Figure, volume_ml: float) -> bool:
    """Tell whether a guard holds for another volume."""
    origin = guard.origin
    assert isinstance(origin, Reckoned)
    numbers = []
    for part in origin.parts:
        assert isinstance(part, (Figure, Count)) and isinstance(part.origin, Worked)
        per_unit = dict(part.origin.inputs)["per_unit"]
        assert isinstance(per_unit, Figure)
        numbers.append(whole_units(volume_ml, float(per_unit)))
    return numbers[0] <= numbers[1] if origin.do == "<=" else numbers[0] < numbers[1]


volumes = st.floats(1.0, 20_000.0)
pots = st.lists(
    st.tuples(st.sampled_from((500.0, 800.0, 1000.0, 2000.0)), st.sampled_from((100.0, 240.0))),
    min_size=1,
    max_size=4,
)


@given(pots, volumes, volumes)
def test_the_guards_of_a_pot_hold_as_long_as_it_would_be_chosen(
    made: list[tuple[float, float]], planned_ml: float, changed_ml: float
) -> None:
    here = hearth(*(pot(f"pot-{number}", *each) for number, each in enumerate(made)))
    chosen, potfuls = here.pot_for(planned_ml)
    origin = potfuls.origin if isinstance(potfuls, Count) else None
    guards = origin.guards if isinstance(origin, Reckoned) else ()
    assert len(guards) == len(made) - 1
    assert all(guard == 1.0 and still_holds(guard, planned_ml) for guard in guards)
    assert all(still_holds(guard, changed_ml) for guard in guards) == (
        here.pot_for(changed_ml)[0] == chosen
    )


def test_a_guarded_figure_is_never_written_into_another() -> None:
    eaters = Figure(2.0, Reckoned("+", (1.0, 1.0)))
    plain = Count(3, Reckoned("*", (eaters, 1.5)))
    chosen = guarded(plain, holds(eaters, "<", 4.0))
    assert chosen == 3 and isinstance(chosen, Count)
    graph = graph_of({"minutes": chosen * eaters})
    told, inner = graph.nodes["minutes"], graph.nodes["#1"]
    assert (told.expression, inner.value) == ("part * (1 + 1)", 3)
    assert [graph.nodes[str(graph.id_of(each))].expression for each in inner.guards] == [
        "1 + 1 < 4"
    ]
    assert guarded(plain) is plain
