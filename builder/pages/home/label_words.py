"""The words of a label: what stands on it, in the order of how much it matters."""

from __future__ import annotations

from typing import Literal

from builder.model.batch import UNTOLD_KEPT_AT_C
from builder.pages.figures import Figures
from builder.pages.home.showing import minutes_said, water_said
from builder.planning.menu import avoided_said
from builder.planning.year import PackLabel
from builder.record import dataclass
from builder.speech import Speech

Part = Literal["raw", "name", "made", "best", "water", "do", "allergens"]
# What goes first where a label is too small for all of it; the four before these never go.
GIVEN_UP: tuple[Part, ...] = ("made", "water", "do")


@dataclass(frozen=True, slots=True)
class LabelWords:
    """All that one label says; "" where there is nothing to say."""

    batch: str
    parts: tuple[tuple[Part, str], ...]  # in the order they stand

    @property
    def as_text(self) -> str:
        """The same words as plain lines, as its code holds them."""
        return "\n".join(words for _, words in self.parts)

    def without(self, gone: frozenset[Part]) -> tuple[tuple[Part, str], ...]:
        """Give what stands on a label that has no room for some of it."""
        return tuple((part, words) for part, words in self.parts if part not in gone)


def label_words(figures: Figures, label: PackLabel) -> LabelWords:
    """Give the words of a label."""
    say = figures.say
    mass = figures.plain(label.pack_g, "mass_g")
    made = mass
    if label.made_on:
        made = say("{mass}, made {date}", mass=mass, date=say.short_date(label.made_on))
    parts: list[tuple[Part, str]] = [("raw", say("RAW"))] if label.is_raw else []
    parts += [("name", label.name), ("made", made)]
    parts.append(("best", _best_before(figures, label)))
    if water := _water(figures, label):
        parts.append(("water", water))
    if doing := _do(say, figures, label):
        parts.append(("do", doing))
    parts.append(("allergens", allergens_said(say, label)))
    return LabelWords(label.batch, tuple(parts))


def _best_before(figures: Figures, label: PackLabel) -> str:
    say = figures.say
    if label.best_before is None:
        return say("best before: not given")
    until = figures.until(say.short_date(label.best_before), label.kept_at_told)
    kept_at_c = label.kept_at_c
    if label.kept_at_told and kept_at_c is not None and kept_at_c < UNTOLD_KEPT_AT_C:
        # The label goes with the pack: out of the freezer its date is another.
        cold = figures.plain(kept_at_c, "temperature_c")
        return say("best before {date}, kept at {cold}", date=until, cold=cold)
    return say("best before {date}", date=until)


def _water(figures: Figures, label: PackLabel) -> str:
    """Say the water that a pack takes, and how long it then stands, cold or hot."""
    say, soak = figures.say, label.soak
    water = water_said(figures, label)
    if not water:
        return ""
    if soak.cold_min and soak.hot_min:
        return say(
            "+ {water}, cold {cold} or hot {hot}",
            water=water,
            cold=minutes_said(say, soak.cold_min),
            hot=minutes_said(say, soak.hot_min),
        )
    return say("+ {water}", water=water)


def _do(say: Speech, figures: Figures, label: PackLabel) -> str:
    """Say in one line what to do before it is eaten."""
    if label.is_raw:
        reach = say.show_at_least(label.reach_c, figures.units)
        return say("Heat to {heat} in the middle before anybody eats it.", heat=reach)
    if label.act:
        return label.act
    if label.is_bought:
        return say("Do as the packet says.")
    if label.state == "raw" and label.kind == "legume":
        return say.in_units(
            say("Soak 5 h, pour off, boil hard for 10 min; never above {2000 m|6560 ft}."),
            figures.units,
        )
    if label.kind in ("fruit", "nut"):
        return say("Eat as it is, or soak.")
    if label.state == "raw":
        return say("Soak, then simmer until soft.")
    return say("Soak until soft, then heat through.")


def allergens_said(say: Speech, label: PackLabel) -> str:
    """Say the allergens; what nobody told is said so, never as none."""
    told = say.listed(avoided_said(say, name) for name in label.allergens)
    if label.not_told:
        if told:
            return say("Contains {allergens}. OTHER ALLERGENS NOT GIVEN", allergens=told)
        return say("Allergens: NOT GIVEN")
    said = say("Contains {allergens}", allergens=told) if told else say("Allergens: none")
    if label.may_contain:
        traces = say.listed(avoided_said(say, name) for name in label.may_contain)
        return say("{told}. May contain {allergens}", told=said, allergens=traces)
    return said
