"""The page of drying: the batches this trip eats, and what is still to be dried."""

from __future__ import annotations

from dataclasses import dataclass

from builder.formulas.sorption import can_grow
from builder.model.kit import DryingRun, Kit, KitBatch
from builder.model.looks import PackOxygen
from builder.pages import words
from builder.pages.cautions import Box, boxes_at
from builder.pages.charts import Chart, half_hours, run_chart
from builder.pages.figures import Figures, figures_of, percent, worked
from builder.pages.pieces import Cell, Fact, Piece, Table, link, table, text
from builder.units import rounded

_SWELLING_SEEN = 1.1
_GROWS = {
    "dry-moulds": "some moulds can grow",
    "moulds": "moulds can grow",
    "staphylococcus": "moulds and germs can grow",
}


@dataclass(frozen=True, slots=True)
class BatchView:
    """One batch, judged."""

    anchor: str
    title: str
    facts: tuple[Fact, ...]
    reasons: tuple[str, ...]
    notes: tuple[str, ...]
    chart: Chart | None
    forecast: Cell


@dataclass(frozen=True, slots=True)
class DryingPage:
    """All batches of the trip."""

    still: Table | None
    batches: Table | None
    each: tuple[BatchView, ...]
    boxes: tuple[Box, ...]
    proposals: Table | None
    measured: bool  # whether moisture was worked out from weights
    activity: bool  # whether a water activity is told
    swelling: Cell


def drying_page(kit: Kit) -> DryingPage:
    """Give the batches of the trip."""
    figures = figures_of(kit)
    return DryingPage(
        _still(kit, figures),
        _all(kit, figures) if kit.batches else None,
        tuple(_batch(kit, figures, each, place) for place, each in enumerate(kit.batches)),
        boxes_at(kit, "drying.md"),
        _proposals(kit, figures),
        any(_open(each) for each in kit.batches),
        any(each.water_activity is not None for each in kit.batches),
        _swelling(kit, figures),
    )


def _open(batch: KitBatch) -> bool:
    """Tell whether the table leaves the moisture of a batch open."""
    return batch.residual_low < batch.residual_high


def _swelling(kit: Kit, figures: Figures) -> Cell:
    """Say how far closed bags swell at the highest camp; nothing where nobody would see it."""
    times = rounded(kit.looks.bags_swell_times, 1)
    if times < _SWELLING_SEEN:
        return ()
    highest = max(day.conditions.altitude_m for day in kit.days)
    return (
        Piece("At your highest camp, "),
        *figures.both(highest, "altitude_m"),
        Piece(f", the air in a bag takes about {worked(times)} times the room it has at the sea."),
    )


def _still(kit: Kit, figures: Figures) -> Table | None:
    """Give what is to be dried yet: from the shopping, and the loads that are planned."""
    rows: list[tuple[Cell, ...]] = [
        (
            text(f"{line.name}, {words.DRY_BY[line.dry_by]}"),
            figures.both(line.mass_g, "mass_g"),
            figures.both(line.dried_g, "mass_g"),
        )
        for line in kit.shopping
        if line.dry_by and line.dry_by != "bought"
    ]
    rows += [
        (
            link(f"{batch.name}, {words.DRY_BY[batch.method]}", f"drying.md#{_anchor(batch)}"),
            figures.both(batch.fresh_g, "mass_g") if batch.fresh_g else text(""),
            figures.both(batch.target_g, "mass_g") if batch.target_g else text(""),
        )
        for batch in kit.batches
        if batch.planned
    ]
    return table(("What", "Fresh", "Dry enough at"), rows, "lrr") if rows else None


def _anchor(batch: KitBatch) -> str:
    return f"batch-{batch.id}"


def _all(kit: Kit, figures: Figures) -> Table:
    rows = [
        (
            link(batch.name, f"drying.md#{_anchor(batch)}"),
            text(_is_dry(batch)),
            text(words.short_date(batch.best_before) if batch.best_before else "none"),
            text(str(batch.packs_left)),
        )
        for batch in kit.batches
    ]
    return table(("Batch", "Dry enough", "Best before", "Packs left"), rows, "lllr")


def _is_dry(batch: KitBatch) -> str:
    if batch.planned:
        return "not dried yet"
    return "yes" if batch.dry_enough else "NO"


def _batch(kit: Kit, figures: Figures, batch: KitBatch, place: int) -> BatchView:
    at = f"batches.{place}"
    facts = [Fact("How", text(words.DRIED[batch.method]))]
    if batch.dried_on:
        when = "Planned for" if batch.planned else "Dried on"
        facts.append(Fact(when, text(words.date(batch.dried_on))))
    if batch.fresh_g and batch.dried_g:
        weights = (
            *figures.both(batch.fresh_g, "mass_g"),
            Piece(" fresh, "),
            *figures.both(batch.dried_g, "mass_g"),
            Piece(" dried"),
        )
        facts.append(Fact("Weighed", weights))
    facts.append(Fact("Dry enough", _judged(figures, batch, at)))
    if batch.method != "bought":
        facts.append(Fact("Water still in it", _moisture(figures, batch, at)))
    if batch.water_activity is not None:
        facts.append(Fact("Water activity", _activity(figures, batch, at)))
    if batch.sublimation_kwh:
        facts.append(Fact("In the freeze dryer", _freeze_dried(figures, batch, at)))
    if batch.water_removed_g > 0 and batch.dried_g:
        facts.append(Fact("Puts it back", _water_back(figures, batch, at)))
    best = words.date(batch.best_before) if batch.best_before else "none"
    facts.append(Fact("Best before", link(best, figures.how(f"{at}.best_before"))))
    packs = Piece(f"{batch.packs_used} for this trip, {batch.packs_left} left over; ")
    mass = figures.both(batch.pack_g, "mass_g", f"{at}.pack_g")
    facts.append(Fact("Packs", (packs, *mass, Piece(" each"))))
    facts += [_absorber(each) for each in kit.looks.oxygen if each.batch == batch.id]
    return BatchView(
        _anchor(batch),
        batch.name,
        tuple(facts),
        batch.reasons,
        batch.notes,
        run_chart(figures, batch.id, batch.run) if batch.run else None,
        _forecast(figures, batch, batch.run, at) if batch.run else (),
    )


