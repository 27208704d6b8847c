"""The worked examples of the theory pages on anchors and fixings run, and their pictures are there."""

import doctest
import re
from pathlib import Path

import pytest

THEORY = Path(__file__).parents[2] / "docs" / "theory"


@pytest.mark.parametrize("page", ["anchors", "fixings"])
def test_page(page: str) -> None:
    path = THEORY / f"{page}.md"
    result = doctest.testfile(str(path), module_relative=False)
    assert result.attempted > 0
    assert result.failed == 0
    for picture in re.findall(r"\]\((\.\./images/[^)]+)\)", path.read_text(encoding="utf-8")):
        assert (THEORY / picture).is_file(), picture
