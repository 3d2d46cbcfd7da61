"""A trip: who goes, where they camp, how they travel, what they eat."""

from __future__ import annotations

import datetime
from typing import Literal, get_args

from builder.model.batch import Method
from builder.model.figure import added, largest
from builder.model.food import Composition, Hazard
from builder.model.gear import StoveTest
from builder.model.meal_times import MealTimes
from builder.model.picture import Picture
from builder.model.place import Places
from builder.model.recipe import MealName, Swap
from builder.model.review import Review
from builder.model.track import DayTrack
from builder.record import dataclass, field

Sex = Literal["female", "male"]
Wind = Literal["sheltered", "breezy", "windy"]
WaterSource = Literal["tap", "stream", "lake", "snow", "none"]
Treatment = Literal["none", "filter", "chemical", "boil"]
Near = Literal["mines", "fields", "roads", "none"]
TravelBy = Literal["walking", "paddling", "skiing", "snowshoeing", "cycling", "resting", "carried"]
Ground = Literal["road", "path", "rough", "sand", "firm-snow", "soft-snow"]
Shelter = Literal["tent", "tarp", "hut", "snow", "open"]
Units = Literal["metric", "us"]
Heat = Literal["stove", "fire", "embers"]

SEXES: tuple[str, ...] = get_args(Sex)
WINDS: tuple[str, ...] = get_args(Wind)
WATER_SOURCES: tuple[str, ...] = get_args(WaterSource)
TREATMENTS: tuple[str, ...] = get_args(Treatment)
NEARS: tuple[str, ...] = get_args(Near)
TRAVEL_BY: tuple[str, ...] = get_args(TravelBy)
GROUNDS: tuple[str, ...] = get_args(Ground)
SHELTERS: tuple[str, ...] = get_args(Shelter)
# The trees whose logs are known by their heat.
WOODS: tuple[str, ...] = (
    "alder", "ash", "beech", "birch", "douglas-fir", "fir", "larch", "maple", "oak", "pine",
    "poplar", "robinia", "spruce", "willow",
)  # fmt: skip
UNITS: tuple[str, ...] = get_args(Units)
HEATS: tuple[str, ...] = get_args(Heat)
DIETS: tuple[str, ...] = ("vegetarian", "vegan")
ENGLISH = "en"
LANGUAGES: tuple[str, ...] = (ENGLISH, "de", "nb")  # those with a catalogue of words

# From here on needs are those of a grown-up, and so is what one may carry.
GROWN_UP_YEARS = 18.0

# The longest stretch without water where a trip does not tell it, on days of travel.
DEFAULT_BETWEEN_WATER_H = 3.0

# What a meal eaten at home takes off the day's need and drinking.
HOME_SHARE: dict[str, float] = {"breakfast": 0.25, "lunch": 0.25, "dinner": 0.35, "snacks": 0.15}


