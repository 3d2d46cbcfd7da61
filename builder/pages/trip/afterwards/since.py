"""What changed since the kit that the companions have, for the front page."""

from __future__ import annotations

import hashlib

from builder.model.kit import Kit
from builder.model.since import Change
from builder.pages.figures import Figures
from builder.record import dataclass
from builder.speech import later

_SAID = {
    "start": later("The trip begins on {what}."),
    "dish-new": later("New on day {day}: {what}, {now}."),
    "dish-gone": later("Off the menu of day {day}: {what}."),
    "amount": later("{what} on day {day}: {now}, no longer {before}."),
    "carries": later("{who} carries now: {what}."),
    "carries-no-more": later("{who} no longer carries: {what}."),
    "caution-new": later("New caution: {what}."),
    "caution-gone": later("No longer a caution: {what}."),
    "fuel": later("Fuel to take: {now}, no longer {before}."),
}


@dataclass(frozen=True, slots=True)
class Since:
    """What changed, in lines, and the name by which it is remembered that they were seen."""

    lines: tuple[str, ...]
    seen_as: str


def since_of(kit: Kit, figures: Figures) -> Since | None:
    """Say what changed; None where nobody asked. That nothing did is said."""
    if kit.since is None:
        return None
    lines = tuple(_line(kit, each, figures) for each in kit.since)
    lines = lines or (figures.say("Nothing of menu, amounts, packs and cautions."),)
    digest = hashlib.sha256("\n".join(lines).encode("utf-8")).hexdigest()
    return Since(lines, digest[:12])


def _line(kit: Kit, each: Change, figures: Figures) -> str:
    begins = figures.say.date(kit.start) if each.kind == "start" and kit.start else ""
    return figures.say(
        _SAID[each.kind],
        what=begins or each.what,
        who=each.who,
        day=figures.say.number(each.day),
        before=_mass(each.before, figures),
        now=_mass(each.now, figures),
    )


def _mass(mass_g: float | None, figures: Figures) -> str:
    return "" if mass_g is None else figures.plain(mass_g, "mass_g")
