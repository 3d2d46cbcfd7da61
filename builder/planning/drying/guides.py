"""How the foods of a trip are dried in warm air, and what loads ask of their dryers."""

from __future__ import annotations

from collections.abc import Sequence

from builder.formulas.freeze_drying import freezing_heat_kj, layer_mm, load_of_limit
from builder.formulas.freeze_drying import hours_range as ice_gone_range_h
from builder.formulas.heat_drying import (
    AIR_C,
    BOIL_MIN,
    HOURS,
    IN_HALVES,
    KIND_HOURS,
    NOT_BLANCHED,
    PIECES_MM,
    STEAM_MIN,
    WHOLE,
    Row,
)
from builder.formulas.safety import heated_before_drying_c
from builder.model.batch import HEAT_METHODS, Method
from builder.model.content import Content
from builder.model.figure import named
from builder.model.food import FLESH_KINDS
from builder.model.kit import ShoppingLine
from builder.model.looks import DryerLoad, DryingGuide, Form, Span
from builder.planning.batches import Judged
from builder.planning.foods import Substance, substance_named
from builder.planning.stock import DRYING_ICE_C, KJ_PER_KWH
from builder.planning.tracing import look_up, work, work_range

_HEATED_BY = ("fsis-jerky", "umn-jerky")
# Where that is from which holds for many foods, by what it is about.
NOTES_BY: dict[str, tuple[str, ...]] = {
    "warm-air": ("common-practice",),
    "vegetable": (
        "csu-drying-vegetables",
        "extension-blanching",
    ),
    "fruit": ("nchfp-packaging", "usu-conditioning"),
    "jerky": ("fsis-jerky", "umn-jerky"),
    "sun": ("nchfp-packaging", "uga-drying", "vce-sun"),
}
_BLANCHED_OR_NOT_BY = "extension-blanching"


def drying_guides(
    lines: Sequence[ShoppingLine], batches: Sequence[Judged], content: Content
) -> tuple[DryingGuide, ...]:
    """Give a guide for each food that is still to dry or was dried in warm air, told once."""
    dried: list[tuple[Substance, Method, bool]] = [
        (substance_named(line.food, content), line.dry_by, False)
        for line in lines
        if line.dry_by in HEAT_METHODS and line.batch is None
    ]
    dried += [
        (each.substance, each.batch.method, each.batch.jerky)
        for each in batches
        if each.batch.method in HEAT_METHODS
    ]
    found: dict[tuple[str, str], DryingGuide] = {}
    for substance, method, jerky in dried:
        kind = _kind(substance, jerky)
        if kind is not None:
            found.setdefault((substance.id, method), _guide(substance, method, kind))
    return tuple(found.values())


def topics(guides: Sequence[DryingGuide]) -> tuple[str, ...]:
    """Give what there is to say besides, by what is dried and how."""
    kinds = {each.kind for each in guides}
    found = ["warm-air"] if guides else []
    found += [topic for topic in ("vegetable", "fruit", "jerky") if topic in kinds]
    return (*found, *(["sun"] if any(each.method == "sun" for each in guides) else []))


def _kind(substance: Substance, jerky: bool) -> str | None:
    """Give the row of the tables; None where warm air is no way to dry it at home."""
    if substance.kind in FLESH_KINDS and (jerky or substance.is_raw_animal):
        return "jerky"
    if substance.has_flesh:
        return "cooked-meat"
    return substance.kind if substance.kind in AIR_C else None


def _guide(substance: Substance, method: Method, kind: str) -> DryingGuide:
    food = substance.foods[0] if len(substance.foods) == 1 else None
    fresh = food is not None and food.state == "raw"
    dry_as = (food.dry_as or "") if food and fresh else ""
    form = _form(kind, dry_as, any(each.cut == "minced" for each in substance.foods))
    of_hours = dry_as if dry_as in HOURS else kind
    hours = HOURS.get(dry_as, KIND_HOURS[kind])
    pieces = PIECES_MM.get(kind) if form in ("slices", "layer") else None
    steam, boil = STEAM_MIN.get(dry_as), BOIL_MIN.get(dry_as)
    used = (AIR_C[kind], hours, pieces, steam, boil)
    sources = [row[2] for row in used if row]
    if dry_as in NOT_BLANCHED:
        sources.append(_BLANCHED_OR_NOT_BY)
    raw_flesh = kind == "jerky"
    if raw_flesh:
        sources += _HEATED_BY
    return DryingGuide(
        name=substance.name,
        method=method,
        kind=kind,
        form=form,
        pieces_mm=_row(f"pieces_mm ({kind})", pieces) if pieces else None,
        air_c=_row(f"air_c ({kind})", AIR_C[kind]),
        hours=_row(f"drying_hours ({of_hours})", hours),
        steam_min=_row(f"steam_min ({dry_as})", steam) if steam else None,
        boil_min=_row(f"boil_min ({dry_as})", boil) if boil else None,
        heat_to_c=look_up(heated_before_drying_c, substance.kind, substance.is_game)
        if raw_flesh
        else None,
        sources=tuple(dict.fromkeys(sources)),
    )


def _row(name: str, row: Row) -> Span:
    """Give the two ends of a row of the tables."""
    least, most, source = row
    return named(least, f"least {name}", source), named(most, f"most {name}", source)


def _form(kind: str, dry_as: str, minced: bool) -> Form:
    if kind == "meal" or minced:
        return "layer"
    if kind in ("legume", "grain", "herb"):
        return "single"
    if dry_as in WHOLE:
        return "whole"
    return "halves" if dry_as in IN_HALVES else "slices"


def dryer_load(judged: Judged, content: Content) -> DryerLoad | None:
    """Say what a load asks of the dryer that its batch names; None where it names none."""
    name, fresh_g = judged.batch.dryer, judged.batch.fresh_g
    if not name or not fresh_g:
        return None
    dryer = content.gear.dryers[name]
    ice_g = judged.water_removed_g
    of_limit = fresh_g / dryer.load_g
    if dryer.ice_g:
        of_limit = work(load_of_limit, fresh_g, ice_g, dryer.load_g, dryer.ice_g)
    density, trays_cm2 = judged.substance.density_g_ml, dryer.trays_cm2
    thick = work(layer_mm, fresh_g, density, trays_cm2) if density and trays_cm2 else None
    return DryerLoad(
        dryer=dryer.name,
        of_limit=of_limit,
        listed_hours=dryer.hours,
        layer_mm=thick,
        ice_gone_h=_ice_gone_h(thick) if thick and dryer.method == "freeze-dryer" else None,
        freezing_kwh=_freezing_kwh(judged, fresh_g),
    )


def _ice_gone_h(thickness_mm: float) -> Span | None:
    """Give the hours of a slab so thick; None where that was never measured."""
    try:
        fewest, most = work_range(ice_gone_range_h, thickness_mm)
    except ValueError:
        return None
    return fewest, most


def _freezing_kwh(judged: Judged, fresh_g: float) -> float | None:
    loaded_c = judged.batch.loaded_at_c
    if loaded_c is None or loaded_c <= 0:
        return None
    ice_c = named(DRYING_ICE_C, "drying_ice_c", "murphy-koop2005")
    return work(freezing_heat_kj, fresh_g, judged.water_share, loaded_c, ice_c) / KJ_PER_KWH
