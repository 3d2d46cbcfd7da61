"""Checks between records: every id that is named must exist, and mean what it is used for."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from builder.model.batch import Batch
from builder.model.content import Content, Gear
from builder.model.food import Food
from builder.model.gear import BAKES_IN, LOOSE_PACKAGING
from builder.model.home import Home
from builder.model.on_asking import each_changed
from builder.model.place import Place, Places
from builder.model.recipe import OVER_FLAME
from builder.model.source import CautionText
from builder.model.trip import Day, MealItem, Trip
from builder.problems import Problem, did_you_mean, food_meant
from builder.reading.drying.runs import run_problems
from builder.reading.text.yaml_door import quoted
from builder.reading.trips.people import avoids_nothing_known
from builder.record import replace

Broken = Collection[tuple[str, str]]


def crosscheck(content: Content, broken: Broken) -> tuple[Content, list[Problem]]:
    """Give the content without the records that name what is not there, and the problems.

    `broken` holds (kind, id) of records that stand in a file but have errors of their own;
    naming one of them is not told again.
    """
    check = _Checks(content, broken)
    checked = replace(
        content,
        gear=check.gear(),
        cautions=each_changed(content.cautions, check.caution),
        foods=each_changed(content.foods, check.food),
    )
    check.content = replace(checked, home=check.home())
    checked = check.content
    batches = {name: b for name, b in content.batches.items() if check.batch(b)}
    checked = replace(checked, batches=batches)
    check.content = checked
    trips = {name: trip for name, trip in content.trips.items() if check.trip(trip)}
    return replace(checked, trips=trips), [*check.problems, *run_problems(batches.values())]


class _Checks:
    def __init__(self, content: Content, broken: Broken) -> None:
        self.content, self.broken = content, set(broken)
        self.problems: list[Problem] = []

    def known(self, kind: str, name: str, ids: Iterable[str], place: Place) -> bool:
        """Tell whether a named record is there; note a problem where it never was written."""
        if name in ids:
            return True
        if (kind, name) not in self.broken:
            says = f"there is no {_NAMES.get(kind, kind)} {quoted(name)}"
            mend = food_meant(name, ids) if kind == "food" else did_you_mean(name, ids)
            self.problems.append(Problem(place, f"{kind.rstrip('s')}-unknown", says, mend))
        return False

    def gear(self) -> Gear:
        gear = self.content.gear
        stoves = {}
        for name, stove in gear.stoves.items():
            if self.known("fuels", stove.burns, gear.fuels, stove.places.of("burns")):
                stoves[name] = stove
            else:
                self.broken.add(("stoves", name))
        return replace(gear, stoves=stoves)

    def caution(self, caution: CautionText) -> CautionText:
        return replace(caution, sources=self.sources("sources", caution.sources, caution.places))

    def sources(self, key: str, names: Iterable[str], places: Places) -> tuple[str, ...]:
        """Give those of the sources named behind a key that are there."""
        ids = self.content.sources
        return tuple(
            name for name in names if self.known("source", name, ids, places.of(f"{key}/{name}"))
        )

    def food(self, food: Food) -> Food:
        told = self.sources("allergen_source", food.allergen_source, food.places)
        food = replace(food, allergen_source=told)
        if not food.source:
            return food
        known = self.known("source", food.source, self.content.sources, food.places.of("source"))
        return food if known else replace(food, source=None)

    def home(self) -> Home:
        """Give the home with those dryers, that packaging and that sheet which are there."""
        home, gear = self.content.home, self.content.gear
        dryers = tuple(
            name
            for name in home.dryers
            if self.known("dryers", name, gear.dryers, home.places.of(f"dryers/{name}"))
        )
        packaging, sheet = home.new_batch.packaging, home.label_sheet
        if packaging and not self.known(
            "packaging", packaging, gear.packaging, home.places.of("batch")
        ):
            home = replace(home, new_batch=replace(home.new_batch, packaging=None))
        if sheet and not self.known("sheets", sheet, gear.sheets, home.places.of("labels")):
            home = replace(home, label_sheet=None)
        foods = {*self.content.foods, *(name for kind, name in self.broken if kind == "food")}
        for person in home.people:
            self.problems += avoids_nothing_known(person, foods)
        return replace(home, dryers=dryers)

    def batch(self, batch: Batch) -> bool:
        good = True
        if batch.food:
            good &= self.known("food", batch.food, self.content.foods, batch.places.of("food"))
        if batch.recipe:
            place = batch.places.of("recipe")
            good &= self.known("recipe", batch.recipe, self.content.recipes, place)
        if batch.packs and batch.packs.packaging:
            place = batch.places.of("packs/in")
            ids = self.content.gear.packaging
            good &= self.known("packaging", batch.packs.packaging, ids, place)
        if batch.dryer:
            good &= self.dryer(batch, batch.dryer)
        if not good:
            self.broken.add(("batch", batch.id))
        return good

    def dryer(self, batch: Batch, name: str) -> bool:
        """Check that a batch was dried in something that dries in its way."""
        dryers, place = self.content.gear.dryers, batch.places.of("dryer")
        if not self.known("dryers", name, dryers, place):
            return False
        if dryers[name].method == batch.method:
            return True
        says = f"{name} is a {dryers[name].method}, and this batch says `method: {batch.method}`"
        fitting = sorted(each.id for each in dryers.values() if each.method == batch.method)
        mend = f"name one of {', '.join(fitting)}, or leave `dryer` out"
        self.problems.append(
            Problem(place, "dryer-method", says, mend if fitting else "leave `dryer` out")
        )
        return False

    def trip(self, trip: Trip) -> bool:
        good = True
        gear = self.content.gear
        places = trip.places
        for stove in trip.stoves:
            good &= self.known("stoves", stove, gear.stoves, places.of(f"use/{stove}"))
        for pot in trip.pots:
            good &= self.known("pots", pot, gear.pots, places.of(f"pots/{pot}"))
        for iron in trip.fire.irons if trip.fire else ():
            good &= self.known("irons", iron, gear.irons, places.of(f"irons/{iron}"))
        good &= self.known("packaging", LOOSE_PACKAGING, gear.packaging, places.record)
        for day in trip.days:
            for meal in day.meals:
                for item in meal.items:
                    good &= self.item(trip, day, item)
        return good

    def item(self, trip: Trip, day: Day, item: MealItem) -> bool:
        good = all([self.from_batch(item, ingredient, batch) for ingredient, batch in item.batches])
        if item.recipe and item.recipe in self.content.recipes:
            good &= self.gives_water_back(item)
            good &= self.can_be_cooked(trip, item)
            good &= self.is_there_as_told(trip, day, item)
        return good

    def from_batch(self, item: MealItem, ingredient_id: str, batch_id: str) -> bool:
        inner = f"from/{ingredient_id}"
        place = item.places.of(inner if inner in item.places.fields else "from")
        if not self.known("batch", batch_id, self.content.batches, place):
            return False
        batch = self.content.batches[batch_id]
        wanted = item.food or (item.label.name if item.label else "")
        if item.recipe:
            ingredient = self.content.dish(item).ingredient(ingredient_id)
            wanted = ingredient.food or ingredient.recipe or ""
        if batch.holds != wanted:
            mend = _batches_of(wanted, self.content)
            if any(each.ingredient == ingredient_id for each in item.swaps):
                mend = f"leave {quoted(ingredient_id)} out of `from`, or name a batch of that; who "
                mend += "does not swap gets the dish in a line of its own, each with its `for`"
            self.problems.append(
                Problem(
                    place,
                    "batch-holds-other",
                    f"batch {batch_id!r} holds {quoted(batch.holds)}, not {quoted(wanted)}",
                    mend,
                )
            )
            return False
        return True

    def gives_water_back(self, item: MealItem) -> bool:
        """Check that what is swapped leaves no `water: auto` with nothing that takes water up."""
        recipe = self.content.recipes[item.recipe or ""]
        dried = {each.id for each in recipe.swapped(item.swaps).uses if each.dried_by}
        for swap in item.swaps:
            steps = [step for step in recipe.steps if swap.ingredient in step.uses]
            if any(step.water_auto and dried.isdisjoint(step.uses) for step in steps):
                says = f"{recipe.id} gives back what drying took out of {swap.ingredient}, and "
                says += f"{quoted(swap.food)} is not dried: it would get no water"
                mend = "swap for a food that you dry, or write these eaters a recipe of their own"
                self.problems.append(Problem(item.places.of("swap"), "auto-water", says, mend))
                return False
        return True

    def can_be_cooked(self, trip: Trip, item: MealItem) -> bool:
        """Check that the trip has the heat, the pot and the iron a recipe needs."""
        recipe = self.content.recipes[item.recipe or ""]
        place = item.places.of("cook")
        doings = {step.do for step in recipe.steps}
        in_pot = bool(doings & OVER_FLAME) or any(
            step.do == "soak" and step.hot for step in recipe.steps
        )
        fire = trip.fire is not None and trip.fire.allowed
        good = True

        def problem(kind: str, says: str, mend: str) -> None:
            nonlocal good
            good = False
            self.problems.append(Problem(place, kind, f"{recipe.id} {says}", mend))

        if in_pot and not trip.stoves and not fire:
            mend = "name a stove (`stove: {use: …}`) or allow a fire"
            problem("no-heat", "needs heat, and this trip has neither stove nor fire", mend)
        if in_pot and not trip.pots:
            mend = "name one in `stove: {pots: […]}` or `fire: {pots: […]}`"
            problem("no-pot", "needs a pot, and this trip has none", mend)
        if "press" in doings and not fire:
            problem("no-fire", "needs embers, and this trip allows no fire", "cook another dish")
        elif "press" in doings and not (trip.fire and trip.fire.irons):
            mend = "name one in `fire: {irons: […]}`"
            problem("no-iron", "needs an iron, and this trip has none", mend)
        if "bake" in doings and not fire:
            problem("no-fire", "is baked in embers, and this trip allows no fire", "bake at home")
        elif "bake" in doings and not any(self._of_cast_iron(pot) for pot in trip.pots):
            mend = "name one in `stove: {pots: […]}` or `fire: {pots: […]}`"
            problem("no-pot", "is baked in a cast-iron pot, and this trip has none", mend)
        return good

    def is_there_as_told(self, trip: Trip, day: Day, item: MealItem) -> bool:
        """Check that there is the heat a dish is told to be cooked on, and that its pot bakes."""
        heat, places = (item.heat, item.places) if item.heat else (day.heat, day.places)
        fire = trip.fire is not None and trip.fire.allowed
        good = True
        if (heat == "stove" and not trip.stoves) or (heat in ("fire", "embers") and not fire):
            says = f"heat: {heat}, and this trip "
            says += "has no stove" if heat == "stove" else "allows no fire"
            mend = "name one (`stove: {use: …}`)" if heat == "stove" else "tell `fire: {…}`"
            place = places.of("heat")
            self.problems.append(Problem(place, "no-such-heat", says, f"{mend}, or leave it out"))
            good = False
        pot, places = (item.pot, item.places) if item.pot else (day.pot, day.places)
        bakes = any(step.do == "bake" for step in self.content.recipes[item.recipe or ""].steps)
        if pot and bakes and not self._of_cast_iron(pot):
            says = f"{item.recipe} is baked in a cast-iron pot, and {quoted(pot)} is none"
            mend = "name another one, or leave `in` out"
            self.problems.append(Problem(places.of("in"), "no-pot", says, mend))
            good = False
        return good

    def _of_cast_iron(self, name: str) -> bool:
        pot = self.content.gear.pots.get(name)
        return pot is None or pot.material == BAKES_IN  # one that is not there is told elsewhere


_NAMES = {
    "stoves": "stove", "fuels": "fuel", "pots": "pot", "irons": "iron", "dryers": "dryer",
    "sheets": "sheet of labels",
}  # fmt: skip


def _batches_of(holds: str, content: Content) -> str:
    ids = sorted(name for name, batch in content.batches.items() if batch.holds == holds)
    return (
        f"batches of {quoted(holds)} are: {', '.join(ids)}"
        if ids
        else f"no batch holds {quoted(holds)}"
    )
