"""The content security policy of each page: only what lies in the kit may run or load."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Sequence

# Data blocks such as the theme's settings are never run and need no hash.
INLINE_SCRIPT = re.compile(r"<script(?P<attributes>[^>]*)>(?P<body>.*?)</script>", re.S | re.I)
SOURCE = re.compile(r"\bsrc\s*=", re.I)
DATA_BLOCK = re.compile(r"\btype\s*=\s*[\"']?application/(?:ld\+)?json", re.I)
INLINE_STYLE = re.compile(r"<style[^>]*>(?P<body>.*?)</style>", re.S | re.I)
CHARSET = re.compile(r"<meta\s+charset\s*=\s*[\"']?utf-8[\"']?\s*/?>", re.I)


def hash_source(text: str) -> str:
    """Give the policy's name for an inline script or style."""
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return f"'sha256-{base64.b64encode(digest).decode('ascii')}'"


def inline_scripts(html: str) -> list[str]:
    """Give the inline scripts of a page that a browser would run, without repeats."""
    found = (
        match["body"]
        for match in INLINE_SCRIPT.finditer(html)
        if not SOURCE.search(match["attributes"]) and not DATA_BLOCK.search(match["attributes"])
    )
    return list(dict.fromkeys(found))


def inline_styles(html: str) -> list[str]:
    """Give the inline style sheets of a page, without repeats."""
    return list(dict.fromkeys(match["body"] for match in INLINE_STYLE.finditer(html)))


def policy(scripts: Sequence[str], styles: Sequence[str] = (), alone: bool = False) -> str:
    """Give the policy for a page with these inline scripts and styles.

    A page that stands alone (one file, nothing beside it) may load nothing but data pictures. In a
    kit scripts, styles, workers, the list of files and the manifest come from the kit itself; the
    last has no directive that WebKit knows, so all that nothing is said of may, and what no page
    has is named instead.
    """
    own = "" if alone else "'self' "
    directives = {"default-src": own.strip() or "'none'"}
    for name, texts in (("script-src", scripts), ("style-src", styles)):
        if texts:
            directives[name] = own + " ".join(map(hash_source, texts))
    directives["img-src"] = f"{own}data:"
    never = () if alone else ("font-src", "frame-src", "media-src", "object-src")
    directives |= dict.fromkeys((*never, "base-uri", "form-action"), "'none'")
    return "; ".join(f"{name} {sources}" for name, sources in directives.items())


def secured(before: str, after: str) -> str:
    """Give what stands before an article with its page's policy, first after the charset.

    Scripts inside the article come from page text and get no hash: whatever slips through the
    escaping of a user's words is not run.
    """
    return with_policy(before, policy(inline_scripts(before + after)))


def with_policy(html: str, content: str) -> str:
    """Put a policy first after the charset."""
    tag = f'<meta http-equiv="Content-Security-Policy" content="{content}">'
    secured, count = CHARSET.subn(lambda match: match[0] + tag, html, count=1)
    if not count:
        raise ValueError("a page without a charset cannot carry its policy first")
    return secured
