"""What one dries, packs and labels with: the keys of packaging, dryers and sheets of labels."""

from __future__ import annotations

from typing import Annotated

from builder.model.batch import WAYS_TO_DRY, Method
from builder.model.gear import BARRIERS, PAGES, Barrier, Dryer, LabelSheet, Packaging, Page
from builder.reading.declared.declaring import Check, Here, Record, key
from builder.reading.declared.measures import Number, Quantity, count
from builder.reading.declared.vocabulary import Choice, Id, Line
from builder.reading.gear.gear import WrittenGear
from builder.reading.notes import refuse

MOST_HOURS = 500.0
PAPERS_MM: dict[Page, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
PAPER_MAY_BE_OFF_MM = 0.5  # sheets are cut to half a millimetre


class WrittenPackaging(WrittenGear, title="packaging"):
    """What one pack is packed in."""

    id: Annotated[str, Id()] = key("By which batches name it.", required=True, example="foil-pouch")
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Foil pouch"
    )
    mass: Annotated[float, Quantity("mass_g")] = key(
        "What one weighs empty.", required=True, example="9 g"
    )
    barrier: Annotated[Barrier, Choice(BARRIERS)] = key(
        "What keeps air and damp out.", required=True, example="foil"
    )
    holds: Annotated[float | None, Quantity("volume_ml", positive=True)] = key(
        "What it holds; tells the absorber a pack needs.", example="1 l"
    )
    price: Annotated[float | None, Number()] = key(
        "What one costs, in the currency of home.yaml.", example="0.40"
    )

    def made(self) -> Packaging:
        """Give what planning reckons with."""
        return Packaging(
            id=self.id,
            name=self.name,
            mass_g=self.mass,
            barrier=self.barrier,
            holds_ml=self.holds,
            price=self.price,
            places=self.places(),
        )


def _it_warms_up_from_cooler(here: Here) -> None:
    from_c = here.above.get("from_")
    if from_c is not None and here.value < from_c:
        refuse(
            "from-to",
            f"to: {here.value:g} °C is colder than from: {from_c:g} °C",
            "write the lowest it can be set to behind `from`, the highest behind `to`",
        )


class WrittenDryer(WrittenGear, title="dryer"):
    """What dries at home."""

    id: Annotated[str, Id()] = key(
        "By which batches name it.", required=True, example="shelf-dryer"
    )
    name: Annotated[str, Line()] = key(
        "What the pages call it.", required=True, example="Five-tray dehydrator"
    )
    method: Annotated[Method, Choice(WAYS_TO_DRY)] = key(
        "How it dries.", required=True, example="dehydrator"
    )
    load: Annotated[float, Quantity("mass_g", positive=True)] = key(
        "The fresh food it takes at once.", required=True, example="3 kg"
    )
    hours: Annotated[float, Number(more_than=0, at_most=MOST_HOURS)] = key(
        "How many hours a run takes.", required=True, example="12"
    )
    ice: Annotated[float | None, Quantity("mass_g", positive=True)] = key(
        "The most water that a freeze dryer takes as ice.", example="4.5 kg"
    )
    trays: Annotated[float | None, Quantity("area_cm2", positive=True)] = key(
        "The area of all trays together; tells how thick a load lies.", example="0.46 m2"
    )
    power: Annotated[float | None, Quantity("power_w", positive=True)] = key(
        "What it draws.", example="500 W"
    )
    from_: Annotated[float | None, Quantity("temperature_c")] = key(
        "The lowest it can be set to.", example="35 degC"
    )
    to: Annotated[float | None, Quantity("temperature_c"), Check(_it_warms_up_from_cooler)] = key(
        "The highest it can be set to.", example="70 degC"
    )
    price: Annotated[float | None, Number()] = key(
        "What it cost, in the currency of home.yaml.", example="180"
    )
    lasts: Annotated[float | None, Quantity("life_runs", positive=True)] = key(
        "How many runs it lasts.", example="400 runs"
    )
    runs_a_year: Annotated[float | None, Number(more_than=0, at_most=1000)] = key(
        "How often it runs in a year.", example="20"
    )

    def made(self) -> Dryer:
        """Give what planning reckons with."""
        return Dryer(
            id=self.id,
            name=self.name,
            method=self.method,
            load_g=self.load,
            hours=self.hours,
            ice_g=self.ice,
            trays_cm2=self.trays,
            from_c=self.from_,
            to_c=self.to,
            power_w=self.power,
            price=self.price,
            lasts_runs=self.lasts,
            runs_a_year=self.runs_a_year,
            places=self.places(),
        )


