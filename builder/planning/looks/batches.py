"""A second look at a batch: the oxygen in a pack with an absorber, and the load of its dryer."""

from __future__ import annotations

from builder.formulas.packing import absorber_size_ml, pack_oxygen_ml, solid_volume_ml
from builder.model.content import Content
from builder.model.figure import named
from builder.model.kit import KitBatch
from builder.model.looks import PackOxygen
from builder.planning.batches import Judged
from builder.planning.drying import dryer_load
from builder.planning.looks.offered import offered
from builder.planning.tracing import work
from builder.record import replace

# Where pots are closed: nobody tells it, so at the sea's level, where air holds most oxygen.
_CLOSED_AT_M = named(0.0, "closed_at_m", "common-practice")


def look_at_batch(batch: KitBatch, judged: Judged, content: Content) -> KitBatch:
    """Give a batch with what else is known of it."""
    return replace(
        batch,
        oxygen=offered(_oxygen, judged, content),
        load=dryer_load(judged, content),
    )


def _oxygen(judged: Judged, content: Content) -> PackOxygen | None:
    """Give the oxygen in the void of one pack, and the absorber for it."""
    room_ml = _room_for_oxygen_ml(judged, content)
    if room_ml is None:
        return None
    solid_ml = work(solid_volume_ml, judged.pack_g, judged.residual_share)
    oxygen_ml = work(pack_oxygen_ml, room_ml, solid_ml, _CLOSED_AT_M)
    return PackOxygen(oxygen_ml, work(absorber_size_ml, oxygen_ml))


def _room_for_oxygen_ml(judged: Judged, content: Content) -> float | None:
    """Give the room of a batch's pack, where an absorber is in it and the packing tells it."""
    packs = judged.batch.packs
    if packs is None or not packs.absorber or packs.packaging is None:
        return None
    return content.gear.packaging[packs.packaging].holds_ml
