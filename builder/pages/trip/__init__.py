"""The pages of one trip's kit."""
