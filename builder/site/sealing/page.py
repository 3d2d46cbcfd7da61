"""The sealed page: nothing of the trip can be read in it until a passphrase was typed.

Once it is open it is the pocket page, with the same script and style, which lie in the file as they
are: they are the same for all trips. The whole kit, as a zip, is sealed in the file too.
"""

from __future__ import annotations

from html import escape
from pathlib import Path

from builder.site.finishing.scripts import POCKET_SCRIPT, SEALED_SCRIPT, written
from builder.site.finishing.security import inline_scripts, inline_styles, policy, with_policy
from builder.site.finishing.styles import squeezed
from builder.site.pocket import body_of
from builder.site.sealing.locking import seal
from builder.speech import Speech, speech_of

STYLES = ("pocket.css", "sealed.css")  # the pocket page's script looks into the first
LENGTH_BYTES = 4


def sealed_page(
    pocket: str, archive: bytes, *, zip_name: str, language: str, assets: Path, passphrase: str
) -> str:
    """Give the page that opens a kit's pocket page and its zip with a passphrase."""
    say = speech_of(language)
    opened = f"{body_of(pocket)}\n{_whole_kit(say, zip_name)}".encode()
    content = len(opened).to_bytes(LENGTH_BYTES, "big") + opened + archive
    starts = ", ".join(POCKET_SCRIPT.starts)
    # Before what is sealed, so that a file that was cut off still says what is wrong with it.
    tail = f"<script>{written(assets, SEALED_SCRIPT, say)}startSealed([{starts}]);\n</script>\n"
    styles = (squeezed((assets / name).read_text(encoding="utf-8")) for name in STYLES)
    page = (
        f'<!doctype html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width,initial-scale=1">\n'
        f"<title>{escape(say('Sealed kit'), quote=False)}</title>\n"
        + "".join(f"<style>{style}</style>\n" for style in styles)
        + "</head>\n"
    )
    secured = with_policy(page, policy(inline_scripts(tail), inline_styles(page), alone=True))
    data = seal(content, passphrase).as_json
    return (
        f"{secured}<body>\n{_door(say)}{tail}"
        f'<script type="application/json" id="sealed">{data}</script>\n</body>\n</html>\n'
    )


def _door(say: Speech) -> str:
    """Give what is seen before the passphrase was typed."""

    def text(words: str) -> str:
        return escape(words, quote=False)

    heading = text(say("Sealed kit"))
    no_scripts = text(
        say("This file opens with scripts only: turn them on here, or use another browser.")
    )
    nothing = text(
        say(
            "No field for the passphrase below? Then scripts are off here, or the file is damaged: "
            "fetch it again."
        )
    )
    how = text(say("Type the passphrase that you were told. Nothing of it is sent anywhere."))
    return (
        f"<main>\n<h1>{heading}</h1>\n<noscript><p>{no_scripts}</p></noscript>\n"
        f'<p class="no-field">{nothing}</p>\n<form id="unseal" hidden>\n<p>{how}</p>\n'
        f'<p><label for="passphrase">{text(say("Passphrase"))}</label>\n'
        '<input id="passphrase" type="password" autocomplete="current-password" '
        'autocapitalize="none" spellcheck="false" aria-describedby="wrong"></p>\n'
        f'<p><label><input id="seen" type="checkbox"> {text(say("Show what I type"))}</label></p>\n'
        f'<p><button class="kit-button">{text(say.of("act", "Open"))}</button></p>\n</form>\n'
        '<p id="opening" role="status"></p>\n<p id="wrong" role="alert"></p>\n</main>\n'
    )


def _whole_kit(say: Speech, zip_name: str) -> str:
    """Give the section of the open page from which the whole kit can be had."""
    heading = escape(say("Whole kit"), quote=False)
    told = escape(
        say(
            "This is the kit on one page. Save the zip to have all its pages. What you save is "
            "sealed no more: delete it where others may look."
        ),
        quote=False,
    )
    save = escape(say("Save {file}", file=zip_name), quote=False)
    return (
        '<section class="whole-kit" aria-labelledby="whole-kit">\n'
        f'<h2 id="whole-kit">{heading}</h2>\n<p>{told}</p>\n'
        f'<p><a id="kit-zip" download="{escape(zip_name)}">{save}</a></p>\n</section>\n'
    )
