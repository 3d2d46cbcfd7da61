"""Tells coverage which test runs.

What a fixture of one test does counts as done by that test; what one of a whole module does, as
done by the module, since any of its tests may see it.
"""

from __future__ import annotations

from collections.abc import Generator
from typing import Any

import coverage
import pytest


def _switch(name: str) -> None:
    measuring = coverage.Coverage.current()
    if measuring is not None:
        measuring.switch_context(name)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    """Name what runs from now on after the test."""
    _switch(item.nodeid)
    return (yield)


@pytest.hookimpl(wrapper=True)
def pytest_fixture_setup(
    fixturedef: pytest.FixtureDef[Any], request: pytest.FixtureRequest
) -> Generator[None, object, object]:
    """Name what a fixture of a module runs after the module."""
    if fixturedef.scope != "module":
        return (yield)
    _switch(request.node.nodeid)
    try:
        return (yield)
    finally:
        _switch(request._pyfuncitem.nodeid)
