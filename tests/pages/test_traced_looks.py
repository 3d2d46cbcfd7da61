"""Second looks can be followed too: from the page to the formula with this trip's numbers."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from builder.model.kit import Derivation, Kit
from builder.pages.figures import anchor
from builder.pages.trip.book import Book, write_book
from builder.pages.trip.kit_json import kit_data
from builder.planning.public import without_people
from tests.pages.conftest import TEMPLATES
from tests.pages.test_traced import found_at
from tests.planning.folders import FOODS, GEAR, Record, day, day_trip, hand, uses

ROOT: Record = {**FOODS[0], "id": "root", "name": "root", "density": "0.5 g/ml"}
GEAR_TOLD: Record = {
    **GEAR,
    "pots": [{"id": "cooker", "name": "Cooker", "holds": "4 l", "mass": "1400 g",
              "material": "aluminium", "pressure": "0.8 bar"}],
    "irons": [{"id": "iron", "name": "Iron", "mass": "1900 g", "face": "145 cm2"}],
    "packaging": [*GEAR["packaging"], {"id": "pouch", "name": "Pouch", "mass": "9 g",
                                       "barrier": "foil", "holds": "0.9 l"}],
    "dryers": [{"id": "cold", "name": "Cold box", "method": "freeze-dryer", "load": "2 kg",
                "hours": 30, "ice": "1 kg", "trays": "0.16 m2"}],
}  # fmt: skip
STEW: Record = {
    "id": "stew", "serves": 2, "cook_in": "pot", "uses": uses(root="100 g freeze-dryer"),
    "steps": [{"do": "boil", "with": ["root"], "water": "400 ml"},
              {"do": "simmer", "minutes": 20, "lid": True},
              {"do": "rest", "minutes": 10, "lid": True}],
}  # fmt: skip
TOAST: Record = {
    "id": "toast", "serves": 2, "cook_in": "iron", "uses": uses(kernel="140 g"),
    "steps": [{"do": "press", "with": ["kernel"], "each_side": "3 min"}],
}  # fmt: skip
ROOTS: Record = {
    "id": "roots", "food": "root", "method": "freeze-dryer", "done": "2031-05-01",
    "fresh": "1000 g", "dried": "410 g", "dryer": "cold", "loaded_at": "15 degC",
    "packs": {"count": 4, "in": "pouch", "absorber": True},
}  # fmt: skip


@pytest.fixture(scope="module")
def kit(tmp_path_factory: pytest.TempPathFactory) -> Kit:
    """Give a kit with a look of every kind that a page shows as a figure."""
    meals = {"dinner": [{"cook": "stew", "from": "roots"}, {"cook": "toast"}]}
    cold = {"low": "-5 degC", "high": "2 degC"}
    snow = {"camp": "snow", "treat": "boil", "between_water": "2 h"}
    trip = day_trip(
        days=[day(meals, air=cold, water=snow)],
        stove={"use": "burner", "pots": ["cooker"]},
        fire={"allowed": True, "irons": ["iron"], "wood_moisture": "20 %"},
    )
    trip["party"][0]["nursing"] = True
    folder = Path(tmp_path_factory.mktemp("looks"))
    return hand(folder, trip, [STEW, TOAST], [ROOTS], foods=[ROOT], gear=GEAR_TOLD).kit()


@pytest.fixture(scope="module")
def whole(kit: Kit) -> Book:
    return write_book(kit, TEMPLATES)


def look_figures(kit: Kit) -> dict[str, Derivation]:
    return {each.figure: each for each in kit.derivations if each.figure.startswith("looks.")}


def test_every_kind_of_look_has_its_derivation(kit: Kit) -> None:
    kinds = {re.sub(r"\.\d+", "", figure) for figure in look_figures(kit)}
    assert kinds == {
        "looks.people.protein_need_g", "looks.needs_more.kcal", "looks.standing.bare_c",
        "looks.snow.fluffy_l", "looks.oxygen.oxygen_ml", "looks.loads.of_limit",
        "looks.loads.layer_mm", "looks.loads.freezing_kwh", "looks.cold_gas.can_kpa",
        "looks.cold_gas.usable_share", "looks.irons.heats_min", "looks.pressure.minutes",
    }  # fmt: skip


def test_its_value_is_that_of_the_data(kit: Kit) -> None:
    data = kit_data(kit)
    for figure, each in look_figures(kit).items():
        assert each.value == pytest.approx(found_at(data, figure)), figure


def test_it_is_one_tap_from_the_page(kit: Kit, whole: Book) -> None:
    pages = "".join(text for path, text in whole.markdown.items() if path not in ("numbers.md",))
    linked = set(re.findall(r"numbers\.md#(how-[^)]+)\)", pages))
    assert not [figure for figure in look_figures(kit) if anchor(figure) not in linked]


def test_its_inputs_give_its_value(kit: Kit) -> None:
    def inputs(figure: str) -> list[float]:
        return [float(one.value) for one in look_figures(kit)[figure].inputs
                if not isinstance(one.value, str)]  # fmt: skip

    def value(figure: str) -> float:
        return look_figures(kit)[figure].value

    mass_g, face_cm2, kw_m2, air_c = inputs("looks.irons.0.heats_min.1")
    heat_kj = mass_g / 1000 * 0.46 * (200 - air_c)
    assert value("looks.irons.0.heats_min.1") == pytest.approx(
        heat_kj / (kw_m2 * face_cm2 / 10_000) / 60
    )
    fresh_g, load_g, ice_g, most_ice_g = inputs("looks.loads.0.of_limit")
    assert value("looks.loads.0.of_limit") == max(fresh_g / load_g, ice_g / most_ice_g)
    fresh_g, density, trays_cm2 = inputs("looks.loads.0.layer_mm")
    assert value("looks.loads.0.layer_mm") == pytest.approx(10 * fresh_g / density / trays_cm2)
    water_ml, fluffy, _ = inputs("looks.snow.0.fluffy_l")
    assert value("looks.snow.0.fluffy_l") == pytest.approx(water_ml / fluffy)
    room_ml, pack_g, moisture = inputs("looks.oxygen.0.oxygen_ml")
    solid_ml = pack_g * ((1 - moisture) / 1.5 + moisture)
    assert value("looks.oxygen.0.oxygen_ml") == pytest.approx(0.2095 * (room_ml - solid_ml))
    boils_c, air_c, minutes, tau_min = inputs("looks.standing.0.bare_c.1")
    assert value("looks.standing.0.bare_c.1") == pytest.approx(
        air_c + (boils_c - air_c) * 2.718281828459045 ** (-minutes / tau_min)
    )
    sea_min, _, boils_c = inputs("looks.pressure.0.minutes")
    assert value("looks.pressure.0.minutes") == pytest.approx(
        sea_min * 10 ** ((99.97 - boils_c) / 28)
    )


def test_it_rests_on_sources_that_are_listed(kit: Kit) -> None:
    listed = {source.id for source in kit.sources}
    for each in look_figures(kit).values():
        assert each.sources and set(each.sources) <= listed


def test_a_public_kit_keeps_no_bodys_figures(kit: Kit) -> None:
    figures = {re.sub(r"\.\d.*", "", figure) for figure in look_figures(without_people(kit))}
    assert "looks.loads" in figures
    assert not figures & {"looks.people", "looks.needs_more"}
