"""Small copies of pictures: for phone and paper, without what cameras and phones hide in them."""

from __future__ import annotations

import struct
import warnings
import zlib
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from importlib import import_module
from io import BytesIO
from typing import TYPE_CHECKING

from builder.model.picture import Picture
from builder.problems import ProblemsFound
from builder.reading.notes import Amiss
from builder.reading.text.yaml_door import quoted
from builder.record import dataclass

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageFile import ImageFile

FORMATS = ("JPEG", "PNG", "WEBP")
MOST_PIXELS = 60_000_000
LONG_SIDE_PX = 800
MOST_BYTES = 40_000
# Of one kit, which holds them twice: on its pages, and to start the next trip from.
MOST_TOGETHER_BYTES = 100_000
# Tried in turn until a copy is light enough.
_QUALITIES = (80, 65, 50, 35)
_SIDES_PX = (LONG_SIDE_PX, 640, 480, 360, 240, 160)
_COARSE_PX = 100
_ORIENTATION, _ON_ITS_SIDE = 0x0112, (5, 6, 7, 8)  # as cameras tell it
# What a flipped byte makes of a file, by where it lies.
DAMAGED = (
    OSError, SyntaxError, ValueError, EOFError, LookupError, TypeError, OverflowError, MemoryError,
    RuntimeError, ArithmeticError, struct.error, zlib.error,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Copies:
    """The small copies of some pictures, made when they are asked for."""

    pictures: tuple[Picture, ...]
    most_bytes: int | None  # together; None for as much as each may weigh

    @property
    def named(self) -> str:
        """Name all that the copies follow from."""
        return repr((sorted({each.sha256 for each in self.pictures}), self.most_bytes))

    def __call__(self) -> dict[str, bytes]:
        """Give them by where they lie in a kit."""
        every = {each.path: each for each in self.pictures}
        found = {path: copy_of(each) for path, each in every.items()}
        if self.most_bytes is not None:
            found |= _light_together(found, self.most_bytes)
        return found


def copies_of(pictures: Iterable[Picture | None], large: bool = False) -> Copies:
    """Give the small copies of some pictures; large ones are as sharp as one alone may be."""
    told = tuple(each for each in pictures if each is not None)
    return Copies(told, None if large else MOST_TOGETHER_BYTES)


def copy_of(picture: Picture) -> bytes:
    """Give the small copy of a picture; its file may have changed since it was looked at."""
    try:
        return small_copy(picture.data(), picture.file)
    except Amiss as amiss:
        raise ProblemsFound([amiss.at(picture.place)]) from amiss


def size_shown(data: bytes, name: str) -> tuple[int, int]:
    """Give width and height of the small copy of a picture; raise `Amiss` where there is none."""
    with _opened(data, name) as opened:
        width, height = opened.size
        opened.draft("RGB", (_COARSE_PX, _COARSE_PX))  # JPEG is read coarsely, and to its end
        opened.load()
        with suppress(*DAMAGED):  # odd notes of a camera spoil no picture
            if opened.getexif().get(_ORIENTATION) in _ON_ITS_SIDE:
                width, height = height, width
    times = min(1.0, LONG_SIDE_PX / max(width, height))
    return max(1, round(width * times)), max(1, round(height * times))


def small_copy(data: bytes, name: str) -> bytes:
    """Give a small copy of a picture as WebP; raise `Amiss` where there is none.

    A copy that was made here stays as it is, so that a kit made from a kit shows the same.
    """
    with _opened(data, name) as opened:
        is_small = max(opened.size) <= LONG_SIDE_PX and len(data) <= MOST_BYTES
        opened.draft("RGB", (2 * LONG_SIDE_PX, 2 * LONG_SIDE_PX))
        opened.load()
        if is_small and _holds_nothing_else(data):
            return data
        return _compressed(_plain(opened), MOST_BYTES)


@contextmanager
def _opened(data: bytes, name: str) -> Iterator[ImageFile]:
    """Open a picture, and say what is wrong with one that cannot be shown."""
    from PIL import Image

    import_module("PIL.WebPImagePlugin")  # or all formats there are would be loaded to find it
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # what is odd about a file and is shown all the same
            with Image.open(BytesIO(data), formats=FORMATS) as opened:
                if opened.width * opened.height > MOST_PIXELS:
                    raise _too_large(name)
                yield opened
    except Image.DecompressionBombError:
        raise _too_large(name) from None
    except Amiss:
        raise
    except DAMAGED as error:
        says = f"picture: {quoted(name)} cannot be shown: no whole JPEG, PNG or WebP picture"
        raise Amiss("picture", says, "open it, and save it anew as JPEG") from error


def _too_large(name: str) -> Amiss:
    says = f"picture: {quoted(name)} has more than {MOST_PIXELS // 10**6} million pixels"
    return Amiss("picture-large", says, f"save a smaller copy: kits show {LONG_SIDE_PX} pixels")


def _light_together(copies: Mapping[str, bytes], most_bytes: int) -> dict[str, bytes]:
    """Give those copies anew that must be lighter, so that all together weigh no more.

    What weighs least stays as it is; the others share alike in what is left.
    """
    left_bytes, left = most_bytes, len(copies)
    found = {}
    for path, copy in sorted(copies.items(), key=lambda item: (len(item[1]), item[0])):
        share_bytes = left_bytes // left
        if len(copy) > share_bytes:
            with _opened(copy, path) as opened:
                found[path] = copy = _compressed(_plain(opened), share_bytes)
        left_bytes, left = left_bytes - len(copy), left - 1
    return found


def _plain(opened: Image) -> Image:
    """Give the picture upright, in the colours of screens, on white, with nothing else in it."""
    from PIL import Image, ImageOps

    shown = opened
    with suppress(*DAMAGED):
        shown = ImageOps.exif_transpose(opened)
    shown = _in_screen_colours(shown)
    clean = Image.new("RGB", shown.size, "white")
    if shown.has_transparency_data:
        shown = shown.convert("RGBA")
        clean.paste(shown, mask=shown)
    else:
        clean.paste(shown.convert("RGB"))
    return clean


def _in_screen_colours(shown: Image) -> Image:
    from PIL import ImageCms

    profile = shown.info.get("icc_profile")
    if profile and shown.mode == "RGB":
        with suppress(ImageCms.PyCMSError, *DAMAGED):
            told = ImageCms.ImageCmsProfile(BytesIO(profile))
            screen = ImageCms.createProfile("sRGB")
            return ImageCms.profileToProfile(shown, told, screen, outputMode="RGB") or shown
    return shown


def _compressed(plain: Image, most_bytes: int) -> bytes:
    """Give the best copy in so many bytes: less sharp first, then smaller."""
    copy = b""
    for side_px in _SIDES_PX:
        sized = plain.copy()
        sized.thumbnail((side_px, side_px))
        if sized.getcolors() is not None:  # a drawing, of few colours: each line stays sharp
            copy = _saved(sized, lossless=True, quality=80)
            if len(copy) <= most_bytes:
                return copy
        for quality in _QUALITIES:
            copy = _saved(sized, lossless=False, quality=quality)
            if len(copy) <= most_bytes:
                return copy
    return copy


def _saved(sized: Image, *, lossless: bool, quality: int) -> bytes:
    target = BytesIO()
    sized.save(target, "WEBP", lossless=lossless, quality=quality, method=4)
    return target.getvalue()


def _holds_nothing_else(data: bytes) -> bool:
    """Tell whether a file is one WebP picture and nothing besides, such as notes of a camera."""
    if len(data) < 20 or data[:4] != b"RIFF" or data[8:12] != b"WEBP":
        return False
    whole, picture = (int.from_bytes(data[at : at + 4], "little") for at in (4, 16))
    is_one = 20 + picture + picture % 2 == len(data) == whole + 8
    return is_one and data[12:16] in (b"VP8 ", b"VP8L")
