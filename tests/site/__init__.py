"""Tests of the kit folder: swap, zips, policy, checks, and a small kit end to end."""
