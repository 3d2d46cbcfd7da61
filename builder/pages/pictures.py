"""Pictures of the people's own: where they lie in a kit, and how a page shows them."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.kit import Kit
from builder.model.picture import Picture
from builder.record import dataclass


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture on a page, with the room that is kept for it while it loads."""

    path: str
    shows: str
    width: str
    height: str


def shown(picture: Picture | None) -> Shown | None:
    """Give a picture as a page shows it."""
    if picture is None:
        return None
    return Shown(picture.path, picture.shows, str(picture.width_px), str(picture.height_px))


def pictures_of(kit: Kit) -> Iterator[Picture | None]:
    """Give what a kit shows, in the order of its pages."""
    yield kit.picture
    for day in kit.days:
        yield day.picture
        for meal in day.meals:
            yield meal.picture
            yield from (step.picture for step in meal.steps)
