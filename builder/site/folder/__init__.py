"""The folder of kits: zips, what is ours in it, and one kit put in place of another."""
