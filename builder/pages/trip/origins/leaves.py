"""Where the leaves of a kit's figures are from, told so that it is the same on every machine."""

from __future__ import annotations

from functools import lru_cache

from builder.model.figure import Found, Named, Told
from builder.model.kit import Kit
from builder.model.place import Place
from builder.pages.citing import citation_in_short
from builder.planning.tracing import TOLD_BY_PARTY, UNTRACED
from builder.speech import later, speech_of

_METHODS = {
    "counted": later("counted"),
    "as told": later("as told"),
    "not traced": later("as planned"),
    "nothing of it here": later("nothing of it here"),
    "not told": later("not given"),
    "no stove": later("no stove"),
    "when all eat": later("when all eat"),
    "the fullest pack as light as can be": later("the fullest pack as light as can be"),
    "for each gram": later("for each gram"),
    "from its isotherm": later("from its isotherm"),
    "least squares through the weighings": later("least squares through the weighings"),
    "standard error of fit and table": later("standard error of fit and table"),
    "the plan of that trip, before learning": later("the plan of that trip, before learning"),
    "the review of that trip": later("the review of that trip"),
    "of all, in steps": later("of all, in steps"),
}


def inside(kit: Kit, place: Place) -> str:
    """Give a place from the content folder on, such as trips/fell.yaml:12:3."""
    told = str(place)
    beginnings = _beginnings(kit.folders)
    return next((told.removeprefix(each) for each in beginnings if told.startswith(each)), told)


@lru_cache(maxsize=8)  # of a kit or two; asked for each of its leaves
def _beginnings(folders: tuple[str, ...]) -> list[str]:
    return sorted((f"{folder}/" for folder in folders), key=len, reverse=True)


def leaf_said(kit: Kit, leaf: Told | Named | Found) -> str:
    """Say where a leaf is from; a public kit tells no file and no line."""
    say = speech_of(kit.language)
    if isinstance(leaf, Named):
        short = (citation_in_short(say, each) for each in kit.sources if each.id == leaf.source)
        return f"{leaf.name}, {next(short, leaf.source)}"
    if kit.public and (isinstance(leaf, Told) or leaf.method in (UNTRACED, TOLD_BY_PARTY)):
        return say("the party's own files")
    if isinstance(leaf, Told):
        return inside(kit, leaf.place)
    return say(_METHODS[leaf.method]) if leaf.method in _METHODS else leaf.method
