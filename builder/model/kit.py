"""The computed kit: everything that pages, `kit.json` and the pocket page show."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Literal, get_args

from builder.model.batch import DryTest, Method, Verdict, Weighing
from builder.model.figure import added
from builder.model.gear import StoveTest
from builder.model.learned import NOTHING_LEARNED, Learned, Reviewed
from builder.model.looks import (
    ColdGas,
    DryerLoad,
    DryingGuide,
    EnergyLook,
    IronHeat,
    KeepsHot,
    Light,
    MealLabel,
    NeedMore,
    PackOxygen,
    PersonFood,
    SnowWork,
    Soaking,
    Span,
    Sweating,
    Treating,
    UnderPressure,
)
from builder.model.meal_times import MealTimes
from builder.model.mishaps import Mishap, Turn
from builder.model.picture import Picture
from builder.model.recipe import Do, MealName, Vessel
from builder.model.since import Change
from builder.model.source import CautionText, Level, Source
from builder.model.trip import (
    DefaultUsed,
    Heat,
    Shelter,
    Travel,
    TravelBy,
    Treatment,
    Units,
    WaterSource,
    Wind,
)
from builder.record import dataclass

# What is done at camp: the recipe's own steps, and what the fire and the food ask for besides.
WorkDo = Literal[
    Do, "fire", "preheat", "measure", "drain", "keep", "hold", "part", "melt", "make-safe"
]
WorkPlace = Literal["stove", "fire", "iron", "embers"]

# How it is known that a food is not for somebody: its allergens tell it, traces are told, or
# nobody told what is in it.
How = Literal["told", "may-contain", "not-told"]

HOWS: tuple[How, ...] = get_args(How)  # the gravest first


@dataclass(frozen=True, slots=True)
class Refused:
    """Something in a meal of the trip that one person must not eat, or may have to leave."""

    day: int
    place: int  # of the meal in its day
    what: str
    eats: bool  # whether the menu gives it to them all the same
    how: How = "told"


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A meal that others have and one person does not, or a day that feeds them too little."""

    day: int
    meal: MealName | None  # None for the day as a whole
    energy_share: float  # of their own need that day
    meant: bool  # the trip says so


