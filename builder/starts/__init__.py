"""Starts something new in a content folder: commented files that build, nothing overwritten."""

from builder.starts.asked import NewTrip
from builder.starts.batches.log import Entry, complete_batch, log_all, log_batch, log_batches
from builder.starts.batches.planned import plan_batches
from builder.starts.batches.writing import Logged
from builder.starts.filled import WrittenTrip, write_filled
from builder.starts.fresh import StartError, start_folder, start_record
from builder.starts.joining import Join, join_trips
from builder.starts.trips import start_trip

__all__ = [
    "Entry",
    "Join",
    "Logged",
    "NewTrip",
    "StartError",
    "WrittenTrip",
    "complete_batch",
    "join_trips",
    "log_all",
    "log_batch",
    "log_batches",
    "plan_batches",
    "start_folder",
    "start_record",
    "start_trip",
    "write_filled",
]
