"""Tells coverage which test runs; what a test's fixtures do counts as done by that test."""

from __future__ import annotations

from collections.abc import Generator

import coverage
import pytest


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    """Name what runs from now on after the test."""
    measuring = coverage.Coverage.current()
    if measuring is not None:
        measuring.switch_context(item.nodeid)
    return (yield)
