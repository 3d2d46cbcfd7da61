"""Reads trips; foods and recipes must be known already."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import cast

from builder.model.batch import METHODS, Method
from builder.model.figure import largest, named, smallest
from builder.model.food import ALLERGENS, HAZARDS, Food, Hazard
from builder.model.gear import StoveTest
from builder.model.home import Home
from builder.model.place import Place, Places
from builder.model.recipe import MEALS, Recipe
from builder.model.trip import (
    DEFAULT_BETWEEN_WATER_H,
    ENGLISH,
    GROUNDS,
    HOME_SHARE,
    LANGUAGES,
    NEARS,
    SHELTERS,
    TRAVEL_BY,
    TREATMENTS,
    UNITS,
    WATER_SOURCES,
    WINDS,
    WOODS,
    Camp,
    Day,
    DefaultUsed,
    Fire,
    Ground,
    Label,
    Meal,
    MealItem,
    Near,
    Person,
    SharedGear,
    Shelter,
    Travel,
    TravelBy,
    Treatment,
    Trip,
    Units,
    WaterPlace,
    WaterSource,
    Wind,
)
from builder.problems import Problem, did_you_mean
from builder.reading.chilled import read_chilled
from builder.reading.compositions import odd_sum, read_composition
from builder.reading.declaring import read_as
from builder.reading.eaten import check_eaten, check_energy
from builder.reading.fields import Fields, echoed, overlaid, taken
from builder.reading.notes import Notes
from builder.reading.people import WrittenPerson, avoids_nothing_known, named_twice, untold
from builder.reading.plausible import check_air, check_way
from builder.reading.recipes import amount_g
from builder.reading.stove_tests import read_stove_test
from builder.reading.yaml_door import Node, quoted
from builder.speech import later

UNTOLD = later("the trip does not tell it")
_QUANTITIES = {
    "mug": later("mug"),
    "washing": later("washing"),
}
_OF_WATER = {
    "camp": (later("water camp on day {n}"), later("a stream")),
    "treat": (later("water treat on day {n}"), later("not treated")),
}

# Taken where the trip does not tell; each one used is listed in the kit.
DEFAULT_AIR_LOW_C = 5.0
DEFAULT_AIR_HIGH_C = 20.0
DEFAULT_HOURS = 5.0
FUEL_RESERVE_SHARE = 0.15
# km/h on the level and hours for each 600 m of ascent, after Naismith 1892, for days whose hours
# nobody told; the other ways are common practice.
DEFAULT_SPEED_KM_H = {
    "walking": 5.0,
    "snowshoeing": 3.0,
    "skiing": 5.0,
    "paddling": 5.0,
    "cycling": 15.0,
}
ASCENT_M_PER_H = 600.0
MOST_HOURS = 16.0
FASTEST_WALK_KM_H = 10.8  # the walking formula ends at 3 m/s

_AIR_LOW_C = taken(DEFAULT_AIR_LOW_C, "air_low_c")
_AIR_HIGH_C = taken(DEFAULT_AIR_HIGH_C, "air_high_c")
_EVERY_DAY = ("air", "wind", "water", "travel")
_CONDITIONS = ("camp_altitude", "barometer", "air", "wind", "water")

# Whatever has one of these tells what a label says.
_OF_LABELS = frozenset(
    [
        "energy",
        "protein",
        "fat",
        "carbohydrate",
        "fibre",
        "sodium",
        "water",
        "ash",
        "alcohol",
        "caffeine",
        "allergens",
        "may_contain",
        "beware",
    ]
)


class _TripReader:
    """Reads one trip and notes the defaults it had to take."""

    def __init__(
        self, fields: Fields, foods: Mapping[str, Food], recipes: Mapping[str, Recipe], home: Home
    ) -> None:
        self.fields, self.foods, self.recipes, self.home = fields, foods, recipes, home
        self.defaults: list[DefaultUsed] = []
        self.names: tuple[str, ...] = ()
        self.inner: dict[str, Place] = {}  # places of gear that the trip names

    def default(self, what: str, value: str, why: str = UNTOLD, **blanks: object) -> None:
        """Note what was taken for something that was not told; `blanks` fill its texts."""
        filled = tuple((name, str(value)) for name, value in blanks.items())
        self.defaults.append(DefaultUsed(what, value, why, filled))

    def read(self, trip_id: str) -> Trip | None:
        fields = self.fields
        party = self._party()
        self.names = tuple(person.name for person in party)
        stove_id, pots, reserve, stove_test = self._stove()
        fire, fire_pots = self._fire()
        every_day = fields.value("every_day")
        days = self._days(every_day)
        trip = Trip(
            id=trip_id,
            title=fields.line("title", required=True, example="Four days in the hills"),
            party=party,
            days=days,
            start=fields.date("start"),
            units=cast(Units, fields.choice("units", UNITS, default="metric")),
            language=fields.choice("language", LANGUAGES, default=ENGLISH),
            stove=stove_id,
            pots=tuple(dict.fromkeys((*pots, *fire_pots))),
            fuel_reserve_share=reserve,
            stove_test=stove_test,
            fire=fire,
            mug_ml=self._quantity("mug", "volume_ml", 300.0, "300 ml", positive=True),
            washing_ml=self._quantity("washing", "volume_ml", 1000.0, later("1 l per camp")),
            gear_shared=self._gear_shared(),
            start_camp=self._start_camp(every_day),
            shelter=cast(Shelter, fields.choice("shelter", SHELTERS, default="tent")),
            chilled_until=read_chilled(fields, len(days)),
            notes=fields.text("notes"),
            public_names=fields.flag("public_names"),
            defaults=tuple(self.defaults),
            places=fields.places(self.inner),
        )
        review = fields.value("review")
        if review is not None:
            Fields(review, fields.problems, "review")
        return trip if fields.done() else None

    def _quantity(
        self, key: str, quantity: str, default: float, shown: str, positive: bool = False
    ) -> float:
        if not self.fields.has(key):
            self.default(_QUANTITIES[key], shown)
        return self.fields.quantity(key, quantity, default=default, positive=positive)

    # -- party --------------------------------------------------------------------------------

    def _party(self) -> tuple[Person, ...]:
        people: dict[str, Person] = {}
        for node in self.fields.list("party", required=True):
            person = self._at_home(node) if node.is_text else self._person(node)
            if person is None or not person.name:
                continue
            if person.name in people:
                self.fields.problems.append(named_twice(person))
            people.setdefault(person.name, person)
            self.defaults += untold(person)
            if node.is_map:  # what home.yaml tells is looked at there
                self.fields.problems += avoids_nothing_known(person, self.foods)
        if self.fields.is_empty_list("party"):
            self.fields.problem(
                self.fields.place("party"), "empty", "nobody goes", "name at least one person"
            )
        return tuple(people.values())

    def _person(self, node: Node) -> Person | None:
        """Read somebody; where there are errors the name stays, since meals may ask for it."""
        notes = self.fields.problems
        assert isinstance(notes, Notes)
        found = read_as(WrittenPerson, node, notes)
        if found is not None:
            return found.person()
        name = node.entries.get("name")
        return Person(name.node.text.strip()) if name and name.node.is_text else None

    def _at_home(self, node: Node) -> Person | None:
        """Give somebody whom `home.yaml` tells; their place here is where the trip names them."""
        name = node.text.strip()
        for person in self.home.people:
            if person.name == name:
                places = Places(node.place, {**person.places.fields, "name": node.place})
                return replace(person, places=places)
        known = [person.name for person in self.home.people]
        mend = did_you_mean(name, known) if known else f"write `{{name: {name}}}` here"
        says = "there is no home.yaml that tells of people"
        if known:
            says = f"home.yaml tells of no {quoted(name)}"
        self.fields.problem(node.place, "person-unknown", says, mend)
        return Person(name)

    # -- stove and fire -----------------------------------------------------------------------

    def _stove(self) -> tuple[str | None, tuple[str, ...], float, StoveTest | None]:
        record = self.fields.record("stove", "stove")
        if record is None:
            return None, (), taken(FUEL_RESERVE_SHARE, "fuel_reserve_share"), None
        stove = record.text("use") or None
        pots = record.words("pots")
        self.inner["stove/use"] = record.place("use")
        self.inner.update(record.places_of_words("pots"))
        reserve = record.quantity("fuel_reserve", "share", default=FUEL_RESERVE_SHARE)
        if stove and not record.has("fuel_reserve"):
            self.default(later("fuel reserve"), "15 %")
        test = read_stove_test(record)
        record.done()
        return stove, pots, reserve, test

    def _fire(self) -> tuple[Fire | None, tuple[str, ...]]:
        record = self.fields.record("fire", "fire")
        if record is None:
            return None, ()
        if not record.has("wood_moisture"):
            self.default(later("moisture of the wood"), "20 %")
        fire = Fire(
            irons=record.words("irons"),
            wood_moisture_share=record.quantity(
                "wood_moisture", "wood_moisture_share", default=0.20
            ),
            allowed=record.flag("allowed", default=True),
            allowed_told=record.has("allowed"),
            wood=record.choice("wood", WOODS) or None,
        )
        pots = record.words("pots")
        self.inner.update(record.places_of_words("irons"))
        self.inner.update({**record.places_of_words("pots"), **self.inner})
        record.done()
        return fire, pots

    def _gear_shared(self) -> tuple[SharedGear, ...]:
        gear = []
        for node in self.fields.list("gear_shared"):
            record = Fields(node, self.fields.problems, "shared thing")
            gear.append(
                SharedGear(
                    name=record.line("name", required=True),
                    mass_g=record.quantity("mass", "mass_g", required=True),
                )
            )
            record.done()
        return tuple(gear)

    # -- days ---------------------------------------------------------------------------------

    def _start_camp(self, every_day: Node | None) -> Camp | None:
        own = self.fields.value("start_camp")
        if own is None:
            return None
        own_fields = Fields(own, self.fields.problems, "start camp")
        for key in _CONDITIONS:
            own_fields.has(key)
        own_fields.done()
        first = self.fields.list("days")[:1]
        below = overlaid(every_day, first[0]) if first else every_day
        merged = overlaid(_conditions_below(below, own), own)
        if merged is None or not merged.is_map:
            return None
        # What it takes from day 1 was noted there: a reader of its own drops those defaults.
        aside = _TripReader(self.fields, self.foods, self.recipes, self.home)
        return aside._camp(Fields(merged, self.fields.problems, "start camp"), 1, False)

    def _days(self, every_day: Node | None) -> tuple[Day, ...]:
        if every_day is not None:
            common = Fields(every_day, self.fields.problems, "every_day")
            for key in _EVERY_DAY:
                common.has(key)
            common.done()
            every_day = _only(every_day, _EVERY_DAY)
        nodes = self.fields.list("days", required=True)
        if self.fields.is_empty_list("days"):
            self.fields.problem(
                self.fields.place("days"), "empty", "this trip has no days", "write at least one"
            )
        days: list[Day] = []
        before: Node | None = None
        for number, node in enumerate(nodes, start=1):
            common_to_all = every_day
            if "ends" in node.entries and node.entries["ends"].node.value is not None:
                # No camp of its own: height and wind are the last camp's, whatever every day has,
                # and so is all else that nobody tells.
                common_to_all = overlaid(_conditions_below(before, node), every_day)
                common_to_all = overlaid(common_to_all, _only(before, ("wind",)))
            merged = (overlaid(common_to_all, node) if node.is_map else node) or node
            days.append(self._day(number, node, merged, last=number == len(nodes)))
            before = merged
        return tuple(days)

    def _day(self, number: int, node: Node, merged: Node, last: bool) -> Day:
        own = Fields(node, self.fields.problems, "day")
        day = Fields(merged, self.fields.problems, "day")
        ends = day.choice("ends", ("home",))
        if ends and not last:
            own.problem(
                own.place("ends"),
                "ends-early",
                f"day {number} ends at home, and more days follow",
                "let only the last day end at home",
            )
        home = [meal for meal in day.words("home", tuple(HOME_SHARE)) if meal]
        meals = self._meals(day, number)
        eaten = {meal.meal for meal in meals}
        for meal in home:
            if meal in eaten:
                own.problem(
                    own.place("home"),
                    "home-meal",
                    f"{meal} of day {number} is eaten at home and planned as well",
                    "take it out of `home` or out of `meals`",
                )
        if ends == "home" and not {"dinner"} & {*eaten, *home}:
            home.append("dinner")
        camp = self._camp(day, number, required=not day.has("ends"))
        read = Day(
            number=number,
            title=day.line("title"),
            camp=camp,
            meals=meals,
            travel=self._travel(day, number),
            ends_home=ends == "home",
            home=tuple(home),
            without=self._without(day, meals),
            notes=day.text("notes"),
            places=own.places(),
        )
        day.done()
        return read

    def _without(
        self, day: Fields, meals: tuple[Meal, ...]
    ) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Read who is meant to have nothing of a meal that others have."""
        record = day.record("without", "without", example="{lunch: [Ash]}")
        if record is None:
            return ()
        eaten = {meal.meal: {name for item in meal.items for name in item.eaters} for meal in meals}
        written = day.value("meals")
        found = []
        for meal in record.node.entries:
            if meal not in MEALS:
                continue
            names = record.words(meal)
            for node in record.list(meal, lone_item=True):
                if meal in eaten or not (written and meal in written.entries):
                    self._check_without(record, node, meal, eaten.get(meal))
            found.append((meal, names))
        for meal in MEALS:
            record.has(meal)
        record.done()
        return tuple(found)

    def _check_without(
        self, record: Fields, node: Node, meal: str, eaters: set[str] | None
    ) -> None:
        name = node.text.strip() if node.is_text else ""
        if name not in self.names:
            if name and self.names:
                record.problem(
                    node.place,
                    "person-unknown",
                    f"nobody in the party is called {quoted(name)}",
                    did_you_mean(name, self.names),
                )
        elif eaters is None:
            record.problem(
                node.place,
                "without",
                f"nobody has {meal} that day, so {quoted(name)} goes without nothing",
                "take it out of `without`, or plan the meal",
            )
        elif name in eaters:
            record.problem(
                node.place,
                "without",
                f"{quoted(name)} is to go without {meal} and eats of it",
                "take them out of `without`, or out of the meal's `for`",
            )

    def _camp(self, day: Fields, number: int, required: bool) -> Camp:
        barometer_hpa = day.maybe_quantity("barometer", "pressure_hpa", positive=True)
        altitude_m = day.maybe_quantity(
            "camp_altitude", "altitude_m", required=required and not day.has("barometer")
        )
        air_low_c, air_high_c = self._air(day, number)
        if not day.has("wind"):
            self.default(later("wind on day {n}"), later("sheltered"), n=number)
        return Camp(
            altitude_m=altitude_m,
            air_low_c=air_low_c,
            air_high_c=air_high_c,
            wind=cast(Wind, day.choice("wind", WINDS, default="sheltered")),
            water=self._water(day, number),
            barometer_hpa=barometer_hpa,
        )

    def _air(self, day: Fields, number: int) -> tuple[float, float]:
        record = day.record("air", "air")
        if record is None:
            self.default(later("air on day {n}"), later("5 to 20 °C"), n=number)
            return _AIR_LOW_C, _AIR_HIGH_C
        low = record.maybe_quantity("low", "air_c")
        high = record.maybe_quantity("high", "air_c")
        record.done()
        if low is None:
            low = smallest(_AIR_LOW_C, high) if high is not None else _AIR_LOW_C
            self.default(later("lowest air on day {n}"), f"{low:g} °C", n=number)
        if high is None:
            high = largest(_AIR_HIGH_C, low)
            self.default(later("highest air on day {n}"), f"{high:g} °C", n=number)
        if low > high:
            record.problem(
                record.place("low"),
                "air",
                f"the low ({low:g} °C) is above the high ({high:g} °C)",
                "swap them",
            )
        elif record.has("low") and record.has("high"):
            check_air(record, low, high)
        return low, high

    def _water(self, day: Fields, number: int) -> WaterPlace:
        record = day.record("water", "water")
        if record is None:
            self.default(later("water on day {n}"), later("a stream, not treated"), n=number)
            self._note_between_water(number)
            return WaterPlace()
        for key, (what, shown) in _OF_WATER.items():
            if not record.has(key):
                self.default(what, shown, n=number)
        if not record.has("between_water"):
            self._note_between_water(number)
        water = WaterPlace(
            camp=cast(WaterSource, record.choice("camp", WATER_SOURCES, default="stream")),
            treat=cast(Treatment, record.choice("treat", TREATMENTS, default="none")),
            at_c=record.maybe_quantity("at", "water_c"),
            between_water_h=record.maybe_quantity("between_water", "duration_h"),
            near=self._near(record),
        )
        record.done()
        return water

    def _near(self, record: Fields) -> tuple[Near, ...]:
        near = cast(tuple[Near, ...], record.words("near", NEARS))
        if "none" in near and len(near) > 1:
            record.problem(
                record.place("near"),
                "near-none",
                "near: none stands beside what is near",
                "write `near: none`, or only what is near",
            )
        return near

    def _note_between_water(self, number: int) -> None:
        self.default(
            later("longest stretch without water on day {n}"),
            later("{hours} h, or all hours on the way where they are fewer"),
            later("the trip does not tell between_water"),
            n=number,
            hours=f"{DEFAULT_BETWEEN_WATER_H:g}",
        )

    def _travel(self, day: Fields, number: int) -> Travel | None:
        record = day.record("travel", "travel")
        if record is None:
            return None
        by = cast(TravelBy, record.choice("by", TRAVEL_BY, default="walking"))
        distance_m = record.maybe_quantity("distance", "length_m", positive=True)
        ascent_m = record.quantity("ascent", "length_m")
        if not record.has("by"):
            self.default(later("way of travel on day {n}"), later("walking"), n=number)
        if record.has("hours") or by == "resting":
            hours = record.number("hours", at_most=MOST_HOURS, default=DEFAULT_HOURS)
        else:
            hours = taken(DEFAULT_HOURS, "hours")
            if distance_m is not None:
                source = "naismith1892" if by == "walking" else "common-practice"
                speed_km_h = named(DEFAULT_SPEED_KM_H[by], f"speed_km_h ({by})", source)
                climb_m_h = named(ASCENT_M_PER_H, "ascent_m_h", "naismith1892")
                hours = distance_m / 1000 / speed_km_h + ascent_m / climb_m_h
                hours = smallest(hours, named(MOST_HOURS, "most_hours", "common-practice"))
            self.default(
                later("hours on day {n}"),
                f"{hours:.1f} h",
                later("from the way, where it is told"),
                n=number,
            )
        travel = Travel(
            by=by,
            hours=hours,
            distance_m=distance_m,
            ascent_m=ascent_m,
            descent_m=record.quantity("descent", "length_m"),
            ground=cast(Ground, record.choice("ground", GROUNDS, default="path")),
            load_g=record.maybe_quantity("load", "mass_g"),
        )
        if by == "walking" and distance_m is not None and not record.has("ground"):
            self.default(later("ground on day {n}"), later("path"), n=number)
        if not (by == "walking" and hours > 0 and self._is_no_walk(record, travel)):
            check_way(record, travel, tells_hours=record.has("hours"))
        record.done()
        return travel

    def _is_no_walk(self, record: Fields, travel: Travel) -> bool:
        """Tell whether a way on foot is beyond what the walking formula knows, and note why."""
        if travel.distance_m is None:
            return False
        before = len(record.problems)
        if travel.ascent_m + travel.descent_m > travel.distance_m:
            record.problem(
                record.place("distance"),
                "too-steep",
                f"{travel.ascent_m + travel.descent_m:.0f} m up and down in "
                f"{travel.distance_m:.0f} m of way is a cliff",
                "check distance, ascent and descent and their units",
            )
        if travel.distance_m / 1000 / travel.hours > FASTEST_WALK_KM_H:
            record.problem(
                record.place("hours"),
                "too-fast",
                f"{travel.distance_m / 1000 / travel.hours:.0f} km/h is no walk",
                "check distance and hours, or write `by: cycling`",
            )
        return len(record.problems) > before

    # -- meals --------------------------------------------------------------------------------

    def _meals(self, day: Fields, number: int) -> tuple[Meal, ...]:
        record = day.record("meals", "meals", required=True, example="{dinner: [{cook: …}]}")
        if record is None:
            return ()
        meals = []
        for name in record.node.entries:
            if name not in MEALS:
                continue
            if not record.has(name) or record.is_empty_list(name):
                record.warn(
                    record.place(name),
                    "meal-empty",
                    f"{name} of day {number} has nothing in it",
                    f"write `{name}: [{{cook: …}}]`, or leave `{name}` out",
                )
            items = []
            for node in record.list(name, lone_item=True):
                item = self._item(Fields(node, self.fields.problems, "meal"))
                if item is not None:
                    items.append(item)
            if items:
                meals.append(Meal(name, tuple(items)))
        for name in MEALS:
            record.has(name)
        record.done()
        return tuple(meals)

    def _item(self, item: Fields) -> MealItem | None:
        cook, eat = item.line("cook"), item.line("eat")
        if bool(cook) == bool(eat):
            if item.node.is_map:
                item.problem(
                    item.node.place,
                    "cook-or-eat",
                    "a meal is cooked, or eaten as it is"
                    + ("; this one says both" if cook else "; this one says neither"),
                    "write `cook: <recipe>`, or `eat: <food>` and `each: 60 g`",
                )
            return None
        eaters = self._eaters(item)
        read = self._cooked(item, cook, eaters) if cook else self._eaten(item, eat, eaters)
        return read if item.done() else None

    def _eaters(self, item: Fields) -> tuple[str, ...]:
        if not item.has("for"):
            return self.names
        wanted = item.words("for")
        for node in item.list("for", lone_item=True):
            name = node.text.strip() if node.is_text else ""
            if name and self.names and name not in self.names:
                item.problem(
                    node.place,
                    "person-unknown",
                    f"nobody in the party is called {quoted(name)}",
                    did_you_mean(name, self.names),
                )
        if not wanted:
            item.problem(
                item.place("for"),
                "empty",
                "nobody eats this",
                "name somebody, or leave `for` out: then all eat",
            )
        return tuple(name for name in self.names if name in wanted)

    def _cooked(self, item: Fields, cook: str, eaters: tuple[str, ...]) -> MealItem:
        recipe = self.recipes.get(cook)
        if recipe is None:
            item.problem(
                item.place("cook"),
                "recipe-unknown",
                f"there is no recipe {quoted(cook)}",
                did_you_mean(cook, self.recipes),
            )
        node = item.value("from")
        inner = (
            {f"from/{key}": entry.node.place for key, entry in node.entries.items()} if node else {}
        )
        return MealItem(
            recipe=cook,
            batches=self._from(item, recipe),
            eaters=eaters,
            places=item.places(inner),
        )

    def _from(self, item: Fields, recipe: Recipe | None) -> tuple[tuple[str, str], ...]:
        node = item.value("from")
        if node is None or recipe is None:
            return ()
        ids = [each.id for each in recipe.uses]
        if node.is_map:
            found = []
            for key, entry in node.entries.items():
                if key not in ids:
                    item.problem(
                        entry.place,
                        "ingredient-unknown",
                        f"recipe {recipe.id} uses no {quoted(key)}",
                        did_you_mean(key, ids),
                    )
                    continue
                found.append((key, item.text_of(entry.node, "from")))
            return tuple(found)
        dried = [each.id for each in recipe.uses if each.dried_by or each.recipe]
        if len(dried) != 1:
            count = f"{len(dried)} of its ingredients are" if dried else "no ingredient of it is"
            first = (dried or ids or ["…"])[0]
            item.problem(
                node.place,
                "from",
                f"which ingredient of {recipe.id} comes from this batch is not told: {count} dried",
                f"write `from: {{{first}: {echoed(node)}}}`",
            )
            return ()
        return ((dried[0], item.text_of(node, "from")),)

    def _eaten(self, item: Fields, eat: str, eaters: tuple[str, ...]) -> MealItem:
        label = self._label(item, eat)
        batch = item.text("from")
        if label is None and eat not in self.foods and eat not in self.recipes:
            hint = did_you_mean(eat, self.foods)
            item.problem(
                item.place("eat"),
                "food-unknown",
                f"there is no food {quoted(eat)}",
                f"{hint}{'' if hint.endswith('?') else '.'} Or copy its label: `energy: 450 kcal`",
            )
        each = item.value("each", required=True, example="60 g")
        each_g = self._each_g(item, each, eat, label) if each else 0.0
        if each_g:
            food = self.foods.get(eat)
            composition = label.per_100g if label else food.per_100g if food else None
            check_eaten(item, "each", each_g, composition)
        return MealItem(
            food=None if label else eat,
            label=label,
            batches=(("", batch),) if batch else (),
            dried_by=cast(Method | None, item.choice("dried_by", METHODS) or None),
            each_g=each_g,
            eaters=eaters,
            places=item.places(),
        )

    def _each_g(self, item: Fields, each: Node, eat: str, label: Label | None) -> float:
        if label is not None or eat in self.recipes:
            return amount_g(item, each, "each", "", {})
        return amount_g(item, each, "each", eat, self.foods)

    def _label(self, item: Fields, name: str) -> Label | None:
        if not item.node.entries.keys() & _OF_LABELS:
            return None
        composition = replace(
            read_composition(item), caffeine_mg=item.maybe_quantity("caffeine", "caffeine_mg")
        )
        if not any(map(item.has, ("energy", "protein", "fat", "carbohydrate"))):
            item.warn(
                item.node.place,
                "label-energy",
                f"this label tells no energy, so {quoted(name)} counts as 0 kcal",
                "write the energy of 100 g, such as `energy: 450 kcal`",
            )
        told = all(map(item.has, ("protein", "fat", "carbohydrate")))
        odd = odd_sum(composition, all_told=False)
        if odd is None:
            check_energy(item.judging("energy"), composition, all_told=told)
        else:
            amiss, severity = odd
            item.problems.append(amiss.at(item.node.place, severity))
        return Label(
            name,
            composition,
            item.told_words("allergens", ALLERGENS),
            item.words("may_contain", ALLERGENS),
            cast(tuple[Hazard, ...] | None, item.told_words("beware", HAZARDS)),
        )