@dataclass(frozen=True, slots=True)
class Person:
    """One of the party; None stands for what was not told."""

    name: str
    sex: Sex | None = None
    age_years: float = 35.0
    mass_kg: float = 70.0
    height_cm: float = 170.0
    carries_to_g: float | None = None
    own_gear_g: float | None = None
    avoids: tuple[str, ...] = ()
    pregnant: int = 0  # the third of it, 1 to 3; 0 for not
    nursing: bool = False
    places: Places = field(default_factory=Places, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class WaterPlace:
    """Where water comes from at a camp and on the way to it."""

    camp: WaterSource = "stream"
    treat: Treatment = "none"
    at_c: float | None = None
    between_water_h: float | None = None
    near: tuple[Near, ...] = ()  # nothing where it was not told


@dataclass(frozen=True, slots=True)
class Camp:
    """The conditions in which a meal is cooked."""

    altitude_m: float | None
    air_low_c: float = 5.0
    air_high_c: float = 20.0
    wind: Wind = "sheltered"
    water: WaterPlace = WaterPlace()
    barometer_hpa: float | None = None  # read there; takes the place of the altitude
    at_deg: tuple[float, float] | None = None  # latitude and longitude


@dataclass(frozen=True, slots=True)
class Travel:
    """A leg of a day's way: all of it, where there is but one."""

    by: TravelBy  # carried: in a trailer or boat, without working
    hours: float
    distance_m: float | None = None
    ascent_m: float = 0.0
    descent_m: float = 0.0
    ground: Ground = "path"
    load_g: float | None = None
    goers: tuple[str, ...] = ()  # nobody named: all go it

    @property
    def hours_on_way(self) -> float:
        """Hours on the way, working or carried; a rest has none."""
        return 0.0 if self.by == "resting" else self.hours

    @property
    def hours_of_work(self) -> float:
        """Hours of work for the body; who is carried rests."""
        return 0.0 if self.by == "carried" else self.hours_on_way


@dataclass(frozen=True, slots=True)
class Label:
    """A packet's own label, per 100 g, for food without an entry."""

    name: str
    per_100g: Composition
    allergens: tuple[str, ...] | None = None  # None where not told: never "none"
    may_contain: tuple[str, ...] = ()
    contains: tuple[str, ...] | None = None  # kinds of food, likewise
    beware: tuple[Hazard, ...] | None = None


@dataclass(frozen=True, slots=True)
class MealItem:
    """One thing to cook, or to eat as it is."""

    recipe: str | None = None
    food: str | None = None
    label: Label | None = None
    batches: tuple[tuple[str, str], ...] = ()  # ingredient id ("" for what is eaten) → batch id
    dried_by: Method | None = None
    each_g: float = 0.0
    eaters: tuple[str, ...] = ()
    chosen: tuple[str, ...] = ()  # ingredients of which the tool is to choose the packs; "" for all
    swaps: tuple[Swap, ...] = ()  # other foods in the place of ingredients
    parted: tuple[str, ...] = ()  # eaters whose portions are taken out of the pot, by a `part` step
    parted_without: tuple[str, ...] = ()  # ingredients that do not go into theirs
    without: tuple[str, ...] = ()  # ingredients that go into nobody's
    heat: Heat | None = None
    pot: str | None = None
    carried_by: str | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)

    def batch_of(self, ingredient_id: str) -> str | None:
        """Give the batch that an ingredient comes from."""
        return dict(self.batches).get(ingredient_id)


@dataclass(frozen=True, slots=True)
class Meal:
    """What is eaten together at one time of the day."""

    meal: MealName
    items: tuple[MealItem, ...]
    is_open: bool = False  # whether a dish of it is still to be chosen


@dataclass(frozen=True, slots=True)
class Day:
    """One day, from the morning to the camp of its evening."""

    number: int
    title: str
    camp: Camp
    meals: tuple[Meal, ...]
    travel: tuple[Travel, ...] = ()  # the legs of the way, in their order
    ends_home: bool = False
    home: tuple[str, ...] = ()
    without: tuple[tuple[str, tuple[str, ...]], ...] = ()  # meal → who is meant to have none
    notes: str = ""
    picture: Picture | None = None  # of the camp
    heat: Heat | None = None
    pot: str | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)

    @property
    def travel_hours(self) -> float:
        """Hours on the way of who is longest on it; a day of rest has none."""
        return (
            largest(*map(_hours_on_way, self._ways))
            if len(self._ways) > 1
            else (_hours_on_way(self._ways[0]))
        )

    @property
    def longest_way(self) -> tuple[Travel, ...]:
        """The legs of who is longest on the way."""
        return max(self._ways, key=lambda legs: float(_hours_on_way(legs)))

    @property
    def _ways(self) -> tuple[tuple[Travel, ...], ...]:
        """Each way that somebody goes: all have the same one where no leg names anybody."""
        named = dict.fromkeys(name for leg in self.travel for name in leg.goers)
        return tuple(dict.fromkeys(self.legs_of(name) for name in (*named, "")))

    def legs_of(self, name: str) -> tuple[Travel, ...]:
        """Give the legs that somebody goes, or is carried on."""
        return tuple(leg for leg in self.travel if not leg.goers or name in leg.goers)

    def hours_of(self, name: str) -> float:
        """Give the hours that somebody works on the way."""
        return added(leg.hours_of_work for leg in self.legs_of(name))

    @property
    def open_meals(self) -> tuple[MealName, ...]:
        """The meals of which a dish is still to be chosen."""
        return tuple(meal.meal for meal in self.meals if meal.is_open)

    def without_of(self, meal: str) -> tuple[str, ...]:
        """Give who is meant to have nothing of a meal."""
        return dict(self.without).get(meal, ())


