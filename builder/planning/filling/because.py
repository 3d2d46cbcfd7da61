"""Says in plain words why a dish is proposed: its packs, who can eat it, its fuel."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formulas.heat import fuel_mass_g
from builder.model.food import ALLERGENS
from builder.model.kit import Kit, PlannedMeal
from builder.model.trip import DIETS, ENGLISH
from builder.planning.filling.dishes import Options
from builder.planning.filling.task import Filled
from builder.planning.menu import avoided_said
from builder.speech import speech_of

# What is asked of what nobody told, too, so that one may say it is not in a dish.
ASKED_OF_ALL = frozenset((*ALLERGENS, *DIETS))


class Reasons:
    """The reasons of one proposal."""

    def __init__(self, options: Options, filled: Filled, kit: Kit) -> None:
        """Keep what was chosen, and what came of it."""
        self.options, self.filled, self.kit = options, filled, kit
        self.say = speech_of(ENGLISH)

    def said(self, slot: int, planned: PlannedMeal) -> str:
        """Give the reasons for the dish of one open meal."""
        return "; ".join((*self._packs(slot, planned), *self._people(slot), *self._fuel(planned)))

    def _packs(self, slot: int, planned: PlannedMeal) -> Iterator[str]:
        larder = self.options.larder
        dish = self.filled.dishes[slot]
        lines = self.options.task.dishes[dish].lines
        names = {each.id: each.name for each in planned.ingredients}
        ingredients = self.options.kinds[dish].ingredients
        for ingredient, line, pack in zip(ingredients, lines, self.filled.packs[slot], strict=True):
            name = names[ingredient]
            if pack is None:
                if line.dry_g:
                    dried = self.say.show(line.dry_g, "mass_g", self.options.trip.units)
                    yield f"{name}: no free pack, {dried} still to dry"
                continue
            judged = larder.judged[pack]
            until = judged.best_before
            date = f"{until.day} {until:%B %Y}" if until else ""
            if not judged.kept_at_told:
                warmth = self.say.show(
                    judged.batch.kept_at_c, "temperature_c", self.options.trip.units
                )
                date += f" if kept at {warmth} (not told)"
            # Of all its food and method, which the shelf holds in the order they expire.
            is_first = pack == min(line.packs)
            yield f"{name}: expires first, {date}" if is_first else f"{name}: keeps until {date}"

    def _people(self, slot: int) -> Iterator[str]:
        for person in self.options.meals[slot].eaters:
            for word in person.avoids:
                if word in ASKED_OF_ALL:
                    yield f"no {avoided_said(self.say, word)} for {person.name}"

    def _fuel(self, planned: PlannedMeal) -> Iterator[str]:
        fuel, units = self.kit.fuel_of(planned.stove), self.options.trip.units
        if planned.cooked_on == "stove" and fuel:
            mass_g = fuel_mass_g(float(planned.fuel_heat_kj), float(fuel.energy_mj_kg))
            yield f"{self.say.show(mass_g, 'mass_g', units)} {fuel.name}"
        elif planned.wood_g > 0:
            yield f"{self.say.show(float(planned.wood_g), 'mass_g', units)} wood"
        elif planned.cooked_on is None:
            yield "no fuel"
