"""How a page cites a source: what it is, and how it is known."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.source import Known, Source
from builder.speech import Speech, later

_CITED: Mapping[Known, str] = {
    "read": later("{source} (read)"),
    "copy": later("{source} (read in a copy)"),
    "memory": later("{source} (quoted from memory)"),
    "practice": later("{source} (common practice, no source)"),
}
_NO_SOURCE = "common-practice"  # in the shipped list; its name says how it is known


def citation(say: Speech, source: Source) -> str:
    """Give a source in one line, with how it is known."""
    return _no_source(say, source) or say(_CITED[source.how], source=source.reference)


def citation_in_short(say: Speech, source: Source) -> str:
    """Name a source where it is used: its whole citation stands in the list of sources."""
    if source.how == "practice":
        return _no_source(say, source) or source.title
    named = f"{source.title}, {source.year}" if source.year else source.title
    return say(_CITED[source.how], source=named)


def _no_source(say: Speech, source: Source) -> str:
    """Give what stands where there is no source; "" for a source."""
    return say("Common practice of the trade, no source") if source.id == _NO_SOURCE else ""
