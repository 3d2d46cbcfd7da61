"""The policy names what may run, and nothing that page text brought in."""

from __future__ import annotations

import base64
import hashlib

import pytest

from builder.site.finishing import security
from builder.site.rendering.framing import taken_apart

HEAD = '<html lang="en"><head><meta charset="utf-8"><title>T</title></head><body>'


def secured(html: str) -> str:
    page = taken_apart(html)
    return security.secured(page.frame.before, page.frame.after) + page.article + page.frame.after


def test_a_hash_is_the_one_browsers_compute() -> None:
    digest = base64.b64encode(hashlib.sha256(b"alert(1)").digest()).decode()
    assert security.hash_source("alert(1)") == f"'sha256-{digest}'"


def test_the_policy_comes_first_after_the_charset() -> None:
    page = secured(HEAD + "<script>go()</script></body></html>")
    assert page.startswith(
        '<html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy"'
    )
    assert security.hash_source("go()") in page


def test_scripts_with_a_source_and_data_need_no_hash() -> None:
    html = (
        '<script src="a.js"></script><script type="application/json">{}</script>'
        "<script>one()</script><script>one()</script>"
    )
    assert security.inline_scripts(html) == ["one()"]


@pytest.mark.parametrize(
    "text", ["<script>bad()</script>", "</article><script>bad()</script><article>"]
)
def test_a_script_in_the_text_of_a_page_gets_no_hash(text: str) -> None:
    page = secured(f"{HEAD}<script>good()</script><article>{text}</article></body></html>")
    assert security.hash_source("good()") in page
    assert security.hash_source("bad()") not in page


@pytest.mark.parametrize("alone", [True, False])
def test_the_policy_never_allows_what_is_not_named(alone: bool) -> None:
    content = security.policy(["one()"], ["p{}"], alone)
    allowed = "'none'" if alone else "'self'"
    assert content.startswith(f"default-src {allowed}; script-src ")
    assert "unsafe" not in content
    assert "http" not in content
    assert ("'self'" in content) is not alone


def test_the_whole_policy_of_a_page_is_this() -> None:
    hashed = security.hash_source("one()")
    assert security.policy(["one()"]) == (
        f"default-src 'self'; script-src 'self' {hashed}; img-src 'self' data:; "
        "font-src 'none'; frame-src 'none'; media-src 'none'; object-src 'none'; "
        "base-uri 'none'; form-action 'none'"
    )
    assert security.policy(["one()"], ["one()"], alone=True) == (
        f"default-src 'none'; script-src {hashed}; style-src {hashed}; img-src data:; "
        "base-uri 'none'; form-action 'none'"
    )
    # A page with neither script nor style of its own may run none.
    assert security.policy([], alone=True) == (
        "default-src 'none'; img-src data:; base-uri 'none'; form-action 'none'"
    )


def test_scripts_and_styles_are_found_however_they_are_written() -> None:
    html = (
        "<SCRIPT >one(\n)</SCRIPT><Style media=x>p{\n}</STYLE><style>q{}</style><style>q{}</style>"
    )
    assert security.inline_scripts(html) == ["one(\n)"]
    assert security.inline_styles(html) == ["p{\n}", "q{}"]
    page = f"{HEAD}<ARTICLE>\n<script>bad()</script>\n</Article></body></html>"
    assert security.hash_source("bad()") not in secured(page)


def test_only_the_first_charset_carries_the_policy() -> None:
    page = secured(HEAD + "<p><META charset=UTF-8 /></p></body></html>")
    assert page.count("Content-Security-Policy") == 1
    assert "Content-Security-Policy" in page.partition("<title>")[0]


def test_a_page_without_a_charset_is_an_error() -> None:
    with pytest.raises(ValueError, match="charset"):
        secured("<html><head></head></html>")
