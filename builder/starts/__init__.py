"""Starts something new in a content folder: commented files that build, nothing overwritten."""

from builder.starts.filled import WrittenTrip, write_filled
from builder.starts.fresh import StartError, start_folder, start_record
from builder.starts.joining import Join, join_trips
from builder.starts.log import Entry, complete_batch, log_all, log_batch, log_batches
from builder.starts.log_writing import Logged
from builder.starts.planned import plan_batches
from builder.starts.trips import NewTrip, start_trip

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
