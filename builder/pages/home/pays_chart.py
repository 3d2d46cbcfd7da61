"""The picture of when a dryer pays: runs across, the money it has saved upwards.

`ways.js` draws it anew where prices change, by the same few lines: where a figure lies on the
picture is layout; what it comes to is worked out of the figures that the page carries.
"""

from __future__ import annotations

from collections.abc import Sequence

from builder.pages.charts.drawing import LETTERS, WIDTH
from builder.pages.home.showing import money
from builder.planning.ways import PaysTerms
from builder.record import dataclass
from builder.speech import Speech

HEIGHT = 180
_TOP, _BOTTOM = 34.0, 160.0  # of the plot
_LEFT, _RIGHT = 4.0, 292.0
_ACROSS = (10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000)
_ROOM = 1.25  # a line goes on beyond the run with which it has paid
_LABEL_APART = LETTERS + 3.0


@dataclass(frozen=True, slots=True)
class Saving:
    """A dryer whose saving is drawn: what it is called, its terms, and the ids of its figures."""

    name: str
    terms: PaysTerms | None  # None where a price was not told
    runs_id: str
    saved_id: str


@dataclass(frozen=True, slots=True)
class Line:
    """One dryer: from its price below nothing upwards; empty where it is not told."""

    name: str
    runs_id: str
    saved_id: str
    points: str
    dot_x: str  # where it has paid
    dot_r: str  # 0 where it never does
    label: str
    label_y: str


@dataclass(frozen=True, slots=True)
class PaysChart:
    """The picture, as finished text."""

    id: str
    title: str
    text: str  # the same in words
    width: str
    height: str
    words_y: str  # of what stands under the plot
    plot: str  # left, top, right and bottom, for the script
    zero_y: str
    last_runs: str
    most: str  # money at the top
    least: str  # and at the bottom
    after: str  # what stands behind money
    lines: tuple[Line, ...]
    is_told: bool


def pays_chart(say: Speech, number: int, savings: Sequence[Saving], currency: str) -> PaysChart:
    """Draw what some dryers save against buying dried."""
    told = {each.name: each.terms for each in savings if each.terms is not None}
    runs = {name: float(terms.after_runs) for name, terms in told.items()}
    last = _across(max(runs.values(), default=0.0))
    saved = {
        name: (float(terms.saved(0.0)), float(terms.saved(last))) for name, terms in told.items()
    }
    ends = [0.0, *(end for pair in saved.values() for end in pair)]
    low, high = min(ends), max(ends)

    def y(money: float) -> float:
        return _BOTTOM - (_BOTTOM - _TOP) * (money - low) / (high - low or 1.0)

    labels = _apart({name: y(pair[1]) - 4.0 for name, pair in saved.items()})
    lines = []
    for each in savings:
        pair = saved.get(each.name)
        paid = runs.get(each.name, -1.0)
        lines.append(
            Line(
                name=each.name,
                runs_id=each.runs_id,
                saved_id=each.saved_id,
                points=f"{_n(_LEFT)},{_n(y(pair[0]))} {_n(_RIGHT)},{_n(y(pair[1]))}"
                if pair
                else "",
                dot_x=_n(_LEFT + (_RIGHT - _LEFT) * max(paid, 0.0) / last),
                dot_r="4" if pair and paid >= 0 else "0",
                label=f"{each.name}: {after_said(say, paid)}" if pair else "",
                label_y=_n(labels[each.name]) if pair else "0",
            )
        )
    return PaysChart(
        id=f"pays-{number}",
        title=say(
            "Money saved after some runs, against buying dried: below the line a dryer has not "
            "paid for itself yet"
        ),
        text=". ".join(line.label for line in lines if line.label),
        width=str(WIDTH),
        height=str(HEIGHT),
        words_y=str(HEIGHT - 4),
        plot=" ".join(map(_n, (_LEFT, _TOP, _RIGHT, _BOTTOM))),
        zero_y=_n(y(0.0)),
        last_runs=say.count("{n} run", "{n} runs", last),
        most=money(say, high, currency, 0),
        least=money(say, low, currency, 0),
        after=f"\u00a0{currency}" if currency else "",
        lines=tuple(lines),
        is_told=bool(told),
    )


def after_said(say: Speech, runs: float) -> str:
    """Say after how many runs a dryer has paid; below nothing for never."""
    if runs < 0:
        return say("never pays for itself")
    return say.count("pays for itself after {n} run", "pays for itself after {n} runs", int(runs))


def _across(runs: float) -> int:
    """Give how many runs lie across: a round number beyond the last one that matters."""
    return next((each for each in _ACROSS if each >= runs * _ROOM), _ACROSS[-1])


def _apart(wanted: dict[str, float]) -> dict[str, float]:
    """Move labels apart, from the lowest upwards, so that each can be read."""
    found: dict[str, float] = {}
    below = _BOTTOM + LETTERS
    for name, y in sorted(wanted.items(), key=lambda each: -each[1]):
        below = found[name] = max(min(y, below - _LABEL_APART), float(LETTERS))
    return found


def _n(value: float) -> str:
    return f"{value:.1f}"
