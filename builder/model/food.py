"""A food and its composition."""

from __future__ import annotations

from typing import Literal, get_args

from builder.model.place import Places
from builder.record import dataclass, field

FoodKind = Literal[
    "fruit", "vegetable", "legume", "grain", "nut", "meat", "poultry", "fish", "egg", "dairy",
    "fat", "sugar", "herb", "drink", "meal", "other",
]  # fmt: skip
FoodState = Literal["raw", "cooked", "dried", "ready"]
Cut = Literal["whole", "minced"]
Hazard = Literal[
    "honey", "kidney-bean", "wild-mushroom", "mushroom-gathered", "whole-nut", "choking", "sprouts",
    "garlic-in-oil", "home-canned", "liver", "raw-milk", "soft-cheese", "cured-raw", "raw-fish",
    "game", "freshwater-fish", "shellfish", "wild-plant", "caffeine", "alcohol",
    "infant-formula",
]  # fmt: skip

# The foods whose sorption isotherm is known well enough to tell a water activity.
SorptionGroup = Literal["starchy", "root-vegetable", "sweet-fruit", "lean-meat", "mushroom"]

# The foods of which it is known how long they take in warm air, and whether they are blanched.
DryAs = Literal[
    "apple", "apricot", "banana", "peach", "pear", "broccoli", "cabbage", "carrot", "celery",
    "courgette", "garlic", "green-bean", "leaf-vegetable", "mushroom", "onion", "pea", "pepper",
    "potato", "sweetcorn", "tomato",
]  # fmt: skip

KINDS: tuple[str, ...] = get_args(FoodKind)
STATES: tuple[str, ...] = get_args(FoodState)
CUTS: tuple[str, ...] = get_args(Cut)
HAZARDS: tuple[str, ...] = get_args(Hazard)
SORPTION_GROUPS: tuple[str, ...] = get_args(SorptionGroup)
DRY_AS: tuple[str, ...] = get_args(DryAs)

# Regulation (EU) No 1169/2011, Annex II: the fourteen that a label must name.
ALLERGENS: tuple[str, ...] = (
    "cereals-gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts",
    "celery", "mustard", "sesame", "sulphites", "lupin", "molluscs",
)  # fmt: skip

FLESH_KINDS = frozenset({"meat", "poultry", "fish"})
EGG_AND_DAIRY = frozenset({"egg", "dairy"})  # warm air dries them too slowly
MEAT_KINDS = frozenset({"meat", "poultry"})  # whoever eats no meat eats no chicken either
# Kinds that say nothing of what is inside: lard as a fat, gelatine in a sweet, beef in a broth.
ANYTHING = frozenset({"meal", "other", "fat", "sugar", "drink"})
ANIMAL_KINDS = FLESH_KINDS | EGG_AND_DAIRY
# Goes by its centre temperature instead of a cooking-time factor.
BY_CENTRE_TEMPERATURE = FLESH_KINDS | {"egg"}


@dataclass(frozen=True, slots=True)
class Composition:
    """What 100 g hold; `energy_kcal` is None where the label or table tells none."""

    water_g: float = 0.0
    energy_kcal: float | None = None
    protein_g: float = 0.0
    fat_g: float = 0.0
    carbohydrate_g: float = 0.0
    fibre_g: float = 0.0
    sodium_mg: float = 0.0
    ash_g: float = 0.0
    alcohol_g: float = 0.0
    caffeine_mg: float | None = None  # None where nobody told it

    @property
    def water_share(self) -> float:
        """The share of water, 0…1 of the whole."""
        return self.water_g / 100


@dataclass(frozen=True, slots=True)
class Perishable:
    """How long a fresh food may be out of the cold, in air below this."""

    hours: float
    below_c: float


@dataclass(frozen=True, slots=True)
class Food:
    """Something edible with a known composition per 100 g."""

    id: str
    name: str
    kind: FoodKind
    state: FoodState
    per_100g: Composition
    density_g_ml: float | None = None
    piece_g: float | None = None
    allergens: tuple[str, ...] | None = None  # None where nobody told them: never "none"
    may_contain: tuple[str, ...] = ()  # traces
    allergen_source: tuple[str, ...] = ()
    contains: tuple[str, ...] | None = None  # kinds; None where not told: never "none"
    beware: tuple[Hazard, ...] | None = None  # None where name and id decide
    perishable: Perishable | None = None  # None: as its kind has it
    cut: Cut | None = None
    game: bool = False
    sorption: SorptionGroup | None = None
    dry_as: DryAs | None = None
    keeps_months: float | None = None  # dried, at 15.6 °C, where its kind's months are not right
    spread_share: float | None = None  # one standard deviation of its listed water
    takes_up_share: float | None = None  # of what warm air dried out, where its kind's is not right
    dryer_hours: float | None = None  # in a dryer of warm air, where the tables know it
    refuse_share: float | None = None  # peeled, stoned or cored away
    price_per_kg: float | None = None  # as bought
    dried_price_per_kg: float | None = None  # as shops sell it dried
    sold_in_g: float | None = None  # what the shop's packet holds
    shelf: str = ""  # where it stands in the shop, such as "dry goods"
    source: str | None = None
    ndb: str | None = None
    places: Places = field(default_factory=Places, compare=False, repr=False)

    @property
    def kinds(self) -> frozenset[str]:
        """Its own kind and those of what it is made of."""
        return frozenset((self.kind, *(self.contains or ())))

    @property
    def is_anything(self) -> bool:
        """Whether nobody told what kinds of food are in it."""
        return self.kind in ANYTHING and self.contains is None

    @property
    def is_raw_animal(self) -> bool:
        """Whether it is raw meat, poultry, fish or egg."""
        return self.state == "raw" and self.kind in BY_CENTRE_TEMPERATURE
