"""The page of runs: what to put into which dryer when, with what comes before and after."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator

from builder.pages.charts import WIDTH, Bar, Chart, Mark, Words, in_lines
from builder.pages.figures import Figures
from builder.pages.home.showing import figures_of_home, titles_of_trips
from builder.pages.pieces import Cell, Piece, filled, text
from builder.planning.home import HomePlan
from builder.planning.runs import Part, Run, Step
from builder.record import dataclass
from builder.speech import Speech, later

ICS_NAME = "runs.ics"
_DAYS = 7
_DAY_WIDE = WIDTH / _DAYS
_TOP = 20.0  # the row of weekdays
_ROW = 36.0
_WORDS_AT = 13.0
_BAR_AT = 18.0
_BAR_HIGH = 12.0
_LINE = 14.0  # from one line of words to the next
_WEEKDAYS = (
    later("Mon"), later("Tue"), later("Wed"), later("Thu"), later("Fri"), later("Sat"),
    later("Sun"),
)  # fmt: skip
_STATES = {
    "new": "",
    "planned": later("in your log"),
    "in-dryer": later("in the dryer now"),
}
# Told apart by hatching, and by the word in the row.
_RUN = "solid"
_FILLS = {"freeze": "dots", "condition": "lines"}
_ALSO = {"freeze": later("freezing"), "condition": later("conditioning")}


@dataclass(frozen=True, slots=True)
class RunLines:
    """One run: its heading, what goes in, what to do when."""

    title: str
    facts: str
    loads: tuple[Cell, ...]
    steps: tuple[Cell, ...]
    remark: str


@dataclass(frozen=True, slots=True)
class RunsPage:
    """All runs, drawn by week, then told one by one."""

    charts: tuple[Chart, ...]
    runs: tuple[RunLines, ...]
    impossible: tuple[str, ...]
    remarks: tuple[str, ...]
    later: str  # of trips that runs are not looked for yet


def runs_page(plan: HomePlan) -> RunsPage:
    """Give the page of runs."""
    figures = figures_of_home(plan.home)
    drying = plan.drying
    titles = titles_of_trips(plan)
    return RunsPage(
        charts=tuple(_charts(figures.say, drying.runs)),
        runs=tuple(_run(figures, run, titles) for run in drying.runs),
        impossible=drying.impossible,
        remarks=drying.remarks,
        later=figures.say.count(
            "{n} later trip is not looked at here yet; tripkit runs plans for all.",
            "{n} later trips are not looked at here yet; tripkit runs plans for all.",
            plan.later_trips,
        )
        if plan.later_trips
        else "",
    )


def moment(say: Speech, at: datetime.datetime) -> str:
    """Say a moment: `Sat 23 Aug 2031, 09:00`."""
    return say("{day}, {time}", day=say.date(at.date()), time=f"{at:%H:%M}")


def hour(say: Speech, at: datetime.datetime) -> str:
    """Say a moment of these days: `Sat, 09:00`."""
    return say("{day}, {time}", day=say(_WEEKDAYS[at.weekday()]), time=f"{at:%H:%M}")


def _run(figures: Figures, run: Run, titles: dict[str, str]) -> RunLines:
    say = figures.say
    title = say("{dryer}, {start}", dryer=_dryer(say, run), start=moment(say, run.start))
    state = _STATES[run.state]
    facts = say(
        "{hours} to {end}, {load} in, {water} of water out",
        hours=say("{n} h", n=say.number(run.hours, 0 if run.hours == int(run.hours) else 1)),
        end=moment(say, run.end),
        load=figures.plain(run.load_g, "mass_g"),
        water=figures.plain(run.water_g, "mass_g"),
    )
    return RunLines(
        title=title,
        facts=f"{facts}; {say(state)}." if state else f"{facts}.",
        loads=tuple(_load(figures, part, titles) for part in run.parts),
        steps=tuple(step_line(say, step) for step in run.steps),
        remark=""
        if run.day_to_spare
        else say("No free day is left to keep drying: start in time."),
    )


def _dryer(say: Speech, run: Run) -> str:
    return run.dryer_name or say("Dryer")


def _load(figures: Figures, part: Part, titles: dict[str, str]) -> Cell:
    say = figures.say
    trips = dict.fromkeys(titles.get(meal.trip, meal.trip) for meal in part.meals)
    pieces = filled(
        say("{fresh} {food}: gives {dried}, {packs}"),
        fresh=(Piece(figures.plain(part.fresh_g, "mass_g"), strong=True),),
        food=text(part.name),
        dried=text(figures.plain(part.dried_g, "mass_g")),
        packs=text(say.count("{n} pack", "{n} packs", part.packs)),
    )
    return (*pieces, Piece(", " + say("for {trips}", trips=say.listed(trips)))) if trips else pieces


def step_line(say: Speech, step: Step, names_the_day: bool = False) -> Cell:
    """Give what to do in a run, by its time; within a week the name of the day is enough."""
    when = hour(say, step.at) if names_the_day else moment(say, step.at)
    return (Piece(when, strong=True), Piece(f": {step.says}"))


# -- the chart ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Something that lasts, in a row of its own."""

    says: str
    start: datetime.datetime
    end: datetime.datetime
    fill: str


