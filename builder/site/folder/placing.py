"""Puts a kit that was built elsewhere in its place, as one that was built here."""

from __future__ import annotations

from pathlib import Path

from builder.site.errors import SiteError, of_the_system
from builder.site.folder import made, swap
from builder.site.folder.archive import unpack
from builder.site.folder.memory import told_in


def place_kit(out: Path, trip_id: str, zipped: bytes, told: str) -> None:
    """Put a kit in place of the old one, whole, from its zip and from what is remembered of it.

    What arrives is held against what it was where it was made; raises SiteError, and then the kit
    that was there before is as it was.
    """
    try:
        swap.recover(out)
        with swap.kit_lock(out, trip_id):
            swap.recover_kit(out, trip_id)
            made.refuse_foreign(out, trip_id)
            try:
                _write_new(out, trip_id, zipped, told)
                swap.swap(out, trip_id)
            finally:
                swap.recover_kit(out, trip_id)
    except OSError as error:
        own = out / made.OWN_FOLDER
        raise of_the_system(error, f"the kit {trip_id}", out, own) from error


def _write_new(out: Path, trip_id: str, zipped: bytes, told: str) -> None:
    """Write the new folder, and when it is found whole its zip and what is remembered of both."""
    work, new = swap.work_folder(out, trip_id), swap.new_folder(out, trip_id)
    sent, record = work / "sent.zip", work / "sent.json"
    work.mkdir(parents=True)
    sent.write_bytes(zipped)
    record.write_text(told, "utf-8")
    names = unpack(sent, work / "sent", f"the kit {trip_id}")
    as_made = told_in(record, made.Made)
    here = work / "sent" / trip_id
    if as_made is None or not here.is_dir():
        raise _damaged(trip_id)
    if made.describe(here, sent, as_made.made_from) != as_made:
        raise _damaged(trip_id)
    if len(names) != len(as_made.files):  # something lies beside the kit's own folder
        raise _damaged(trip_id)
    here.rename(new)
    sent.rename(swap.new_zip(out, trip_id))
    made.write_made(swap.new_record(out, trip_id), as_made)
    swap.remove(work)


def _damaged(trip_id: str) -> SiteError:
    return SiteError(
        f"the kit {trip_id} is not as it was when it was made: it was damaged on the way",
        ["build again; the kit that was there is as it was"],
    )
