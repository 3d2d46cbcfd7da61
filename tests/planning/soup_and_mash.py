"""Two dishes for two at 1000 m, and the heat that each takes, worked out on paper.

Water boils there at some 96.7 °C, by an independent library; the stream has 10 °C.
"""

from __future__ import annotations

from builder.model.kit import Kit, OrderOfWork

from .folders import Record, boils_c, uses

BOILS_C = boils_c(1000)


def dish(name: str, water_ml: float, minutes: float = 0, **more: object) -> Record:
    """Give a recipe for two: 100 g of kernel boiled in so much water, then simmered."""
    steps: list[Record] = [{"do": "boil", "with": ["kernel"], "water": f"{water_ml} ml"}]
    if minutes:
        steps.append({"do": "simmer", "minutes": minutes})
    return {
        "id": name,
        "serves": 2,
        "cook_in": "pot",
        "uses": uses(kernel="100 g"),
        "steps": steps,
        **more,
    }


SOUP, MASH = dish("soup", 500), dish("mash", 700)


def heat_kj(water_ml: float, pot_g: float, pot_kj_kg_k: float) -> float:
    """Give what water, 100 g of food at 0.4 and one pot take to boil."""
    kelvin = BOILS_C - 10
    return (water_ml + 0.4 * 100) / 1000 * 4.186 * kelvin + pot_g / 1000 * pot_kj_kg_k * kelvin


# 500 and 700 ml with 70 ml of food: both go into the small one, 800 ml, aluminium, where nothing
# else is asked for.
SOUP_KJ, MASH_KJ = heat_kj(500, 200, 0.897), heat_kj(700, 200, 0.897)


def order_of(kit: Kit) -> OrderOfWork:
    """Give the one order of work of the first day."""
    (order,) = kit.days[0].orders
    return order
