"""One mistake in a file, of every kind of file: what an editor must underline stands in «»."""

from __future__ import annotations

from builder.record import dataclass
from tests.reading.folder_builder import BEAN_POT, BEANS_IN_MAY, TRIP

FOOD = """\
id: plums
name: Plums
kind: fruit
state: raw
per_100g: {water: 87 g, energy: 46 kcal, carbohydrate: 11 g}
"""
STOVE = "stoves: [{id: a, name: A, burns: gas, power: 2 kW, efficiency: 50 %, mass: 75 g}]\n"
DRYER = "dryers: [{id: a, name: A, method: dehydrator, load: 3 kg, hours: 12}]\n"
SHEET = "sheets: [{id: a, page: a4, columns: 3, rows: 8, width: 70 mm, height: 37 mm}]\n"
CAUTION = "id: raw-meat\nlevel: danger\ntitle: Cook it\ntext: Cook it through.\n"
SOURCE = "- id: leaflet\n  title: A leaflet\n  year: 2020\n  read: false\n"
HOME = "people: [{name: Ash, age: 34}]\n"


@dataclass(frozen=True, slots=True)
class Spoiled:
    """A file of a content folder with one mistake, and from where to where that stands."""

    path: str
    text: str
    start: int
    end: int

    @property
    def point(self) -> tuple[int, int]:
        """Line and column of the mistake, counted from 1."""
        before = self.text[: self.start]
        return before.count("\n") + 1, self.start - before.rfind("\n")

    def __str__(self) -> str:
        """Say what is wrong, for the name of a test."""
        return f"{self.path.partition('/')[0]}: {self.text[self.start : self.end]}"


def _spoil(path: str, text: str, old: str, new: str) -> Spoiled:
    assert text.count(old) == 1, (path, old)
    marked = text.replace(old, new)
    start, end = marked.index("«"), marked.index("»") - 1
    return Spoiled(path, marked.replace("«", "").replace("»", ""), start, end)


def _rows(path: str, text: str, *changes: tuple[str, str]) -> list[Spoiled]:
    return [_spoil(path, text, old, new) for old, new in changes]


_LAST_OF_BATCH = "packs: {count: 3, in: zip-bag}\n"
_LAST_OF_TRIP = "      snacks: {eat: rice, each: 30 g}\n"
_SERVE = "  - {do: serve, say: Split <beans> by eye}\n"

