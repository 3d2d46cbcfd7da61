"""The policy names what may run, and nothing that page text brought in."""

from __future__ import annotations

import base64
import hashlib

import pytest

from builder.site import security

HEAD = '<html lang="en"><head><meta charset="utf-8"><title>T</title></head><body>'


def test_a_hash_is_the_one_browsers_compute() -> None:
    digest = base64.b64encode(hashlib.sha256(b"alert(1)").digest()).decode()
    assert security.hash_source("alert(1)") == f"'sha256-{digest}'"


def test_the_policy_comes_first_after_the_charset() -> None:
    page = security.secure_page(HEAD + "<script>go()</script></body></html>")
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
    page = security.secure_page(
        f"{HEAD}<script>good()</script><article>{text}</article></body></html>"
    )
    assert security.hash_source("good()") in page
    assert security.hash_source("bad()") not in page


@pytest.mark.parametrize("alone", [True, False])
def test_the_policy_never_allows_what_is_not_named(alone: bool) -> None:
    content = security.policy(["one()"], ["p{}"], alone)
    assert content.startswith("default-src 'none'; script-src ")
    assert "unsafe" not in content
    assert "http" not in content
    assert ("'self'" in content) is not alone


def test_a_page_without_a_charset_is_an_error() -> None:
    with pytest.raises(ValueError, match="charset"):
        security.secure_page("<html><head></head></html>")
