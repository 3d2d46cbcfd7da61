"""Shows a kit on this machine: what was saved is seen at once, and what is wrong with it said."""

from builder.preview.serving import serve
from builder.preview.shown import Rebuilt, Shown

__all__ = ["Rebuilt", "Shown", "serve"]
