# ruff: noqa: E501 - the lines that people read stand whole
"""Pictures: what may be written, what is told of a file that cannot be shown, and the copy kept."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from builder.model.picture import Picture
from builder.problems import ProblemsFound
from builder.reading.notes import Amiss
from builder.reading.pictures.small_copies import (
    LONG_SIDE_PX,
    MOST_BYTES,
    copies_of,
    copy_of,
    size_shown,
    small_copy,
)
from tests.pictured import MARK, field, from_a_camera, saved
from tests.reading.folder_builder import BEAN_POT, GOOD, TRIP, changed, lines, read

FILE = "recipes/bean-pot.yaml"
TOLD = "picture: {file: pot.jpg, shows: The pot}\n"
AT = f"{FILE}:13:17: error: picture: 'pot.jpg'"
SMALL = saved(field(64, 48))


def told(folder: Path, data: bytes, text: str = TOLD) -> list[str]:
    return lines(read(folder, {**GOOD, FILE: BEAN_POT + text, "recipes/pot.jpg": data}))


def opened(webp: bytes) -> Image.Image:
    return Image.open(BytesIO(webp))


def png_of(width: int, height: int) -> bytes:
    """Give a PNG that says how large it is, and holds next to nothing."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(b"\x00")), (b"IEND", b""))
    written = (
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in chunks
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(written)


def test_a_picture_is_kept_with_what_it_shows(tmp_path: Path) -> None:
    found = read(tmp_path, {**GOOD, FILE: BEAN_POT + TOLD, "recipes/pot.jpg": from_a_camera()})
    assert lines(found) == []
    picture = found.content.recipes["bean-pot"].picture
    assert picture is not None
    assert (picture.file, picture.shows) == ("pot.jpg", "The pot")
    assert (picture.width_px, picture.height_px) == (800, 600)
    width_px, height_px = opened(copy_of(picture)).size
    assert width_px / height_px == 800 / 600  # of so many colours the copy is smaller still


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("picture: pot.jpg\n", f"{FILE}:13:10: error: picture: 'pot.jpg' does not say what it shows — write `picture: {{file: pot.jpg, shows: The pot on the fire, the beans just covered}}` [picture]"),
        ("picture: {file: pot.jpg}\n", f"{FILE}:13:10: error: this picture has no `shows` — write `shows: The pot on the fire, the beans just covered` [missing]"),
        ("picture: {file: pot.heic, shows: The pot}\n", f"{FILE}:13:17: error: picture: 'pot.heic' is no JPEG, PNG or WebP file by its name — save it as .jpg, .png or .webp [picture]"),
        ("picture: {file: ../recipes/pot.jpg, shows: The pot}\n", f"{FILE}:13:17: error: picture: '../recipes/pot.jpg' does not lie beside this file — put it there, or into a folder there [file-outside]"),
        ("picture: {file: pan.jpg, shows: The pan}\n", f"{FILE}:13:17: warning: picture: there is no file 'pan.jpg' beside this one — put it into recipes/, or leave `picture` out [file-missing]"),
    ],
)  # fmt: skip
def test_what_is_missing_or_lies_elsewhere_is_told_at_its_place(
    text: str, line: str, tmp_path: Path
) -> None:
    assert told(tmp_path, SMALL, text) == [line]


SAVE = "cannot be shown: no whole JPEG, PNG or WebP picture — open it, and save it anew as JPEG [picture]"
TOO_LARGE = (
    "has more than 60 million pixels — save a smaller copy: kits show 800 pixels [picture-large]"
)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", SAVE),
        (b"\x00" * 400, SAVE),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", SAVE),
        (saved(field(64, 48), "GIF"), SAVE),
        (from_a_camera()[:9000], SAVE),  # the rest was lost on the way
        (png_of(100, 100), SAVE),
        (png_of(8000, 7501), TOO_LARGE),
        (png_of(60_000, 60_000), TOO_LARGE),  # where the library itself refuses
        (png_of(8000, 7500), SAVE),  # just not too large
    ],
    ids=range(9),
)
def test_what_cannot_be_shown_is_told(data: bytes, says: str, tmp_path: Path) -> None:
    assert told(tmp_path, data) == [f"{AT} {says}"]


def test_a_file_that_is_too_large_is_not_read_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("builder.reading.pictures.written.LARGEST_PICTURE_BYTES", len(SMALL))
    assert told(tmp_path / "as-large", SMALL) == []
    (line,) = told(tmp_path / "larger", SMALL + b"\x00")
    assert line.endswith("save a smaller copy: kits show 800 pixels of it [picture-large]")


def test_steps_days_batches_and_the_trip_tell_pictures_too(tmp_path: Path) -> None:
    picture = "picture: {file: p.png, shows: It}"
    drawn = saved(field(30, 20), "PNG")
    files = {
        **GOOD,
        FILE: changed(BEAN_POT, "{do: simmer, ", f"{{do: simmer, {picture}, "),
        "batches/beans.yaml": f"{GOOD['batches/beans.yaml']}{picture}\n",
        "trips/tarrow.yaml": changed(
            f"{picture}\n{TRIP}", "  - camp_altitude", f"  - {picture}\n    camp_altitude"
        ),
    }
    beside = {f"{room}/p.png": drawn for room in ("recipes", "batches", "trips")}
    found = read(tmp_path, {**files, **beside})
    assert lines(found) == []
    content = found.content
    trip = content.trips["tarrow"]
    told = (
        content.recipes["bean-pot"].steps[2].picture,
        content.batches["beans-may"].picture,
        trip.picture,
        trip.days[0].picture,
    )
    assert [each.shows if each else None for each in told] == ["It"] * 4


