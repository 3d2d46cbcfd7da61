"""Markdown in, HTML out: the generators, and what makes the usual one read our pages fast."""
