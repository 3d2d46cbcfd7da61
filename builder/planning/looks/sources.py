"""The sources that second looks rest on."""

from __future__ import annotations

from collections.abc import Sequence

from builder.model.kit import KitBatch, KitDay, KitPerson
from builder.model.looks import DryingGuide
from builder.planning.drying import NOTES_BY, topics


def look_sources(
    party: Sequence[KitPerson],
    days: Sequence[KitDay],
    batches: Sequence[KitBatch],
    guides: Sequence[DryingGuide],
) -> set[str]:
    """Give the sources that the second looks of a trip rest on besides those of its figures."""
    meals = [meal for day in days for meal in day.meals]
    steps = [step for meal in meals for step in meal.steps]
    named = {source for guide in guides for source in guide.sources}
    named |= {source for topic in topics(guides) for source in NOTES_BY[topic]}
    for person in party:
        named |= {source for each in person.needs_more for source in each.sources}
        if person.energy_by_method:
            named |= {source for source, _ in person.energy_by_method.kcal_by_source}
    resting = (
        ((each.label for each in meals), ("eu-1169-2011", "eu-tolerances-2012", "cfr-101-9")),
        (
            (each.food for each in party),
            ("efsa-protein-2012", "acsm-nutrition-2016", "who-salt-2012"),
        ),
        ((each.treating for each in days), ("epa-emergency-disinfection", "cdc-backcountry-water")),
        (
            (own.sweat for each in days for own in each.people),
            ("gonzalez2009", "tb-med-507", "wms-eah"),
        ),
        (
            (each.load for each in batches),
            ("freeze-drying-chapter", "murphy-koop2005", "siebel1892"),
        ),
        (
            (each.soaking for each in steps),
            ("extension-rehydration", "msu-preserving", "fsis-two-hours"),
        ),
        ((look for each in days for look in each.cold_gases), ("reid1987", "common-practice")),
        (
            (each.under_pressure for each in steps),
            ("iapws-if97", "iso2533", "mansfield1962", "potato-cooking-rate"),
        ),
        ((each.irons for each in meals), ("crc-handbook", "hand-test", "common-practice")),
    )
    return named.union(*(sources for looks, sources in resting if any(looks)))
