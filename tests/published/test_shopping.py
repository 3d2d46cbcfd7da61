"""What to buy against the refuse of a food table."""

from __future__ import annotations

from builder.formulas.shopping import as_bought_g

from .published import Published, check, published

# NDB number and food, refuse in percent as the table lists it, grams to eat, grams to buy: worked
# out by hand, half of the last digit open.
_FOODS = (
    ("11124, carrot", 11, 1000.0, 1123.6),
    ("11304, peas in pod", 62, 1000.0, 2631.6),
    ("09266, pineapple", 49, 1000.0, 1960.8),
    ("09040, banana", 36, 500.0, 781.25),
    ("11282, onion", 10, 450.0, 500.0),
    ("11352, potato, peeled", 25, 300.0, 400.0),
)


@published(
    *(
        Published(
            (edible_g, percent / 100),
            bought_g,
            0.05,
            "g",
            "usda-sr28",
            f"{food}, {percent} % refuse",
            "calculated",
        )
        for food, percent, edible_g, bought_g in _FOODS
    )
)
def test_what_is_bought_agrees_with_the_refuse_of_the_table(row: Published) -> None:
    check(row, as_bought_g)
