"""The page of labels: which packs get one, on which sheets, and what has none and why."""

from __future__ import annotations

from collections import Counter

from builder.model.gear import LabelSheet
from builder.pages.figures import Figures
from builder.pages.home.label_sheet import PLAIN, plain_sheet
from builder.pages.home.label_words import label_words
from builder.pages.home.showing import asking, figures_of_home
from builder.pages.pieces import Cell, Piece
from builder.planning.home import HomePlan
from builder.planning.year import PackLabel
from builder.record import dataclass
from builder.speech import Speech

USUAL_SHEETS = ("a4-3x8", "letter-3x10")


@dataclass(frozen=True, slots=True)
class Printable:
    """A file of labels."""

    path: str
    words: str


@dataclass(frozen=True, slots=True)
class LabelsPage:
    """Files to print, then each label's words, then what has none."""

    files: tuple[Printable, ...]
    sheets: tuple[str, ...]  # ids that the command prints on
    labels: tuple[tuple[Cell, tuple[str, ...]], ...]  # batch and packs, then its lines
    failed: tuple[Cell, ...]


def sheets_to_print(plan: HomePlan) -> tuple[LabelSheet, ...]:
    """Give the sheet that the home uses, or a usual one, and plain paper."""
    wanted = plan.home.label_sheet or USUAL_SHEETS[plan.home.units == "us"]
    own = plan.sheets.get(wanted)
    return (*((own,) if own else ()), plain_sheet(plan.home.units))


def sheet_named(plan: HomePlan, name: str | None) -> LabelSheet | None:
    """Give the sheet of a name, or the one that the home uses; None for one nobody knows.

    Without a sheet of its own in the gear, a home prints on plain paper.
    """
    if name is None:
        return sheets_to_print(plan)[0]
    return plain_sheet(plan.home.units) if name == PLAIN else plan.sheets.get(name)


def file_of(sheet: LabelSheet) -> str:
    """Give the name of the file of a sheet."""
    return f"labels-{sheet.id}.html"


def labels_page(plan: HomePlan) -> LabelsPage:
    """Give the page of labels."""
    figures = figures_of_home(plan.home)
    say = figures.say
    kept = [label for label in plan.labels if not label.failed]
    names = Counter(label.name for label in kept)
    return LabelsPage(
        files=tuple(
            Printable(file_of(each), sheet_said(say, each)) for each in sheets_to_print(plan)
        ),
        sheets=tuple(sorted(plan.sheets)),
        labels=tuple(_label(figures, label, names[label.name] > 1) for label in kept),
        failed=tuple(
            asking(say, label.name, label.act, label.why) for label in plan.labels if label.failed
        ),
    )


def sheet_said(say: Speech, sheet: LabelSheet) -> str:
    """Name a sheet by its sizes."""
    if sheet.id == PLAIN:
        return say("Plain paper with cut lines")
    return say(
        "{columns} × {rows} labels of {width} × {height} mm",
        columns=sheet.columns,
        rows=sheet.rows,
        width=say.number(sheet.width_mm, 1),
        height=say.number(sheet.height_mm, 1),
    )


def _label(figures: Figures, label: PackLabel, has_namesake: bool) -> tuple[Cell, tuple[str, ...]]:
    """Give a batch and its packs, told apart by its date where another is of the same food."""
    parts = label_words(figures, label).parts
    packs = figures.say.count(" ({n} label)", " ({n} labels)", label.packs)
    date = [f", {words}" for part, words in parts if part == "best" and has_namesake]
    return (
        (Piece(label.name, strong=True), Piece(f"{''.join(date)}{packs}")),
        tuple(words for part, words in parts if part != "name"),
    )