SPOILED = [
    *_rows(
        "batches/log.yaml",
        BEANS_IN_MAY,
        ("fresh: 900 g", "fresh: «900»"),
        ("fresh: 900 g", "fresh: «1.000 g»"),
        ("method: dehydrator", "method: «dehydrater»"),
        ("done: 2031-05-04", "done: «4.5.2031»"),
        ("count: 3", "count: «three»"),
        ("packs:", "«pack»:"),
        ("count: 3", "count: 3, «off»: 100 g"),
        ("dried: 340 g\n", "dried: 340 g\n«recipe»: bean-pot\n"),
        ("dried: 340 g\n", "dried: 340 g\n«ice»: 560 g\n"),
        ("dried: 340 g\n", "dried: 340 g\n«planned»: 2031-05-05\n"),
        ("count: 3", "count: 3, «of»: 100 g"),
        (_LAST_OF_BATCH, "heated: {to: 74 degC, when: «during»}\n"),
        (_LAST_OF_BATCH, "tests: [constant, «snapp»]\n"),
        (_LAST_OF_BATCH, "kept_at: [{at: «15», until: 2031-06-01}, {at: 5 degC}]\n"),
        (_LAST_OF_BATCH, "weighings:\n  - at: 3 h\n    mass: «800»\n"),
    ),
    _spoil("batches/log.yaml", BEANS_IN_MAY.replace("dried: 340 g\n", ""), "id:", "«id»:"),
    _spoil(
        "batches/list.yaml", "- {food: beans, dryer: d, started: x, fresh: 1 kg}\n", "x", "«14 o»"
    ),
    *_rows(
        "recipes/bean-pot.yaml",
        BEAN_POT,
        ("cook_in: pot", "cook_in: «pan»"),
        ("water: auto", "water: «300»"),
        ("do: soak", "do: «soaking»"),
        ("do: serve", "do: serve, «minutes»: 3"),
        ("amount: 80 g", "amount: «eighty»"),
        ("dried_by: dehydrator", "dried_by: «dehydrater»"),
        ("food: rice", "food: rice, «recipe»: bean-pot"),
        ("{do: simmer, minutes: 8}", "«{»do: simmer}"),
        (_SERVE, f"{_SERVE}«reached»: 74 degC\n"),
        (_SERVE, f"{_SERVE}meal: [«supper»]\n"),
        (_SERVE, "  - do: press\n    each_side: «4»\n"),
    ),
    _spoil("recipes/bean-pot.yaml", BEAN_POT.replace("serves: 2\n", ""), "id:", "«id»:"),
    *_rows(
        "trips/tarrow.yaml",
        TRIP,
        ("camp_altitude: 640 m", "camp_altitude: «640»"),
        ("dinner:", "«supper»:"),
        ("each: 30 g", "each: «30»"),
        ("{eat: rice, each: 30 g}", "«{»eat: rice}"),
        ("{cook: bean-pot, from: beans-may}", "«{»from: beans-may}"),
        ("cook: bean-pot", "eat: rice, each: 30 g, «cook»: bean-pot"),
        ("cook: bean-pot", "cook: bean-pot, heat: «oven»"),
        ("sex: female", "sex: «woman»"),
        ("{name: Ash, ", "«{»"),
        ("    meals:", "    water: {camp: «brook»}\n    meals:"),
        ("    meals:", "    travel: {by: «kayaking»}\n    meals:"),
        ("    meals:", "    travel: [{by: walking}, {by: «swimming»}]\n    meals:"),
        ("    meals:", "    air: {low: 4 degC, «hi»: 16 degC}\n    meals:"),
        (_LAST_OF_TRIP, f"{_LAST_OF_TRIP}start: «2031-9-4»\n"),
        (_LAST_OF_TRIP, f"{_LAST_OF_TRIP}gear_shared: [{{name: Tarp, mass: «780»}}]\n"),
        (_LAST_OF_TRIP, f"{_LAST_OF_TRIP}review: {{fuel_used: «310»}}\n"),
        (_LAST_OF_TRIP, f"{_LAST_OF_TRIP}times: {{breakfast: «noon»}}\n"),
        (_LAST_OF_TRIP, f"{_LAST_OF_TRIP}depots: [{{camp: 1, holds: «2»}}]\n"),
    ),
    _spoil("trips/tarrow.yaml", TRIP.replace("title: Tarrow Tops\n", ""), "party:", "«party»:"),
    *_rows(
        "home.yaml",
        HOME,
        ("age: 34", "age: «old»"),
        (HOME, "«person»: [Ash]\n"),
        (HOME, 'free: {«friday»: "17:00-22:00"}\n'),
        (HOME, "free: {fri: «17-22»}\n"),
        (HOME, "electricity: «0.31»\n"),
        (HOME, "batch: {kept_at: «15»}\n"),
        (HOME, "language: «english»\n"),
    ),
    *_rows(
        "cautions/own.yaml",
        CAUTION,
        ("level: danger", "level: «high»"),
        ("text: Cook it through.", "text: «[»Cook it through.]"),
        ("text: Cook it through.\n", "text: Cook it through.\n«txt»: Twice.\n"),
    ),
    _spoil("cautions/own.yaml", CAUTION.replace("title: Cook it\n", ""), "id:", "«id»:"),
    *_rows(
        "sources.yaml",
        SOURCE,
        ("year: 2020", "year: «soon»"),
        ("read: false", "read: «maybe»"),
        ("read: false", "read: false\n  «link»: x"),
        ("id: leaflet", "id: «A leaflet»"),
    ),
    *_rows(
        "gear/own.yaml",
        STOVE,
        ("power: 2 kW", "power: «2600»"),
        ("efficiency: 50 %", "efficiency: «50»"),
        ("stoves:", "«stove»:"),
    ),
    _spoil("gear/own.yaml", DRYER, "method: dehydrator", "method: «dryer»"),
    _spoil("gear/own.yaml", SHEET, "page: a4", "page: «a5»"),
    *_rows(
        "foods/own.yaml",
        FOOD,
        ("kind: fruit", "kind: «fruits»"),
        ("water: 87 g", "water: «87»"),
        ("state: raw\n", "state: raw\nallergens: [«gluten»]\n"),
        ("state: raw\n", "state: raw\nbeware: [«livers»]\n"),
        ("state: raw\n", "state: raw\nperishable: «{»below: 20 degC}\n"),
    ),
]
