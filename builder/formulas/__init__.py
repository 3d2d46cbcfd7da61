"""The arithmetic: floats in, floats out, one subject in each file."""