@dataclass(frozen=True, slots=True)
class KitPerson:
    """One of the party as the kit needs them."""

    name: str
    energy_share: float  # need over the party's mean need
    energy_need_kcal: float  # over the whole trip
    avoids: tuple[str, ...]
    refused: tuple[Refused, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    food: PersonFood | None = None  # of a mean day; these three by other methods
    energy_by_method: EnergyLook | None = None
    needs_more: tuple[NeedMore, ...] = ()


@dataclass(frozen=True, slots=True)
class Conditions:
    """Where a meal is cooked, with what follows from the height."""

    altitude_m: float
    pressure_hpa: float
    boiling_point_c: float
    time_factor: float
    air_low_c: float
    air_high_c: float
    wind: Wind
    water_source: WaterSource
    treat: Treatment
    water_c: float  # how cold the water comes into the pot
    wind_factor: float = 1.0  # what the wind leaves of a burner's heat


@dataclass(frozen=True, slots=True)
class PlannedIngredient:
    """An ingredient for the people who eat this meal."""

    id: str
    name: str
    food: str | None
    recipe: str | None
    amount_g: float
    dried_by: Method | None
    batch: str | None
    packs: int
    density_g_ml: float | None
    piece_g: float | None
    is_raw_animal: bool
    energy_kcal: float
    water_ml: float  # its own water, as carried
    steeps: bool = False  # leaves, which hot water only draws out
    chosen: bool = False  # whether the tool chose the batch


@dataclass(frozen=True, slots=True)
class Parting:
    """What is taken out of a pot before somebody's food goes in, and cooked on in another."""

    before_step: int  # of the recipe's steps, counted from 0
    heads: float
    taken_g: float  # with its water
    mass_g: float  # of its food as it is carried
    water_ml: float
    minutes: float  # that it cooks on by itself
    pot: str  # what it goes into is called
    title: str  # of the dish that it becomes


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """A step with this party's amounts and this height's minutes; 0 stands for none."""

    do: Do
    ingredients: tuple[PlannedIngredient, ...]
    water_ml: float
    minutes: float
    minutes_at_sea_level: float
    stir: bool
    lid: bool
    hot: bool
    say: str  # may name ingredients as <id>
    each_side_min: float
    presses: int
    pieces: float  # pressed pieces for all who eat
    baking_c: float = 0.0
    ember_pieces: float = 0.0  # to bake with; 0 where nobody wrote down how wide the pot is
    ember_pieces_below: float = 0.0  # of them, below the pot; the rest lies on its lid
    palm_s: float = 0.0  # how long a palm stands it above embers as hot as that
    taken_up_ml: float = 0.0  # of the water that puts dried food back
    broth_ml: float = 0.0  # of it, what stays round the food
    together: bool = False  # in one pot with portions that are taken out later, for all of them
    keeps_hot: KeepsHot | None = None  # second looks: how hot it stays where it rests,
    soaking: Soaking | None = None  # how long it soaks,
    under_pressure: UnderPressure | None = None  # and what it takes in a pressure cooker
    picture: Picture | None = None


@dataclass(frozen=True, slots=True)
class NutritionTotals:
    """What a meal, a day or a trip holds."""

    energy_kcal: float = 0.0
    protein_g: float = 0.0
    fat_g: float = 0.0
    carbohydrate_g: float = 0.0
    fibre_g: float = 0.0
    sodium_mg: float = 0.0


@dataclass(frozen=True, slots=True)
class Ladles:
    """How a pot is shared out, in half ladles."""

    ladle_ml: float
    pot_halves: int  # that it gives
    own_halves: tuple[int, ...]  # in the order of `eaters`; together no more than the pot's


@dataclass(frozen=True, slots=True)
class PlannedMeal:
    """One thing cooked or eaten, for those who eat it."""

    meal: MealName
    title: str
    recipe: str | None
    food: str | None
    eaters: tuple[str, ...]
    heads: float  # how many eat it
    plate_shares: tuple[float, ...]  # of the pot, in the order of `eaters`; sums to 1
    cook_in: Vessel | None
    conditions: Conditions
    cooked_on: Heat | None
    pot: str | None  # id
    ingredients: tuple[PlannedIngredient, ...]
    steps: tuple[PlannedStep, ...]
    mass_g: float
    packaging_g: float
    nutrition: NutritionTotals
    water_ml: float
    soak_water_ml: float
    unboiled_water_ml: float  # soaked or mixed in and not boiled afterwards
    food_water_ml: float  # drunk with the food: its own and what is cooked into it
    drain_ml: float
    potfuls: int
    presses: int
    heat_kj: float
    fuel_heat_kj: float
    wood_g: float
    minutes: float
    reach_c: float | None
    serves: float
    note: str
    place: str  # file:line of the meal in the trip
    most_ml: float = 0.0  # in the pot at once, of all potfuls together; 0 where none is heated
    ember_wood_g: float = 0.0  # of the wood, what is not burnt under a pot
    embers_min: float = 0.0  # until a fire is embers, before the minutes begin
    allergens: tuple[str, ...] = ()  # that its foods tell
    may_contain: tuple[str, ...] = ()  # traces
    not_told: tuple[str, ...] = ()  # names of what nobody told the allergens of
    parting: Parting | None = None  # what is taken out of its pot
    begins_in: str | None = None  # the title of the dish in whose pot it is cooked at first
    label: MealLabel | None = None
    irons: IronHeat | None = None  # how long embers heat what it is pressed in
    stove: str | None = None  # which of the trip's it stands on, by its key
    picture: Picture | None = None
    ladles: Ladles | None = None  # how its pot is shared out; None where a ladle tells nothing


@dataclass(frozen=True, slots=True)
class PersonDay:
    """What one person needs on one day."""

    name: str
    energy_need_kcal: float
    basal_kcal: float
    travel_kcal: float
    load_g: float
    intake_ml: float  # adequate intake of a day without travel
    rate_ml_h: float
    water_need_ml: float
    water_from_food_ml: float
    to_drink_ml: float
    travel_hours: float = 0.0  # one's own
    travel_low_kcal: float | None = None  # None where no second equation knows such a way
    travel_high_kcal: float | None = None
    protein_need_g: float = 0.0
    food_g: float = 0.0  # what is on their plates
    food_kcal: float = 0.0
    food_protein_g: float = 0.0
    sweat: Sweating | None = None


@dataclass(frozen=True, slots=True)
class WaterDay:
    """The party's water on one day."""

    cooking_ml: float
    drinks_ml: float
    drinking_ml: float
    washing_ml: float
    total_ml: float
    carry_ml: float
    treat_ml: float
    boil_ml: float = 0.0  # brought to the boil to make it safe


def is_treated(at: Conditions, water: WaterDay) -> bool:
    """Tell whether there is water that comes from no tap, and is treated or drunk untreated."""
    return at.water_source != "tap" and water.treat_ml > 0


@dataclass(frozen=True, slots=True)
class WaterHeating:
    """Water that is heated by itself, in potfuls one after the other."""

    volume_ml: float = 0.0
    pot: str | None = None  # id
    fuel_kj: float = 0.0
    minutes: float = 0.0
    hold_min: float = 0.0  # that each potful is kept boiling
    morning_ml: float = 0.0  # of the volume, what the morning needs; the evening has the rest


@dataclass(frozen=True, slots=True)
class StoveDay:
    """What one stove burns on a day."""

    stove: str  # which of the trip's, by its key
    fuel_g: float
    low_g: float  # at least, and at most
    high_g: float


@dataclass(frozen=True, slots=True)
class FuelDay:
    """Where the day's fuel goes."""

    meals_kj: float
    melting_kj: float
    boiling_water_kj: float  # water boiled to make it safe
    fuel_g: float  # of all stoves
    wood_g: float
    melting: WaterHeating = WaterHeating()
    boiling: WaterHeating = WaterHeating()  # to make it safe
    water_minutes: float = 0.0  # for both
    low_g: float = 0.0  # what of the fuel is burnt at least, and at most
    high_g: float = 0.0
    wood_low_g: float = 0.0
    wood_high_g: float = 0.0
    stoves: tuple[StoveDay, ...] = ()  # each of the trip's


@dataclass(frozen=True, slots=True)
class WorkStep:
    """One thing to do for a mealtime, counted backward from eating."""

    before_min: float  # it begins so many minutes before all eat
    minutes: float  # and takes so many
    do: WorkDo
    place: int | None  # the meal's place in its day; None for the fire, which serves them all
    ingredients: tuple[str, ...]  # ids of what goes in now
    water_ml: float  # poured in or brought to the boil now
    potful: int  # which of them; 0 where the step is done once for all
    potfuls: int
    presses: int
    on: WorkPlace | None  # what it keeps busy besides the pot
    pot: str | None  # the pot it needs
    empty_first: bool  # another dish or potful was in that pot
    stir: bool = False
    lid: bool = False
    hot: bool = False
    each_side_min: float = 0.0
    frees: bool = False  # ready, and its pot or mugs are needed by another dish before all eat
    hold_min: float = 0.0  # of water made safe: how long each potful is kept boiling
    step: int | None = None  # the recipe's step that it is, by its place; None for what none tells
    stove: str | None = None  # which of the trip's it keeps busy, by its key


@dataclass(frozen=True, slots=True)
class OrderOfWork:
    """All that is done for one mealtime, in order, so that everything is ready together."""

    meal: MealName
    start_min: float  # before eating
    steps: tuple[WorkStep, ...]


@dataclass(frozen=True, slots=True)
class KitDay:
    """One day, computed."""

    day: int
    date: datetime.date | None
    title: str
    conditions: Conditions
    ends_home: bool
    home: tuple[str, ...]
    travel_by: TravelBy | None  # of who is longest on the way, as what follows
    travel_hours: float
    distance_m: float | None
    ascent_m: float
    descent_m: float
    between_water_h: float
    meals: tuple[PlannedMeal, ...]
    people: tuple[PersonDay, ...]
    nutrition: NutritionTotals
    energy_need_kcal: float
    water: WaterDay
    fuel: FuelDay
    minutes: float  # cooking and melting
    notes: str
    legs: tuple[Travel, ...] = ()  # of the way, in their order
    orders: tuple[OrderOfWork, ...] = ()  # one for each mealtime with something to cook
    treating: Treating | None = None
    snow: SnowWork | None = None
    cold_gases: tuple[ColdGas, ...] = ()  # of each gas and stove that the cold holds back
    light: Light | None = None  # None where place, date or local time were not told
    profile: tuple[tuple[float, float], ...] = ()  # of its track: metres along, and up
    picture: Picture | None = None  # of the camp

    def person(self, name: str) -> PersonDay:
        """Give what the day is for the one of the party with a name."""
        return next(person for person in self.people if person.name == name)

    def is_treated(self, how: Treatment) -> bool:
        """Tell whether water that comes from no tap is treated so, or drunk untreated."""
        return self.conditions.treat == how and is_treated(self.conditions, self.water)


@dataclass(frozen=True, slots=True)
class ContainerCount:
    """So many containers of one size."""

    holds_g: float
    empty_g: float
    count: int


@dataclass(frozen=True, slots=True)
class KitStove:
    """One of the trip's stoves."""

    id: str  # of several that are alike also which of them
    name: str
    efficiency_share: float
    likely_g: float  # of its fuel


@dataclass(frozen=True, slots=True)
class KitFuel:
    """The fuel to take, for all stoves that burn it."""

    id: str
    name: str
    stove: str  # the name of the first of them
    energy_mj_kg: float
    likely_g: float
    reserve_share: float
    carry_g: float
    containers: tuple[ContainerCount, ...]
    efficiency_share: float = 0.0
    low_g: float = 0.0  # the range of what is likely burnt, by the fuel and by the wind
    high_g: float = 0.0
    test: StoveTest | None = None  # one's own, which replaced the listed efficiency
    no_lid_low_g: float = 0.0  # what pots without their lids would take of it
    no_lid_high_g: float = 0.0
    stoves: tuple[KitStove, ...] = ()  # all that burn it


@dataclass(frozen=True, slots=True)
class DryingRun:
    """A drying curve through the weighings of a run, and when it will be dry by it."""

    model: Literal["lewis", "page"]
    rate_per_min: float
    exponent: float
    target_g: float
    dry_after_min: float
    earliest_min: float
    latest_min: float
    weighed: tuple[Weighing, ...]
    curve: tuple[Weighing, ...]  # for drawing


@dataclass(frozen=True, slots=True)
class KitBatch:
    """A batch that the trip's meals name, judged."""

    id: str
    name: str
    method: Method
    food: str | None
    recipe: str | None
    fresh_g: float | None
    dried_g: float | None
    listed_water_share: float
    water_share: float  # of the fresh food, corrected where the weighings ask for it
    water_removed_g: float
    residual_moisture: float
    dry_limit: float
    dry_enough: bool
    target_g: float | None  # the weight at which this load is dry enough
    to_go_g: float
    verdict: Verdict
    act: str  # the one thing to do with it; empty where there is nothing to do
    dried_on: datetime.date | None
    planned: bool
    best_before: datetime.date | None
    months: float | None
    reasons: tuple[str, ...]  # why it keeps that long
    packs_used: int
    packs_left: int
    pack_g: float
    packaging: str | None
    notes: tuple[str, ...]
    residual_low: float = 0.0  # what the doubt in the listed water leaves open
    residual_high: float = 0.0
    run: DryingRun | None = None
    water_activity: float | None = None  # only where an isotherm of the food is known
    water_activity_low: float | None = None
    water_activity_high: float | None = None
    loaded_at_c: float | None = None  # how cold the load went into the freeze dryer
    fresh_name: str = ""  # of what went into the dryer
    kept_at_told: bool = True  # whether its date rests on a warmth that somebody told
    planned_for: datetime.date | None = None
    sublimation_kwh: float = 0.0  # the least that a freeze dryer takes; 0 for other methods
    tests: tuple[DryTest, ...] = ()  # that were done to prove it dry
    in_dryer: bool = False  # its run has begun and not ended
    water_back_ml: float = 0.0  # what is poured on all of it
    taken_up_ml: float = 0.0  # of that
    oxygen: PackOxygen | None = None
    load: DryerLoad | None = None

    @property
    def failed(self) -> bool:
        """Whether nobody is to eat of it as it is; what is in the dryer may still get dry."""
        return self.verdict == "discard" or (self.verdict == "not-dry" and not self.in_dryer)

    @property
    def still_to_dry(self) -> bool:
        """Whether it is planned, and in a way that gives food fit to eat."""
        return self.planned and not self.failed and not self.in_dryer


@dataclass(frozen=True, slots=True)
class Carried:
    """One thing in one person's pack."""

    what: str
    mass_g: float
    kind: str  # "food", "fuel", "gear", "water" or "own"
    meal: tuple[int, int] | None = None  # of food: its day, and its meal's place in that day
    from_camp: int | None = None  # the day at whose camp it waits; None for what comes from home
    carried_by: str | None = None  # by whom, where the trip tells
    known_as: tuple[str, ...] = ()  # what the trip calls it where things go together


@dataclass(frozen=True, slots=True)
class Utensil:
    """One thing that dishes are cooked in or with."""

    name: str
    dishes: tuple[str, ...]
    carried_by: str | None  # None where the trip's gear does not name it


@dataclass(frozen=True, slots=True)
class Utensils:
    """What the dishes of a trip are cooked in and with."""

    all: tuple[Utensil, ...]
    not_told: tuple[str, ...]  # dishes whose recipes do not tell what else they need


@dataclass(frozen=True, slots=True)
class KitDepot:
    """Food that waits at a camp."""

    camp: int  # the day of it
    holds: tuple[int, ...]  # whose food it is, by day
    mass_g: float  # with its packets


@dataclass(frozen=True, slots=True)
class PersonLoad:
    """What one person carries on the first morning."""

    name: str
    total_g: float
    limit_g: float
    of_limit: float
    carries: tuple[Carried, ...]
    by_day_g: tuple[float, ...] = ()  # each morning, own gear too
    food_left_g: tuple[float, ...] = ()  # of it food, with the packets of what is eaten


@dataclass(frozen=True, slots=True)
class Weights:
    """The party's load."""

    food_g: float
    packaging_g: float
    fuel_g: float
    gear_g: float
    water_most_g: float
    people: tuple[PersonLoad, ...]
    # Each morning: food, fuel with its containers, and the whole load; what waits at a camp apart.
    food_left_g: tuple[float, ...]
    fuel_left_g: tuple[float, ...]
    by_day_g: tuple[float, ...]
    depots: tuple[KitDepot, ...] = ()


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one must act on a caution; what is left out, it does not hang on."""

    meal: tuple[int, int] | None = None  # its day, and its place in that day
    step: int | None = None  # of that meal's steps, counted from 0
    person: str | None = None  # by name
    batch: str | None = None  # by id: at home, in the drying log
    pack: str | None = None  # in the packs, by the kind of Carried: "food" (of the meal), "fuel" …
    days: tuple[int, ...] = ()  # on these days, whatever is eaten


NOWHERE = Spot()


@dataclass(frozen=True, slots=True)
class KitCaution:
    """A safety sentence with the reason it is shown."""

    id: str
    level: Level
    title: str
    text: str
    because: str
    where: str  # page of the kit, such as "day-2" or "cook/bean-pot"
    sources: tuple[str, ...]
    at: Spot = NOWHERE
    aloud: bool = False  # read to everybody before leaving, and not of this trip's own making
    # The text with the other system's quantities, alone and in brackets; "" where it holds none.
    otherwise: str = ""
    in_both: str = ""


@dataclass(frozen=True, slots=True)
class ShoppingLine:
    """Something that no batch covers; for what is still to be dried, the fresh weight."""

    food: str
    name: str
    mass_g: float
    dry_by: Method | None
    dried_g: float
    used_in: tuple[str, ...]
    batch: str | None = None  # the planned batch it is for, whole, whoever else eats of it
    dry_on: datetime.date | None = None  # the day that batch is planned for
    buy_g: float = 0.0  # as bought: with peel, stones and cores, in whole packets
    packets: int = 0  # 0 where nobody told their size
    packet_g: float = 0.0
    shelf: str = ""  # where it stands in the shop; empty where nobody told

    @property
    def to_dry(self) -> bool:
        """Whether it goes into a dryer: by itself, or cooked into a whole meal."""
        return self.batch is not None or self.dry_by is not None


@dataclass(frozen=True, slots=True)
class StockProposal:
    """A batch in stock that could cover an ingredient no batch is named for."""

    food: str
    name: str
    batch: str
    mass_g: float
    best_before: datetime.date | None
    packs: int = 0
    kept_at_told: bool = True


@dataclass(frozen=True, slots=True)
class ComingFood:
    """What a batch that is in the dryer, or planned, will cover though no meal names it."""

    food: str
    name: str
    batch: str
    mass_g: float
    in_dryer: bool
    planned_for: datetime.date | None = None


@dataclass(frozen=True, slots=True)
class Kit:
    """All that was computed for one trip."""

    id: str
    title: str
    start: datetime.date | None
    units: Units
    language: str
    mug_ml: float
    shelter: Shelter
    notes: str
    party: tuple[KitPerson, ...]
    days: tuple[KitDay, ...]
    nutrition: NutritionTotals
    energy_need_kcal: float
    fuels: tuple[KitFuel, ...]  # that of the first stove first
    wood_g: float
    irons: tuple[str, ...]
    pots: tuple[tuple[str, str, float], ...]  # id, name, ml it takes at once
    batches: tuple[KitBatch, ...]
    weights: Weights
    cautions: tuple[KitCaution, ...]
    standing: CautionText  # the sentence that every kit carries
    shopping: tuple[ShoppingLine, ...]
    proposals: tuple[StockProposal, ...]
    sources: tuple[Source, ...]
    defaults: tuple[DefaultUsed, ...]
    wood_low_g: float = 0.0
    wood_high_g: float = 0.0
    wood_by_species_g: Span | None = None  # None where no pot hangs over it
    density_kcal_g: float = 0.0  # of all food
    bags_swell_times: float = 1.0  # air closed in at sea level, at the highest camp
    guides: tuple[DryingGuide, ...] = ()  # how foods of the trip are dried in warm air
    review: Reviewed | None = None  # what was, against what was planned before learning
    learned: Learned = NOTHING_LEARNED  # what earlier trips taught, and the plan counts with
    mishaps: tuple[Mishap, ...] = ()  # what if it goes wrong
    times: MealTimes | None = None  # when they eat, where the trip tells it
    utensils: Utensils = Utensils((), ())
    chilled_until: tuple[int, MealName] | None = None  # day and meal; None: there is no cool bag
    chilled: tuple[tuple[int, int], ...] = ()  # what goes into it: day, and the meal's place there
    turns: tuple[Turn, ...] = ()  # cautions that camps which are otherwise would bring
    since: tuple[Change, ...] | None = None  # what changed since a kit that somebody has
    figures: frozenset[str] = frozenset()  # addresses in kit.json that a page of numbers tells
    folders: tuple[str, ...] = ()  # of the content, as people are shown them; no kit tells them
    coming: tuple[ComingFood, ...] = ()  # what loads that no meal names will cover
    picture: Picture | None = None
    public: bool = False  # made for everybody: nothing personal, and no sources to start from

    @property
    def fuel(self) -> KitFuel | None:
        """What the first stove burns; None without a stove."""
        return next(iter(self.fuels), None)

    @property
    def likely_fuel_g(self) -> float:
        """What all stoves are likely to burn."""
        return added(each.likely_g for each in self.fuels)

    def fuel_of(self, stove: str | None) -> KitFuel | None:
        """Give what one of the trip's stoves burns, by its key; None for no stove."""
        return next(
            (each for each in self.fuels if any(one.id == stove for one in each.stoves)), None
        )

    @property
    def stove_names(self) -> Mapping[str, str]:
        """The names of the stoves by their keys; of a trip with one there is nothing to tell."""
        stoves = [one for each in self.fuels for one in each.stoves]
        return {each.id: each.name for each in stoves} if len(stoves) > 1 else {}
