"""The worked examples of the theory pages on wind, snow and loads run, and the pages keep their seven headings."""

import doctest
from pathlib import Path

import pytest

THEORY = Path(__file__).parents[2] / "docs" / "theory"
HEADINGS = [
    "The question",
    "The sketch",
    "The formula, with its clause",
    "Where it holds",
    "One worked example",
    "How it is checked",
    "What we leave out",
]


@pytest.mark.parametrize("page", ["wind", "snow", "loads"])
def test_page(page: str) -> None:
    path = THEORY / f"{page}.md"
    lines = path.read_text(encoding="utf-8").splitlines()
    assert [line.removeprefix("## ") for line in lines if line.startswith("## ")] == HEADINGS
    result = doctest.testfile(str(path), module_relative=False)
    assert result.attempted > 0
    assert result.failed == 0
