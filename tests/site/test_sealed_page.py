"""The sealed page shows nothing of the trip, and runs nothing but its own script."""

from __future__ import annotations

import base64
import json
import re

import pytest

from builder.model.trip import LANGUAGES
from builder.site.finishing.security import hash_source, inline_scripts, inline_styles
from builder.site.pocket import body_of, pocket_page
from builder.site.sealing.locking import key_of
from builder.site.sealing.page import LENGTH_BYTES, sealed_page
from tests.site.gcm_by_hand import opened
from tests.site.sample import ASSETS

WORDS = "four words of ours"
BODY = (
    "<header>\n<h1>Graupel & <b>tea</b></h1>\n</header><main>Lentils<script>bad()</script></main>"
)
POCKET = pocket_page(BODY, trip_id="fell", title="Graupel", language="en", assets=ASSETS / "assets")
ARCHIVE = b"PK\x03\x04 not looked into"
DATA = re.compile(r'<script type="application/json" id="sealed">(?P<data>[^<]*)</script>')


def page(language: str = "en") -> str:
    return sealed_page(
        POCKET,
        ARCHIVE,
        zip_name='fell&"round".zip',
        language=language,
        assets=ASSETS / "assets",
        passphrase=WORDS,
    )


def unsealed(html: str) -> bytes:
    found = DATA.search(html)
    assert found
    told = json.loads(found["data"])
    salt, nonce, content = (base64.b64decode(told[name]) for name in ("salt", "nonce", "content"))
    got = opened(key_of(WORDS, salt, told["rounds"]), nonce, content, told["purpose"].encode())
    assert got is not None
    return got


def test_what_is_sealed_is_the_pocket_page_and_the_whole_zip() -> None:
    got = unsealed(page())
    length = int.from_bytes(got[:LENGTH_BYTES], "big")
    html = got[LENGTH_BYTES:][:length].decode()
    assert got[LENGTH_BYTES + length :] == ARCHIVE
    assert html.startswith(body_of(POCKET))
    assert 'download="fell&amp;&quot;round&quot;.zip"' in html
    assert "<h1>Graupel & <b>tea</b></h1>" in html


def test_the_body_of_a_pocket_page_is_all_but_its_last_script() -> None:
    body = body_of(POCKET)
    assert "Lentils<script>bad()</script></main>" in body
    assert body.count("<script>") == 1 and "startTicks" not in body
    with pytest.raises(ValueError):
        body_of("<p>no page</p>")


def test_nothing_of_it_can_be_read() -> None:
    html = page()
    for word in ("Graupel", "Lentils", "bad()", "fell", WORDS):
        assert word not in html
    assert page() != html  # another salt, another nonce


def test_its_policy_names_its_script_and_styles_and_nothing_else() -> None:
    html = page()
    content = html.split('content="', 1)[1].split('"', 1)[0]
    (script,), styles = inline_scripts(html), inline_styles(html)
    told = dict(each.split(" ", 1) for each in content.split("; "))
    assert told == {
        "default-src": "'none'",
        "script-src": hash_source(script),
        "style-src": " ".join(map(hash_source, styles)),
        "img-src": "data:",
        "base-uri": "'none'",
        "form-action": "'none'",
    }
    assert html.index("Content-Security-Policy") < html.index("<title>")
    assert not re.search(r'\b(?:src|href|style|on\w+)=(?!")|\b(?:src|href|style)="', html)


def test_what_tells_of_a_damaged_file_stands_before_what_may_be_damaged() -> None:
    html = page()
    assert html.index("startSealed([") < html.index('id="sealed"')


def test_browsers_without_scripts_are_told_so() -> None:
    assert "<noscript><p>This file opens with scripts only" in page()


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_door_speaks_the_language_of_the_trip(language: str) -> None:
    html = page(language)
    titles = {"en": "Sealed kit", "de": "Verschlossenes Tourheft", "nb": "Låst turheft"}
    wrong = {
        "en": "That passphrase does not open it, or the file is damaged.",
        "de": "Diese Passphrase öffnet es nicht, oder die Datei ist beschädigt.",
        "nb": "Den passfrasen åpner det ikke, eller filen er skadet.",
    }
    assert f'<html lang="{language}">' in html
    assert f"<title>{titles[language]}</title>" in html
    assert wrong[language] in html
