"""The tab key completes commands, trips, foods, batches and kinds, quickly and without a word."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli import completing, main
from tests.conftest import tripkit

ROOT = Path(__file__).resolve().parent.parent


def completed(line: str, shell: str = "bash") -> list[str]:
    """Give what is offered for the last word of a line."""
    words = line.split(" ")
    environment = {
        "_TRIPKIT_COMPLETE": f"{shell}_complete",
        "COMP_WORDS": line,
        "COMP_CWORD": str(len(words) - 1),
    }
    result = CliRunner().invoke(main, [], prog_name="tripkit", env=environment)
    assert result.exit_code == 0, result.output
    assert "Traceback" not in result.output
    return [each.removeprefix("plain,") for each in result.stdout.splitlines() if each]


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("tripkit ex", ["explain"]),
        ("tripkit build t", ["tarrow-tops"]),
        (
            "tripkit build tarrow-tops ",
            ["graupel-ridge", "lake-emmerin", "rindle-fen", "tarrow-tops"],
        ),
        ("tripkit preview lake", ["lake-emmerin"]),
        ("tripkit explain g", ["graupel-ridge"]),
        ("tripkit dry kidney-beans-cook", ["kidney-beans-cooked"]),
        ("tripkit dry smoky", ["smoky-bean-pot"]),
        ("tripkit dry apple-raw 3 --in foil-pouch-", ["foil-pouch-large"]),
        ("tripkit dry apple-raw 3 --method o", ["oven"]),
        ("tripkit log walnuts", ["walnuts"]),
        ("tripkit log apple-raw ", []),  # a weight
        ("tripkit log --batch black", ["black-beans-spring"]),
        ("tripkit log --dryer shelf", ["shelf-dryer"]),
        ("tripkit find legum", ["legume"]),
        ("tripkit find cereals", ["cereals-gluten"]),
        ("tripkit find vegan", ["vegan"]),
        ("tripkit find pot-3", ["pot-3l"]),
        ("tripkit new trip x --from lake", ["lake-emmerin"]),
        ("tripkit new trip x --from zzz", ["file,zzz"]),
        ("tripkit build --content nowhere t", []),
    ],
)
def test_the_last_word_is_completed(line: str, offered: list[str], in_empty_folder: Path) -> None:
    assert completed(line) == offered


def test_the_named_folder_is_read_and_what_is_shipped_beside_it(in_empty_folder: Path) -> None:
    assert tripkit("new", "folder", "mine").exit_code == 0
    (in_empty_folder / "mine/content/trips/far").mkdir()
    (in_empty_folder / "mine/content/trips/far/trip.yaml").write_text("title: Far\n", "utf-8")
    (in_empty_folder / "mine/content/batches/more.csv").write_text("id,food\nplums-may,plum\n")
    assert completed("tripkit build --content mine/content ") == ["far", "first-trip"]
    assert completed("tripkit build --content mine ") == ["far", "first-trip"]
    assert completed("tripkit log --content mine --batch ") == ["carrots-first", "plums-may"]
    assert completed("tripkit dry --content mine my-m") == ["my-muesli"]
    assert completed("tripkit dry --content mine walnuts") == ["walnuts"]
    assert completed("tripkit dry --content mine smoky") == [], "the demo's recipes are not read"


def test_what_cannot_be_read_is_left_out_without_a_word(
    in_empty_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    trips = in_empty_folder / "content/trips"
    trips.mkdir(parents=True)
    (trips / "good.yaml").write_bytes(b"\xff\xfe: [ broken")
    assert completed("tripkit build ") == ["good"]
    foods = in_empty_folder / "content/foods"
    foods.mkdir()
    (foods / "odd.yaml").write_bytes(b"- id: mine\n  name: \xff\n- {id: other, name: [\n")
    assert [each for each in completed("tripkit dry ") if each in ("mine", "other")] == [
        "mine",
        "other",
    ]

    def fails(*_: object) -> None:
        raise OSError("gone")

    monkeypatch.setattr(completing, "_in_folder", fails)
    assert completed("tripkit build ") == []


def test_completing_loads_neither_yaml_nor_a_plan(tmp_path: Path) -> None:
    code = (
        "import sys\nfrom builder.cli import main\n"
        "try:\n    main(prog_name='tripkit')\nexcept SystemExit:\n    pass\n"
        "heavy = {'yaml', 'pint', 'scipy', 'babel', 'mkdocs', 'rich', 'builder.planning.kit'}\n"
        "heavy |= {'builder.units', 'builder.model.trip'}\n"
        "print(sorted(heavy & sys.modules.keys()), file=sys.stderr)"
    )
    asked = {"COMP_WORDS": "tripkit dry walnuts", "COMP_CWORD": "2"}
    result = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT), "_TRIPKIT_COMPLETE": "bash_complete", **asked},
    )
    assert result.stdout == "plain,walnuts\n"
    assert result.stderr == "[]\n"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_gets_its_script_as_the_readme_says(shell: str) -> None:
    assert f"{shell}_source" in (ROOT / "README.md").read_text("utf-8")
    environment = {"_TRIPKIT_COMPLETE": f"{shell}_source"}
    result = CliRunner().invoke(main, [], prog_name="tripkit", env=environment)
    assert result.exit_code == 0
    assert "_tripkit_completion" in result.stdout


def test_bash_completes_with_the_script(tmp_path: Path) -> None:
    command = tmp_path / "bin/tripkit"
    command.parent.mkdir()
    command.write_text(
        f"#!{sys.executable}\nimport sys\nsys.path.insert(0, {str(ROOT)!r})\n"
        "from builder.cli import main\nmain(prog_name='tripkit')\n"
    )
    command.chmod(0o755)
    script = (
        'eval "$(_TRIPKIT_COMPLETE=bash_source tripkit)"\n'
        "COMP_WORDS=(tripkit build la); COMP_CWORD=2\n"
        "_tripkit_completion tripkit\n"
        'echo "${COMPREPLY[@]}"'
    )
    result = subprocess.run(
        ["bash", "-c", script],
        capture_output=True,
        text=True,
        check=True,
        cwd=tmp_path,
        env={**os.environ, "PATH": f"{command.parent}:{os.environ['PATH']}"},
    )
    assert result.stdout == "lake-emmerin\n"
    assert result.stderr == ""
