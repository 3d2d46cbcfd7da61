"""The book that most tests look at."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.pages.trip.book import Book, write_book
from tests.pages.sample_kit import sample_kit

TEMPLATES = Path(__file__).resolve().parents[2] / "site_templates"


@pytest.fixture(scope="session")
def templates() -> Path:
    return TEMPLATES


@pytest.fixture(scope="session")
def book() -> Book:
    return write_book(sample_kit(), TEMPLATES)
