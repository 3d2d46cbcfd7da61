"""Outside checks: published numbers, and what independent libraries say."""
