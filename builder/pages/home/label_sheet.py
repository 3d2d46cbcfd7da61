"""Pages of labels to print, each a file of its own that is true to size on one kind of sheet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from io import BytesIO
from itertools import groupby
from pathlib import Path

import segno

from builder.model.gear import LabelSheet, Page
from builder.pages import ink
from builder.pages.figures import Figures
from builder.pages.home.label_fit import (
    ABOVE_CODE_MM,
    LINE_HEIGHT,
    OUT_OF_REACH_MM,
    PAD_MM,
    QUIET_MODULES,
    Fit,
    Room,
    above_code_mm,
    beside_code_mm,
    code_side_mm,
    factor_of,
    fit_of,
    with_quiet,
)
from builder.pages.home.label_words import LabelWords, Part, label_words
from builder.planning.year import PackLabel
from builder.record import dataclass
from builder.speech import Speech, later
from builder.units import rounded

PAPERS_MM: Mapping[Page, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
_CUT_MM = 4.0  # beside a line to cut along by hand
# Plain paper, to be cut: two by five, with room around for what printers cannot reach.
PLAIN = "plain"
_PLAIN_ON: Mapping[Page, LabelSheet] = {
    "a4": LabelSheet(PLAIN, "a4", 2, 5, 95.0, 52.0, 10.0, 18.5),
    "letter": LabelSheet(PLAIN, "letter", 2, 5, 95.0, 50.0, 12.9, 14.7),
}
_PARTS = {
    "made": later("weight and date"),
    "water": later("water"),
    "do": later("what to do"),
}


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a label, with the class it is set by."""

    part: Part
    words: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """A label as it is set; blank where `batch` is empty."""

    batch: str
    size: str = ""  # class of its type
    code: str = ""  # id of its code; "" where there is no room for one
    code_size: str = ""  # class of the code's side
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """A batch whose labels can be left out, on the page."""

    batch: str
    name: str
    packs: int


@dataclass(frozen=True, slots=True)
class Edges:
    """What stays blank within a label: where it lies at the paper's edge, and at any other side."""

    left_mm: float
    right_mm: float
    top_mm: float
    bottom_mm: float
    inner_mm: float

    @property
    def beside_code_mm(self) -> tuple[float, float]:
        """Give what stays blank beside a code in the last column, and in any other."""
        return beside_code_mm(self.right_mm), beside_code_mm(self.inner_mm)

    @property
    def above_code_mm(self) -> tuple[float, float]:
        """Give what stays blank above a code in the first row, and below it in the last."""
        return above_code_mm(self.top_mm), above_code_mm(self.bottom_mm)


@dataclass(frozen=True, slots=True)
class LabelsFile:
    """One printable file."""

    language: str
    title: str
    sheet: LabelSheet
    is_cut: bool
    paper_mm: tuple[str, str]
    places: int  # labels on a sheet
    pages: tuple[tuple[tuple[Drawn, int], ...], ...]  # what follows itself, and how often
    codes: tuple[tuple[str, int, str], ...]  # id, modules with the quiet ones, path
    sizes: tuple[tuple[str, str], ...]  # class, type in points
    code_sizes: tuple[tuple[str, str], ...]  # class, side in millimetres
    edge: Edges
    above_code_mm: float
    last_row: int  # the number of its first label
    line_height: float
    factors: tuple[tuple[str, float], ...]
    choices: tuple[Choice, ...]
    notes: tuple[str, ...]  # what has no label, and what has no room


def plain_sheet(units: str) -> LabelSheet:
    """Give plain paper with cut lines, of the size that goes with the units."""
    return _PLAIN_ON["letter" if units == "us" else "a4"]


def labels_file(
    labels: Sequence[PackLabel],
    sheet: LabelSheet,
    figures: Figures,
    templates: Path,
    first: int = 1,
) -> str:
    """Write the labels of some batches, one for each pack left; the policy is still to be added."""
    view = _view(labels, sheet, figures, first)
    return ink.write(templates, "labels.html.j2", "", view, figures.say)


