"""Tests of adding to the drying log."""
