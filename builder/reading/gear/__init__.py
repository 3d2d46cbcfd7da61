"""The keys of what one cooks and packs with."""
