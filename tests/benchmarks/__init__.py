"""Speed and size, measured as ratios."""
