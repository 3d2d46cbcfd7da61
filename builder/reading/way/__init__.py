"""The keys of a trip's way: its days, its camps, how one travels."""
