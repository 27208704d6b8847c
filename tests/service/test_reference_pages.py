"""The reference pages say what the code does."""

import json
import re
from pathlib import Path

from service.intake import read_brief
from service.schemas.field_table import field_table
from service.settings import PREFIX, Settings
from tests.service.scenario import smallest_brief

PAGES = Path(__file__).parents[2] / "docs" / "reference"


def page(name: str) -> str:
    return (PAGES / name).read_text(encoding="utf-8")


def test_the_page_of_the_brief_lists_every_field_as_the_code_has_it() -> None:
    assert page("brief.md").endswith(field_table()), "print service.schemas.field_table.field_table() into the page"


def test_the_smallest_brief_of_the_page_reads() -> None:
    match = re.search(r"```json\n(.*?)```", page("brief.md"), re.DOTALL)
    assert match
    assert read_brief(json.loads(match[1])) == read_brief(smallest_brief())


def test_the_page_of_the_command_line_lists_every_setting() -> None:
    text = page("command_line.md")
    for name, value in (
        ("HOST", Settings().host),
        ("PORT", Settings().port),
        ("LARGEST_BODY", Settings().largest_body),
        ("JOBS", Settings().jobs),
        ("AT_ONCE", Settings().at_once),
    ):
        assert f"| `{PREFIX}{name}` | `{value}` |" in text
