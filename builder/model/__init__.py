"""Frozen records: what a user wrote and what the tool computed, with the unit in every name."""
