"""A content folder of YAML → checked records and every problem at once, each with its place."""
