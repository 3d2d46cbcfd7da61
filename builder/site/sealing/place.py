"""Where a sealed page lies: put in place whole, and never over what the tool did not make.

In the tool's own folder among the kits, `.built`, lie of the trip ``<trip>``:

``_sealed-<trip>.html.new``  while it is written
``_sealed-<trip>.json``      the hashes of the page that lies there and of the one before it
``<trip>.lock``              held while it is written, as by a build of the plain kit
"""

from __future__ import annotations

import os
from pathlib import Path

from builder.site.folder.made import OWN_FOLDER, refused, sha256_of
from builder.site.folder.memory import as_text, told_in, write_down, write_over
from builder.site.folder.swap import kit_lock


def sealed_file(out: Path, trip_id: str) -> Path:
    """File of a sealed page."""
    return out / f"{trip_id}-sealed.html"


def refuse_foreign_page(out: Path, trip_id: str) -> None:
    """Refuse to write over a file of that name that is not as the tool made it."""
    place = sealed_file(out, trip_id)
    if not os.path.lexists(place):
        return
    is_file = place.is_file() and not place.is_symlink()
    if not is_file or sha256_of(place) not in _made(out, trip_id):
        raise refused([place])


def put_page(out: Path, trip_id: str, page: str) -> Path:
    """Put a sealed page in place; a kill at any moment leaves the old one or the new one whole."""
    with kit_lock(out, trip_id):
        refuse_foreign_page(out, trip_id)
        place, fresh = sealed_file(out, trip_id), out / OWN_FOLDER / f"{_name(trip_id)}.html.new"
        write_down(fresh, page)
        # Both are known before one takes the place of the other.
        known = [sha256_of(each) for each in (fresh, place) if each.exists()]
        write_over(_record(out, trip_id), as_text(known))
        os.replace(fresh, place)
        return place


def _name(trip_id: str) -> str:
    # No trip is called so: ids hold no such sign.
    return f"_sealed-{trip_id}"


def _record(out: Path, trip_id: str) -> Path:
    return out / OWN_FOLDER / f"{_name(trip_id)}.json"


def _made(out: Path, trip_id: str) -> list[str]:
    """Give the hashes of the pages that were made; none where nothing of it can be read."""
    return told_in(_record(out, trip_id), list[str]) or []
