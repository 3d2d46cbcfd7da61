"""Cooks one pot that is divided before somebody's food goes in: as two from there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from builder.model.figure import add, counted
from builder.model.gear import Pot
from builder.model.kit import Conditions, PlannedStep
from builder.planning.cooking.cooked import Cooked
from builder.planning.cooking.hearth import Hearth
from builder.planning.cooking.heating import heated
from builder.planning.cooking.walking import PotState, Ready, Share, walked
from builder.record import dataclass, replace


@dataclass(frozen=True, slots=True)
class Parted:
    """One pot cooked as two."""

    stays: Cooked
    taken: Cooked
    taken_g: float  # with its water, when it is taken out
    pot: Pot | None  # that it goes into; None where no other one holds it
    taken_ml: float  # the most that it has to hold


def cook_parted(
    stays: Share,
    taken: Share,
    together: Mapping[str, Ready],
    conditions: Conditions,
    hearth: Hearth,
    *,
    others: Sequence[Pot],
    has_embers: bool = False,
) -> Parted:
    """Cook for all until the portions are taken out, then each for their own.

    What is taken out goes into the smallest of `others` that holds it. What is cooked together is
    told with the amounts for all, and its heat and minutes count for the pot that stays; water
    counts for those who eat it.
    """
    before = stays.recipe.part_before or 0
    first, then = slice(None, before), slice(before, None)

    def until_parted(pot: PotState, share: Share) -> tuple[PlannedStep, ...]:
        steps = walked(pot, share, conditions, hearth, first)
        return tuple(replace(step, together=True) for step in steps)

    whole = Share(stays.recipe, together, stays.servings + taken.servings)
    share = taken.servings / whole.servings
    pot = PotState()
    joint = until_parted(pot, whole)
    other = pot.part(share)
    taken_g = other.mass_g
    own = tuple(walked(pot, stays, conditions, hearth, then))
    theirs = tuple(walked(other, taken, conditions, hearth, then))
    # Until there it stood in the other pot: so long each of them waits, too.
    until_there = until_parted(PotState(), taken)
    if any(step.do == "simmer" for step in theirs):
        other.boils = True  # its pot is to be heated with what is in it
    fires = counted(0 if has_embers else 1, "fires")
    main = heated(stays.recipe, pot, (*joint, *own), conditions, hearth, fires=fires)
    smallest = _smallest_other(main.pot, other.most_ml, others)
    beside = replace(hearth, pots=(smallest,) if smallest else ())
    embers_there = counted(0, "fires")
    second = heated(taken.recipe, other, theirs, conditions, beside, fires=embers_there)
    joint_ml = add(step.water_ml for step in joint)
    joint_soak_ml = add(step.water_ml for step in joint if step.do == "soak")
    stayed = 1 - share
    return Parted(
        stays=replace(
            main,
            water_ml=joint_ml * stayed + add(step.water_ml for step in own),
            soak_water_ml=joint_soak_ml * stayed
            + add(step.water_ml for step in own if step.do == "soak"),
        ),
        taken=replace(
            second,
            steps=(*until_there, *second.steps),
            pot=smallest,
            water_ml=joint_ml * share + second.water_ml,
            soak_water_ml=joint_soak_ml * share + second.soak_water_ml,
        ),
        taken_g=taken_g,
        pot=smallest,
        taken_ml=other.most_ml,
    )


def _smallest_other(first: Pot | None, volume_ml: float, pots: Sequence[Pot]) -> Pot | None:
    """Give the smallest pot but the first that holds so much."""
    fitting = [each for each in pots if each != first and float(each.room_ml) >= float(volume_ml)]
    return min(fitting, key=lambda each: (each.room_ml, each.mass_g, each.id), default=None)
