# ruff: noqa: E501 - what is written stands whole
"""A batch is added to a file of the log, and all that stood there stays as it was written."""

from __future__ import annotations

import pytest

from builder.reading.drying.log_files import (
    Record,
    added_to_table,
    added_to_yaml,
    completed_in_table,
    completed_in_yaml,
)
from builder.reading.text.as_written import edited_bytes
from builder.reading.text.spelling import plain
from builder.reading.text.tables import read_table, table_of
from builder.reading.text.yaml_door import decode, read_yaml

NEW: Record = {
    "id": "n",
    "food": "beans",
    "packs": {"count": 2, "absorber": True},
    "tests": ["snap"],
}
BLOCK = "- id: n\n  food: beans\n  packs: {count: 2, absorber: true}\n  tests: [snap]\n"
FLOW = "{id: n, food: beans, packs: {count: 2, absorber: true}, tests: [snap]}"
READ = {
    "id": "n",
    "food": "beans",
    "packs": {"count": (2, "2"), "absorber": True},
    "tests": ["snap"],
}


def added(before: str) -> str:
    text, problems = decode(before.encode(), "")
    root, more = read_yaml(text, "")
    assert not problems and not more
    return edited_bytes(before.encode(), list(added_to_yaml(text, root, NEW))).decode()


@pytest.mark.parametrize(
    ("before", "after"),
    [
        # nothing yet
        ("", BLOCK),
        ("# my log\n", "# my log\n" + BLOCK),
        ("# my log", "# my log\n" + BLOCK),
        ("---\n", "---\n" + BLOCK),
        ("~\n...\n", None),  # a lone null: no list can follow it
        # a list in lines
        ("- id: a\n  food: b\n", "- id: a\n  food: b\n" + BLOCK),
        ("- id: a", "- id: a\n" + BLOCK),
        ("- id: a\n# end\n", "- id: a\n# end\n" + BLOCK),
        ("- id: a\n  # constant: true\n", "- id: a\n  # constant: true\n" + BLOCK),
        ("- id: a\n\n- id: b\n", "- id: a\n\n- id: b\n\n" + BLOCK),
        ("- id: a\n\n# of May\n- id: b\n", "- id: a\n\n# of May\n- id: b\n\n" + BLOCK),
        (
            "- id: a\n  notes: |\n    x\n\n    y\n- id: b\n",
            "- id: a\n  notes: |\n    x\n\n    y\n- id: b\n" + BLOCK,
        ),
        ("  - id: a\n", "  - id: a\n" + "".join(f"  {line}\n" for line in BLOCK.splitlines())),
        ("-\n  id: a\n", "-\n  id: a\n" + BLOCK),
        ("- &x\n  id: a\n- {id: b, <<: *x}\n", f"- &x\n  id: a\n- {{id: b, <<: *x}}\n- {FLOW}\n"),
        ("- {id: a} # x\n", f"- {{id: a}} # x\n- {FLOW}\n"),
        ("- id: a\n  notes: |+\n    x\n\n\n", "- id: a\n  notes: |+\n    x\n\n\n" + BLOCK),
        ("---\n- id: a\n...\n", "---\n- id: a\n" + BLOCK + "...\n"),
        ("- id: a\r\n- id: b\r\n", ("- id: a\n- id: b\n" + BLOCK).replace("\n", "\r\n")),
        ("\ufeff- id: a\n", "\ufeff- id: a\n" + BLOCK),
        # a list in brackets
        ("[]\n", f"[{FLOW}]\n"),
        ("[ ] # none\n", f"[ {FLOW}] # none\n"),
        ("[{id: a}]", f"[{{id: a}}, {FLOW}]"),
        ("[{id: a},]\n", f"[{{id: a}}, {FLOW}]\n"),
        (
            "[\n  {id: a}, # x, y\n  {id: b} # z, ]\n]\n",
            f"[\n  {{id: a}}, # x, y\n  {{id: b}}, # z, ]\n  {FLOW}\n]\n",
        ),
        ("[\n  {id: a},\n]\n", f"[\n  {{id: a}},\n  {FLOW},\n]\n"),
        ("[\n  # none\n]\n", f"[\n  # none\n  {FLOW}\n]\n"),
        ("[{id: a},\n {id: b}]\n", f"[{{id: a}},\n {{id: b}}, {FLOW}]\n"),
        # one record alone
        ("id: a\nfood: b # x\n", "- id: a\n  food: b # x\n\n" + BLOCK),
        (
            "# mine\nid: a\n\n# odd\nnotes: |\n  one\n\n    two\nfood: b",
            "# mine\n- id: a\n\n  # odd\n  notes: |\n    one\n\n      two\n  food: b\n\n" + BLOCK,
        ),
        (
            "---\nid: a\nnotes: 'x\n  y'\n...\n",
            "---\n- id: a\n  notes: 'x\n    y'\n\n" + BLOCK + "...\n",
        ),
        ("{id: a,\n food: b}\n", f"- {{id: a,\n   food: b}}\n\n{BLOCK}"),
        ("id: a\r\nfood: b\r\n", ("- id: a\n  food: b\n\n" + BLOCK).replace("\n", "\r\n")),
    ],
)
def test_a_record_is_added_and_all_else_stays(before: str, after: str | None) -> None:
    found = added(before)
    if after is None:
        return
    assert found == after
    text, _ = decode(found.encode(), "")
    root, problems = read_yaml(text, "")
    assert root is not None and not problems
    text, _ = decode(before.encode(), "")
    old, _ = read_yaml(text, "")
    records = [] if old is None else [plain(old)] if old.is_map else plain(old) or []
    assert plain(root) == [*records, READ]


