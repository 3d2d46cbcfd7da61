"""The shelf: what is left of every batch on a day, and what of it is promised."""

from __future__ import annotations

import datetime
from collections.abc import Iterable

from builder.model.as_data import picked
from builder.model.batch import Verdict
from builder.model.food import BY_CENTRE_TEMPERATURE
from builder.model.picture import Picture
from builder.model.trip import ENGLISH
from builder.planning.batches import ACTS, VERDICTS, Judged, name_now
from builder.planning.stock.packs import Stock, Taking
from builder.record import dataclass, replace
from builder.speech import Speech, speech_of
from builder.units import System


@dataclass(frozen=True, slots=True)
class StockLine:
    """A batch on the shelf with packs left."""

    batch: str
    food: str  # the id of the food or recipe that was dried
    name: str
    kind: str  # such as fruit
    method: str
    verdict: Verdict
    act: str  # the one thing to do; empty where there is nothing to do
    packs_left: int
    packs_promised: int
    pack_g: float
    best_before: datetime.date | None
    promised_to: tuple[Taking, ...]
    remark: str
    shelf: str  # where the packs lie; empty where nobody told
    made_on: datetime.date | None  # or planned to be
    is_planned: bool
    kept_at_told: bool = True  # whether its date rests on a warmth that somebody told
    is_waste: bool = False  # nobody is to eat of it any more
    picture: Picture | None = None
    why: str = ""  # it is thrown out, to be said

    @property
    def packs_free(self) -> int:
        """Give the packs that no later trip names."""
        return self.packs_left - self.packs_promised

    def is_ahead(self, at: datetime.date) -> bool:
        """Tell whether it is not dried yet on a day."""
        return self.is_planned or (self.made_on is not None and self.made_on > at)

    def is_past(self, at: datetime.date) -> bool:
        """Tell whether it was to be eaten before a day."""
        return self.best_before is not None and self.best_before < at

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        return {
            **picked(self, "batch food name kind method verdict act"),
            "because": self.why,
            **picked(self, "packs_left packs_promised packs_free pack_g best_before kept_at_told"),
            "promised_to": [picked(each, "trip day meal packs") for each in self.promised_to],
            **picked(self, "remark shelf"),
        }

    def said(self) -> tuple[str, str, str]:
        """Say the verdict where it is not plainly dry, what to do, and what else is to be known."""
        return "" if self.verdict == "dry" else VERDICTS[self.verdict], self.act, self.remark

    def promised_said(self) -> str:
        """Say which trips the packs are promised to, meal by meal."""
        return "; ".join(
            f"{each.trip} day {each.day} {each.meal}: {each.packs}"
            for each in self.promised_to
            if each.packs  # some eat what an earlier meal left in its pack
        )


def stock_lines(
    stock: Stock,
    at: datetime.date,
    say: Speech | None = None,
    units: System = "metric",
) -> list[StockLine]:
    """Give what is left of every batch on a day, first-expired first; undated ones come last.

    The stock is judged in the language that is spoken.
    """
    say = say or speech_of(ENGLISH)
    lines = [_line(judged, stock, at, say, units) for judged in stock.judged.values()]
    lines = [line for line in lines if line.packs_left > 0]
    lines.sort(key=lambda line: (line.best_before or datetime.date.max, line.name, line.batch))
    return lines


def _line(judged: Judged, stock: Stock, at: datetime.date, say: Speech, units: System) -> StockLine:
    batch = judged.batch
    promised = _by_meal(stock.promised(batch.id, at))
    return StockLine(
        batch=batch.id,
        food=batch.holds,
        name=name_now(say, judged),
        kind=judged.substance.kind,
        method=batch.method,
        verdict=judged.verdict,
        act=act_on(judged, at, say, units),
        why=judged.why_thrown_out(at),
        packs_left=stock.left(batch, at),
        packs_promised=sum(each.packs for each in promised),
        pack_g=judged.pack_g,
        best_before=judged.best_before,
        promised_to=promised,
        remark=_remark(judged, at, say),
        shelf=batch.packs.shelf if batch.packs else "",
        made_on=batch.done or batch.planned,
        is_planned=batch.is_planned,
        is_waste=is_waste(judged, at),
        kept_at_told=judged.kept_at_told,
        picture=batch.picture,
    )


def _by_meal(promised: Iterable[Taking]) -> tuple[Taking, ...]:
    """Put together what several dishes of a meal take."""
    meals: dict[tuple[str, int, str], Taking] = {}
    for each in promised:
        meal = (each.trip, each.day, each.meal)
        before = meals.get(meal)
        meals[meal] = replace(each, packs=before.packs + each.packs) if before else each
    return tuple(meals.values())


def is_waste(judged: Judged, at: datetime.date) -> bool:
    """Tell whether nobody is to eat of it any more: it failed, or is old and does not show it."""
    past = _is_past(judged, at) and _spoils_unseen(judged)
    return past or judged.act_as_of(at) == "throw-out"


def act_on(judged: Judged, at: datetime.date, say: Speech, units: System = "metric") -> str:
    """Say the one thing to do with it on a day, its date counted."""
    return say(ACTS["throw-out"]) if is_waste(judged, at) else judged.act(say, at, units)


def _spoils_unseen(judged: Judged) -> bool:
    """Tell whether looks and smell do not tell that it is old, as of meat, fish and egg."""
    return bool(judged.substance.kinds & BY_CENTRE_TEMPERATURE)


def _is_past(judged: Judged, at: datetime.date) -> bool:
    """Tell whether it lies there, and was to be eaten before a day."""
    made_on = judged.batch.done
    is_ahead = judged.batch.is_planned or (made_on is not None and made_on > at)
    return not is_ahead and judged.best_before is not None and judged.best_before < at


def _remark(judged: Judged, at: datetime.date, say: Speech) -> str:
    batch = judged.batch
    if batch.planned is not None:
        return say("to be dried by {date}", date=batch.planned.isoformat())
    if batch.done is not None and batch.done > at:
        return say("dried only on {date}", date=batch.done.isoformat())
    if _is_past(judged, at):
        if _spoils_unseen(judged):
            return say("PAST ITS DATE: throw it out")
        return say("PAST ITS DATE: smell, look, and when in doubt throw it out")
    if batch.is_bought and judged.best_before is None:
        return say("date on the pack not given: read it")
    return ""
