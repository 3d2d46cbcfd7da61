"""Files as text: the doors that read YAML and tables, and edits that leave all else as it was."""
