"""Is it dry yet: target weight, what is still to go, and the water that puts it back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from builder.formulas.drying import (
    dried_mass_g,
    dry_enough_share,
    least_residual_share,
    rehydration_water_ml,
    residual_share,
    usual_residual_share,
)
from builder.formulas.sorption import water_activity_of
from builder.model.batch import Weighing
from builder.model.content import Content
from builder.model.kit import DryingRun
from builder.model.place import NOWHERE
from builder.planning.stock.drying_run import drying_run, residual_range
from builder.planning.stock.substance import Substance, substance_named
from builder.problems import Problem, ProblemsFound
from builder.units import show


@dataclass(frozen=True, slots=True)
class Dryness:
    """Where a load stands on its way to dry."""

    name: str
    method: str
    fresh_g: float
    water_share: float
    limit_share: float
    target_g: float
    now_g: float | None
    residual_share: float | None  # None where only the fresh weight is known
    lighter_than_listed: bool
    rehydration_ml: float
    residual_low: float | None = None  # what the doubt in the listed water leaves open
    residual_high: float | None = None
    water_activity: float | None = None  # where a sorption model is known for the food
    run: DryingRun | None = None

    @property
    def to_go_g(self) -> float | None:
        """What it must still lose."""
        return None if self.now_g is None else max(self.now_g - self.target_g, 0.0)

    @property
    def dry_enough(self) -> bool | None:
        """Whether it is dry enough by weight; None where it was not weighed."""
        if self.residual_share is None:
            return None
        return self.residual_share <= self.limit_share + 1e-9

    def data(self) -> dict[str, float | str | bool | None]:
        """Give all of it for a script."""
        return {
            "name": self.name,
            "method": self.method,
            "fresh_g": self.fresh_g,
            "water_share": self.water_share,
            "limit_share": self.limit_share,
            "target_g": self.target_g,
            "now_g": self.now_g,
            "residual_moisture": self.residual_share,
            "to_go_g": self.to_go_g,
            "dry_enough": self.dry_enough,
            "rehydration_ml": self.rehydration_ml,
            "residual_low": self.residual_low,
            "residual_high": self.residual_high,
            "water_activity": self.water_activity,
            "dry_after_min": self.run.dry_after_min if self.run else None,
            "dry_after_earliest_min": self.run.earliest_min if self.run else None,
            "dry_after_latest_min": self.run.latest_min if self.run else None,
        }

    def lines(self) -> list[str]:
        """Say all of it."""
        found = [
            f"{self.name}, {show(self.fresh_g, 'mass_g')} fresh, {self.method}",
            f"Dry enough at:   {show(self.target_g, 'mass_g')} "
            f"({show(self.limit_share, 'share')} moisture left)",
        ]
        if self.residual_share is not None and self.to_go_g is not None and self.now_g is not None:
            found.append(
                f"Now:             {show(self.now_g, 'mass_g')} "
                f"(about {show(self.residual_share, 'share')} moisture left; the table leaves open "
                f"{show(self.residual_low or 0.0, 'share')} to "
                f"{show(self.residual_high or 0.0, 'share')})"
            )
            if self.dry_enough:
                found.append("Still to go:     nothing, by weight")
            else:
                found.append(f"Still to go:     {show(self.to_go_g, 'mass_g')}")
        if self.run is not None:
            found.append(
                f"Dry after:       {show(self.run.dry_after_min, 'duration_min')} from the start, "
                f"between {show(self.run.earliest_min, 'duration_min')} and "
                f"{show(self.run.latest_min, 'duration_min')} ({self.run.model.title()} curve)"
            )
        if self.water_activity is not None:
            found.append(
                f"Water activity:  about {self.water_activity:.2f} at room temperature; "
                "below 0.60 nothing grows"
            )
        found.append(f"Water puts back: {show(self.rehydration_ml, 'volume_ml')} at most")
        if self.lighter_than_listed:
            found.append("It is lighter than the table allows: this load was wetter than listed.")
        found.append(
            "Tables are averages: weigh again after two hours, and bend or snap a cold piece."
        )
        return found


def dryness(
    name: str,
    fresh_g: float,
    now_g: float | None,
    method: str,
    content: Content,
    weighings: Sequence[Weighing] = (),
) -> Dryness:
    """Judge a load by its weights; raises ProblemsFound where they cannot be."""
    substance = substance_named(name, content)
    water = substance.composition.water_share
    limit = dry_enough_share(method, substance.kind)
    if fresh_g <= 0:
        raise _stop("nothing to dry", "tell its weight before drying, such as 1850 g")
    if water <= limit:
        raise _stop(
            f"{substance.name} is dry already: {water:.0%} water, and {limit:.0%} would do",
            "name the fresh or cooked food; `tripkit find` tells its id",
        )
    if now_g is None and weighings:
        now_g = weighings[-1].mass_g
    residual = None
    lighter = False
    low = high = activity = None
    if now_g is not None:
        if not 0 < now_g <= fresh_g:
            raise _stop(
                f"{now_g:g} g now and {fresh_g:g} g fresh cannot be",
                "check both weights, and take the tray off both",
            )
        if now_g < fresh_g:
            residual = residual_share(fresh_g, now_g, water)
            least = least_residual_share(method)
            lighter, residual = residual < least - 1e-9, max(residual, least)
            low, high = residual_range(fresh_g, now_g, water, least)
            activity = water_activity_at(substance, residual)
        else:
            residual = water
    left = usual_residual_share(method, substance.kind) if residual is None else residual
    dried_g = now_g if now_g is not None else dried_mass_g(fresh_g, water, min(left, water))
    if lighter:
        back_ml = fresh_g - dried_g
    else:
        back_ml = rehydration_water_ml(dried_g, water, min(left, water))
    return Dryness(
        name=substance.name,
        method=method,
        fresh_g=fresh_g,
        water_share=water,
        limit_share=limit,
        target_g=dried_mass_g(fresh_g, water, limit),
        now_g=now_g,
        residual_share=residual,
        lighter_than_listed=lighter,
        rehydration_ml=back_ml,
        residual_low=low,
        residual_high=high,
        water_activity=activity,
        run=drying_run(fresh_g, water, limit, weighings) if weighings else None,
    )


def water_activity_at(substance: Substance, residual: float) -> float | None:
    """Give the water activity of a food whose isotherm is known and reaches so far."""
    if substance.sorption is None:
        return None
    try:
        return water_activity_of(substance.sorption, residual)
    except ValueError:
        return None  # wetter than the isotherm tells


def _stop(says: str, mend: str) -> ProblemsFound:
    return ProblemsFound([Problem(NOWHERE, "dry", says, mend)])
