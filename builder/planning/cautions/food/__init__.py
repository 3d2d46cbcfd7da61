"""Conditions of the cautions about food, by subject."""
