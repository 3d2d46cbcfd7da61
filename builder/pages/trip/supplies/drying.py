"""The page of drying: the batches this trip eats, and what is still to be dried."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.sorption import can_grow
from builder.model.batch import Verdict
from builder.model.kit import DryingRun, Kit, KitBatch, StockProposal
from builder.model.looks import PackOxygen
from builder.pages import words
from builder.pages.charts import Chart, half_hours, run_chart
from builder.pages.figures import Figures, figures_of, worked
from builder.pages.pieces import Cell, Fact, Piece, Table, filled, link, stacked, table, text
from builder.pages.trip.cautions import Box
from builder.pages.trip.placing import boxes_at, boxes_at_batch
from builder.pages.trip.supplies.drying_guide import DryingGuides, drying_guides, load_said
from builder.planning.naming import told_apart
from builder.record import dataclass
from builder.speech import Speech, later
from builder.units import rounded

_SWELLING_SEEN = 1.1
_GROWS = {
    "dry-moulds": later("about {activity}{between}; some moulds can grow"),
    "moulds": later("about {activity}{between}; moulds can grow"),
    "staphylococcus": later("about {activity}{between}; moulds and germs can grow"),
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
    boxes: tuple[Box, ...]


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
    guides: DryingGuides
    puts_back: bool  # whether water puts any of it back
    undated: bool  # whether nobody told when it is eaten


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
        drying_guides(kit),
        _puts_back(kit),
        kit.start is None and not kit.public,
    )


def _open(batch: KitBatch) -> bool:
    """Tell whether the table leaves the moisture of a batch open."""
    return batch.residual_low < batch.residual_high


def _puts_back(kit: Kit) -> bool:
    """Tell whether water puts any batch of the trip back."""
    return any(batch.water_back_ml > 0 for batch in kit.batches)


def _swelling(kit: Kit, figures: Figures) -> Cell:
    """Say how far closed bags swell at the highest camp; nothing where nobody would see it."""
    times = rounded(kit.bags_swell_times, 1)
    if times < _SWELLING_SEEN:
        return ()
    highest = max(day.conditions.altitude_m for day in kit.days)
    return filled(
        figures.say(
            "At your highest camp, {height}, the air in a bag takes about {times} times the room "
            "it has at the sea."
        ),
        height=figures.both(highest, "altitude_m"),
        times=text(worked(figures.say, times)),
    )


def _still(kit: Kit, figures: Figures) -> Table | None:
    """Give what is to be dried yet: from the shopping, and the loads that are planned."""
    say = figures.say
    named = {batch.id for batch in kit.batches}
    rows: list[tuple[Cell, ...]] = [
        (
            text(_dried_how(say, line.name, line.dry_by)),
            text(say.short_date(line.dry_on) if line.dry_on else say("before you leave")),
            figures.both(line.mass_g, "mass_g"),
            figures.both(line.dried_g, "mass_g"),
        )
        for line in kit.shopping
        if line.dry_by and line.dry_by != "bought" and line.batch not in named
    ]
    rows += [
        (
            link(_load_said(say, batch), f"drying.md#{batch_anchor(batch)}"),
            text(_by(say, batch)),
            figures.both(batch.fresh_g, "mass_g") if batch.fresh_g else text(""),
            figures.both(batch.target_g, "mass_g") if batch.target_g else text(""),
        )
        for batch in kit.batches
        if batch.still_to_dry
    ]
    heads = (say("What"), say.of("a date", "By"), say("Fresh"), say("Dry enough at"))
    return table(heads, rows, "llrr") if rows else None


def _load_said(say: Speech, batch: KitBatch) -> str:
    """Name a planned load by its batch too: the same food may be dried twice."""
    food = say("{food} ({batch})", food=batch.fresh_name, batch=batch.id)
    return _dried_how(say, food, batch.method)


def _by(say: Speech, batch: KitBatch) -> str:
    """Give the day a batch is planned for; a public kit tells none."""
    return say.short_date(batch.planned_for) if batch.planned_for else say("before you leave")


def _dried_how(say: Speech, name: str, method: str) -> str:
    return say("{food}, {how}", food=name, how=say(words.DRY_BY[method]))


def batch_anchor(batch: KitBatch) -> str:
    """Give where a batch stands on the page of drying."""
    return f"batch-{batch.id}"


def batch_names(kit: Kit, say: Speech) -> dict[str, str]:
    """Name the batches by their ids, so that two of one food are told apart."""
    return told_apart(say, {batch.id: batch.name for batch in kit.batches})


def _all(kit: Kit, figures: Figures) -> Table:
    say = figures.say
    names = batch_names(kit, say)
    rows = [
        (
            link(names[batch.id], f"drying.md#{batch_anchor(batch)}"),
            text(_is_dry(say, batch)),
            text(_until(figures, batch)),
            text(say.number(batch.packs_left)),
        )
        for batch in kit.batches
    ]
    heads = (say("Batch"), say("Dry"), say("Best before"), say("Packs left"))
    if kit.public:  # dates and what is left stay at home
        return table(heads[:2], [row[:2] for row in rows], "ll")
    return stacked(table(heads, rows, "lllr"))


def _until(figures: Figures, of: KitBatch | StockProposal, in_full: bool = False) -> str:
    """Give until when a batch keeps."""
    say = figures.say
    if of.best_before is None:
        return say.of("date", "none")
    date = say.date(of.best_before) if in_full else say.short_date(of.best_before)
    return figures.until(date, of.kept_at_told)


_VERDICTS: dict[Verdict, str] = {
    "dry": later("yes"),
    "not-dry": later("NO"),
    "undecided": later("undecided by weight"),
    "discard": later("throw it out"),
}


def _is_dry(say: Speech, batch: KitBatch) -> str:
    if batch.planned_for and batch.still_to_dry:
        return say("to be dried by {date}", date=say.short_date(batch.planned_for))
    if batch.still_to_dry:
        return say("not dried yet")
    if batch.in_dryer and batch.verdict == "not-dry":
        return say("in the dryer")
    return say(_VERDICTS[batch.verdict])


def _batch(kit: Kit, figures: Figures, batch: KitBatch, place: int) -> BatchView:
    say, at = figures.say, f"batches.{place}"
    return BatchView(
        batch_anchor(batch),
        batch_names(kit, say)[batch.id],
        (
            *_how_dried(figures, batch),
            *_how_dry(figures, batch, at),
            *_once_packed(kit, figures, batch, at),
        ),
        batch.reasons,
        batch.notes,
        run_chart(figures, batch.id, batch.run) if batch.run else None,
        _forecast(figures, batch.run, at) if batch.run else (),
        boxes_at_batch(kit, batch.id),
    )


def _how_dried(figures: Figures, batch: KitBatch) -> Iterator[Fact]:
    """Say how, when and how much."""
    say = figures.say
    yield Fact(say("How"), text(say(words.DRIED[batch.method])))
    if batch.planned_for and batch.still_to_dry:
        yield Fact(say("To be dried by"), text(say.date(batch.planned_for)))
    elif batch.dried_on:
        yield Fact(say("Dried on"), text(say.date(batch.dried_on)))
    if batch.fresh_g and batch.dried_g:
        weights = filled(
            say("{fresh} fresh; should give about {dried}")
            if batch.planned
            else say("{fresh} fresh, {dried} dried"),
            fresh=figures.both(batch.fresh_g, "mass_g"),
            dried=figures.both(batch.dried_g, "mass_g"),
        )
        yield Fact(say("Load") if batch.planned else say("Weighed"), weights)


def _how_dry(figures: Figures, batch: KitBatch, at: str) -> Iterator[Fact]:
    """Say whether it is dry, what to do about it, and by which figures."""
    say = figures.say
    yield Fact(say("Dry"), _judged(figures, batch, at))
    if batch.act:
        yield Fact(say("Do"), (Piece(batch.act, strong=True),))
    if batch.method != "bought" and not batch.in_dryer:
        yield Fact(say("Water still in it"), _moisture(figures, batch, at))
    if batch.water_activity is not None and not batch.in_dryer:
        yield Fact(say("Water activity"), _activity(figures, batch, at))
    if batch.sublimation_kwh:
        yield Fact(say("In the freeze dryer"), _freeze_dried(figures, batch, at))
    if batch.load:
        yield Fact(say("In the dryer"), load_said(figures, batch.load, f"{at}.load"))


def _once_packed(kit: Kit, figures: Figures, batch: KitBatch, at: str) -> Iterator[Fact]:
    """Say what becomes of it: soaked, kept, in how many packs."""
    say = figures.say
    if batch.water_back_ml > 0 and not batch.failed:
        yield Fact(say("To soak it"), _water_back(figures, batch, at))
    if not kit.public:
        yield Fact(say("Best before"), text(_until(figures, batch, in_full=True)))
    packs = filled(
        say("{used} for this trip; {mass} each")
        if kit.public
        else say("{used} for this trip, {left} left over; {mass} each"),
        used=text(say.number(batch.packs_used)),
        left=text(say.number(batch.packs_left)),
        mass=figures.both(batch.pack_g, "mass_g", f"{at}.pack_g"),
    )
    yield Fact(say("Packs"), packs)
    if batch.oxygen:
        absorber = _absorber(figures, batch.oxygen, f"{at}.oxygen.oxygen_ml")
        yield Fact(say("Oxygen absorber"), absorber)


def _moisture(figures: Figures, batch: KitBatch, at: str) -> Cell:
    """Give the moisture left, the range that the table leaves open, and the limit."""
    say = figures.say
    left = (
        Piece(
            figures.percent(batch.residual_moisture), href=figures.how(f"{at}.residual_moisture")
        ),
    )
    limit = text(figures.percent(batch.dry_limit))
    if not _open(batch):
        return filled(say("{moisture}. Limit {limit}"), moisture=left, limit=limit)
    return filled(
        say("{moisture}; the table leaves open {low} to {high}. Limit {limit}"),
        moisture=left,
        low=text(figures.percent(batch.residual_low)),
        high=text(figures.percent(batch.residual_high)),
        limit=limit,
    )


def _activity(figures: Figures, batch: KitBatch, at: str) -> Cell:
    say = figures.say
    likely, low, high = (
        worked(say, rounded(value or 0.0, 2))
        for value in (batch.water_activity, batch.water_activity_low, batch.water_activity_high)
    )
    between = say(", between {low} and {high}", low=low, high=high) if low != high else ""
    return filled(
        _growing(say, batch),
        activity=(Piece(likely, href=figures.how(f"{at}.water_activity")),),
        between=text(between),
        low=text(low),
        high=text(high),
    )


def _growing(say: Speech, batch: KitBatch) -> str:
    """Say what can grow, the numbers left open."""
    if growing := can_grow(batch.water_activity or 0.0):
        return say(_GROWS[growing[-1]])
    if can_grow(batch.water_activity_high or 0.0):
        if batch.verdict == "dry" and batch.tests:
            return say(
                "about {activity}, by its weight between {low} and {high}; its test says dry"
            )
        return say("about {activity}{between}; should be too dry for moulds; prove it")
    return say("about {activity}{between}; should be too dry for moulds")


def _freeze_dried(figures: Figures, batch: KitBatch, at: str) -> Cell:
    say = figures.say
    if batch.loaded_at_c is None:
        said = say(
            "{water} of water drawn out. That takes at least {energy}; the machine uses several "
            "times as much"
        )
    elif batch.loaded_at_c > 0:
        said = say(
            "{water} of water drawn out. That takes at least {energy}; the machine uses several "
            "times as much. The load went in at {temperature}, so the machine had to freeze it "
            "first"
        )
    else:
        said = say(
            "{water} of water drawn out. That takes at least {energy}; the machine uses several "
            "times as much. The load went in at {temperature}"
        )
    energy = worked(say, rounded(batch.sublimation_kwh, 2), "kWh")
    return filled(
        said,
        water=figures.both(batch.water_removed_g, "mass_g", f"{at}.water_removed_g"),
        energy=(Piece(energy, href=figures.how(f"{at}.sublimation_kwh")),),
        temperature=figures.both(batch.loaded_at_c or 0.0, "temperature_c"),
    )


def _absorber(figures: Figures, pack: PackOxygen, figure: str) -> Cell:
    say = figures.say
    oxygen = worked(say, rounded(pack.oxygen_ml), "ml")
    return filled(
        say("{size} for each pack, which holds about {oxygen} oxygen"),
        size=text(worked(say, pack.absorber_ml, "ml")),
        oxygen=(Piece(oxygen, href=figures.how(figure)),),
    )


def _forecast(figures: Figures, run: DryingRun, at: str) -> Cell:
    """Say when the load was or will be dry enough, how sure that is, and by which curve."""
    say = figures.say
    low, high = (
        figures.plain(half_hours(minutes), "duration_min")
        for minutes in (run.earliest_min, run.latest_min)
    )
    said = (
        say("By its weighings dry enough after about {time}, between {low} and {high}.")
        if low != high
        else say("By its weighings dry enough after about {time}.")
    )
    time = figures.alone(half_hours(run.dry_after_min), "duration_min", f"{at}.run.dry_after_min")
    # The curves bear the names of people, the same in all languages.
    curve = say("An estimate, by the {curve} curve through the dots.", curve=run.model.capitalize())
    return (*filled(said, time=time, low=text(low), high=text(high)), Piece(" "), Piece(curve))


_JUDGED: dict[Verdict, str] = {
    "dry": later("yes. By the table it is dry at {mass}"),
    "not-dry": later("NO. By the table it is dry at {mass}, {rest} to go"),
    "undecided": later("undecided by weight. By the table it is dry at {mass}"),
    "discard": later("not to be eaten. By the table it is dry at {mass}"),
}
# What was done to prove a batch dry; the same words whoever did it.
_PROVEN = {
    "constant": later("its weight stayed the same over two hours more in the dryer"),
    "snap": later("a cold piece snapped"),
    "jar": later("no drops showed in a closed jar for a week"),
}


def _judged(figures: Figures, batch: KitBatch, at: str) -> Cell:
    say = figures.say
    if batch.target_g is None:
        return text(_is_dry(say, batch))
    target = figures.both(batch.target_g, "mass_g", f"{at}.target_g")
    if batch.still_to_dry:
        return filled(say("at {mass} or less"), mass=target)
    if batch.verdict == "dry" and batch.tests:
        proof = say.listed(say(_PROVEN[test]) for test in batch.tests)
        return filled(
            say("yes, {proof}. By the table it is dry at {mass}"), proof=text(proof), mass=target
        )
    return filled(
        say(_JUDGED[batch.verdict]),
        mass=target,
        rest=figures.both(batch.to_go_g, "mass_g", f"{at}.target_g"),
    )


def _water_back(figures: Figures, batch: KitBatch, at: str) -> Cell:
    """Give the water to pour on one pack, and how much of it the food takes up."""
    packs = (batch.dried_g or batch.pack_g) / batch.pack_g
    poured_ml, taken_ml = batch.water_back_ml / packs, batch.taken_up_ml / packs
    mugs = figures.mugs(poured_ml)
    return filled(
        figures.say("{water} water ({mugs}) for a pack; it takes up about {taken}")
        if mugs
        else figures.say("{water} water for a pack; it takes up about {taken}"),
        water=figures.both(poured_ml, "volume_ml", f"{at}.water_back_ml"),
        mugs=text(mugs),
        taken=figures.alone(taken_ml, "volume_ml", f"{at}.taken_up_ml"),
    )


def _proposals(kit: Kit, figures: Figures) -> Table | None:
    say = figures.say
    rows = [
        (
            text(each.name),
            text(each.batch),
            filled(
                say.count("{n} pack, {mass}", "{n} packs, {mass}", each.packs, mass="{mass}"),
                mass=figures.both(each.mass_g, "mass_g"),
            ),
            text(_until(figures, each)),
        )
        for each in kit.proposals
    ]
    heads = (
        say.of("a food", "For"),
        say("Batch in stock"),
        say.of("an amount", "Take"),
        say("Best before"),
    )
    return table(heads, rows, "llll") if rows else None
