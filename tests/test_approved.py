"""What is held against an approved text: each change is seen, the sixteenth digit is none."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.record import dataclass
from tests.approved import as_text, hold_part, otherwise


@dataclass(frozen=True, slots=True)
class Pot:
    name: str
    holds_ml: float = 1000.0
    lids: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Kitchen:
    pots: tuple[Pot, ...]
    used: Pot
    is_clean: bool = True


POT = Pot("Pot", 2345.678, ("flat", "deep"))
TEXT = """\

 pots
  0 name=Pot holds_ml=2345.678 lids=(flat,deep)
  1 name=Pan
 used as above, name=Pot
"""


def test_records_are_told_once_and_without_what_is_as_by_default() -> None:
    assert as_text(Kitchen((POT, Pot("Pan")), POT)) == TEXT
    assert as_text(Kitchen((POT, Pot("Pan")), POT), frozenset({"pots"})) == TEXT.replace(
        TEXT.partition(" used")[0], "\n"
    ).replace("as above, name=Pot", "name=Pot holds_ml=2345.678 lids=(flat,deep)")


@pytest.mark.parametrize(
    ("old", "new", "lines"),
    [
        ("2345.678", "2345.6781", 0),  # of another library
        ("2345.678", "2345.688", 1),
        ("2345.678", "-2345.678", 1),
        ("deep", "deeper", 1),
        ("(flat,deep)", "(deep,flat)", 1),
        ("name=Pan", "name=Pan holds_ml=900", 1),
        ("  1 name=Pan\n", "", 2),
        ("name=Pan\n", "name=Pan\n  2 name=Lid\n", 2),
        ("Pan", "nan", 1),
    ],
)
def test_every_change_is_seen(old: str, new: str, lines: int) -> None:
    assert old in TEXT
    assert len(otherwise(TEXT, TEXT.replace(old, new))) == lines
    assert len(otherwise(TEXT.replace(old, new), TEXT)) == lines


def test_a_part_is_held_and_written_by_itself(tmp_path: Path) -> None:
    file = tmp_path / "golden" / "parts.txt"
    for name, text in (("b", "x=1\n"), ("a", "y=2\n z=3\n"), ("b", "x=4\n")):
        hold_part(file, name, text, rewrite=True)
    assert file.read_text() == "# a\ny=2\n z=3\n# b\nx=4\n"
    hold_part(file, "b", "x=4\n", rewrite=False)
    for name, text in (("b", "x=5\n"), ("c", "x=4\n"), ("a", "y=2\n")):
        with pytest.raises(pytest.fail.Exception, match=f"{name} is otherwise"):
            hold_part(file, name, text, rewrite=False)
