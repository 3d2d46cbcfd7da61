"""The collector of garbage rests while a folder is read, and only then."""

from __future__ import annotations

import gc

import pytest

from builder.reading.text.uncollected import uncollected


def test_it_rests_inside_and_works_on_behind() -> None:
    assert gc.isenabled()
    with uncollected():
        assert not gc.isenabled()
    assert gc.isenabled()


def test_it_works_on_where_reading_fails() -> None:
    with pytest.raises(ValueError, match="lost"), uncollected():
        raise ValueError("lost")
    assert gc.isenabled()


def test_who_had_turned_it_off_finds_it_off() -> None:
    gc.disable()
    try:
        with uncollected():
            pass
        assert not gc.isenabled()
    finally:
        gc.enable()
