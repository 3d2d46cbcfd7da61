"""Tests of the arithmetic: edges, errors, and laws tried on many inputs."""
