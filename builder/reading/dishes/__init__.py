"""The keys of what is eaten: foods and recipes."""
