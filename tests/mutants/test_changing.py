"""The changes that are tried of a file, and which tests they are held against."""

from __future__ import annotations

import ast
import random
from pathlib import Path

import pytest

from tests.mutants.__main__ import some_of
from tests.mutants.changing import mutants_of


def changes_of(folder: Path, body: str) -> set[str]:
    text = "def f(a, b, c, ü='—'):\n" + "".join(f"    {line}\n" for line in body.splitlines())
    (folder / "m.py").write_text(text, "utf-8")
    found = mutants_of(folder, "m.py")
    raw = text.encode("utf-8")
    whole = {each.of(raw).decode("utf-8") for each in found}
    assert len(whole) == len(found) and text not in whole
    for changed in whole:
        ast.parse(changed)
    return {each.shown(raw).partition(": ")[2] for each in found}


@pytest.mark.parametrize(
    ("body", "changes"),
    [
        ("x = a < b", {"a < b → (a <= b)", "a < b → (a >= b)"}),
        ("x = a == b", {"a == b → (a != b)"}),
        ("x = a is None", {"a is None → (a is not None)"}),
        ("x = a not in b", {"a not in b → (a in b)"}),
        ("x = ü and b", {"ü and b → (ü or b)"}),
        ("x = not a", {"not a → (a)"}),
        ("x = a * b", {"a * b → (a / b)"}),
        ("x = 'ü' + a", set()),  # texts cannot be joined otherwise
        ("x = 3", {"3 → 4"}),
        ("x = 0.5", {"0.5 → 1.5"}),
        ("x = True", {"True → False"}),
        ("x = 'words'", set()),
        ("if a:\n    x = b", {"a → (not (a))"}),
        ("if a < b:\n    x = b", {"a < b → (a <= b)", "a < b → (a >= b)"}),
        ("return a", {"a → None"}),
        ("return None", set()),
        ("return", set()),
        ("a.append(b)", {"a.append(b) → pass"}),
        ("a += b", {"a += b → pass"}),
        ("raise ValueError(a)", {"raise ValueError(a) → pass"}),
        ("yield a", {"yield a → pass"}),
        ("assert a < b", set()),
        ("x: list[int] = a", set()),
        ("'''A docstring of 3 words.'''", set()),
        ("x = f'{a + b}'", set()),  # held by golden pages
        ("x = '—'; y = a - b", {"a - b → (a + b)"}),
    ],
)
def test_every_change_of_a_function_is_one_of_these(
    body: str, changes: set[str], tmp_path: Path
) -> None:
    assert changes_of(tmp_path, body) == changes


def test_what_stands_outside_of_functions_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "m.py").write_text(
        "X = 3 + 4\nclass A:\n    y: int = 5\n    def f(self):\n        return 6\n"
    )
    assert {each.line for each in mutants_of(tmp_path, "m.py")} == {5}


def test_of_many_tests_those_that_run_least_are_always_asked() -> None:
    tests = [f"t{number}" for number in range(100)]
    some = some_of(tests, 20, random.Random(1))
    assert some[:10] == tests[:10] and len(set(some)) == 20
    assert some_of(tests[:5], 20, random.Random(1)) == tests[:5]
