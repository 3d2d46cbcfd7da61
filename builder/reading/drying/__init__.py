"""The keys of what happens at home: the drying log, its runs, the household."""
