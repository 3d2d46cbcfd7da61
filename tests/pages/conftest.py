"""The option that writes golden pages anew, and the book that most tests look at."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.trip.book import Book, write_book
from tests.pages.sample_kit import sample_kit

TEMPLATES = Path(__file__).resolve().parents[2] / "site_templates"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--rewrite-golden", action="store_true", help="write tests/pages/golden anew; read the diff"
    )


@pytest.fixture
def rewrite_golden(request: pytest.FixtureRequest) -> bool:
    return bool(request.config.getoption("--rewrite-golden", default=False))


@pytest.fixture(scope="session")
def templates() -> Path:
    return TEMPLATES


@pytest.fixture(scope="session")
def book() -> Book:
    return write_book(sample_kit(), TEMPLATES)