CHANGES: Record = {
    "done": "2031-03-14",
    "dried": "1 g",
    "packs": {"count": 3, "in": "jar"},
    "id": "i",
}


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (
            "- planned: 2031-05-01 # x\n  fresh: 9 g\n",
            "- id: i\n  done: 2031-03-14 # x\n  fresh: 9 g\n  dried: 1 g\n  packs: {count: 3, in: jar}\n",
        ),
        (
            "- fresh: 9 g\n  planned: &d 2031-05-01\n  packs: # p\n    count: 2 # c\n    # c\n",
            "- id: i\n  fresh: 9 g\n  dried: 1 g\n  done: 2031-03-14\n  packs: # p\n    count: 3 # c\n    in: jar\n    # c\n",
        ),
        (
            "- {fresh: 9 g, packs: {count: &c 2}, planned: 2031-05-01}",
            "- {id: i, fresh: 9 g, dried: 1 g, packs: {count: &c 3, in: jar}, done: 2031-03-14}",
        ),
        (
            "- started: 2031-03-13T18:00\n  fresh: 9 g\n  packs: {}",
            "- id: i\n  started: 2031-03-13T18:00\n  done: 2031-03-14\n  fresh: 9 g\n  dried: 1 g\n  packs: {count: 3, in: jar}",
        ),
        (
            "- id: i\n  dried: 2 g\n  planned: 2031-05-01",
            "- id: i\n  dried: 1 g\n  done: 2031-03-14\n  packs: {count: 3, in: jar}\n",
        ),
        (
            '- "planned": 2031-05-01\n  dried:   # not yet\n',
            '- id: i\n  done: 2031-03-14\n  dried: 1 g   # not yet\n  packs: {count: 3, in: jar}\n',
        ),
    ],
)  # fmt: skip
def test_a_planned_record_is_completed_and_all_else_stays(before: str, after: str) -> None:
    root, problems = read_yaml(before, "")
    assert root is not None and not problems
    edits = completed_in_yaml(before, root.items[0], CHANGES, "planned")
    found = edited_bytes(before.encode(), edits).decode()
    assert found == after
    again, problems = read_yaml(found, "")
    assert again is not None and not problems
    said = again.items[0].entries
    assert "planned" not in said
    assert plain(said["dried"].node) == "1 g" and plain(said["done"].node) == "2031-03-14"