def _hours_on_way(legs: tuple[Travel, ...]) -> float:
    return added(leg.hours_on_way for leg in legs)


@dataclass(frozen=True, slots=True)
class SharedGear:
    """A thing that the party carries between them."""

    name: str
    mass_g: float
    carried_by: str | None = None


@dataclass(frozen=True, slots=True)
class Fire:
    """A wood fire and what is cooked on it."""

    irons: tuple[str, ...] = ()
    wood_moisture_share: float = 0.20
    allowed: bool = True
    allowed_told: bool = True
    wood: str | None = None  # the species, where one knows it


@dataclass(frozen=True, slots=True)
class DefaultUsed:
    """Something the trip file did not tell, and what was taken instead.

    The texts may have {blanks}, which `blanks` fills: they are said in the trip's language. Beside
    them `blanks` tells whose it is, and `of` which key.
    """

    what: str
    value: str
    why: str
    blanks: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Chilled:
    """Until which meal a cool bag keeps fresh food as cold as a fridge."""

    day: int
    meal: MealName


@dataclass(frozen=True, slots=True)
class Depot:
    """Food that waits at a camp: what some days eat."""

    camp: int
    holds: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Trip:
    """Everything a user says about one trip."""

    id: str
    title: str
    party: tuple[Person, ...]
    days: tuple[Day, ...]
    start: datetime.date | None = None
    units: Units = "metric"
    language: str = ENGLISH
    stoves: tuple[str, ...] = ()  # the first one melts snow and boils drinking water
    pots: tuple[str, ...] = ()
    fuel_reserve_share: float = 0.15
    stove_test: StoveTest | None = None  # of the first stove
    fire: Fire | None = None
    mug_ml: float = 300.0
    ladle_ml: float = 120.0  # common practice, no source: such ladles hold 90 to 150 ml
    washing_ml: float = 1000.0
    gear_shared: tuple[SharedGear, ...] = ()
    start_camp: Camp | None = None
    shelter: Shelter = "tent"
    chilled_until: Chilled | None = None  # None: there is no cool bag
    notes: str = ""
    public_names: bool = False  # whether a public kit may tell who goes
    depots: tuple[Depot, ...] = ()
    together: tuple[tuple[str, ...], ...] = ()  # things that one of them carries all of
    track: str | None = None  # a file beside the trip's
    tracks: tuple[DayTrack, ...] = ()  # what it tells, by day; () where there is none
    utc_h: float | None = None
    times: MealTimes | None = None  # None: nobody told when they eat
    learned: bool = True  # whether what earlier trips taught counts
    picture: Picture | None = None
    review: Review | None = None
    defaults: tuple[DefaultUsed, ...] = ()
    places: Places = field(default_factory=Places, compare=False, repr=False)

    def person(self, name: str) -> Person:
        """Give the one of the party with a name that reading has checked."""
        return next(person for person in self.party if person.name == name)

    @property
    def batches(self) -> tuple[str, ...]:
        """The ids of the batches that meals name, each once, in the order they are first eaten."""
        named = (
            batch
            for day in self.days
            for meal in day.meals
            for item in meal.items
            for _, batch in item.batches
        )
        return tuple(dict.fromkeys(named))

    def date_of(self, day_number: int) -> datetime.date | None:
        """Give the calendar date of a day, counted from 1, where the start is told."""
        return self.start + datetime.timedelta(days=day_number - 1) if self.start else None
