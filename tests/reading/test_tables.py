# ruff: noqa: E501 - the lines that people read stand whole
"""A drying log kept as a table is read as the same log in YAML is, and told of where it stands."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.reading.anew.cuttings import cut_files
from builder.reading.files import ROOMS, state_of_content
from builder.reading.text import tables
from builder.reading.text.spelling import plain
from builder.reading.text.tables import read_table, table_of
from builder.reading.text.yaml_door import decode, read_yaml
from tests.reading.folder_builder import SMALL, lines, read, write

DRYER = {
    **SMALL,
    "gear/dryers.yaml": "dryers: [{id: shelf-dryer, name: Shelf, method: dehydrator, load: 3 kg, hours: 10}]",
}
AS_YAML = """\
- id: beans-may
  food: beans
  method: dehydrator
  done: 2031-05-04
  fresh: 1.5 kg
  dried: 575 g
  packs: {count: 4, in: zip-bag, absorber: false, shelf: cellar}
  kept_at: 15 degC
  tests: [constant, snap]
  heated: {to: 74 degC, when: before}
  weighings: [{at: 3 h, mass: 900 g}, {at: 5.5 h, mass: 600 g}]
  run: may-4
  notes: 'Soft, not "crisp"; eat first'
- food: beans
  method: oven
  done: 2031-06-01
  fresh: 900 g
  dried: 345 g
