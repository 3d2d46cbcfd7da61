"""What a stranger can do with kit.json, knowing its schema and nothing of the code."""
