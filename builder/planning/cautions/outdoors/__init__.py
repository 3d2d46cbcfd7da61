"""Conditions of the cautions about people, camp, fire and water, by subject."""
