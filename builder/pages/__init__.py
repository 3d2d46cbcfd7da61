"""From a computed kit to its pages: Markdown by path, the pocket page, and the data files."""
