"""Sources and cautions: their keys."""

from __future__ import annotations

from typing import Annotated

from builder.model.source import KNOWN, LEVELS, CautionText, Known, Level, Source
from builder.reading.declared.declaring import Check, Here, Record, key, read_as
from builder.reading.declared.measures import count
from builder.reading.declared.vocabulary import Choice, Flag, Id, Line, Text, Words
from builder.reading.notes import Notes, refuse, refuse_quantities
from builder.reading.text.yaml_door import Node, quoted
from builder.units import odd_blanks


def _how_goes_with_read(here: Here) -> None:
    read = here.above.get("read")
    if read is not None and read != (here.value in ("read", "copy")):
        refuse(
            "how",
            f"read: {str(read).lower()} and how: {here.value} disagree",
            "read: true goes with how: read or copy, read: false with memory or practice",
        )


def _is_a_web_address(here: Here) -> None:
    if not here.value.startswith(("https://", "http://")):
        says = f"{quoted(here.value)} is no web address"
        refuse("url", says, "write https://… or leave it out")


class WrittenSource(Record, title="source"):
    """A published document that a number or caution rests on."""

    id: Annotated[str, Id()] = key(
        "By which foods and cautions name it.", required=True, example="usda-sr28"
    )
    title: Annotated[str, Line()] = key(
        "Its title.", required=True, example="National Nutrient Database, Release 28"
    )
    author: Annotated[str, Line()] = key("Who wrote it.", default="", example="A. Writer")
    publisher: Annotated[str, Line()] = key(
        "Who published it.", default="", example="Department of Agriculture"
    )
    year: Annotated[int | None, count()] = key("The year it appeared.", example="2015")
    url: Annotated[str, Line(), Check(_is_a_web_address)] = key(
        "Its web address.", default="", example="https://example.org/table"
    )
    read: Annotated[bool, Flag()] = key(
        "Whether you read it yourself; `false` alone means quoted from memory.",
        default=False,
        example="true",
    )
    how: Annotated[Known | None, Choice(KNOWN), Check(_how_goes_with_read)] = key(
        "How it is known: read, read in a copy, quoted from memory, or common practice; left out, "
        "`read` decides.",
        example="copy",
    )

    def made(self) -> Source:
        """Give what pages cite."""
        return Source(
            id=self.id,
            title=self.title,
            how=self.how or ("read" if self.read else "memory"),
            publisher=self.publisher,
            author=self.author,
            year=self.year or None,
            url=self.url,
            places=self.places(),
        )


def _quantities_are_told_twice(here: Here) -> None:
    refuse_quantities(odd_blanks(here.value), ", and use braces for nothing else")


class WrittenCaution(Record, title="caution"):
    """The words of a caution; the tool knows when it holds."""

    id: Annotated[str, Id()] = key("One that the tool knows.", required=True, example="two-hours")
    level: Annotated[Level, Choice(LEVELS)] = key(
        "How grave it is.", required=True, example="danger"
    )
    title: Annotated[str, Line()] = key(
        "The act, in few words.", required=True, example="Eat it within two hours"
    )
    text: Annotated[str, Text(), Check(_quantities_are_told_twice)] = key(
        "What to do and why; a quantity is told in both systems, `{74 degC|165 degF}`, and a kit "
        "shows the one of its `units`.",
        required=True,
        example="Eat it within two hours of cooking.",
    )
    sources: Annotated[tuple[str, ...], Words()] = key(
        "The sources it rests on.", default=(), example="[usda-danger-zone]"
    )
    aloud: Annotated[bool, Flag()] = key(
        "Whether anybody is told it before any trip of the kind: it goes on the page to read "
        "aloud, and is no danger of this trip's own.",
        default=False,
        example="true",
    )

    def made(self) -> CautionText:
        """Give the words and where they rest."""
        return CautionText(
            id=self.id,
            level=self.level,
            title=self.title,
            text=self.text,
            sources=self.sources,
            aloud=self.aloud,
            places=self.places("sources"),
        )


def read_source(node: Node, notes: Notes) -> Source | None:
    """Read a source; None where it has errors."""
    found = read_as(WrittenSource, node, notes)
    return found.made() if found else None


def read_caution(node: Node, notes: Notes) -> CautionText | None:
    """Read the words of a caution; None where it has errors."""
    found = read_as(WrittenCaution, node, notes)
    return found.made() if found else None
