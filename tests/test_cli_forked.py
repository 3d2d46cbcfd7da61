"""Work shared out among processes gives what it gives in one, whatever becomes of them."""

from __future__ import annotations

import os

import pytest

from builder.cli.many import each_forked as forked
from builder.cli.many.each_forked import each_forked

MANY = range(40)


@pytest.fixture
def _two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(forked, "cores", lambda: 2)
    # Tests before may have left a thread that waits for nothing.
    monkeypatch.setattr("threading.active_count", lambda: 1)


@pytest.mark.usefixtures("_two_cores")
def test_results_come_in_order_from_other_processes() -> None:
    made_before = {number: number * number for number in MANY}
    results = list(each_forked(lambda number: (made_before[number], os.getpid()), MANY))
    assert [square for square, _ in results] == [number * number for number in MANY]
    assert os.getpid() not in {process for _, process in results}
    assert forked._work is None


@pytest.mark.usefixtures("_two_cores")
def test_what_a_process_leaves_undone_as_it_dies_is_done_here() -> None:
    here = os.getpid()

    def work(number: int) -> int:
        if number == 20 and os.getpid() != here:
            os._exit(1)
        return number

    assert list(each_forked(work, MANY)) == list(MANY)


@pytest.mark.usefixtures("_two_cores")
def test_a_mistake_in_the_work_is_not_passed_over() -> None:
    with pytest.raises(ZeroDivisionError):
        list(each_forked(lambda number: 1 / (number - 20), MANY))


@pytest.mark.parametrize(("cores", "items"), [(1, MANY), (2, range(9))])
def test_one_core_or_little_work_takes_no_other_process(
    monkeypatch: pytest.MonkeyPatch, cores: int, items: range
) -> None:
    monkeypatch.setattr(forked, "cores", lambda: cores)
    assert set(each_forked(lambda _: os.getpid(), items)) == {os.getpid()}
