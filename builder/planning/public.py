"""A kit that anyone may see: without bodies, ages, who avoids what, dates and place names."""

from __future__ import annotations

from dataclasses import replace

from builder.model.kit import NOWHERE, Kit, KitBatch, KitCaution, KitDay, PersonDay

# Cautions that tell somebody's age, body or allergy say only that the trip has such a person.
PERSONAL_BECAUSE = {
    "not-to-be-eaten": "Somebody of the party must not eat what is in a meal.",
    "small-children": "There are small children in the party.",
    "older-people": "There are older people in the party.",
    "pregnancy": "There may be somebody pregnant in the party.",
    "honey-and-babies": "There is honey in the food bag, and a baby may be near.",
    "nuts-and-small-children": "There are whole nuts and small children.",
    "heavy-load": "A pack is heavier than it should be.",
    "past-best-before": "A batch is past its date.",
}


def public_kit(kit: Kit) -> Kit:
    """Give the kit without what is nobody else's business."""
    return replace(
        kit,
        start=None,
        notes="",
        party=tuple(replace(person, avoids=()) for person in kit.party),
        days=tuple(_public_day(day) for day in kit.days),
        batches=tuple(_public_batch(batch) for batch in kit.batches),
        cautions=_public_cautions(kit.cautions),
        proposals=(),
        shopping=tuple(replace(line, dry_on=None) for line in kit.shopping),
        derivations=tuple(
            each
            for each in kit.derivations
            if ".people." not in each.figure and not each.figure.startswith("looks.needs_more.")
        ),
        defaults=(),
        looks=replace(kit.looks, people=(), energy=(), sweating=(), needs_more=()),
        public=True,
    )


def _public_day(day: KitDay) -> KitDay:
    return replace(
        day,
        date=None,
        title=f"Day {day.day}",
        notes="",
        people=tuple(_public_person(person) for person in day.people),
        meals=tuple(replace(meal, place="") for meal in day.meals),
    )


def _public_person(person: PersonDay) -> PersonDay:
    """Keep what somebody eats and drinks, and drop what tells their body."""
    return replace(person, basal_kcal=0.0, travel_kcal=0.0, load_g=0.0, intake_ml=0.0)


def _public_batch(batch: KitBatch) -> KitBatch:
    return replace(batch, dried_on=None, planned_for=None, best_before=None, reasons=(), notes=())


def _public_cautions(cautions: tuple[KitCaution, ...]) -> tuple[KitCaution, ...]:
    said = (
        replace(
            caution,
            because=PERSONAL_BECAUSE.get(caution.id, caution.because),
            at=NOWHERE if caution.at.person else caution.at,
        )
        for caution in cautions
    )
    return tuple(dict.fromkeys(said))
