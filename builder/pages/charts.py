"""Charts: horizontal bars told apart by words and hatching, in any colour scheme and on paper."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from builder.model.batch import Weighing
from builder.model.kit import DryingRun, Kit, PersonLoad
from builder.pages import words
from builder.pages.figures import Figures, figures_of
from builder.pages.pieces import Cell, Table, table, text
from builder.speech import later
from builder.units import rounded

# Drawn for the narrowest screen, so that letters are never much smaller than they were drawn;
# shown no wider than this on a large one, so that they are never much larger than the text.
WIDTH = 296
SHOWN_WIDTH = 400
LETTERS = 12  # px high at WIDTH

_BAR_WIDTH = 292.0
_LEFT = 2.0
_ROW = 38.0
_WORDS_AT = 12.0
_BAR_AT = 17.0
_BAR = 13.0
_THIN = 6.0
_THIN_STEP = 8.0
_LEGEND = 18.0
_LEGEND_AT = 30.0
_LINE = 15.0  # from one line of words to the next
_GAP = 6.0  # between words beside each other
_BEARING = 1.0  # free of ink at either end of a word
_LONGEST_NAME = 22  # letters that leave room for the numbers beside them

# How wide letters are, in parts of their height. Fonts differ: these are the widths of one of the
# widest that systems bring along, so that words have room in all of them.
_LETTERS_WIDE = {
    letter: wide
    for wide, letters in (
        (0.30, "ijlIJ'"),
        (0.318, ".,· \u00a0\u202f"),
        (0.34, "/:;|\\"),
        (0.42, "frt-()[]!"),
        (0.55, "csz*–°?"),
        (0.60, "FLkvxy"),
        (0.636, "abdeghnopqu0123456789EPSTYßø"),
        (0.79, "ABCDGHKNOQRUVXZ&Ø"),
        (0.975, "mwM%½¼¾"),
        (1.07, "WæÆœŒ@…—"),
    )
    for letter in letters
}
_SIGN_WIDE = 0.84  # + = → − ×, and letters of other scripts
_ROOMY_WIDE = 1.1  # emoji, and scripts whose letters fill a square

_PROFILE_TOP = 22.0
_PROFILE_HEIGHT = 80.0
_LABEL_ROOM = 64.0  # at least, from one height to the next
_DAY_ROOM = 48.0
_LABEL_OVER = 8.0
_LABEL_UNDER = 18.0

_RUN_TOP = 18.0
_RUN_HEIGHT = 120.0
_RANGE = 9.0  # high, about the line it lies on
_OVER_LINE = 6.0
_OVER_RANGE = 9.0
_HALF_HOUR = 30.0

Fill = Literal["solid", "lines", "dots", "cross", "open"]


@dataclass(frozen=True, slots=True)
class Bar:
    """A rectangle of one hatching."""

    x: str
    y: str
    width: str
    height: str
    fill: str


@dataclass(frozen=True, slots=True)
class Mark:
    """An upright line across a bar."""

    x: str
    top: str
    bottom: str


@dataclass(frozen=True, slots=True)
class Level:
    """A line straight across."""

    y: str
    dashed: bool


@dataclass(frozen=True, slots=True)
class Words:
    """Words beside or over a bar."""

    x: str
    y: str
    anchor: str
    text: str


@dataclass(frozen=True, slots=True)
class Dot:
    """A point of a line."""

    x: str
    y: str


@dataclass(frozen=True, slots=True)
class Chart:
    """A drawing with its own words; `behind` is its table where the page has no other."""

    id: str
    title: str
    text: str
    width: str
    height: str
    shown_width: str
    shown_height: str
    bars: tuple[Bar, ...] = ()
    marks: tuple[Mark, ...] = ()
    words: tuple[Words, ...] = ()
    line: str = ""  # points of one line
    dots: tuple[Dot, ...] = ()
    behind: Table | None = None
    levels: tuple[Level, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One bar: parts from the left, and perhaps a mark; `thin` has bars of their own instead."""

    name: str
    says: str
    parts: tuple[tuple[float, Fill], ...] = ()
    mark: float | None = None
    thin: tuple[float, ...] = ()
    told: str = ""  # instead of `says` in the words for those who do not see it


