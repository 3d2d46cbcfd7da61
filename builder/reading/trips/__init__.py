"""The keys of a trip: who goes, with what, and what they eat."""
