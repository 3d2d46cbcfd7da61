"""What the search of a kit looks through."""
