"""Every example in the pages runs, every link leads somewhere, and the README's brief is a brief."""

import doctest
import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel import design_roof

ROOT = Path(__file__).parents[1]
PAGES = sorted([*ROOT.glob("docs/**/*.md"), *ROOT.glob("*.md"), *ROOT.glob("demo_sites/*/*.md")])
NUMBER = doctest.register_optionflag("NUMBER")


def name(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("page", [page for page in PAGES if ">>>" in page.read_text(encoding="utf-8")], ids=name)
def test_examples_of_a_page_run(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    test = doctest.DocTestParser().get_doctest(text, {}, page.name, str(page), 0)
    runner = doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE | NUMBER)
    assert runner.run(test).failed == 0


@pytest.mark.parametrize("page", PAGES, ids=name)
def test_links_of_a_page_lead_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)#\s]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
        if "://" not in target:
            assert (page.parent / target).exists(), f"{name(page)}: {target}"


def smallest_brief_of_the_readme() -> dict[str, Any]:
    block = re.search(r"```json\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.S)
    assert block
    document: dict[str, Any] = json.loads(block.group(1))
    return document


def test_the_smallest_brief_of_the_readme_ends_as_most_roofs_do() -> None:
    design = design_roof(read_brief(smallest_brief_of_the_readme()))
    assert design.summary.panel_count > 0
    assert design.summary.verdict == "holds_if_tested"


def test_without_supports_or_hook_it_fails_as_the_readme_says() -> None:
    bare, hookless = smallest_brief_of_the_readme(), smallest_brief_of_the_readme()
    bare["roof"]["features"] = bare["roof"]["features"][:1]
    summary = design_roof(read_brief(bare)).summary
    assert summary.verdict == "fails"
    assert "state what carries it" in summary.sentence
    del hookless["hook"]
    assert design_roof(read_brief(hookless)).summary.verdict == "fails"


@pytest.mark.parametrize("room", ["how-to", "theory", "reference"])
def test_the_index_leads_to_every_page(room: str) -> None:
    index = (ROOT / "docs" / "index.md").read_text(encoding="utf-8")
    pages = sorted((ROOT / "docs" / room).glob("*.md"))
    assert not [page.name for page in pages if f"({room}/{page.name})" not in index]