class WrittenGap(Record, title="gap"):
    """The room between two labels."""

    across: Annotated[float, Quantity("length_mm")] = key(
        "Between two side by side.", default="0 mm", example="2.5 mm"
    )
    down: Annotated[float, Quantity("length_mm")] = key(
        "Between two one below the other.", default="0 mm", example="0 mm"
    )


def _labels_fit_across(here: Here) -> None:
    _check_labels_fit(here, 0, "left", "columns", "across")


def _labels_fit_down(here: Here) -> None:
    _check_labels_fit(here, 1, "top", "rows", "down")


def _check_labels_fit(here: Here, side: int, before: str, many: str, between: str) -> None:
    """Refuse labels that together are larger than the paper."""
    if not {"page", before, many, "gap"} <= here.above.keys():
        return
    count, gap = int(here.above[many]), here.above["gap"]
    apart_mm = float(getattr(gap, between)) if gap else 0.0
    needed_mm = float(here.above[before]) + count * here.value + (count - 1) * apart_mm
    paper_mm = PAPERS_MM[here.above["page"]][side]
    if needed_mm > paper_mm + PAPER_MAY_BE_OFF_MM:
        refuse(
            "sheet",
            f"{count} {many} need {needed_mm:.4g} mm, and {here.above['page']} has {paper_mm:g} mm",
            f"check {before}, {many}, gap and the size of one label",
        )


class WrittenSheet(WrittenGear, title="sheet"):
    """A sheet of labels as bare sizes, so that labels print where the sheet is cut."""

    id: Annotated[str, Id()] = key("By which home.yaml names it.", required=True, example="a4-3x8")
    page: Annotated[Page, Choice(PAGES)] = key("The paper.", required=True, example="a4")
    columns: Annotated[int, count(at_least=1)] = key(
        "How many labels side by side.", required=True, example="3"
    )
    rows: Annotated[int, count(at_least=1)] = key(
        "How many labels one below the other.", required=True, example="8"
    )
    left: Annotated[float, Quantity("length_mm")] = key(
        "From the paper's left edge to the first label.", default="0 mm", example="0 mm"
    )
    top: Annotated[float, Quantity("length_mm")] = key(
        "From the paper's upper edge to the first label.", default="0 mm", example="0.5 mm"
    )
    gap: WrittenGap | None = key(
        "The room between two labels.", example="{across: 0 mm, down: 0 mm}"
    )
    width: Annotated[float, Quantity("length_mm", positive=True), Check(_labels_fit_across)] = key(
        "How wide one label is.", required=True, example="70 mm"
    )
    height: Annotated[float, Quantity("length_mm", positive=True), Check(_labels_fit_down)] = key(
        "How high one label is.", required=True, example="37 mm"
    )

    def made(self) -> LabelSheet:
        """Give what labels are laid out by."""
        return LabelSheet(
            id=self.id,
            page=self.page,
            columns=self.columns,
            rows=self.rows,
            width_mm=self.width,
            height_mm=self.height,
            left_mm=self.left,
            top_mm=self.top,
            across_mm=self.gap.across if self.gap else 0.0,
            down_mm=self.gap.down if self.gap else 0.0,
            places=self.places(),
        )
