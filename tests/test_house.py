"""The rules of the house, held by looking at the code itself."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import click
import pytest
import yaml
from click.testing import CliRunner

from builder.cli import main
from builder.reading.declared.declaring import walk
from builder.reading.kinds import KINDS
from tests.readme_commands import blocks, set_up_commands

ROOT = Path(__file__).resolve().parent.parent
BUILDER = ROOT / "builder"
MODULES = sorted(BUILDER.rglob("*.py"))

# Which rooms of ours a room may import; a file at the top is a room of its own.
MAY_IMPORT = {
    "formulas": {"formulas"},
    "model": {"model"},
    "meant": set(),
    "called": {"meant"},
    "problems": {"called", "meant", "model"},
    "units": {"unit_factors", "unit_words"},
    "unit_factors": set(),
    "unit_words": set(),
    "record": set(),
    "clock": set(),
    "shipped": set(),
    "speech": {"model", "shipped", "units"},
    "reading": {"reading", "model", "units", "problems", "speech"},
    "planning": {"planning", "called", "formulas", "meant", "model", "problems", "speech", "units"},
    "pages": {"pages", "planning", "formulas", "model", "problems", "speech", "units"},
    "site": {"site", "pages", "planning", "formulas", "model", "problems", "speech"},
    "starts": {"starts", "reading", "planning", "site", "model", "problems"},
    "preview": {"preview"},
}
# Which room alone may know a library.
ONLY = {
    "pint": {"units"},
    "yaml": {"reading", "site"},  # what people write; and in site our own mkdocs.yml
    "zensical": set(),  # it is run as a program
    "dataclasses": {"record"},
    "msgspec": {"record", "pages", "site"},
    "pydantic": {"reading"},
    "pydantic_core": {"reading"},
    "click": {"cli"},
    "rich": {"cli"},
    "distributed": {"cli"},
    "fsspec": {"cli"},
    "mkdocs": {"site"},
    "markdown": {"site"},
    "material": {"site"},
    "jinja2": {"pages", "site"},
    "babel": {"speech"},
    "cryptography": {"site"},
    "icalendar": {"pages"},
    "scipy": {"planning"},
    "numpy": {"planning"},
}
ASKS_THE_CLOCK = re.compile(r"\b(?:date\.today|datetime\.now|datetime\.utcnow|time\.time)\(")


def room_of(path: Path) -> str:
    relative = path.relative_to(BUILDER)
    return relative.parts[0] if len(relative.parts) > 1 else relative.stem


def imports_of(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path} imports relatively"
            yield node.module or ""


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_imports_go_one_way(path: Path) -> None:
    room = room_of(path)
    if room in ("cli", "__main__", "__init__"):
        return
    ours = {name.split(".")[1] for name in imports_of(path) if name.startswith("builder.")}
    ours.discard("record")  # what any room writes its records with
    assert ours <= MAY_IMPORT[room], f"{room} must not import {ours - MAY_IMPORT[room]}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_no_room_of_planning_knows_the_insides_of_another(path: Path) -> None:
    own = path.relative_to(BUILDER).parts[1] if room_of(path) == "planning" else ""
    for name in imports_of(path):
        parts = name.split(".")
        if parts[:2] == ["builder", "planning"] and len(parts) > 3:
            assert parts[2] == own, f"{name}: ask for it at builder.planning.{parts[2]}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_each_library_is_known_in_its_room_only(path: Path) -> None:
    room = room_of(path)
    for name in imports_of(path):
        allowed = ONLY.get(name.split(".")[0])
        assert allowed is None or room in allowed, f"{room} must not know {name}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_only_the_clock_asks_for_the_date(path: Path) -> None:
    if room_of(path) != "clock":
        assert not ASKS_THE_CLOCK.search(path.read_text("utf-8"))


@pytest.mark.parametrize(
    "path", [path for path in MODULES if room_of(path) == "formulas"], ids=lambda path: path.stem
)
def test_each_formula_tells_its_units_and_source(path: Path) -> None:
    sources = {each["id"] for each in yaml.safe_load((ROOT / "content/sources.yaml").read_text())}
    for node in ast.parse(path.read_text("utf-8")).body:
        if not isinstance(node, ast.FunctionDef) or node.name.startswith("_"):
            continue
        doc = ast.get_docstring(node) or ""
        where = f"{path.stem}.{node.name}"
        assert "Parameters\n----------" in doc, f"{where} tells no parameters"
        if path.stem == "ranges":
            continue
        assert "Returns\n-------" in doc, f"{where} tells no return"
        assert re.search(r"\[[^\]]+\]", doc.split("Returns\n-------")[1]) or "bool" in doc, (
            f"{where} tells no unit of what it returns"
        )
        cited = re.findall(r"^\.\. \[([a-z0-9-]+)\]", doc, re.MULTILINE)
        assert set(cited) <= sources, f"{where} cites {set(cited) - sources}, which no file holds"
        assert cited or "Notes\n-----" in doc, f"{where} tells neither formula nor source"


# What is held against a printed table though no kit asks for it, and why.
_ASKED_BY_TESTS_ONLY = {
    "gab_water_per_solids": "the isotherm as it is printed; kits ask for its inverse",
}


def test_each_formula_is_one_that_the_tool_works_out() -> None:
    names = Counter(
        word for path in MODULES for word in re.findall(r"\w+", path.read_text("utf-8"))
    )
    formulas = {
        node.name
        for path in MODULES
        if room_of(path) == "formulas" and path.stem not in ("declaring", "expression")
        for node in ast.parse(path.read_text("utf-8")).body
        if isinstance(node, ast.FunctionDef)
    }
    told = Counter(
        re.findall(r"\w+", (BUILDER / "pages/trip/origins/sources.py").read_text("utf-8"))
    )
    assert {each for each in formulas if names[each] - told[each] < 2} == set(_ASKED_BY_TESTS_ONLY)


def test_each_formula_module_has_its_tests() -> None:
    modules = {path.stem for path in (BUILDER / "formulas").glob("*.py")} - {"__init__"}
    tests = {path.stem.removeprefix("test_") for path in (ROOT / "tests/formulas").glob("test_*")}
    assert modules <= tests


def test_every_command_is_documented_and_helps() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    context = click.Context(main)
    for name in main.list_commands(context):
        command = main.get_command(context, name)
        assert command is not None
        assert f"`tripkit {name}" in readme, f"README.md does not name {name}"
        result = CliRunner().invoke(main, [name, "--help"])
        assert result.exit_code == 0
        assert command.help
        for parameter in command.params:
            for option in getattr(parameter, "opts", ()):
                if option.startswith("--") and option not in ("--json", "--help"):
                    assert option in result.output


def test_every_field_of_the_content_is_documented() -> None:
    page = (ROOT / "content/README.md").read_text("utf-8")
    keys = {name for kind in KINDS.values() for _, name, _ in walk(kind.record)}
    told = {key for key in keys if re.search(rf"[`.]{key}`|keys of {key}: begin", page)}
    assert keys - told == set()


def test_the_two_set_up_commands_are_one_line_each() -> None:
    commands = set_up_commands((ROOT / "README.md").read_text("utf-8"))
    assert len(commands) == 2
    assert all("\n" not in command for command in commands)
    assert commands[0].endswith("tripkit build")
    assert commands[1].endswith("tests/run.py")


def test_what_follows_the_set_up_calls_the_tool_by_its_name() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    first, _, *rest = blocks(readme)
    assert ". .venv/bin/activate && " in first, "so that the next line pasted finds it"
    assert rest
    for line in "\n".join(rest).splitlines():
        assert line.split()[0] in ("tripkit", "cd"), line


def test_readme_opens_with_one_paragraph_on_the_job() -> None:
    lines = (ROOT / "README.md").read_text("utf-8").splitlines()
    assert lines[0].startswith("# ")
    assert lines[2] and not lines[3] and not lines[2].startswith(("#", "-", "!", "<"))


def test_nothing_is_left_for_later_in_the_code() -> None:
    for path in [*MODULES, *sorted((ROOT / "tests").rglob("*.py"))]:
        if path == Path(__file__):
            continue
        text = path.read_text("utf-8")
        assert not re.search(r"\b(?:TODO|FIXME|XXX|HACK)\b", text), path


def test_the_parts_of_the_house_are_where_the_plan_says() -> None:
    for name in (
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "builder",
        "content",
        "site_templates",
        "tests",
        "mkdocs.yml",
    ):
        assert (ROOT / name).exists(), name


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_only_tables_are_laid_out_by_hand(path: Path) -> None:
    by_hand = [line for line in path.read_text("utf-8").splitlines() if "# fmt: skip" in line]
    assert not [line for line in by_hand if line[0] not in ")]}"], "the formatter lays out code"


# About 300 lines are what a reader takes in. What is longer is one subject, and beside it stands
# why it is not parted. Formulas are longer by their docstrings: units, range and source of each.
MOST_LINES = 350
LONGER = {
    "builder/model/kit.py": "the records of a kit, which make one picture only together",
    "builder/pages/trip/day.py": "one page, from its strip of hours to its figures",
    "builder/pages/trip/dishes/cook.py": "one page, from its ways of cooking to their figures",
    "builder/pages/trip/origins/kit_json.py": "all names of kit.json, in its order",
    "builder/pages/trip/origins/numbers.py": "one page: a line for each figure",
    "builder/pages/trip/origins/sources.py": "one page, with the words for what its sources check",
    "builder/pages/trip/people.py": "one page for each person",
    "builder/pages/trip/supplies/drying.py": "one page: each batch, and what to do with it",
    "builder/planning/filling/model.py": "one model: its variables, bounds and aims",
    "builder/planning/graph.py": "the graph, and the writer of its expressions",
    "builder/planning/kit.py": "the one place that knows the order of the computing",
    "builder/reading/declared/declaring.py": "the one way in which all kinds are declared",
    "builder/reading/text/yaml_door.py": "the one door to YAML, with all that it refuses",
    "builder/units.py": "the one module that turns text into numbers",
}


def test_modules_are_of_a_length_that_a_reader_takes_in() -> None:
    long = {
        path.relative_to(ROOT).as_posix()
        for path in MODULES
        if room_of(path) != "formulas" and len(path.read_text("utf-8").splitlines()) > MOST_LINES
    }
    assert long <= set(LONGER), "part it at a seam, or say in LONGER why not"


# About ten files are what one finds one's way in. A room that holds more says why.
MOST_FILES = 14
FULLER = {
    "builder/cli": "a file for each command, as somebody looks for it",
    "builder/formulas": "one subject a file, as a handbook has its chapters",
    "builder/model": "one record a file, and what hangs on it",
    "builder/pages/home": "a file for each page of the home",
}


def test_rooms_hold_no_more_files_than_one_finds_ones_way_in() -> None:
    counts = Counter(path.parent.relative_to(ROOT).as_posix() for path in MODULES)
    full = {room for room, files in counts.items() if files - 1 > MOST_FILES}
    assert full == set(FULLER), "part the room by errand, or say in FULLER why not"


def test_nothing_is_said_of_a_module_that_is_short_or_gone() -> None:
    gone = {name for name in LONGER if not (ROOT / name).exists()}
    assert not gone
