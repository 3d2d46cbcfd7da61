"""Pictures that tests make: a field of stripes, as a camera or a drawing program would save it."""

from __future__ import annotations

from io import BytesIO

from PIL import Image, ImageDraw

MARK = "zqHidden"
_GPS, _GPS_LATITUDE_REF, _MAKER, _ORIENTATION = 0x8825, 1, 0x010F, 0x0112


def field(width: int, height: int) -> Image.Image:
    """Give a field of many colours."""
    picture = Image.linear_gradient("L").resize((width, height)).convert("RGB")
    draw = ImageDraw.Draw(picture)
    for x in range(0, width, 7):
        draw.line([(x, 0), (width - x, height)], fill=(x * 5 % 256, 90, x * 3 % 256), width=3)
    return picture


def saved(picture: Image.Image, kind: str = "JPEG", **more: object) -> bytes:
    """Give a picture as a file."""
    target = BytesIO()
    picture.save(target, kind, **more)
    return target.getvalue()


def from_a_camera(picture: Image.Image | None = None, orientation: int = 1) -> bytes:
    """Give a JPEG with its place, its maker, a colours' profile and a comment in it."""
    exif = Image.Exif()
    exif[_MAKER] = MARK
    exif[_ORIENTATION] = orientation
    exif.get_ifd(_GPS)[_GPS_LATITUDE_REF] = MARK
    return saved(
        picture or field(1600, 1200), exif=exif, comment=MARK.encode(), icc_profile=_profile()
    )


def _profile() -> bytes:
    from PIL import ImageCms

    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
