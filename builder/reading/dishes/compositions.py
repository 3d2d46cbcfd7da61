"""The composition of 100 g of a food, of a food's own entry or of a packet's label."""

from __future__ import annotations

from typing import Annotated

from builder.model.food import Composition
from builder.problems import Severity
from builder.reading.checks.eaten import untraced
from builder.reading.declared.declaring import Check, Here, Record, key
from builder.reading.declared.measures import Quantity
from builder.reading.notes import Amiss, refuse

# The design's bounds: what the parts of 100 g may add up to before it is a slip.
PARTS_ERROR_ABOVE_G = 110.0
PARTS_WARNING_ABOVE_G = 104.0
PARTS_WARNING_BELOW_G = 90.0

_SALT_G_PER_MG_SODIUM = 2.5 / 1000


def _fibre_is_part_of_carbohydrate(here: Here) -> None:
    carbohydrate_g = here.above.get("carbohydrate")
    if carbohydrate_g is not None and here.value > carbohydrate_g + 0.5:
        refuse(
            "fibre",
            f"{here.value:g} g of fibre are more than the "
            f"{carbohydrate_g:g} g of carbohydrate, which counts fibre in",
            "write carbohydrate with its fibre",
        )


class WrittenComposition(Record, title="composition"):
    """What 100 g hold; energy may be left out where protein, fat and carbohydrate tell it."""

    water: Annotated[float, Quantity("mass_g")] = key("Water.", default="0 g", example="65.7 g")
    energy: Annotated[float | None, Quantity("energy_kcal")] = key(
        "Energy; left out, it follows from protein, fat, carbohydrate and fibre.",
        example="132 kcal",
    )
    protein: Annotated[float, Quantity("mass_g")] = key("Protein.", default="0 g", example="8.9 g")
    fat: Annotated[float, Quantity("mass_g")] = key("Fat.", default="0 g", example="0.5 g")
    carbohydrate: Annotated[float, Quantity("mass_g")] = key(
        "Carbohydrate, fibre counted in.", default="0 g", example="23.7 g"
    )
    fibre: Annotated[float, Quantity("mass_g"), Check(_fibre_is_part_of_carbohydrate)] = key(
        "Fibre.", default="0 g", example="8.7 g"
    )
    sodium: Annotated[float, Quantity("sodium_mg")] = key(
        "Sodium; salt is 2.5 times as much.", default="0 mg", example="1 mg"
    )
    ash: Annotated[float, Quantity("mass_g")] = key(
        "Minerals; left out, the salt stands for them.", default="0 g", example="1.5 g"
    )
    alcohol: Annotated[float, Quantity("mass_g")] = key("Alcohol.", default="0 g", example="0 g")

    def composition(self) -> Composition:
        """Give what planning reckons with."""
        return Composition(
            water_g=self.water,
            energy_kcal=self.energy,
            protein_g=self.protein,
            fat_g=self.fat,
            carbohydrate_g=self.carbohydrate,
            fibre_g=self.fibre,
            sodium_mg=self.sodium,
            ash_g=self.ash,
            alcohol_g=self.alcohol,
        )


def odd_sum(of: Composition, all_told: bool = True) -> tuple[Amiss, Severity] | None:
    """Compare the sum of the parts with 100 g; salt stands for ash where ash is not told.

    A label need not tell them all. Where they do not add up, the energy cannot be held against
    them.
    """
    of = untraced(of)
    mineral_g = of.ash_g or of.sodium_mg * _SALT_G_PER_MG_SODIUM
    total_g = of.water_g + of.protein_g + of.fat_g + of.carbohydrate_g + of.alcohol_g + mineral_g
    says = f"the parts of 100 g add up to {total_g:.1f} g"
    if total_g > PARTS_ERROR_ABOVE_G:
        mend = "check each figure; carbohydrate counts fibre in, once"
        return Amiss("parts-sum", says, mend), "error"
    if total_g > PARTS_WARNING_ABOVE_G or (all_told and total_g < PARTS_WARNING_BELOW_G):
        mend = "check water, protein, fat and carbohydrate"
        return Amiss("parts-sum", says, mend), "warning"
    return None
