"""The pages of numbers: how each figure came about, one page for a day and one for the trip.

They are written out of the graph of figures, so that nothing on them is told a second time.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby

from builder.formulas.declaring import FORMULAS, unit_of_name
from builder.model.figure import Found, Named, Told, Traced
from builder.model.kit import Kit
from builder.pages.citing import citation
from builder.pages.figures import PEOPLE_A_PAGE, PERSON, anchor, numbers_of, worked
from builder.pages.pieces import Table, table, text
from builder.pages.trip.addresses import at_day
from builder.pages.trip.afterwards.wrong import wrong_title
from builder.pages.trip.origins.leaves import leaf_said
from builder.pages.trip.origins.sources import Checked, checked_at
from builder.pages.trip.origins.titles import named_plainly, title_of
from builder.planning.graph import Graph, Node, is_inner
from builder.record import dataclass, replace
from builder.speech import Speech, later, speech_of

_DAY = re.compile(r"days\.(\d+)\.")
_MEAL = re.compile(r"days\.\d+\.meals\.(\d+)\.")
_MISHAP = re.compile(r"mishaps\.(\d+)\.")
_STILL = re.compile(r"mishaps\.(\d+)\.still\.(\d+)\.kcal\.(\d+)$")
_BATCH = re.compile(r"batches\.(\d+)\.")
# How a page leads to the line of a figure.
_ASKED = re.compile(r"numbers(?:/[a-z0-9-]+)?\.md#([A-Za-z0-9_-]+)")
# Told in full elsewhere: points of a curve, and the times of the order of work.
_LEFT_OUT = re.compile(
    r"days\.\d+\.(?:order_of_work|meals\.\d+\.label)\.|batches\.\d+\.run\.curve\."
)
_SHORT_EXPRESSION = 60  # a longer one is told once on a page
_MOST_VALUES = 24  # of a list; a longer one is told in kit.json
_GROUPS = {
    "weights": later("Packs"),
    "fuel": later("Fuel"),
    "other_fuels": later("Fuel"),
    "wood": later("Wood"),
    "shopping": later("Shopping"),
    "coming": later("Comes out of the dryer"),
    "guides": later("How to dry it"),
    "learned": later("What earlier trips taught"),
    "review": later("What was"),
}


# Pages hold thousands of the next two, which are frozen by custom, as those of `alike.py` are.
@dataclass(slots=True)
class Given:
    """One input of a figure: its symbol, its values, and where each is from."""

    symbol: str
    values: tuple[tuple[str, str], ...]  # text, and the address it leads to, or ""
    origin: str  # a file and line, or what it is; "" where the values lead somewhere


@dataclass(slots=True)
class Line:
    """How one figure came about."""

    anchor: str
    title: str
    value: str
    expression: str  # "" for a leaf, and where it stands in another line
    as_in: str  # the line of this page that tells the same expression
    inputs: tuple[Given, ...]
    origin: str  # of a leaf
    sources: tuple[tuple[str, str], ...]  # their numbers in the list, and the address
    inner: bool  # worked out on the way to the one above


def has_line(name: str) -> bool:
    """Tell whether the figure with an address has a line of its own on a page of numbers."""
    return not is_inner(name) and not _LEFT_OUT.match(name)


@dataclass(frozen=True, slots=True)
class Part:
    """Figures of one thing: a meal, a person, a batch."""

    title: str
    anchor: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Cited:
    """A source with its address."""

    anchor: str
    citation: str
    url: str
    checks: str  # where the page of sources tells what it checks; "" where it checks nothing


@dataclass(frozen=True, slots=True)
class Constant:
    """A default, a constant or a row of a table that lines of a page use."""

    anchor: str
    name: str
    value: str
    sources: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class NumbersPage:
    """The figures of a day, or of the trip with what was assumed and all sources."""

    path: str
    title: str
    parts: tuple[Part, ...]
    constants: tuple[Constant, ...]
    defaults: Table | None
    sources: tuple[Cited, ...]


def numbers_pages(
    kit: Kit, graph: Graph, checked: Sequence[Checked], pages: Iterable[str]
) -> tuple[NumbersPage, ...]:
    """Give how each figure of the pages came about: the trip first, then each day.

    What no page tells, and no figure of a page rests on, stands in kit.json alone.
    """
    asked = _asked_for(graph, pages)
    titles = _titles(kit)
    tellers = {path: _Teller(kit, graph, path, asked) for path in titles}
    parts: dict[str, dict[str, list[Line]]] = {path: {} for path in titles}
    for name, node in graph.nodes.items():
        # A leaf of its own is told where it goes in.
        if name in asked and not _LEFT_OUT.match(node.top) and not _told_inside(name, node, asked):
            path = numbers_of(node.top)
            groups, teller = parts[path], tellers[path]
            groups.setdefault(teller.part(node.top), []).append(teller.line(name, node))
    return tuple(
        _page(kit, path, title, parts[path], tellers[path].constants(), checked=checked)
        for path, title in titles.items()
        # Not each of many people has a line of their own.
        if parts[path] or path in (numbers_of(""), *_days(kit))
    )


def _days(kit: Kit) -> Iterator[str]:
    return (numbers_of(f"{at_day(day)}.") for day in kit.days)


def _titles(kit: Kit) -> dict[str, str]:
    """Give the title of each page of numbers: the trip's, then each day's, those of more people."""
    say = speech_of(kit.language)
    days = ((at_day(day), "people", say("Numbers of day {n}", n=day.day)) for day in kit.days)
    titles: dict[str, str] = {}
    for at, people, title in (("trip", "party", say.of("page", "Numbers")), *days):
        titles[numbers_of(f"{at}.")] = title
        for first in range(PEOPLE_A_PAGE, len(kit.party), PEOPLE_A_PAGE):
            path = numbers_of(f"{at}.{people}.{first}.")
            titles[path] = say("{title}, people from {first} on", title=title, first=first + 1)
    return titles


def _asked_for(graph: Graph, pages: Iterable[str]) -> Mapping[str, bool]:
    """Give the figures that pages lead to, with all that those were worked out of.

    Beside each stands whether a page leads to it itself.
    """
    anchors = {found for page in pages for found in _ASKED.findall(page)}
    asked = [node for name, node in graph.nodes.items() if anchor(name) in anchors]
    below = graph.below(asked).nodes
    return {**dict.fromkeys(below, False), **{node.id: True for node in asked}}


def _told_inside(name: str, node: Node, asked: Mapping[str, bool]) -> bool:
    """Tell whether a figure is told where it goes in, and needs no line of its own."""
    return node.leaf is not None and not asked[name]


def _page(
    kit: Kit,
    path: str,
    title: str,
    groups: Mapping[str, Sequence[Line]],
    constants: tuple[Constant, ...],
    *,
    checked: Sequence[Checked],
) -> NumbersPage:
    say = speech_of(kit.language)
    told = [(text(each.what), text(each.value), text(each.why)) for each in kit.defaults]
    whole = path == numbers_of("")
    return NumbersPage(
        path,
        title,
        tuple(
            Part(whose, f"part-{place}", tuple(lines))
            for place, (whose, lines) in enumerate(groups.items(), start=1)
        ),
        constants,
        table((say("Not given"), say("Taken instead"), say("Why")), told)
        if told and whole
        else None,
        tuple(_cited(say, kit, checked)) if whole else (),
    )


def _cited(say: Speech, kit: Kit, checked: Sequence[Checked]) -> Iterator[Cited]:
    for source in kit.sources:
        yield Cited(
            f"source-{source.id}",
            citation(say, source),
            _web(source.url),
            checked_at(source, checked),
        )


def _web(url: str) -> str:
    """Give an address only where it is one of the web: people's own sources may hold anything."""
    return url if re.fullmatch(r"https?://[A-Za-z0-9._~:/?#@%&=+,;-]+", url) else ""


