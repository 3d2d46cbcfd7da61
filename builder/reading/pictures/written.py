"""Pictures beside a record: what may be written, and the small copy that is kept of a file."""

from __future__ import annotations

import hashlib
from functools import partial
from pathlib import PurePosixPath
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, ValidationInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from builder.model.picture import Picture
from builder.model.place import Place
from builder.problems import printable
from builder.reading.beside import Beside
from builder.reading.declared.declaring import AlreadyNoted, Record, key
from builder.reading.declared.patterns import text_schema
from builder.reading.declared.values import line_of
from builder.reading.declared.vocabulary import Line, Value
from builder.reading.files import PICTURES
from builder.reading.notes import Amiss, Notes, refuse
from builder.reading.pictures.small_copies import size_shown
from builder.reading.text.yaml_door import Node, quoted
from builder.record import dataclass, replace

LARGEST_PICTURE_BYTES = 40_000_000
_PATTERN = r"[^\\]*\.([jJ][pP][eE]?[gG]|[pP][nN][gG]|[wW][eE][bB][pP])"
_SHOWS = "The pot on the fire, the beans just covered"


@dataclass(frozen=True)
class PictureFile(Value):
    """The name of a picture that lies beside the file, of which a small copy is kept."""

    _stub = "smoky-bean-pot.jpg"

    def read(self, node: Node, key: str, info: ValidationInfo[Notes]) -> object:
        """Read the file; None where it is not there, which is a warning."""
        name, notes = line_of(node, key), info.context
        told_as = f"file: {PurePosixPath(name).name}"
        beside = notes.beside
        amiss = beside.amiss("picture", told_as, name, node.place) if beside else None
        if amiss and amiss.severity == "error":
            notes.append(amiss)
            raise AlreadyNoted
        if ".." in name.split("/") or "\\" in name:
            says = f"picture: {quoted(name)} does not lie beside this file"
            refuse("file-outside", says, "put it there, or into a folder there")
        if not name.lower().endswith(PICTURES):
            says = f"picture: {quoted(name)} is no JPEG, PNG or WebP file by its name"
            refuse("picture", says, "save it as .jpg, .png or .webp")
        if amiss or beside is None:
            notes += [amiss] if amiss else []
            return None
        return _looked_at(beside, name, node.place)

    def takes(self) -> str:
        """Say what may be written."""
        return "the name of a JPEG, PNG or WebP file beside this one"

    def schema(self) -> JsonSchemaValue:
        """Say it as JSON Schema."""
        return text_schema(_PATTERN, self._stub)


def _looked_at(beside: Beside, name: str, place: Place) -> Picture:
    """Give what is known of a picture once it was read; raise `Amiss` where it cannot be shown."""
    try:
        data = beside.start_of(name, LARGEST_PICTURE_BYTES)
    except OSError as error:
        says = f"picture: {quoted(name)} cannot be read ({error.strerror})"
        raise Amiss("picture", says, "check the file and its permissions") from error
    if len(data) > LARGEST_PICTURE_BYTES:
        says = f"picture: {quoted(name)} is larger than {LARGEST_PICTURE_BYTES // 10**6} MB"
        refuse("picture-large", says, "save a smaller copy: kits show 800 pixels of it")
    width_px, height_px = size_shown(data, name)
    sha256 = hashlib.sha256(data).hexdigest()
    read = partial(beside.start_of, name, LARGEST_PICTURE_BYTES)
    return Picture(name, "", sha256, width_px, height_px, read, place)


class WrittenPicture(Record, title="picture"):
    """A picture of what it stands at."""

    file: Annotated[Picture | None, PictureFile()] = key(
        "A JPEG, PNG or WebP file beside this one. Kits show a small copy, at most 800 pixels "
        "long, without place, date and what else cameras write into it.",
        required=True,
        example="smoky-bean-pot.jpg",
    )
    shows: Annotated[str, Line()] = key(
        "What one sees on it: for who cannot see it, and where it does not load.",
        required=True,
        example=_SHOWS,
        stub=_SHOWS,
    )

    def picture(self) -> Picture | None:
        """Give what kits show; None where the file is not there."""
        return replace(self.file, shows=self.shows) if self.file else None


@dataclass(frozen=True)
class _InWords:
    """Asks for words where a file stands alone."""

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_before_validator_function(_with_words, handler(source))


def _with_words(node: object) -> object:
    if isinstance(node, Node) and node.is_text:
        says = f"picture: {quoted(node.text.strip())} does not say what it shows"
        name = printable(node.text.strip())
        refuse("picture", says, f"write `picture: {{file: {name}, shows: {_SHOWS}}}`")
    return node


APicture = Annotated[WrittenPicture | None, _InWords()]
PICTURE_OF_PLACE = '{file: hut.jpg, shows: "The hut from the path, the spring below it"}'
PICTURE = f'{{file: smoky-bean-pot.jpg, shows: "{_SHOWS}"}}'


def picture_of(written: WrittenPicture | None) -> Picture | None:
    """Give the picture that a key tells."""
    return written.picture() if written else None
