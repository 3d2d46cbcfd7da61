"""Tables that Python and the script in the pages are both held to."""
