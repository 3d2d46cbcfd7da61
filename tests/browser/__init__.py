"""A kit as a browser sees it: from disk, hosted, offline, with keys only."""
