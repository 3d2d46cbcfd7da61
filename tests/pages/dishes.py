"""Dishes that tests cook: a stew, pockets from the iron, tea, and the batch they take."""

from __future__ import annotations

from tests.planning.folders import Record, uses

STEW: Record = {
    "id": "stew", "serves": 2, "cook_in": "pot",
    "uses": uses(pulse="160 g dehydrator", kernel="200 g", oil="20 g"),
    "steps": [
        {"do": "soak", "with": ["pulse"], "water": "auto", "minutes": 10},
        {"do": "boil", "with": ["kernel", "oil"], "water": "1500 ml"},
        {"do": "simmer", "minutes": 10},
    ],
}  # fmt: skip
POCKETS: Record = {
    "id": "pockets", "serves": 2, "cook_in": "iron", "uses": uses(kernel="200 g"),
    "steps": [
        {"do": "mix", "with": ["kernel"], "water": "100 ml"},
        {"do": "press", "each_side": "3 min", "pieces": 2},
    ],
}  # fmt: skip
TEA: Record = {
    "id": "tea", "serves": 1, "cook_in": "mug", "uses": uses(tea_leaf="2 g"),
    "steps": [{"do": "soak", "with": ["tea-leaf"], "water": "250 ml", "hot": True, "minutes": 3}],
}  # fmt: skip
PULSE: Record = {
    "id": "pulse-box", "food": "pulse", "method": "dehydrator", "done": "2031-05-01",
    "fresh": "1000 g", "dried": "430 g", "packs": {"count": 4, "in": "foil"},
}  # fmt: skip