def _charts(say: Speech, runs: Iterable[Run]) -> Iterator[Chart]:
    """Give a chart for each week in which something lasts."""
    every = [stretch for run in runs for stretch in _stretches(say, run)]
    if not every:
        return
    week = _monday(min(each.start for each in every).date())
    last = max(each.end for each in every)
    while datetime.datetime.combine(week, datetime.time()) < last:
        if own := [each for each in every if _is_in(each, week)]:
            yield _chart(say, week, own)
        week += datetime.timedelta(days=_DAYS)


def _stretches(say: Speech, run: Run) -> Iterator[_Stretch]:
    names = say.listed(part.name.partition(",")[0] for part in run.parts)
    for step in run.steps:
        if step.do in _FILLS and step.until is not None:
            says = say("{food}: {what}", food=names, what=say(_ALSO[step.do]))
            yield _Stretch(says, step.at, step.until, _FILLS[step.do])
    says = say("{dryer}: {food}", dryer=_dryer(say, run), food=names)
    yield _Stretch(says, run.start, run.end, _RUN)


def _monday(day: datetime.date) -> datetime.date:
    return day - datetime.timedelta(days=day.weekday())


def _is_in(stretch: _Stretch, week: datetime.date) -> bool:
    begins = datetime.datetime.combine(week, datetime.time())
    return stretch.end > begins and stretch.start < begins + datetime.timedelta(days=_DAYS)


def _chart(say: Speech, week: datetime.date, stretches: list[_Stretch]) -> Chart:
    stretches = sorted(stretches, key=lambda each: (each.start, each.end, each.says))
    words = [
        Words(f"{(day + 0.5) * _DAY_WIDE:.1f}", f"{_WORDS_AT:g}", "middle", say(name)[:2])
        for day, name in enumerate(_WEEKDAYS)
    ]
    bars = []
    top = _TOP
    for each in stretches:
        left, right = _x(each.start, week), _x(each.end, week)
        # Where a bar begins late in the week, its words end with it.
        ends_late = left > WIDTH / 2
        for number, line in enumerate(in_lines(each.says, right if ends_late else WIDTH - left)):
            top += _LINE if number else 0
            words.append(
                Words(
                    f"{right if ends_late else left:.1f}",
                    f"{top + _WORDS_AT:g}",
                    "end" if ends_late else "start",
                    line,
                )
            )
        bars.append(
            Bar(
                f"{left:.1f}",
                f"{top + _BAR_AT:g}",
                f"{max(right - left, 2.0):.1f}",
                f"{_BAR_HIGH:g}",
                each.fill,
            )
        )
        top += _ROW
    days = [
        Mark(f"{day * _DAY_WIDE:.1f}", f"{_WORDS_AT + 2:g}", f"{_TOP:g}") for day in range(1, _DAYS)
    ]
    told = "; ".join(
        say(
            "{what} from {start} to {end}",
            what=each.says,
            start=moment(say, each.start),
            end=moment(say, each.end),
        )
        for each in stretches
    )
    return Chart(
        id=f"week-{week.isoformat()}",
        title=_shows(say, week, stretches),
        told=told,
        tall=top,
        bars=tuple(bars),
        marks=tuple(days),
        words=tuple(words),
    )


def _shows(say: Speech, week: datetime.date, stretches: Iterable[_Stretch]) -> str:
    """Say how many runs begin in a week, or that none does."""
    runs = sum(1 for each in stretches if each.fill == _RUN and _monday(each.start.date()) == week)
    began = say.count("{n} run begins", "{n} runs begin", runs) if runs else say("no run begins")
    return say("Week from {day}: {runs}", day=say.date(week), runs=began)


def _x(at: datetime.datetime, week: datetime.date) -> float:
    """Give where a moment stands, inside the week's own width."""
    hours = (at - datetime.datetime.combine(week, datetime.time())).total_seconds() / 3600
    return min(max(hours / 24 * _DAY_WIDE, 0.0), float(WIDTH))