"""
AS_TABLE = """\
id,food,method,done,fresh,dried,packs.count,packs.in,packs.absorber,packs.shelf,kept_at,tests,heated.to,heated.when,weighings.at,weighings.mass,run,notes
beans-may,beans,dehydrator,2031-05-04,1.5 kg,575 g,4,zip-bag,FALSE,cellar,15 degC,constant; snap,74 degC,before,3 h;5.5 h,900 g;600 g,may-4,"Soft, not ""crisp""; eat first"
,beans,oven,2031-06-01,900 g,345 g,,,,,,,,,,,,
"""
WITH_SEMICOLONS = """\
id;food;method;done;fresh;dried;packs.count;packs.in;packs.absorber;packs.shelf;kept_at;tests;heated.to;heated.when;weighings.at;weighings.mass;run;notes
beans-may;beans;dehydrator;2031-05-04;1,5 kg;575 g;4;zip-bag;false;cellar;15 degC;"constant;snap";74 degC;before;"3 h;5,5 h";"900 g;600 g";may-4;"Soft, not ""crisp""; eat first"
;beans;oven;2031-06-01;900 g;345 g;;;;;;;;;;;;
"""


@pytest.mark.parametrize(
    "table",
    [
        AS_TABLE,
        WITH_SEMICOLONS,
        "\ufeff" + AS_TABLE,
        WITH_SEMICOLONS.replace("\n", "\r\n"),
        AS_TABLE.rstrip("\n"),
        AS_TABLE.replace(",beans,oven", "\n,,,,,,,,,,,,,,,,,\n,beans,oven"),  # blank rows
    ],
    ids=["commas", "semicolons", "byte order mark", "Windows", "no end of line", "blank rows"],
)
def test_a_table_is_read_as_the_same_log_in_yaml(tmp_path: Path, table: str) -> None:
    from_table = read(tmp_path / "a", {"batches/log.csv": table.encode()}, DRYER)
    from_yaml = read(tmp_path / "b", {"batches/log.yaml": AS_YAML}, DRYER)
    assert lines(from_table) == lines(from_yaml) == []
    assert from_table.content.batches == from_yaml.content.batches
    assert list(from_table.content.batches) == ["beans-may", "beans-2031-06-01"]


def test_places_of_a_stay_stand_in_columns_of_their_own() -> None:
    node, problems = read_table(
        "food,kept_at.at,kept_at.until\nbeans,22 degC; -18 degC,2031-06-01\n", "t.csv"
    )
    assert node is not None and not problems
    (row,) = node.items
    told = row.entries["kept_at"].node
    assert plain(told) == [{"at": "22 degC", "until": "2031-06-01"}, {"at": "-18 degC"}]


ONE = "food,method,done,fresh,dried,packs.count,tests\n"
SPOILT = {
    "no unit": (
        ONE + "beans,dehydrator,2031-05-04,900,340 g,3,\n",
        [
            "batches/log.csv:2:29: error: fresh: '900' has no unit — write one of mg, g, kg, oz, lb, lbs behind it, such as 250 g, 1.5 kg or 9 oz [unit-missing]"
        ],
    ),
    "in quotes, behind a line break": (
        ONE + '"beans",dehydrator,"2031-05-04",900 g,340 g,3,"snap;\nsnapp"\n',
        [
            "batches/log.csv:3:1: error: tests cannot be 'snapp' — did you mean snap? [word-unknown]",
        ],
    ),
    "a column nobody knows, told once": (
        "food,method,done,fresh,dried,frsh\n"
        "beans,oven,2031-05-04,900 g,340 g,\nbeans,oven,2031-05-05,900 g,340 g,1 g\n",
        [
            "batches/log.csv:1:30: error: a batch has no field 'frsh' — did you mean fresh? [key-unknown]"
        ],
    ),
    "a column inside another": (
        "food,method,done,fresh,dried,packs.cuont\nbeans,oven,2031-05-04,900 g,340 g,3\n",
        [
            "batches/log.csv:1:30: error: packs has no field 'cuont' — did you mean count? [key-unknown]",
            "batches/log.csv:2:35: error: packs has no `count` — write `count: 2` [missing]",
        ],
    ),
    "a column twice": (
        "food,method,food\nbeans,oven,rice\n",
        [
            "batches/log.csv:1:13: error: 'food' stands twice in the first line — keep one of them [key-twice]"
        ],
    ),
    "a column and one inside it": (
        "food,packs,packs.count\nbeans,4,4\n",
        [
            "batches/log.csv:1:12: error: 'packs' and 'packs.count' are both columns — leave 'packs' out [key-twice]"
        ],
    ),
    "a column without a name": (
        "food,,method\nbeans,1,oven\n",
        [
            "batches/log.csv:1:6: error: this column has no name — name its key, such as `notes` [column-name]"
        ],
    ),
    "rows too short and too long": (
        "food,method,done,fresh,dried\nbeans,oven,2031-05-04,900 g\n"
        "beans,oven,2031-05-05,900 g,340 g,more\nbeans,oven,2031-05-06,900 g,340 g,,\n",
        [
            "batches/log.csv:2:1: error: this row has 4 cells, and the first line names 5 — leave a cell empty for what is not told; quote commas [ragged]",
            "batches/log.csv:3:1: error: this row has 6 cells, and the first line names 5 — leave a cell empty for what is not told; quote commas [ragged]",
        ],
    ),
    "a quote that is never closed": (
        'food,method\nbeans,oven\nrice,"oven\n',
        [
            'batches/log.csv:3:1: error: this row is no row of a table (unexpected end of data) — put a cell that holds quotes into quotes, and write each of its own twice: "" [table]'
        ],
    ),
    "tabs": (
        "food\tmethod\nbeans\toven\n",
        [
            "batches/log.csv:1:1: error: the columns of this table are parted by tabs — save it with commas or semicolons between them [table]"
        ],
    ),
    "nothing": (
        "\n",
        [
            "batches/log.csv:1:1: warning: this file is empty — write a record, or delete it [file-name]"
        ],
    ),
    "too many columns": (
        ",".join(f"c{number}" for number in range(101)),
        ["batches/log.csv:1:1: error: this table has 101 columns — keep it under 100 [table]"],
    ),
    "the same food and day twice": (
        ONE + "beans,oven,2031-05-04,900 g,340 g,1,\n" * 2,
        [
            "batches/log.csv:3:1: error: the id 'beans-2031-05-04' stands twice among the batches (first at my/batches/log.csv:2:1) — give one of them another id [id-twice]"
        ],
    ),
}


@pytest.mark.parametrize("name", SPOILT)
def test_mistakes_are_told_at_their_cell(tmp_path: Path, name: str) -> None:
    table, expected = SPOILT[name]
    assert lines(read(tmp_path, {"batches/log.csv": table})) == expected


def test_a_space_before_a_quote_is_none_of_the_cell() -> None:
    table, problems = table_of('food, notes\nbeans,  "a, b"\n', "t.csv")
    assert table is not None and not problems
    (row,) = table.rows
    assert [cell.text for cell in (*table.header, *row)] == ["food", "notes", "beans", "a, b"]
    assert (row[1].place.line, row[1].place.column) == (2, 9)


def test_a_bare_number_has_a_decimal_comma_only_where_no_comma_parts() -> None:
    for text, expected in (("a;b\n1,5;2\n", (1.5, "1.5")), ('a,b\n"1,5",2\n', "1,5")):
        node, _ = read_table(text, "t.csv")
        assert node is not None
        assert plain(node.items[0])["a"] == expected


def test_a_table_that_is_too_large_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tables, "MOST_NODES", 9)
    node, (problem,) = read_table("a,b\n" + "1,2\n" * 3, "t.csv")
    assert node is None and problem.kind == "too-large"
    assert read_table("a,b\n" + "1,2\n" * 2, "t.csv")[1] == []


def test_a_first_line_alone_is_a_log_without_batches(tmp_path: Path) -> None:
    found = read(tmp_path, {"batches/log.csv": "food,method,done\n"})
    assert lines(found) == []
    assert not found.content.batches


def test_a_table_is_read_in_batches_only_and_by_its_own_ending(tmp_path: Path) -> None:
    found = read(tmp_path, {"foods/a.csv": "id\nx\n", "batches/log.CSV": "food\nx\n"})
    assert lines(found) == [
        "batches/log.CSV:1:1: warning: this file is not read: its name ends in .CSV — call it log.csv [file-name]"
    ]


def test_a_changed_table_is_seen(tmp_path: Path) -> None:
    write(tmp_path, {"batches/log.csv": AS_TABLE, "foods/log.csv": AS_TABLE})
    before = state_of_content(tmp_path, ROOMS)
    assert list(before) == ["batches/log.csv"]
    write(tmp_path, {"batches/log.csv": AS_TABLE.replace("575 g", "576 g")})
    assert state_of_content(tmp_path, ROOMS) != before


def test_a_kit_hands_rows_on_as_yaml(tmp_path: Path) -> None:
    files = {
        "batches/log.csv": AS_TABLE,
        "batches/log.yaml": "- {id: b, food: beans, method: oven, done: 2031-01-01, fresh: 1 kg, dried: 380 g}\n",
    }
    found = read(tmp_path / "a", files, DRYER)
    keys = [("batch", name) for name in found.content.batches]
    written = cut_files(keys, found.texts)
    assert sorted(written) == ["batches/log.csv.yaml", "batches/log.yaml"]
    again = read(tmp_path / "b", written, DRYER)
    assert lines(again) == []
    named = {**found.content.batches}
    assert again.content.batches == named


CELLS = st.text(st.sampled_from('abß ,;"\n1.'), max_size=6)


@given(st.lists(st.lists(CELLS, min_size=3, max_size=3), max_size=4), st.sampled_from(",;"))
def test_cells_are_those_of_the_csv_module_and_stand_where_they_are_told(
    rows: list[list[str]], delimiter: str
) -> None:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=delimiter, lineterminator="\n", quoting=csv.QUOTE_ALL)
    writer.writerows([["x", "y", "z"], *rows])
    text = out.getvalue()
    table, problems = table_of(text, "t.csv")
    assert table is not None and not problems
    kept = [row for row in rows if any(cell.strip() for cell in row)]
    assert [[cell.text for cell in row] for row in table.rows] == [
        [cell.strip() for cell in row] for row in kept
    ]
    split = text.split("\n")
    for row in (table.header, *table.rows):
        for cell in row:
            (read_back,) = next(csv.reader([text[cell.start : cell.end]], delimiter=delimiter))
            assert read_back.strip() == cell.text
            assert split[cell.place.line - 1][cell.place.column - 1] == '"'


@given(st.binary(max_size=60))
def test_nothing_in_a_file_ends_the_reading(raw: bytes) -> None:
    text, problems = decode(b"food,method\n" + raw, "t.csv")
    if not problems:
        read_table(text, "t.csv")


def test_a_cell_means_what_the_same_text_means_in_yaml() -> None:
    for text in ("4", "1.50", "true", "012", "2031-05-04", "no", "1e3"):
        table, _ = read_table(f"notes\n{text}\n", "t.csv")
        yaml, _ = read_yaml(f"- notes: {text}\n", "t.yaml")
        assert table is not None and yaml is not None
        assert plain(table) == plain(yaml), text
    # But for nothing, which an empty cell says.
    table, _ = read_table("notes,run\nnull,\n", "t.csv")
    assert table is not None and plain(table) == [{"notes": "null", "run": None}]


RUNS = """\
- {id: a, food: beans, method: dehydrator, done: 2031-05-04, fresh: 900 g, dried: 345 g, run: may}
- {id: b, food: beans, method: dehydrator, done: 2031-05-DAY, fresh: 900 g, dried: 345 g, run: may}
"""


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ("05-DAY", "05-04", ""),
        ("05-DAY", "05-08", ""),  # the first of the two may have begun on the fourth
        ("05-DAY", "05-09", "which lies in the dryer until 2031-05-04, not 2031-05-09"),
        ("05-DAY", "05-09, started: 2031-05-04T08:00", ""),
        (
            "05-DAY",
            "05-06, started: 2031-05-05T08:00",
            "which lies in the dryer until 2031-05-04, not 2031-05-06",
        ),
        (
            "method: dehydrator, done: 2031-05-DAY",
            "method: oven, done: 2031-05-04",
            "which is dried by dehydrator, not oven",
        ),
        ("05-DAY", "05-04, dryer: shelf-dryer", ""),
        ("2031-05-DAY", "2031-04-30", ""),
        (
            "2031-05-DAY",
            "2031-04-29",
            "which lies in the dryer until 2031-05-04, not 2031-04-29",
        ),
        # What is still in the dryer may come out at any time.
        (
            "done: 2031-05-DAY, fresh: 900 g, dried: 345 g",
            "started: 2031-04-20T08:00, fresh: 900 g",
            "",
        ),
    ],
)
def test_batches_of_one_run_can_have_shared_a_dryer(
    tmp_path: Path, old: str, new: str, why: str
) -> None:
    assert RUNS.count(old) == 1
    found = read(tmp_path, {"batches/log.yaml": RUNS.replace(old, new)}, DRYER)
    said = f"run 'may' of batch b is also that of batch a (my/batches/log.yaml:1:95), {why}"
    assert [problem.says for problem in found.problems] == ([said] if why else [])
    assert [problem.kind for problem in found.problems] == (["run-apart"] if why else [])


def test_one_run_lies_in_one_dryer(tmp_path: Path) -> None:
    gear = "dryers: [{id: one, name: One, method: oven, load: 3 kg, hours: 10}, {id: two, name: Two, method: oven, load: 3 kg, hours: 10}]"
    batch = "- {id: ID, food: beans, dryer: ID, done: 2031-05-04, fresh: 900 g, dried: 345 g, run: may}\n"
    log = batch.replace("ID", "one") + batch.replace("ID", "two")
    found = read(tmp_path, {"batches/log.yaml": log}, {**SMALL, "gear/dryers.yaml": gear})
    (problem,) = found.problems
    assert problem.says.endswith("which lies in one, not in two")
    assert problem.place.line == 2
