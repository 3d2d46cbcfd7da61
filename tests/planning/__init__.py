"""Planning held against figures worked out by hand from the rules, and against laws."""
