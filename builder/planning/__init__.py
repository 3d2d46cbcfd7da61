"""Checked records + formulas → one computed kit."""
