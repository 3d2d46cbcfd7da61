"""The kit folder: pages become a static site that opens from disk, from a host, with no network."""
