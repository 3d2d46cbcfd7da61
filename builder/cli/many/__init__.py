"""Many trips at once: planned and built by several hands, here or elsewhere."""