# -- the copy that is kept ------------------------------------------------------------------------


def test_a_copy_holds_nothing_that_the_camera_wrote() -> None:
    data = from_a_camera()
    with Image.open(BytesIO(data)) as whole:
        assert MARK in str(dict(whole.getexif().get_ifd(0x8825)))
        assert whole.info["icc_profile"] and whole.info["comment"]
    copy = small_copy(data, "p")
    with opened(copy) as kept:
        assert kept.format == "WEBP"
        assert set(kept.info) <= {"loop", "background", "timestamp", "duration"}
        assert not kept.getexif()
    assert MARK.encode() not in copy
    assert b"EXIF" not in copy and b"ICCP" not in copy and b"XMP" not in copy


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_copy_stands_upright(orientation: int) -> None:
    bright = Image.new("RGB", (400, 200), "white")
    bright.paste("black", (0, 0, 100, 200))
    data = from_a_camera(bright, orientation)
    on_its_side = orientation > 4
    size = (200, 400) if on_its_side else (400, 200)
    assert size_shown(data, "p") == size
    kept = opened(small_copy(data, "p")).convert("L")
    assert kept.size == size
    # What is dark was on the left: where it is now tells how the camera was held.
    left, right = kept.getpixel((3, size[1] // 2)), kept.getpixel((size[0] - 4, size[1] // 2))
    top, bottom = kept.getpixel((size[0] // 2, 3)), kept.getpixel((size[0] // 2, size[1] - 4))
    darkest = min((left, "left"), (right, "right"), (top, "top"), (bottom, "bottom"))[1]
    where = ("left", "right", "right", "left", "top", "top", "bottom", "bottom")
    assert darkest == where[orientation - 1]


@pytest.mark.parametrize(
    ("data", "size"),
    [
        (saved(field(800, 300)), (800, 300)),
        (saved(field(801, 300)), (800, 300)),
        (saved(field(300, 2400)), (100, 800)),
        (saved(field(3, 2)), (3, 2)),
    ],
)
def test_a_copy_is_at_most_so_long(data: bytes, size: tuple[int, int]) -> None:
    assert LONG_SIDE_PX == 800
    assert opened(small_copy(data, "p")).size == size_shown(data, "p") == size


def test_a_copy_is_light_whatever_it_shows_and_the_same_every_time() -> None:
    noise = saved(Image.effect_noise((900, 900), 120).convert("RGB"))
    copy = small_copy(noise, "p")
    assert len(copy) <= MOST_BYTES
    assert small_copy(noise, "p") == copy


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16", "CMYK"])
def test_each_way_to_tell_colours_can_be_shown(mode: str) -> None:
    kind = "JPEG" if mode == "CMYK" else "PNG"
    plain = field(40, 30)
    picture = plain.convert("I").convert("I;16") if mode == "I;16" else plain.convert(mode)
    assert opened(small_copy(saved(picture, kind), "p")).mode == "RGB"


def test_what_is_clear_becomes_white() -> None:
    clear = Image.new("RGBA", (20, 20), (255, 0, 0, 0))
    assert opened(small_copy(saved(clear, "PNG"), "p")).getpixel((10, 10)) == (255, 255, 255)


def test_a_copy_of_a_copy_is_the_copy() -> None:
    copy = small_copy(from_a_camera(), "p")
    assert small_copy(copy, "p") == copy
    with_notes = saved(opened(copy), "WEBP", quality=20, exif=b"Exif\x00\x00" + MARK.encode())
    assert MARK.encode() in with_notes
    assert MARK.encode() not in small_copy(with_notes, "p")
    behind = copy + MARK.encode()
    assert MARK.encode() not in small_copy(behind, "p")


def picture(name: str, data: bytes) -> Picture:
    return Picture(name, "", name * 16, 1, 1, lambda: data)


def test_many_pictures_share_what_they_may_weigh_together() -> None:
    light, noise = saved(field(40, 30)), saved(Image.effect_noise((500, 400), 90).convert("RGB"))
    pictures = [picture("a", light), *(picture(name, noise) for name in "bcdefg")]
    large = copies_of(pictures, large=True)()
    fit = copies_of(pictures)()
    assert set(fit) == set(large) == {each.path for each in pictures}
    assert sum(map(len, large.values())) > 100_000
    assert sum(map(len, fit.values())) <= 100_000
    assert fit[pictures[0].path] == large[pictures[0].path]


def test_few_pictures_are_as_sharp_as_one_alone() -> None:
    pictures = [picture("a", from_a_camera())]
    assert copies_of(pictures)() == copies_of(pictures, large=True)()


def test_a_file_that_was_spoilt_after_it_was_looked_at_is_told() -> None:
    with pytest.raises(ProblemsFound) as stop:
        copy_of(picture("a", b""))
    assert [each.kind for each in stop.value.problems] == ["picture"]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_no_damage_ends_in_anything_but_a_problem(kind: str) -> None:
    whole = bytearray(saved(field(60, 40), kind))
    for at in range(0, len(whole), max(1, len(whole) // 150)):
        spoilt = bytes(whole[:at]) + bytes([whole[at] ^ 0xA5]) + bytes(whole[at + 1 :])
        for data in (spoilt, bytes(whole[:at])):
            try:
                size_shown(data, "p")
                small_copy(data, "p")
            except Amiss as amiss:
                assert amiss.kind in ("picture", "picture-large")
