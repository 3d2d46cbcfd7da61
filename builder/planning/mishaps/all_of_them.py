"""Each thing that can go wrong on a trip, one after the other."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence

from builder.model.content import Content
from builder.model.figure import add, added, counted, largest, nothing
from builder.model.kit import Carried, KitDay, KitFuel, PersonDay, PersonLoad, PlannedMeal, Weights
from builder.model.mishaps import Mishap, MishapKind, StillEaten
from builder.planning.cooking import Hearth, OneStove
from builder.planning.menu import eaten_kcal
from builder.planning.mishaps.cold import can_soak_cold, needs_heat

Dish = tuple[int, int]  # its day, and its place in the day
_SPRINGS = frozenset({"stream", "lake", "tap"})
# Nobody reads the days of dozens for every bag: of more people all of them together are told.
_MOST_TOLD_EACH = 10


def mishaps(
    days: Sequence[KitDay],
    load: Weights,
    fuels: Sequence[KitFuel],
    hearth: Hearth,
    content: Content,
) -> tuple[Mishap, ...]:
    """Give what is still eaten and drunk, whatever goes wrong."""
    trip = _Trip(days, load, fuels, hearth, content)
    return tuple(trip.all())


class _Trip:
    """One trip, of which one thing after the other goes wrong."""

    def __init__(
        self,
        days: Sequence[KitDay],
        load: Weights,
        fuels: Sequence[KitFuel],
        hearth: Hearth,
        content: Content,
    ) -> None:
        self.days, self.load, self.fuels, self.hearth, self.content = (
            days,
            load,
            fuels,
            hearth,
            content,
        )
        self.dishes = {
            (day.day, place): meal for day in days for place, meal in enumerate(day.meals)
        }
        self.heated = {at for at, meal in self.dishes.items() if needs_heat(meal)}
        # The most energy for each gram that the trip eats as it is: the least to take along.
        self.kcal_g = largest(
            *(
                meal.nutrition.energy_kcal / meal.mass_g
                for meal in self.dishes.values()
                if not meal.recipe and meal.mass_g > 0
            ),
            nothing("kcal_g"),
        )

    def all(self) -> Iterator[Mishap]:
        for each in self.load.people:
            yield self.bag(each)
        yield self.day_more()
        if any(each.likely_g for each in self.fuels):
            yield self.without_heat("no-fuel", lambda meal: meal.cooked_on != "fire")
        if any(meal.cooked_on == "fire" for meal in self.dishes.values()):
            yield self.without_heat("no-fire", lambda meal: meal.cooked_on == "fire")
        for day in self.days:
            if not day.ends_home and day.conditions.water_source in _SPRINGS:
                yield self.dry(day)

    # -- each of them ------------------------------------------------------------------------------

    def bag(self, load: PersonLoad) -> Mishap:
        """Lose one person's bag: the food in it, and what it held to cook with."""
        gone = {each.meal for each in load.carries if each.meal is not None}
        things = [each for each in load.carries if each.kind in ("gear", "fuel")]
        no_heat = self._cooks_no_more(things)
        cold, uneaten = self._unheated(self.heated - gone) if no_heat else ((), ())
        lost = gone | set(uneaten)
        missing = self._missing(lost)
        return Mishap(
            "bag",
            who=load.name,
            lost=tuple(dict.fromkeys(each.what for each in things)),
            fuel_left_g=None if no_heat else self._fuel_left_g(things),
            cold=cold,
            uneaten=uneaten,
            still=self._still(lost),
            no_water_days=self._without_water() if no_heat else (),
            unsafe_days=self._unsafe() if no_heat else (),
            missing_kcal=missing,
            mend_g=self._in_food(missing),
        )

    def day_more(self) -> Mishap:
        """Eat the same food over one day more."""
        number = counted(len(self.days) + 1, "days")
        people = tuple(
            StillEaten(each.name, (add(each.need_kcal) / (number - 1),), (add(each.kcal) / number,))
            for each in self._still_of_each(())
        )
        missing = add(each.need_kcal[0] for each in people)
        all_kcal = add(day.nutrition.energy_kcal for day in self.days) / number
        return Mishap(
            "day-more",
            still=told_of(people, StillEaten("", (missing,), (all_kcal,)), [0]),
            missing_kcal=missing,
            mend_g=self._in_food(missing),
        )

    def without_heat(self, kind: MishapKind, stops: Callable[[PlannedMeal], bool]) -> Mishap:
        """Cook nothing more on the stove, or nothing more on the fire."""
        cold, uneaten = self._unheated({at for at in self.heated if stops(self.dishes[at])})
        no_stove = kind == "no-fuel"
        is_dry = no_stove or not self.hearth.stoves
        fuel_g = added(each.likely_g for each in self.fuels)
        return Mishap(
            kind,
            cold=cold,
            uneaten=uneaten,
            still=self._still(uneaten),
            no_water_days=self._without_water() if is_dry else (),
            unsafe_days=self._unsafe() if is_dry else (),
            missing_kcal=self._missing(uneaten),
            mend_g=fuel_g if no_stove else add(day.fuel.wood_g for day in self.days),
            mended_by="fuel" if no_stove else "wood",
        )

    def dry(self, day: KitDay) -> Mishap:
        """Find no water at a camp: what is carried at most is all there is."""
        drinkers = counted(max(len(day.people), 1), "people")
        short = largest(day.water.total_ml - day.water.carry_ml, 0.0)
        return Mishap(
            "dry",
            day=day.day,
            drink_ml=day.water.carry_ml / drinkers if day.people else day.water.carry_ml,
            mend_g=short,
            mended_by="water",
        )

    def _fuel_left_g(self, lost: Collection[Carried]) -> float | None:
        """Give the fuel in the containers that are left; None where none of them is lost.

        Of several fuels none takes the place of another: what goes is told by name alone.
        """
        cans = [each for each in lost if each.kind == "fuel"]
        if not cans or len(self.fuels) != 1:
            return None
        sizes = self.fuels[0].containers
        holds_g = {each.holds_g + each.empty_g: each.holds_g for each in sizes}
        held_g = add(each.holds_g * each.count for each in sizes)
        return held_g - add(holds_g.get(each.mass_g, each.mass_g) for each in cans)

    def _without_water(self) -> tuple[int, ...]:
        """Give the days on which snow is the only water."""
        return tuple(
            day.day
            for day in self.days
            if day.conditions.water_source == "snow" and not day.ends_home
        )

    def _unsafe(self) -> tuple[int, ...]:
        """Give the days on which water was to be boiled to make it safe."""
        return tuple(day.day for day in self.days if day.is_treated("boil"))

    # -- what is left ------------------------------------------------------------------------------

    def _cooks_no_more(self, lost: Collection[Carried]) -> bool:
        """Tell whether the last stove that burns or the last pot went, and no fire takes over."""
        names = {each.what for each in lost}
        pots, stoves = self.hearth.pots, self.hearth.stoves
        if pots and names.issuperset(pot.name for pot in pots):
            return True
        return bool(stoves) and not any(self._burns_on(each, lost) for each in stoves)

    def _burns_on(self, one: OneStove, lost: Collection[Carried]) -> bool:
        """Tell whether a stove is still there, with some of what it burns."""
        if any(each.what == one.name for each in lost):
            return False
        of_it = [
            each
            for load in self.load.people
            for each in load.carries
            if each.kind == "fuel" and each.known_as[-1] == one.fuel.id
        ]
        gone = sum(each.kind == "fuel" and each.known_as[-1] == one.fuel.id for each in lost)
        return not of_it or len(of_it) > gone

    def _unheated(self, dishes: Collection[Dish]) -> tuple[tuple[Dish, ...], tuple[Dish, ...]]:
        """Part dishes that get no heat into those to soak cold and those to leave uneaten."""
        cold = tuple(at for at in sorted(dishes) if can_soak_cold(self.dishes[at], self.content))
        return cold, tuple(at for at in sorted(dishes) if at not in cold)

    def _missing(self, lost: Collection[Dish]) -> float:
        return add(self.dishes[at].nutrition.energy_kcal for at in sorted(lost))

    def _in_food(self, missing_kcal: float) -> float | None:
        """Give the least mass that holds so much energy, of what the trip eats as it is."""
        return missing_kcal / self.kcal_g if self.kcal_g > 0 else None

    def _still(self, lost: Collection[Dish]) -> tuple[StillEaten, ...]:
        """Give what is still eaten every day: what was on the plates, less what is lost."""
        people = self._still_of_each(lost)
        lost_of = [{at for at in lost if at[0] == day.day} for day in self.days]
        together = StillEaten(
            "",
            tuple(day.energy_need_kcal for day in self.days),
            tuple(
                day.nutrition.energy_kcal - self._missing(gone)
                if gone
                else day.nutrition.energy_kcal
                for day, gone in zip(self.days, lost_of, strict=True)
            ),
        )
        return told_of(people, together, [place for place, gone in enumerate(lost_of) if gone])

    def _still_of_each(self, lost: Collection[Dish]) -> tuple[StillEaten, ...]:
        gone_of = [
            [meal for place, meal in enumerate(day.meals) if (day.day, place) in lost]
            for day in self.days
        ]
        each_day = zip(*(day.people for day in self.days), strict=True)  # by person
        return tuple(
            StillEaten(
                of_days[0].name,
                tuple(each.energy_need_kcal for each in of_days),
                tuple(_still_kcal(*each) for each in zip(of_days, gone_of, strict=True)),
            )
            for of_days in each_day
        )


def _still_kcal(person: PersonDay, gone: Sequence[PlannedMeal]) -> float:
    """Give what one person still eats on a day: what was on the plate, less what is gone."""
    gone_kcal = eaten_kcal(gone, person.name) if gone else 0.0
    return person.food_kcal - gone_kcal if gone_kcal else person.food_kcal


def told_of(
    people: tuple[StillEaten, ...], together: StillEaten, less: Collection[int]
) -> tuple[StillEaten, ...]:
    """Give each of a few; of a crowd all together, and the one left with least of their need.

    That is looked for on the days with less to eat: without any, nobody stands out.
    """
    if len(people) <= _MOST_TOLD_EACH:
        return people

    def least_share(of: StillEaten) -> float:
        return min(
            float(of.kcal[place]) / float(of.need_kcal[place])
            for place in less
            if of.need_kcal[place] > 0
        )

    needy = [each for each in people if any(each.need_kcal[place] > 0 for place in less)]
    return (together, min(needy, key=least_share)) if needy else (together,)
