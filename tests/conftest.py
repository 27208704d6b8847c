"""Options that every room of the tests shares."""

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """The option that rewrites the verification table."""
    parser.addoption(
        "--write-verification", action="store_true", help="rewrite docs/verification.md from tests/published"
    )
