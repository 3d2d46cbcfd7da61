"""Rules for the templates: no text gets past a filter, no arithmetic, no rounding."""

from __future__ import annotations

import re

import pytest
from jinja2 import UndefinedError, nodes

from builder.pages import ink
from builder.speech import speech_of
from tests.pages.conftest import TEMPLATES

FILES = sorted(TEMPLATES.glob("**/*.j2"))
MACROS = set(
    re.findall(r"{% macro (\w+)\(", "".join(file.read_text(encoding="utf-8") for file in FILES))
)
FILTERS = {"line", "cell", "html", "data", "address", "at"}
SAID = {"say": 1, "count": 2, "of": 2}  # by how many of their first words stand in a catalogue


def is_harmless(shown: nodes.Expr) -> bool:
    """Tell whether what is shown is our own text, or went through a filter on its way."""
    if isinstance(shown, nodes.TemplateData | nodes.Const):
        return True
    if isinstance(shown, nodes.Filter):
        if shown.name == "often" and shown.node is not None:
            return is_harmless(shown.node)
        return shown.name in FILTERS
    if isinstance(shown, nodes.Concat):
        return all(map(is_harmless, shown.nodes))
    if not isinstance(shown, nodes.Call) or not isinstance(shown.node, nodes.Name):
        return False
    if shown.node.name not in SAID:
        return shown.node.name in MACROS
    own = shown.args[: SAID[shown.node.name]]
    told = all(isinstance(each, nodes.Const) for each in own)
    return told and all(is_harmless(blank.value) for blank in shown.kwargs)


def all_shown(text: str) -> list[nodes.Expr]:
    parsed = ink.environment(TEMPLATES).parse(text)
    return [each for output in parsed.find_all(nodes.Output) for each in output.nodes]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_everything_shown_goes_through_a_filter_or_a_macro(file: object) -> None:
    assert hasattr(file, "read_text")
    for each in all_shown(file.read_text(encoding="utf-8")):
        assert is_harmless(each), each


@pytest.mark.parametrize(
    ("shown", "harmless"),
    [
        ("page.title|line", True),
        ("page.title", False),
        ("page.title|upper", False),
        ("run(page.pack)", True),
        ("label(page.pack)|often(page.packs)", True),
        ("page.name|often(page.packs)", False),
        ("page.run(page.pack)", False),
        ('say("Pack: {pack}.", pack=run(page.pack))', True),
        ('say("Pack: {name}.", name=page.name|line)', True),
        ('say("Pack: {name}.", name=page.name)', False),
        ('say("Pack: {name}.", name="**" ~ page.name ~ "**")', False),
        ("say(page.name)", False),
        ('of("page", page.name)', False),
        ('count("{n} day", "{n} days", page.days)', True),
    ],
)
def test_what_nobody_made_harmless_is_found(shown: str, harmless: bool) -> None:
    (found,) = all_shown(f"{{{{ {shown} }}}}")
    assert is_harmless(found) is harmless


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
        ink.write(TEMPLATES, "pages/index.md.j2", "", object(), speech_of("en"))
