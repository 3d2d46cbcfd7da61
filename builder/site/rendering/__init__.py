"""Markdown in, HTML out: the generator, and what makes it read our pages fast."""
