"""Tests; they mirror the rooms of the code."""