def draw(
    chart_id: str,
    title: str,
    rows: list[Row],
    legend: tuple[tuple[Fill, str], ...] = (),
    mark: str = "",
    behind: Table | None = None,
) -> Chart:
    """Lay out bars to one scale, with their words above them and what the hatchings mean below."""
    longest = max((_longest(row) for row in rows), default=0) or 1
    bars: list[Bar] = []
    marks: list[Mark] = []
    said: list[Words] = []
    y = 0.0
    for row in rows:
        name = _short(row.name)
        said.append(Words(_n(_LEFT), _n(y + _WORDS_AT), "start", name))
        if words_wide(name) + _GAP + words_wide(row.says) > _BAR_WIDTH:
            y += _LINE  # too long to stand beside the name: under it
        for number, line in enumerate(_lines(row.says, _BAR_WIDTH)):
            y += _LINE if number else 0
            said.append(Words(_n(WIDTH - _LEFT), _n(y + _WORDS_AT), "end", line))
        bars += _bars(row, y + _BAR_AT, _BAR_WIDTH / longest)
        if row.mark is not None:
            marks.append(_mark(_LEFT + _BAR_WIDTH * row.mark / longest, y + _BAR_AT))
        y += _ROW if not row.thin else _BAR_AT + len(row.thin) * _THIN_STEP + _BAR / 2
    y += 4
    for fill, means in legend:
        bars.append(Bar(_n(_LEFT), _n(y), "22", _n(_BAR), fill))
        meaning = _legend(y, means)
        said += meaning
        y += _LEGEND + (len(meaning) - 1) * _LINE
    if mark:
        marks.append(_mark(_LEFT + 11, y))
        meaning = _legend(y, mark)
        said += meaning
        y += _LEGEND + (len(meaning) - 1) * _LINE
    told = ". ".join(f"{row.name}: {row.told or row.says}" for row in rows)
    return drawn(
        chart_id,
        title,
        told,
        y + 2,
        bars=tuple(bars),
        marks=tuple(marks),
        words=tuple(said),
        behind=behind,
    )


def drawn(
    chart_id: str,
    title: str,
    told: str,
    height: float,
    bars: tuple[Bar, ...] = (),
    marks: tuple[Mark, ...] = (),
    words: tuple[Words, ...] = (),
    line: str = "",
    dots: tuple[Dot, ...] = (),
    behind: Table | None = None,
    levels: tuple[Level, ...] = (),
) -> Chart:
    """Give a drawing of its parts, shown a little larger where there is room."""
    shown = f"{height * SHOWN_WIDTH / WIDTH:.0f}"
    return Chart(
        chart_id, title, f"{told}.", str(WIDTH), _n(height), str(SHOWN_WIDTH), shown,
        bars, marks, words, line, dots, behind, levels,
    )  # fmt: skip


def _longest(row: Row) -> float:
    return max(sum(size for size, _ in row.parts), row.mark or 0, *row.thin, 0.0)


def _bars(row: Row, y: float, scale: float) -> list[Bar]:
    bars = []
    x = _LEFT
    for size, fill in row.parts:
        if size * scale > 0:
            bars.append(Bar(_n(x), _n(y), _n(size * scale), _n(_BAR), fill))
        x += max(size, 0) * scale
    for number, size in enumerate(row.thin):
        if size > 0:
            top = _n(y + number * _THIN_STEP)
            bars.append(Bar(_n(_LEFT), top, _n(size * scale), _n(_THIN), "solid"))
    return bars


def _mark(x: float, bar_top: float) -> Mark:
    return Mark(_n(x), _n(bar_top - 3), _n(bar_top + _BAR + 3))


