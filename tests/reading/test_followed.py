# ruff: noqa: E501 - the lines that people read stand whole
"""What the page of the drying runs saved is read as it was typed, and what cannot be is told."""

from __future__ import annotations

import datetime

import pytest

from builder.reading.drying.followed import read_typed_runs

OLD = "{batch: plums-may, tests: [snap, constant], weighings: [{at: 3 h, mass: 0.9 kg}]}"
NEW = "{food: plums, dryer: shelf, fresh: 2.5 kg, started: 2031-05-04T18:00, packs: 4, done: 2031-05-05, dried: 480 g}"
WHICH = "nobody knows which run this is — name the `batch`, or food, fresh weight, start, and dryer or method of a new one [run-which]"
END = "a run that has ended tells the day and the weight — write `done` and `dried`, or neither [run-end]"


def file(*runs: str) -> str:
    return "format: trip-kit-runs\nruns:\n" + "".join(f"  - {each}\n" for each in runs)


def test_each_run_is_read_with_the_words_of_its_weights() -> None:
    (old, new), problems = read_typed_runs(file(OLD, NEW), "runs.json")
    assert problems == ()
    assert (old.batch, old.holds, old.fresh_g, old.fresh, old.started) == (
        "plums-may",
        "",
        None,
        "",
        None,
    )
    assert (sorted(old.tests), old.done, old.dried, old.packs) == (
        ["constant", "snap"],
        None,
        "",
        None,
    )
    (weighed,) = old.weighings
    assert (weighed.at, weighed.mass, weighed.weighing.mass_g) == ("3 h", "0.9 kg", 900)
    assert (new.batch, new.holds, new.method, new.dryer) == (None, "plums", None, "shelf")
    assert (new.fresh_g, new.fresh, new.started) == (
        2500,
        "2.5 kg",
        datetime.datetime(2031, 5, 4, 18),
    )
    assert (new.done, new.dried_g, new.dried, new.packs) == (
        datetime.date(2031, 5, 5),
        480,
        "480 g",
        4,
    )
    assert str(old.place).startswith("runs.json:3:")


@pytest.mark.parametrize(
    ("run", "says"),
    [
        ("{batch: a}", None),
        ("{food: a, fresh: 1 kg, started: 2031-05-04T18:00, method: oven}", None),
        ("{recipe: a, fresh: 1 kg, started: 2031-05-04T18:00, dryer: d}", None),
        ("{fresh: 1 kg, started: 2031-05-04T18:00, dryer: d}", WHICH),
        ("{food: a, started: 2031-05-04T18:00, dryer: d}", WHICH),
        ("{food: a, fresh: 1 kg, dryer: d}", WHICH),
        ("{food: a, fresh: 1 kg, started: 2031-05-04T18:00}", WHICH),
        ("{batch: a, done: 2031-05-04}", END),
        ("{batch: a, dried: 480 g}", END),
        ("{batch: a, done: 2031-05-04, dried: 480 g}", None),
    ],
)  # fmt: skip
def test_which_run_it_is_and_how_it_ended_is_told_whole(run: str, says: str | None) -> None:
    runs, problems = read_typed_runs(file(run), "runs.json")
    told = [str(each).partition(": error: ")[2] for each in problems]
    assert told == ([] if says is None else [says])
    assert len(runs) == (0 if says else 1)


@pytest.mark.parametrize("text", ["", "runs: [", "format: other\nruns: []\n"])
def test_what_is_no_such_file_gives_no_run_and_says_so(text: str) -> None:
    runs, problems = read_typed_runs(text, "runs.json")
    assert runs == () and (problems or not text)
