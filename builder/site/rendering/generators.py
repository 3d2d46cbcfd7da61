"""The generators by name; only who renders waits for the import of one."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from builder.site.rendering.renderer import Renderer

USUAL_GENERATOR = "mkdocs"
# By the theme's makers; it takes the usual one's place when the theme ends. An optional extra.
SUCCESSOR = "zensical"
GENERATORS = (USUAL_GENERATOR, SUCCESSOR)


def renderer_of(generator: str) -> Renderer:
    """Give what renders with a generator."""
    if generator == SUCCESSOR:
        from builder.site.rendering import run_zensical

        return run_zensical.render
    from builder.site.rendering import run_mkdocs

    return run_mkdocs.render
