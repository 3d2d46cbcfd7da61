"""Records cut out of a folder, and put into another or made anew for the next trip."""
