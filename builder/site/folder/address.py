"""Where a hosted kit can be fetched: a short line, and a QR code that a phone's camera reads."""

from __future__ import annotations

from html import escape
from urllib.parse import urlsplit

from builder.site.errors import SiteError
from builder.speech import Speech

PICTURE_NAME = "assets/address.svg"
QUIET_ZONE = 4  # light modules on each side, as readers ask for
LONGEST_ADDRESS = 300  # a longer one makes a code too fine for a phone in the rain


def kit_address(base: str, trip_id: str) -> str:
    """Give the address of one kit below the address of all; "" where there is none."""
    if not base:
        return ""
    try:
        parts = urlsplit(base)
        good = parts.scheme in ("http", "https") and bool(parts.hostname)
    except ValueError:
        good = False
    plain = base.isascii() and base.isprintable() and not set(base) & set(" \"'<>\\`?#()[]*_")
    if not (good and plain) or len(base) > LONGEST_ADDRESS:
        raise SiteError(
            f"{base[:80]!r} is no address on the web",
            ["write it like https://example.org/kits/, without ? or #"],
        )
    return f"{base.rstrip('/')}/{trip_id}/"


def qr_svg(address: str) -> str:
    """Give the QR code of an address as a picture, dark on light in every scheme."""
    # Here, not above: most kits have no address, and their builds need not wait for the import.
    import segno

    rows = [list(row) for row in segno.make_qr(address, error="m").matrix]
    side = len(rows) + 2 * QUIET_ZONE
    path = "".join(
        f"M{x + QUIET_ZONE} {y + QUIET_ZONE}h{length}v1h-{length}z"
        for y, row in enumerate(rows)
        for x, length in _runs(row)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side} {side}" '
        f'shape-rendering="crispEdges"><path fill="#fff" d="M0 0h{side}v{side}H0z"/>'
        f'<path fill="#000" d="{path}"/></svg>'
    )


def fetch_markdown(say: Speech, address: str) -> str:
    """Give the section for the first page; the picture lies beside it."""
    title, picture = say("Fetch this kit"), escape(say("QR code of the address below"))
    return (
        f"\n\n## {title} {{#fetch}}\n\n"
        f'<figure class="qr"><img src="{PICTURE_NAME}" width="200" height="200" '
        f'alt="{picture}"></figure>\n\n'
        f"{_how(say, f'[{address}]({address})')}\n"
    )


def fetch_html(say: Speech, address: str) -> str:
    """Give the section for the pocket page, with the picture inside."""
    label, title = escape(say("QR code")), escape(say("Fetch this kit"), quote=False)
    picture = qr_svg(address).replace("<svg ", f'<svg role="img" aria-label="{label}" ', 1)
    return (
        f'<section class="fetch" aria-labelledby="fetch">\n<h2 id="fetch">{title}</h2>\n'
        f'<figure class="qr">{picture}</figure>\n'
        f"<p>{escape(_how(say, address), quote=False)}</p>\n</section>\n"
    )


def _how(say: Speech, address: str) -> str:
    return say(
        "Point a phone's camera here, or open {address}. Then wait until the page says that it is "
        "ready offline. From then on it needs no network.",
        address=address,
    )


def _runs(row: list[int]) -> list[tuple[int, int]]:
    """Give the dark runs of a row: where each begins and how long it is."""
    runs: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if dark and runs and sum(runs[-1]) == x:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        elif dark:
            runs.append((x, 1))
    return runs
