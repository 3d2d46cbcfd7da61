"""Is it dry yet: target weight, what is still to go, and the water that puts it back."""

from __future__ import annotations

import datetime

from builder.model.as_data import picked
from builder.model.batch import Batch, DryTest, Heated, Method, Packs, Verdict, Weighing
from builder.model.content import Content
from builder.model.kit import DryingRun
from builder.model.place import NOWHERE
from builder.model.trip import ENGLISH
from builder.planning.batches.doubts import batch_problems
from builder.planning.batches.drying_run import drying_run, look_next
from builder.planning.batches.judging import Judged, judge
from builder.planning.batches.verdict import Ruling
from builder.planning.foods import substance_named, water_activity_at
from builder.problems import Problem, ProblemsFound
from builder.record import dataclass
from builder.speech import later, speech_of
from builder.units import show

VERDICTS: dict[Verdict, str] = {
    "dry": later("dry"),
    "not-dry": later("NOT DRY"),
    "undecided": later("undecided by weight"),
    "discard": later("TO BE THROWN OUT"),
}


@dataclass(frozen=True, slots=True)
class Asked:
    """A load that somebody asks about."""

    holds: str  # the id of a food or recipe
    fresh_g: float
    method: Method = "dehydrator"
    now_g: float | None = None
    weighings: tuple[Weighing, ...] = ()
    heated: Heated | None = None
    absorber: bool = False
    packaging: str | None = None  # what it is packed in; while it is not, it is in the dryer
    tests: frozenset[DryTest] = frozenset()


@dataclass(frozen=True, slots=True)
class Dryness:
    """Where a load stands on its way to dry."""

    judged: Judged
    now_g: float | None
    target_g: float
    rehydration_ml: float
    act: str
    why: str  # it is thrown out; empty where it is not
    run: DryingRun | None
    warnings: tuple[str, ...]

    @property
    def residual_share(self) -> float | None:
        """What moisture is likely left; None where only the fresh weight is known."""
        return None if self.now_g is None else self.judged.residual_share

    @property
    def to_go_g(self) -> float | None:
        """What it must still lose."""
        return None if self.now_g is None else max(self.now_g - self.target_g, 0.0)

    @property
    def dry_enough(self) -> bool | None:
        """Whether it is likely dry enough by weight; None where it was not weighed."""
        return None if self.now_g is None else self.judged.dry_enough

    @property
    def is_wet(self) -> bool:
        """Whether it is to be dried on, so that somebody has to look at it again."""
        return self.judged.load.in_dryer and self.judged.verdict == "not-dry"

    @property
    def water_activity(self) -> float | None:
        """Its water activity, where it was weighed and its isotherm is known."""
        if self.residual_share is None:
            return None
        return water_activity_at(self.judged.substance, self.residual_share)

    def data(self) -> dict[str, object]:
        """Give all of it for a script."""
        judged, ruling = self.judged, self.judged.ruling
        weighed = self.now_g is not None
        return {
            "name": judged.substance.name,
            "method": judged.batch.method,
            "verdict": judged.verdict,
            "act": self.act,
            "because": self.why,
            "fresh_g": judged.batch.fresh_g,
            "water_share": judged.listed_water_share,
            "limit_share": judged.dry_limit_share,
            **picked(self, "target_g now_g"),
            "residual_moisture": self.residual_share,
            **picked(self, "to_go_g dry_enough rehydration_ml"),
            "residual_low": ruling.low_share if weighed else None,
            "residual_high": ruling.high_share if weighed else None,
            "water_activity": self.water_activity,
            "dry_after_min": self.run.dry_after_min if self.run else None,
            "dry_after_earliest_min": self.run.earliest_min if self.run else None,
            "dry_after_latest_min": self.run.latest_min if self.run else None,
            "look_next_min": look_next(self.run) if self.run and self.is_wet else None,
            "warnings": list(self.warnings),
        }

    def lines(self) -> list[str]:
        """Say all of it."""
        judged, ruling = self.judged, self.judged.ruling
        found = [
            f"{judged.substance.name}, {show(judged.batch.fresh_g or 0.0, 'mass_g')} fresh, "
            f"{judged.batch.method}",
            f"Verdict:         {VERDICTS[judged.verdict]}",
        ]
        if self.why:
            found.append(f"Because:         it is {self.why}")
        if self.act:
            found.append(f"Do:              {self.act}")
        found.append(
            f"Dry enough at:   {show(self.target_g, 'mass_g')} "
            f"({show(judged.dry_limit_share, 'share')} moisture left)"
        )
        if self.now_g is not None and self.to_go_g is not None:
            found.append(
                f"Now:             {show(self.now_g, 'mass_g')} "
                f"(about {show(judged.residual_share, 'share')} moisture left{_open(ruling)})"
            )
            if judged.verdict != "discard":
                found.append(f"Still to go:     {self._to_go()}")
        if self.run is not None:
            found.append(forecast_said(self.run))
            if self.is_wet:
                found.append(look_next_said(self.run))
        if judged.verdict != "discard":
            found += self._once_dry_lines()
        if judged.corrected:
            found.append("It is lighter than the table allows: this load was wetter than listed.")
        if judged.wants_proof and not self.act:
            found.append(
                "Weigh it again after two hours more in the dryer: without that it keeps no "
                "longer than 12 months, and does not belong in a pack without oxygen."
            )
        found.extend(f"Odd: {warning}" for warning in self.warnings)
        return found

    def _to_go(self) -> str:
        if not self.to_go_g:
            return "nothing, by weight"
        if self.judged.verdict == "dry":
            return "nothing: its test proves it dry, and the weight leaves it open"
        return show(self.to_go_g, "mass_g")

    def _once_dry_lines(self) -> list[str]:
        found = []
        if self.water_activity is not None:
            high = water_activity_at(self.judged.substance, self.judged.ruling.high_share)
            most = "more than that of any dried food" if high is None else f"{high:.2f}"
            found.append(
                f"Water activity:  about {self.water_activity:.2f} at room temperature, it may be "
                f"{most}; below 0.60 nothing grows"
            )
        found.append(f"Water puts back: {show(self.rehydration_ml, 'volume_ml')} at most")
        return found