def read_trip(
    fields: Fields,
    trip_id: str,
    foods: Mapping[str, Food],
    recipes: Mapping[str, Recipe],
    home: Home,
) -> Trip | None:
    """Read one trip; None where it has errors."""
    return _TripReader(fields, foods, recipes, home).read(trip_id)


def _conditions_below(below: Node | None, own: Node) -> Node | None:
    """Give what a camp inherits; a barometer read elsewhere does not go with an own height."""
    keys = [key for key in _CONDITIONS if key != "barometer" or "camp_altitude" not in own.entries]
    return _only(below, tuple(keys))


def _only(node: Node | None, keys: tuple[str, ...]) -> Node | None:
    if node is None or not node.is_map:
        return None
    entries = {key: entry for key, entry in node.entries.items() if key in keys}
    return Node(node.place, entries, node.start, node.end, node.size, node.flow)


def not_fed(trip: Trip) -> list[Problem]:
    """Warn of people whom no meal feeds."""
    items = (item for day in trip.days for meal in day.meals for item in meal.items)
    fed = {name for item in items for name in item.eaters}
    return [
        Problem(
            person.places.record,
            "not-fed",
            f"{quoted(person.name)} gets nothing to eat on this trip",
            "add them to a meal's `for`, or take them out of the party",
            "warning",
        )
        for person in trip.party
        if person.name not in fed
    ]