def _view(
    labels: Sequence[PackLabel], sheet: LabelSheet, figures: Figures, first: int
) -> LabelsFile:
    say = figures.say
    good = [label for label in labels if not label.failed]
    set_as = {label.batch: _set(label_words(figures, label), sheet) for label in good}
    drawn = [Drawn("")] * (first - 1)
    codes: list[tuple[str, int, str]] = []
    notes = [_no_label(say, label) for label in labels if label.failed]
    choices = []
    sizes: dict[str, str] = {}
    code_sizes: dict[str, str] = {}
    for label in good:
        words, fit, modules, drawing = set_as[label.batch]
        if fit is None:
            notes.append(
                say("{food}: too long for this size; take a larger label.", food=label.name)
            )
            continue
        notes += _left_out(say, label, fit)
        one = _drawn(words, fit, modules)
        sizes[one.size] = f"{fit.size_pt:g}"
        if one.code:
            codes.append((one.code, with_quiet(modules), drawing))
            code_sizes[one.code_size] = f"{code_side_mm(modules, fit.module_mm):.2f}"
        drawn += [one] * label.packs
        choices.append(Choice(label.batch, label.name, label.packs))
    places = sheet.columns * sheet.rows
    return LabelsFile(
        language=say.language,
        title=say("Labels"),
        sheet=sheet,
        is_cut=sheet.id == PLAIN,
        paper_mm=(f"{PAPERS_MM[sheet.page][0]:g}", f"{PAPERS_MM[sheet.page][1]:g}"),
        places=places,
        pages=tuple(
            tuple((one, len(list(same))) for one, same in groupby(drawn[start : start + places]))
            for start in range(0, len(drawn), places)
        ),
        codes=tuple(codes),
        sizes=tuple(sorted(sizes.items())),
        code_sizes=tuple(sorted(code_sizes.items())),
        edge=edges_of(sheet),
        above_code_mm=ABOVE_CODE_MM,
        last_row=places - sheet.columns + 1,
        line_height=LINE_HEIGHT,
        factors=tuple((part, factor_of(part)) for part in ("raw", "name")),
        choices=tuple(choices),
        notes=tuple(notes),
    )


def _set(words: LabelWords, sheet: LabelSheet) -> tuple[LabelWords, Fit | None, int, str]:
    modules, drawing = code_of(words.as_text)
    return words, fit_of(words, modules, room_of(sheet)), modules, drawing


def edges_of(sheet: LabelSheet) -> Edges:
    """Give what stays blank on the labels of a sheet: printers do not reach the paper's edge."""
    if sheet.id == PLAIN:
        return Edges(_CUT_MM, _CUT_MM, _CUT_MM, _CUT_MM, _CUT_MM)
    wide_mm, high_mm = PAPERS_MM[sheet.page]
    right_mm = wide_mm - sheet.left_mm - _row_mm(sheet.columns, sheet.width_mm, sheet.across_mm)
    below_mm = high_mm - sheet.top_mm - _row_mm(sheet.rows, sheet.height_mm, sheet.down_mm)

    def blank(away_mm: float) -> float:
        return max(PAD_MM, rounded(OUT_OF_REACH_MM - away_mm, 2))

    return Edges(
        blank(sheet.left_mm), blank(right_mm), blank(sheet.top_mm), blank(below_mm), PAD_MM
    )


def room_of(sheet: LabelSheet) -> Room:
    """Give the room that each label of a sheet has, wherever on it: all are set alike."""
    edge = edges_of(sheet)
    inner, (last_code_mm, code_mm) = edge.inner_mm, edge.beside_code_mm
    lone = sheet.columns == 1  # then it lies at both edges
    beside = edge.left_mm + edge.right_mm if lone else max(edge.left_mm, edge.right_mm) + inner
    beside_code = max(edge.left_mm + (last_code_mm if lone else code_mm), inner + last_code_mm)
    above = max(edge.top_mm, edge.bottom_mm) + inner
    if sheet.rows == 1:
        above = edge.top_mm + edge.bottom_mm
    return Room(
        sheet.width_mm - beside,
        sheet.width_mm - beside_code,
        sheet.height_mm - above,
        sheet.height_mm
        - max(edge.above_code_mm)
        - (max if sheet.rows == 1 else min)(*edge.above_code_mm, ABOVE_CODE_MM),
    )


def _row_mm(labels: int, each_mm: float, between_mm: float) -> float:
    return labels * each_mm + (labels - 1) * between_mm


def _drawn(words: LabelWords, fit: Fit, modules: int) -> Drawn:
    return Drawn(
        words.batch,
        size=f"t{fit.size_pt * 10:.0f}",
        code=f"code-{words.batch}" if fit.module_mm else "",
        code_size=f"c{modules}-{fit.module_mm * 1000:.0f}",
        lines=tuple(Line(part, said) for part, said in fit.parts),
    )


def _no_label(say: Speech, label: PackLabel) -> str:
    return say(
        "No label for {food} ({batch}): {act}", food=label.name, batch=label.batch, act=label.act
    )


def _left_out(say: Speech, label: PackLabel, fit: Fit) -> Iterable[str]:
    """Say what a label of this size has no room for."""
    gone = [say(_PARTS[part]) for part in _PARTS if part in fit.gone]
    if not fit.module_mm:
        gone.append(say("the code"))
    if gone:
        yield say(
            "{food}: no room on this size for {parts}.", food=label.name, parts=say.listed(gone)
        )


@cache
def code_of(words: str) -> tuple[int, str]:
    """Give the code that holds some words: modules along a side, and the path of the dark ones."""
    code = segno.make_qr(words, error="l", encoding="utf-8")
    target = BytesIO()
    code.save(
        target,
        kind="svg",
        xmldecl=False,
        svgns=False,
        omitsize=True,
        border=QUIET_MODULES,
        svgclass=None,
        lineclass=None,
        nl=False,
    )
    path = re.search(r'\bd="([^"]*)"', target.getvalue().decode("ascii"))
    assert path, "a code is drawn as one path"
    modules, _ = code.symbol_size(border=0)
    return int(modules), path[1]
