"""Tests of starting something new."""