def _short(name: str, longest: int = _LONGEST_NAME, room: float = _BAR_WIDTH) -> str:
    """Cut a name that is too long, or too wide for the picture."""
    if len(name) <= longest and words_wide(name) <= room:
        return name
    kept = name[: longest - 1]
    while kept and words_wide(f"{kept}…") > room:
        kept = kept[:-1]
    return f"{kept}…"


def words_wide(words: str) -> float:
    """Give how wide words are in a chart, roughly and rather too wide than too narrow."""
    return LETTERS * sum(map(_letter_wide, unicodedata.normalize("NFD", words)))


def _letter_wide(letter: str) -> float:
    if letter in _LETTERS_WIDE:
        return _LETTERS_WIDE[letter]
    if unicodedata.combining(letter):
        return 0.0
    roomy = unicodedata.east_asian_width(letter) in "WF"
    return _ROOMY_WIDE if roomy else _SIGN_WIDE


def _lines(said: str, room: float) -> list[str]:
    """Break words into lines that have room; a word wider than a whole line is cut."""
    lines: list[str] = []
    for word in said.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and words_wide(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(_short(word, len(word), room))
    return lines


def _legend(y: float, means: str) -> list[Words]:
    """Give the lines that say what a hatching at some height means."""
    left = _LEFT + _LEGEND_AT
    return [
        Words(_n(left), _n(y + 11 + number * _LINE), "start", line)
        for number, line in enumerate(_lines(means, WIDTH - left))
    ]


def _n(value: float) -> str:
    """Give a coordinate, to a tenth."""
    return f"{value:.1f}".removesuffix(".0")


def energy_chart(kit: Kit) -> Chart:
    """Draw the food energy of each day against what the day asks for."""
    figures = figures_of(kit)
    say = figures.say
    rows = [
        Row(
            words.day_name(say, day),
            say(
                "{eaten} eaten, {needed} needed",
                eaten=figures.plain(day.nutrition.energy_kcal, "energy_kcal"),
                needed=figures.plain(day.energy_need_kcal, "energy_kcal"),
            ),
            ((day.nutrition.energy_kcal, "lines"),),
            day.energy_need_kcal,
        )
        for day in kit.days
    ]
    behind = [
        (
            text(words.day_name(say, day)),
            text(figures.plain(day.nutrition.energy_kcal, "energy_kcal")),
            text(figures.plain(day.energy_need_kcal, "energy_kcal")),
        )
        for day in kit.days
    ]
    return draw(
        "energy-chart",
        say("Food energy by day, for all"),
        rows,
        (("lines", say("in the food")),),
        say("needed"),
        table((say("Day"), say("Food"), say("Needed")), behind, "lrr"),
    )


def packs_chart(kit: Kit) -> Chart | None:
    """Draw each one's pack on every morning, a thin bar for a day."""
    figures = figures_of(kit)
    say = figures.say
    rows = []
    for person in kit.weights.people:
        shown = [figures.plain(mass, "mass_g") for mass in person.by_day_g]
        if shown:
            told = ", ".join(
                say("day {n} {mass}", n=day, mass=mass) for day, mass in enumerate(shown, start=1)
            )
            says = f"{shown[0]} → {shown[-1]}" if shown[0] != shown[-1] else shown[0]
            rows.append(Row(person.name, says, thin=person.by_day_g, told=told))
    if not rows:
        return None
    title = say("Each pack, morning by morning: the first day on top")
    return draw("packs-chart", title, rows)


_KINDS: tuple[tuple[str, Fill, str, str], ...] = (  # as the legend and as a column calls it
    ("own", "open", later("own gear"), later("Own gear")),
    ("gear", "solid", later("shared gear"), later("Shared gear")),
    ("fuel", "dots", later("fuel"), later("Fuel")),
    ("food", "lines", later("food"), later("Food")),
    ("water", "cross", later("water"), later("Water")),
)


def kinds_chart(kit: Kit) -> Chart | None:
    """Draw what each pack is made of at its heaviest."""
    if not kit.weights.people:
        return None
    figures = figures_of(kit)
    say = figures.say
    rows = []
    behind: list[tuple[Cell, ...]] = []
    for person in kit.weights.people:
        masses = _by_kind(person)
        told = ", ".join(
            f"{say(name)} {figures.plain(mass, 'mass_g')}"
            for (_, _, name, _), mass in zip(_KINDS, masses, strict=True)
            if mass
        )
        parts = tuple((mass, fill) for (_, fill, _, _), mass in zip(_KINDS, masses, strict=True))
        says = figures.plain(person.total_g, "mass_g")
        rows.append(Row(person.name, says, parts, told=f"{says}: {told}" if told else says))
        shown = (text(figures.plain(mass, "mass_g") if mass else "–") for mass in masses)
        behind.append((text(person.name), *shown))
    heads = (say("Who"), *(say(head) for _, _, _, head in _KINDS))
    return draw(
        "kinds-chart",
        say("What each pack is made of, at its heaviest"),
        rows,
        tuple((fill, say(name)) for _, fill, name, _ in _KINDS),
        behind=table(heads, behind, "lrrrrr"),
    )


def _by_kind(person: PersonLoad) -> list[float]:
    return [
        sum(thing.mass_g for thing in person.carries if thing.kind == kind)
        for kind, _, _, _ in _KINDS
    ]


def profile_chart(kit: Kit) -> Chart | None:
    """Draw how high the camps lie, night after night; one camp alone needs no picture."""
    camps = [day for day in kit.days if not day.ends_home]
    if len(camps) < 2:
        return None
    figures = figures_of(kit)
    say = figures.say
    names = [words.day_name(say, day) for day in camps]
    heights = [day.conditions.altitude_m for day in camps]
    shown = [figures.plain(height, "altitude_m") for height in heights]
    step = (WIDTH - _DAY_ROOM) / (len(camps) - 1)
    xs = [_DAY_ROOM / 2 + step * number for number in range(len(camps))]
    low, high = min(heights), max(heights)
    scale = _PROFILE_HEIGHT / (high - low) if high > low else 0.0
    ground = _PROFILE_TOP + _PROFILE_HEIGHT + 24
    ys = [_PROFILE_TOP + (high - height) * scale for height in heights]
    over = [_label(number, xs, ys, height) for number, height in enumerate(shown)]
    below = [_placed(x, ground + 15, "middle", name) for x, name in zip(xs, names, strict=True)]
    said = _with_room(over, heights, _LABEL_ROOM)
    said += _with_room(below, [0.0] * len(below), _DAY_ROOM)
    told = ". ".join(f"{name}: {height}" for name, height in zip(names, shown, strict=True))
    return drawn(
        "profile-chart",
        say("How high you sleep, night by night"),
        told,
        ground + 20,
        words=tuple(said),
        line=" ".join(f"{_n(x)},{_n(y)}" for x, y in zip(xs, ys, strict=True)),
        dots=tuple(Dot(_n(x), _n(y)) for x, y in zip(xs, ys, strict=True)),
        behind=table(
            (say("Night after"), say("Camp at")),
            [(text(name), text(height)) for name, height in zip(names, shown, strict=True)],
            "lr",
        ),
    )


def _label(number: int, xs: Sequence[float], ys: Sequence[float], shown: str) -> Words:
    """Put a height where the line does not run: over a top, under a hollow, beside a slope."""
    before = ys[max(number - 1, 0)] - ys[number]  # below nought where the way comes from above
    after = ys[min(number + 1, len(ys) - 1)] - ys[number]
    if before < 0 < after or after < 0 < before:
        anchor = "start" if before < 0 else "end"
        return _placed(xs[number], ys[number] - _LABEL_OVER, anchor, shown)
    down = _LABEL_UNDER if min(before, after) < 0 else -_LABEL_OVER
    return _placed(xs[number], ys[number] + down, "middle", shown)


def _placed(x: float, y: float, anchor: str, shown: str) -> Words:
    """Put words at a point, or as near to it as leaves them in the picture."""
    left, right = _ends(x, anchor, shown)
    aside = max(-_BEARING - left, 0.0) or min(WIDTH + _BEARING - right, 0.0)
    return Words(_n(x + aside), _n(y), anchor, shown)


def _ends(x: float, anchor: str, shown: str) -> tuple[float, float]:
    """Give where words begin and end."""
    wide = words_wide(shown)
    left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    return left, left + wide


def _apart(one: Words, other: Words, room: float) -> bool:
    """Tell whether two labels are at least so far apart, and do not touch."""
    first, second = float(one.x), float(other.x)
    if abs(first - second) < room:
        return False
    left, right = _ends(first, one.anchor, one.text)
    other_left, other_right = _ends(second, other.anchor, other.text)
    beside = right + _GAP <= other_left or other_right + _GAP <= left
    return beside or abs(float(one.y) - float(other.y)) >= _LINE


def _with_room(labels: Sequence[Words], heights: Sequence[float], room: float) -> list[Words]:
    """Choose the points that get a label: the highest and lowest, the ends, then what fits."""
    every = range(len(labels))
    first = [
        max(every, key=lambda number: heights[number]),
        min(every, key=lambda number: heights[number]),
        0,
        len(labels) - 1,
    ]
    chosen: list[int] = []
    for number in (*first, *every):
        if all(_apart(labels[number], labels[other], room) for other in chosen):
            chosen.append(number)
    return [labels[number] for number in sorted(chosen)]


def water_chart(kit: Kit) -> Chart:
    """Draw what the water of each day is for, and the most that is carried at once."""
    figures = figures_of(kit)
    say = figures.say
    rows = [
        Row(
            words.day_name(say, day),
            say(
                "{water}; carry {most}",
                water=figures.plain(day.water.total_ml, "volume_ml"),
                most=figures.plain(day.water.carry_ml, "volume_ml"),
            ),
            (
                (day.water.drinking_ml, "open"),
                (day.water.drinks_ml, "dots"),
                (day.water.cooking_ml, "lines"),
                (day.water.washing_ml, "solid"),
            ),
            day.water.carry_ml,
        )
        for day in kit.days
    ]
    legend: tuple[tuple[Fill, str], ...] = (
        ("open", say("to drink")),
        ("dots", say("hot drinks")),
        ("lines", say("to cook with")),
        ("solid", say("to wash with")),
    )
    return draw("water-chart", say("Water by day"), rows, legend, say("the most carried at once"))


def fuel_chart(kit: Kit) -> Chart | None:
    """Draw the fuel that is left at the end of each day, against what is carried."""
    if not kit.fuel or not kit.fuel.likely_g:
        return None
    figures = figures_of(kit)
    say = figures.say
    taken = sum(each.holds_g * each.count for each in kit.fuel.containers) or kit.fuel.carry_g
    start, whole = say.of("trip", "Start"), figures.plain(taken, "mass_g")
    rows = [Row(start, whole, ((taken, "lines"),))]
    behind: list[tuple[Cell, ...]] = [(text(start), text(whole))]
    for day, left in zip(kit.days, fuel_left_g(kit, taken), strict=True):
        shown = figures.plain(left, "mass_g")
        parts: tuple[tuple[float, Fill], ...] = ((left, "lines"), (taken - left, "open"))
        when = say("After day {n}", n=day.day)
        rows.append(Row(when, say("{mass} left", mass=shown), parts))
        behind.append((text(when), text(shown)))
    return draw(
        "fuel-chart",
        say("Fuel left, of what you carry"),
        rows,
        (("lines", say.of("fuel", "left")), ("open", say.of("fuel", "burnt"))),
        behind=table((say("When"), say("Fuel left")), behind, "lr"),
    )


def fuel_left_g(kit: Kit, taken_g: float) -> list[float]:
    """Give what is left of the fuel at the end of each day."""
    left = []
    for day in kit.days:
        taken_g -= day.fuel.fuel_g
        left.append(max(taken_g, 0.0))
    return left


def half_hours(minutes: float) -> float:
    """Round an estimated time as far as anyone can rely on it."""
    return rounded(minutes / _HALF_HOUR) * _HALF_HOUR


def run_chart(figures: Figures, batch: str, run: DryingRun) -> Chart:
    """Draw the weight of a load against hours: weighings, curve, and where it is dry enough."""
    say = figures.say
    heaviest = max(each.mass_g for each in (*run.curve, *run.weighed))
    longest = max(run.latest_min, *(each.at_min for each in (*run.curve, *run.weighed)))
    ground = _RUN_TOP + _RUN_HEIGHT

    def x(minutes: float) -> float:
        return _LEFT + _BAR_WIDTH * minutes / longest

    def y(mass_g: float) -> float:
        return ground - _RUN_HEIGHT * mass_g / heaviest

    target = figures.plain(run.target_g, "mass_g")
    dry = figures.plain(half_hours(run.dry_after_min), "duration_min")
    rows = [(_at(figures, each), figures.plain(each.mass_g, "mass_g")) for each in run.weighed]
    told = [say("After {time}: {mass}", time=at, mass=mass) for at, mass in rows]
    told.append(say("Dry enough, {mass}, after about {time}", mass=target, time=dry))
    dry_from = x(run.earliest_min)
    enough = say("dry enough: {mass}", mass=target)
    over = _OVER_LINE if _LEFT + words_wide(enough) + _GAP <= dry_from else _OVER_RANGE
    enough_at = y(run.target_g) - over
    if enough_at < _WORDS_AT + _LINE:  # the weight at the start stands there: go under the line
        enough_at = y(run.target_g) + over + LETTERS
    legend = _legend(ground + 24, say("likely dry enough in these hours"))
    return drawn(
        f"run-{batch}",
        say("Weight of the load, hour by hour; dots are weighings"),
        ". ".join(told),
        ground + 24 + _LEGEND + (len(legend) - 1) * _LINE,
        bars=(
            Bar(
                _n(dry_from),
                _n(y(run.target_g) - _RANGE / 2),
                _n(max(x(run.latest_min) - dry_from, 2.0)),
                _n(_RANGE),
                "lines",
            ),
            Bar(_n(_LEFT), _n(ground + 24), "22", _n(_BAR), "lines"),
        ),
        words=(
            Words(_n(_LEFT), _n(_WORDS_AT), "start", figures.plain(heaviest, "mass_g")),
            Words(_n(_LEFT), _n(enough_at), "start", enough),
            Words(_n(_LEFT), _n(ground + 15), "start", say.of("drying", "start")),
            Words(
                _n(WIDTH - _LEFT),
                _n(ground + 15),
                "end",
                figures.plain(half_hours(longest), "duration_min"),
            ),
            *legend,
        ),
        line=" ".join(f"{_n(x(each.at_min))},{_n(y(each.mass_g))}" for each in run.curve),
        dots=tuple(Dot(_n(x(each.at_min)), _n(y(each.mass_g))) for each in run.weighed),
        behind=table(
            (say("After"), say("Weight")),
            [
                *((text(at), text(mass)) for at, mass in rows),
                (text(say("{time}, forecast", time=dry)), text(target)),
            ],
            "lr",
        ),
        levels=(Level(_n(y(run.target_g)), True), Level(_n(ground), False)),
    )


def _at(figures: Figures, weighing: Weighing) -> str:
    return figures.plain(weighing.at_min, "duration_min")