def test_a_list_gets_longer_and_what_it_shares_a_name_with_does_not() -> None:
    before = "- {id: a, tests: &t [jar]}\n- id: i\n  tests: *t   # so far\n"
    root, problems = read_yaml(before, "")
    assert root is not None and not problems
    edits = completed_in_yaml(before, root.items[1], {"tests": ["jar", "snap"]})
    after = edited_bytes(before.encode(), edits).decode()
    assert after == before.replace("*t", "[jar, snap]")
    edits = completed_in_yaml(before, root.items[0], {"tests": ["jar", "snap"]})
    assert edited_bytes(before.encode(), edits).decode() == before.replace("[jar]", "[jar, snap]")


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", "id,food,packs.count,packs.absorber,tests\nn,beans,2,true,snap\n"),
        ("food,id\n", "food,id,packs.count,packs.absorber,tests\nbeans,n,2,true,snap\n"),
        (
            'id,food,notes\r\na,rice,"x, ""y"""\r\n\r\nb,rice,',
            'id,food,notes,packs.count,packs.absorber,tests\r\na,rice,"x, ""y""",,,\r\n\r\nb,rice,,,,\r\nn,beans,,2,true,snap\r\n',
        ),
        (
            "tests;packs.absorber;packs.count;food;id;\nsnap;true;1;rice;a;\n",
            "tests;packs.absorber;packs.count;food;id;\nsnap;true;1;rice;a;\nsnap;true;2;beans;n\n",
        ),
        ("\ufeffid,food,packs.count,packs.absorber,tests\n", "\ufeffid,food,packs.count,packs.absorber,tests\nn,beans,2,true,snap\n"),
    ],
)  # fmt: skip
def test_a_row_is_added_to_a_table(before: str, after: str) -> None:
    text, _ = decode(before.encode(), "")
    table, problems = table_of(text, "")
    assert not problems
    found = edited_bytes(before.encode(), added_to_table(text, table, NEW)).decode()
    assert found == after
    root, problems = read_table(decode(found.encode(), "")[0], "")
    assert root is not None and not problems
    last = {key: each for key, each in plain(root.items[-1]).items() if each is not None}
    assert last == READ


def test_lists_of_a_row_are_written_as_they_are_read() -> None:
    record: Record = {
        "tests": ["snap", "jar"],
        "weighings": [{"at": "3 h", "mass": "1,5 kg"}, {"at": "5 h", "mass": "900 g"}],
        "notes": 'a; "b", c',
    }
    table, _ = table_of("id;notes\n", "")
    text = edited_bytes(b"id;notes\n", added_to_table("id;notes\n", table, record)).decode()
    root, problems = read_table(text, "")
    assert root is not None and not problems
    assert plain(root.items[0]) == {"id": None, **record}


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (
            "planned,fresh,packs.count,packs.in\n2031-05-01,9 g,2,\n2031-05-02,8 g,,bag",
            "planned,fresh,packs.count,packs.in,done,dried,id\n,9 g,3,jar,2031-03-14,1 g,i\n2031-05-02,8 g,,bag,,,",
        ),
        (
            'id,done,dried,packs.count,packs.in,planned\n,,,"2",,2031-05-01\n',
            "id,done,dried,packs.count,packs.in,planned\ni,2031-03-14,1 g,3,jar,\n",
        ),
    ],
)
def test_a_planned_row_is_completed(before: str, after: str) -> None:
    table, problems = table_of(before, "")
    assert table is not None and not problems
    edits = completed_in_table(table, 0, CHANGES, "planned")
    assert edited_bytes(before.encode(), edits).decode() == after
