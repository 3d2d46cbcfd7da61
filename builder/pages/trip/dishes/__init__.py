"""Dishes: recipes as this party cooks them, meals step by step, the order of work."""
