"""What a trip was, and what comes of it: the sheet, and what earlier trips taught."""
