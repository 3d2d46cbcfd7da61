"""Starts something new in a content folder: commented files that build, nothing overwritten."""

from builder.starts.fresh import StartError, start_folder, start_record
from builder.starts.trips import NewTrip, start_trip

__all__ = ["NewTrip", "StartError", "start_folder", "start_record", "start_trip"]
