"""The cautions of a kit as boxes, and one page with all of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from builder.model.kit import Kit, KitCaution
from builder.model.source import LEVELS, Level
from builder.model.trip import Units
from builder.pages import words
from builder.pages.citing import citation
from builder.pages.pieces import Cell, link, text
from builder.pages.trip.addresses import day_path
from builder.record import dataclass
from builder.speech import Speech, later, speech_of
from builder.units import other_system

# The text by system of units, the trip's own first; empty where it is the same in both.
Told = tuple[tuple[Units, str], ...]


@dataclass(frozen=True, slots=True)
class Box:
    """A caution where it is needed, once, with every reason that holds there."""

    id: str
    level: Level
    word: str
    title: str
    text: str
    in_both: str  # the text in both systems of units at once
    because: tuple[str, ...]
    told: Told = ()

    @property
    def href(self) -> str:
        """Its address on the page of all cautions."""
        return f"cautions.md#{self.id}"


@dataclass(frozen=True, slots=True)
class Case:
    """One reason in this trip, and the page it belongs to."""

    because: str
    where: Cell


@dataclass(frozen=True, slots=True)
class Entry:
    """A caution with all its reasons in this trip, each with its page."""

    box: Box
    cases: tuple[Case, ...]
    sources: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """The cautions of one level."""

    level: Level
    title: str
    says: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class CautionsPage:
    """All cautions, the gravest first."""

    groups: tuple[Group, ...]
    standing: str


_GROUPS_SAY: dict[Level, str] = {
    "danger": later("Someone can be badly hurt or fall very ill. Act before you go."),
    "care": later("Fine when done right. Read these before you pack and before you cook."),
    "note": later("Good to know."),
}


def page_of(where: str) -> str:
    """Give the Markdown path of the page that a caution belongs to."""
    return f"{where.partition('#')[0].removesuffix('.md').removesuffix('.html')}.md"


def page_names(say: Speech, kit: Kit) -> dict[str, str]:
    """Give the name of each page that a caution can belong to, by path."""
    names = {
        "index.md": say("whole trip"),
        "water.md": say.of("page", "Water"),
        "fuel.md": say.of("page", "Fuel"),
        "carry.md": say.of("page", "Carry"),
        "drying.md": say.of("page", "Drying"),
        "shopping.md": say.of("page", "Shopping"),
        "food.md": say.of("page", "Food value"),
    }
    names |= {day_path(day): words.day_name(say, day) for day in kit.days}
    for day in kit.days:
        names |= {f"cook/{meal.recipe}.md": meal.title for meal in day.meals if meal.recipe}
    return names


def boxes(kit: Kit, cautions: Iterable[KitCaution]) -> tuple[Box, ...]:
    """Give cautions as boxes, each once with all its reasons, the gravest first."""
    return tuple(_box(kit, alike) for alike in _alike(cautions))


def _alike(cautions: Iterable[KitCaution]) -> list[list[KitCaution]]:
    """Put what is one caution together, the gravest first."""
    together: dict[tuple[Level, str], list[KitCaution]] = {}
    for each in cautions:
        together.setdefault((each.level, each.id), []).append(each)
    return sorted(together.values(), key=lambda alike: LEVELS.index(alike[0].level))


def _box(kit: Kit, alike: Sequence[KitCaution]) -> Box:
    first = alike[0]
    return Box(
        first.id,
        first.level,
        speech_of(kit.language)(words.LEVELS[first.level]),
        first.title,
        first.text,
        first.in_both or first.text,
        tuple(dict.fromkeys(_reason(each) for each in alike)),
        _told(kit.units, first),
    )


def _told(units: Units, caution: KitCaution) -> Told:
    if not caution.otherwise:
        return ()
    return ((units, caution.text), (other_system(units), caution.otherwise))


def _reason(caution: KitCaution) -> str:
    """Give the reason without a stop: what follows it differs by page."""
    return caution.because.rstrip(" .")


def cautions_page(kit: Kit) -> CautionsPage:
    """Put each caution down once, with every reason for it."""
    say = speech_of(kit.language)
    names = page_names(say, kit)
    cited = {source.id: citation(say, source) for source in kit.sources}
    entries = [_entry(kit, alike, names, cited) for alike in _alike(kit.cautions)]
    return CautionsPage(
        tuple(
            Group(level, say(words.LEVELS[level]), say(_GROUPS_SAY[level]), tuple(group))
            for level, group in groupby(entries, key=lambda entry: entry.box.level)
        ),
        kit.standing.text,
    )


def _entry(
    kit: Kit, alike: Sequence[KitCaution], names: Mapping[str, str], cited: Mapping[str, str]
) -> Entry:
    sources = dict.fromkeys(source for each in alike for source in each.sources)
    return Entry(
        _box(kit, alike),
        tuple(dict.fromkeys(Case(_reason(each), _where(each.where, names)) for each in alike)),
        tuple(
            link(cited[source], f"numbers.md#source-{source}") if source in cited else text(source)
            for source in sources
        ),
    )


def _where(where: str, names: Mapping[str, str]) -> Cell:
    path = page_of(where)
    if path == "cautions.md":
        return ()
    return link(names[path], path) if path in names else text(where)
