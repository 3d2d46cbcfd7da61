"""Tests of what reads the content folder."""
