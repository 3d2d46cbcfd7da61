"""Rules for the templates: no text gets past a filter, no arithmetic, no rounding."""

from __future__ import annotations

import re

import pytest
from jinja2 import UndefinedError

from builder.pages import ink
from tests.pages.conftest import TEMPLATES

FILES = sorted(TEMPLATES.glob("**/*.j2"))
MACROS = set(
    re.findall(r"{% macro (\w+)\(", "".join(file.read_text(encoding="utf-8") for file in FILES))
)
FILTERED = re.compile(r"\|\s*(line|cell|address|at)$")


def shown(text: str) -> list[str]:
    return [found.strip() for found in re.findall(r"{{(.*?)}}", text, re.S)]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_everything_shown_goes_through_a_filter_or_a_macro(file: object) -> None:
    assert hasattr(file, "read_text")
    for expression in shown(file.read_text(encoding="utf-8")):
        is_macro = expression.partition("(")[0] in MACROS and expression.endswith(")")
        assert is_macro or FILTERED.search(expression), expression


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_templates_say_what_they_take_and_do_not_reckon(file: object) -> None:
    assert hasattr(file, "read_text")
    text = file.read_text(encoding="utf-8")
    assert re.match(r"{#- .*Takes?: .* -#}\n", text)
    for expression in re.findall(r"{[{%](.*?)[%}]}", text, re.S):
        without_words = re.sub(r'"[^"]*"|loop\.\w+|%?-$', "", expression).strip("- ")
        assert not re.search(r"[-+*/<>]|\b(round|int|float|sum|format)\b", without_words)
    assert not re.search(r"\bstyle\s*=", text)


def test_a_name_that_is_missing_is_a_failure(templates: object) -> None:
    with pytest.raises(UndefinedError):
        ink.write(TEMPLATES, "pages/index.md.j2", "", object())
