"""Is it dry yet: target weight, what is still to go, and the water that puts it back."""

from __future__ import annotations

from dataclasses import dataclass

from builder.formulas.drying import (
    dried_mass_g,
    dry_enough_share,
    least_residual_share,
    rehydration_water_ml,
    residual_share,
    usual_residual_share,
)
from builder.model.content import Content
from builder.model.place import NOWHERE
from builder.planning.substance import substance_named
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
                f"(about {show(self.residual_share, 'share')} moisture left)"
            )
            if self.dry_enough:
                found.append("Still to go:     nothing, by weight")
            else:
                found.append(f"Still to go:     {show(self.to_go_g, 'mass_g')}")
        found.append(f"Water puts back: {show(self.rehydration_ml, 'volume_ml')} at most")
        if self.lighter_than_listed:
            found.append("It is lighter than the table allows: this load was wetter than listed.")
        found.append(
            "Tables are averages: weigh again after two hours, and bend or snap a cold piece."
        )
        return found


def dryness(
    name: str, fresh_g: float, now_g: float | None, method: str, content: Content
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
    residual = None
    lighter = False
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
    )


def _stop(says: str, mend: str) -> ProblemsFound:
    return ProblemsFound([Problem(NOWHERE, "dry", says, mend)])