def forecast_said(run: DryingRun) -> str:
    """Say when a run will be dry, as of its weighings."""
    return (
        f"Dry after:       {show(run.dry_after_min, 'duration_min')} from the start, "
        f"between {show(run.earliest_min, 'duration_min')} and "
        f"{show(run.latest_min, 'duration_min')} ({run.model.title()} curve)"
    )


def look_next_said(run: DryingRun) -> str:
    """Say when to look at a run next, as of its weighings."""
    return f"Look next:       {show(look_next(run), 'duration_min')} from the start"


def _open(ruling: Ruling) -> str:
    """Say between what the moisture may lie, where the doubt in the table shows."""
    low, high = show(ruling.low_share, "share"), show(ruling.high_share, "share")
    return "" if low == high else f"; the table leaves open {low} to {high}"


def dryness(asked: Asked, content: Content, at: datetime.date) -> Dryness:
    """Judge a load by its weights as of a day; raises ProblemsFound where they cannot be."""
    if asked.fresh_g <= 0:
        raise _stop("nothing to dry", "tell its weight before drying, such as 1850 g")
    now_g = asked.now_g
    if now_g is None and asked.weighings:
        now_g = asked.weighings[-1].mass_g
    in_dryer = asked.packaging is None
    if now_g is None and not in_dryer:
        raise _stop("it is packed, and nobody told what it weighs", "add `--now 655g`")
    if now_g is not None and now_g <= 0:
        raise _stop(f"{now_g:g} g cannot be left of a load", "check both weights")
    if asked.packaging is not None and asked.packaging not in content.gear.packaging:
        known = ", ".join(sorted(content.gear.packaging))
        raise _stop(f"there is no packaging {asked.packaging!r}", f"known are: {known}")
    is_food = asked.holds in content.foods
    batch = Batch(
        id="",
        method=asked.method,
        food=asked.holds if is_food else None,
        recipe=None if is_food else asked.holds,
        done=at,
        fresh_g=asked.fresh_g,
        dried_g=now_g,
        packs=Packs(1, asked.packaging, asked.absorber),
        heated=asked.heated,
        tests=asked.tests,
        weighings=asked.weighings,
    )
    substance = substance_named(asked.holds, content)
    judged = judge(batch, content, speech_of(ENGLISH), in_dryer)
    target_g = judged.target_g
    if target_g is None:
        raise _stop(
            f"{substance.name} is dry already: {judged.water_share:.0%} water, and "
            f"{judged.dry_limit_share:.0%} would do",
            "name the fresh or cooked food; `tripkit find` tells its id",
        )
    run = None
    if asked.weighings:
        run = drying_run(
            asked.fresh_g,
            judged.water_share,
            judged.dry_limit_share,
            asked.weighings,
            judged.load.spread_share,
        )
    return Dryness(
        judged=judged,
        now_g=now_g,
        target_g=target_g,
        rehydration_ml=judged.water_back.poured_ml * judged.dried_g,
        act=judged.act(speech_of(ENGLISH), at),
        why=judged.why_thrown_out(at),
        run=run,
        warnings=tuple(f"{each.says}; {each.mend}" for each in batch_problems(judged)),
    )


def _stop(says: str, mend: str) -> ProblemsFound:
    return ProblemsFound([Problem(NOWHERE, "dry", says, mend)])
