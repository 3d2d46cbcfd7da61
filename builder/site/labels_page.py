"""A file of labels as it is written: with the policy that lets nothing run but its own script."""

from __future__ import annotations

from builder.site.finishing.security import inline_scripts, inline_styles, policy, with_policy


def labels_page(html: str) -> str:
    """Give a file of labels with its policy."""
    return with_policy(html, policy(inline_scripts(html), inline_styles(html), alone=True))
