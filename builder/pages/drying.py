"""The page of drying: the batches this trip eats, and what is still to be dried."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.kit import Kit, KitBatch
from builder.pages import words
from builder.pages.cautions import Box, boxes_at
from builder.pages.figures import Figures, figures_of, percent
from builder.pages.pieces import Cell, Fact, Piece, Table, link, table, text


@dataclass(frozen=True, slots=True)
class BatchView:
    """One batch, judged."""

    anchor: str
    title: str
    facts: tuple[Fact, ...]
    reasons: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DryingPage:
    """All batches of the trip."""

    still: Table | None
    batches: Table | None
    each: tuple[BatchView, ...]
    boxes: tuple[Box, ...]
    proposals: Table | None


def drying_page(kit: Kit) -> DryingPage:
    """Give the batches of the trip."""
    figures = figures_of(kit)
    return DryingPage(
        _still(kit, figures),
        _all(kit, figures) if kit.batches else None,
        tuple(_batch(figures, each, place) for place, each in enumerate(kit.batches)),
        boxes_at(kit, "drying.md"),
        _proposals(kit, figures),
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


def _batch(figures: Figures, batch: KitBatch, place: int) -> BatchView:
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
        facts.append(
            Fact(
                "Water still in it",
                (
                    Piece(
                        percent(batch.residual_moisture),
                        href=figures.how(f"{at}.residual_moisture"),
                    ),
                    Piece(f"; {percent(batch.dry_limit)} at most"),
                ),
            )
        )
    if batch.water_removed_g > 0 and batch.dried_g:
        facts.append(Fact("Puts it back", _water_back(figures, batch, at)))
    best = words.date(batch.best_before) if batch.best_before else "none"
    facts.append(Fact("Best before", link(best, figures.how(f"{at}.best_before"))))
    packs = Piece(f"{batch.packs_used} for this trip, {batch.packs_left} left over; ")
    mass = figures.both(batch.pack_g, "mass_g", f"{at}.pack_g")
    facts.append(Fact("Packs", (packs, *mass, Piece(" each"))))
    return BatchView(_anchor(batch), batch.name, tuple(facts), batch.reasons, batch.notes)


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
