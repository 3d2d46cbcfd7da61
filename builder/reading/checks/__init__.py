"""What is held against one another once it is read: ids, and numbers that are odd together."""