def _moisture(figures: Figures, batch: KitBatch, at: str) -> Cell:
    """Give the moisture left, the range that the table leaves open, and the limit."""
    left = Piece(percent(batch.residual_moisture), href=figures.how(f"{at}.residual_moisture"))
    open_by = ""
    if _open(batch):
        low, high = percent(batch.residual_low), percent(batch.residual_high)
        open_by = f"; the table leaves open {low} to {high}"
    return (left, Piece(f"{open_by}. Limit {percent(batch.dry_limit)}"))


def _activity(figures: Figures, batch: KitBatch, at: str) -> Cell:
    likely, low, high = (
        worked(rounded(value or 0.0, 2))
        for value in (batch.water_activity, batch.water_activity_low, batch.water_activity_high)
    )
    growing = can_grow(batch.water_activity or 0.0)
    says = _GROWS[growing[-1]] if growing else "should be too dry for moulds"
    if not growing and can_grow(batch.water_activity_high or 0.0):
        says += "; prove it"
    return (
        Piece("about "),
        Piece(likely, href=figures.how(f"{at}.water_activity")),
        Piece(f", between {low} and {high}; {says}"),
    )


def _freeze_dried(figures: Figures, batch: KitBatch, at: str) -> Cell:
    kwh = f"{worked(rounded(batch.sublimation_kwh, 2))}\u00a0kWh"
    said = [
        *figures.both(batch.water_removed_g, "mass_g", f"{at}.water_removed_g"),
        Piece(" of water drawn out. That takes at least "),
        Piece(kwh, href=figures.how(f"{at}.sublimation_kwh")),
        Piece("; the machine uses several times as much"),
    ]
    if batch.loaded_at_c is not None:
        said += [Piece(". The load went in at "), *figures.both(batch.loaded_at_c, "temperature_c")]
        if batch.loaded_at_c > 0:
            said.append(Piece(", so the machine had to freeze it first"))
    return tuple(said)


def _absorber(pack: PackOxygen) -> Fact:
    size, oxygen = worked(pack.absorber_ml, "ml"), worked(rounded(pack.oxygen_ml), "ml")
    return Fact("Oxygen absorber", text(f"{size} for each pack, which holds about {oxygen} oxygen"))


def _forecast(figures: Figures, batch: KitBatch, run: DryingRun, at: str) -> Cell:
    """Say when the load was or will be dry enough, how sure that is, and by which curve."""
    times = (run.earliest_min, run.latest_min)
    low, high = (half_hours(minutes) for minutes in times)
    return (
        Piece("By its weighings dry enough after about "),
        *figures.alone(half_hours(run.dry_after_min), "duration_min", f"{at}.run.dry_after_min"),
        Piece(f"{figures.between(low, high, 'duration_min')}. "),
        Piece(f"An estimate, by the {run.model.capitalize()} curve through the dots."),
    )


def _judged(figures: Figures, batch: KitBatch, at: str) -> Cell:
    if batch.target_g is None:
        return text(_is_dry(batch))
    target = figures.both(batch.target_g, "mass_g", f"{at}.target_g")
    if batch.planned or not batch.dried_g:
        return (Piece("at "), *target, Piece(" or less"))
    if batch.dry_enough:
        return (Piece("yes: "), *target, Piece(" or less"))
    return (
        Piece("NO", strong=True),
        Piece(": dry it until it weighs "),
        *target,
        Piece(", "),
        *figures.both(batch.to_go_g, "mass_g", f"{at}.target_g"),
        Piece(" to go"),
    )


def _water_back(figures: Figures, batch: KitBatch, at: str) -> Cell:
    """Give the water that drying took out of one pack: the most it takes up again."""
    per_pack = batch.water_removed_g * batch.pack_g / (batch.dried_g or batch.pack_g)
    return (
        *figures.both(per_pack, "volume_ml", f"{at}.water_removed_g"),
        Piece(f" water ({figures.mugs(per_pack)}) for a pack"),
    )


def _proposals(kit: Kit, figures: Figures) -> Table | None:
    rows = [
        (
            text(each.name),
            text(each.batch),
            figures.both(each.mass_g, "mass_g"),
            text(words.short_date(each.best_before) if each.best_before else "none"),
        )
        for each in kit.proposals
    ]
    return table(("For", "Batch in stock", "Take", "Best before"), rows, "llrl") if rows else None