def _in_runs(values: Iterable[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Give values that follow each other alike once, with their number."""
    for (said, href), run in groupby(values):
        number = len(list(run))
        yield (f"{number} × {said}" if number > 1 else said, href)


class _Teller:
    """Tells the lines of one page."""

    def __init__(self, kit: Kit, graph: Graph, path: str, asked: Mapping[str, bool]) -> None:
        self.kit, self.graph, self.path, self.asked = kit, graph, path, asked
        self.say = speech_of(kit.language)
        self.cited = {source.id: str(number) for number, source in enumerate(kit.sources, start=1)}
        self.named: dict[tuple[float, Named], Constant] = {}
        self.told: dict[str, str] = {}  # where a long expression stands on this page

    def constants(self) -> tuple[Constant, ...]:
        """Give the constants that the lines told so far use, each once."""
        return tuple(sorted(self.named.values(), key=lambda each: each.name))

    def part(self, name: str) -> str:
        """Name the thing that a figure is of."""
        if meal := _MEAL.match(name):
            day = self.kit.days[int(name.split(".")[1])]
            return day.meals[int(meal[1])].title
        if person := PERSON.match(name):
            return self.kit.party[int(person[1])].name
        if batch := _BATCH.match(name):
            each = self.kit.batches[int(batch[1])]
            return f"{each.name} ({each.id})"
        if mishap := _MISHAP.match(name):
            return wrong_title(self.say, self.kit.mishaps[int(mishap[1])])
        if _DAY.match(name):
            return self.say("The whole day")
        first = re.split(r"[./]", name)[0]
        return self.say(_GROUPS[first]) if first in _GROUPS else self.say("The trip")

    def line(self, name: str, node: Node) -> Line:
        """Tell how one figure came about."""
        unit = self.unit(name, node)
        at = self.told.setdefault(node.formula, anchor(name))
        again = len(node.expression) > _SHORT_EXPRESSION and at != anchor(name)
        return Line(
            anchor(name),
            self.title(name, node),
            self.worked(node.value, unit),
            "" if again else node.expression,
            f"#{at}" if again else "",
            tuple(self.given(symbol, given) for symbol, given in node.inputs.items()),
            leaf_said(self.kit, node.leaf) if node.leaf is not None else "",
            tuple(self.sources(node)),
            is_inner(name),
        )

    def title(self, name: str, node: Node) -> str:
        """Call a figure what it is; what one still eats with whose it is, and of which day."""
        title = title_of(self.say, name, node)
        still = _STILL.match(name)
        if not still:
            return title
        mishap, person, day = map(int, still.groups())
        each = self.kit.mishaps[mishap]
        who = each.still[person].name or self.say("All together")
        if each.kind == "day-more":
            return self.say("{title}, {name}, each day", title=title, name=who)
        return self.say("{title}, {name}, day {n}", title=title, name=who, n=day + 1)

    def unit(self, name: str, node: Node) -> str:
        """Give the unit of a figure: its address or its formula tells it."""
        if node.declared is not None:
            return FORMULAS[node.declared].unit
        return "" if is_inner(name) else unit_of_name(re.split(r"[./]", name)[-1])

    def worked(self, value: float, unit: str) -> str:
        """Give a value with its unit, as it is computed."""
        return worked(self.say, value, "" if unit == "share" else unit)

    def given(self, symbol: str, given: Traced | tuple[Traced, ...]) -> Given:
        """Tell an input: its values lead to their own lines, a leaf tells where it is from."""
        unit = unit_of_name(symbol)
        if not isinstance(given, tuple):
            href = self.href(given)
            return Given(symbol, ((self.worked(given, unit), href),), self._from(given, href))
        values = [(self.worked(each, unit), self.href(each)) for each in given]
        origins = {
            self._from(each, href): None for each, (_, href) in zip(given, values, strict=True)
        }
        told = tuple(_in_runs(values))
        if len(told) > _MOST_VALUES:
            more = self.say("and {n} more, in kit.json", n=len(told) - _MOST_VALUES)
            told = (*told[:_MOST_VALUES], (more, ""))
        return Given(symbol, told, ", ".join(filter(None, origins)))

    def _from(self, figure: Traced, href: str) -> str:
        """Tell where a leaf is from; what leads to a line of its own is told there."""
        if href or not isinstance(figure.origin, (Told, Found)):
            return ""
        return leaf_said(self.kit, figure.origin)

    def constant(self, figure: Traced, leaf: Named) -> Constant:
        """Give a constant of this page, noted the first time."""
        key = (float(figure), replace(leaf, chosen_at=None))
        if key not in self.named:
            words, _, chosen = leaf.name.partition(" (")
            self.named[key] = Constant(
                f"c{len(self.named) + 1}",
                f"{named_plainly(words)} ({chosen}" if chosen else named_plainly(words),
                self.worked(figure, unit_of_name(words)),
                tuple(self.links([leaf.source])),
            )
        return self.named[key]

    def href(self, figure: Traced) -> str:
        """Give the address of the line of a figure; a leaf has none."""
        name = self.graph.id_of(figure)
        leaf = isinstance(figure.origin, (Told, Named, Found))
        if isinstance(figure.origin, Named) and (name is None or is_inner(name)):
            return f"#{self.constant(figure, figure.origin).anchor}"
        if name is None or (leaf and not self.asked.get(name)):
            return ""
        top = self.graph.nodes[name].top
        if _LEFT_OUT.match(top):
            return ""
        path = numbers_of(top)
        page = "" if path == self.path else f"{path.removesuffix('.md')}.html"
        return f"{page}#{anchor(name)}"

    def sources(self, node: Node) -> Iterator[tuple[str, str]]:
        """Give the sources of a figure, each with its address."""
        names: tuple[str, ...] = ()
        if isinstance(node.leaf, Named):
            names = (node.leaf.source,)
        elif isinstance(node.leaf, Found):
            names = node.leaf.sources
        elif node.declared is not None:
            names = FORMULAS[node.declared].sources
        yield from self.links(names)

    def links(self, names: Iterable[str]) -> Iterator[tuple[str, str]]:
        """Give the numbers of sources in the list, each with its address."""
        page = "" if self.path == numbers_of("") else "numbers.html"
        for source in names:
            if source in self.cited:
                yield self.cited[source], f"{page}#source-{source}"
