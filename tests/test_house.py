"""The rules of the house: sizes, doors, sources, top level, the test command."""

import ast
import importlib
import re
import subprocess
from pathlib import Path

import pytest

from sitemodel.sources import bookshelf

ROOT = Path(__file__).parents[1]
CODE = sorted([*ROOT.glob("sitemodel/**/*.py"), *ROOT.glob("service/**/*.py")])
TESTS = sorted(ROOT.glob("tests/**/*.py"))
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "service", "sitemodel", "tests", "demo_sites", "docs"}
LONGEST_FILE = 400
LONGEST_FUNCTION = 40


def name(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("path", [*CODE, *TESTS], ids=name)
def test_no_file_outgrows_four_hundred_lines(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE


def length_without_docstring(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    assert function.end_lineno is not None
    lines = function.end_lineno - function.lineno + 1
    first = function.body[0]
    if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and isinstance(first.value.value, str):
        assert first.end_lineno is not None
        lines -= first.end_lineno - first.lineno + 1
    return lines


@pytest.mark.parametrize("path", CODE, ids=name)
def test_no_function_outgrows_forty_lines(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    functions = [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]
    long = {f.name: length_without_docstring(f) for f in functions if length_without_docstring(f) > LONGEST_FUNCTION}
    assert not long


PACKAGES = sorted({".".join(path.parent.relative_to(ROOT).parts) for path in CODE if path.name == "__init__.py"})


@pytest.mark.parametrize("package", PACKAGES)
def test_each_door_is_sorted_and_complete(package: str) -> None:
    door = importlib.import_module(package)
    tree = ast.parse(Path(str(door.__file__)).read_text(encoding="utf-8"))
    assert ast.get_docstring(tree), "a package says what it is"
    exported = getattr(door, "__all__", [])
    assert list(exported) == sorted(set(exported))
    imported = {
        alias.asname or alias.name for node in tree.body if isinstance(node, ast.ImportFrom) for alias in node.names
    }
    assert imported <= set(exported), f"imported but not on the door's list: {sorted(imported - set(exported))}"


STANDARDS = [path for path in CODE if path.parent.name == "standards" and path.name != "__init__.py"]


@pytest.mark.parametrize("path", STANDARDS, ids=name)
def test_each_clause_names_scope_source_and_example(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in tree.body:
        if not isinstance(node, ast.FunctionDef) or node.name.startswith("_"):
            continue
        text = ast.get_docstring(node) or ""
        for heading in ("Scope:", "Source:", "Example:"):
            assert heading in text, f"{node.name} has no {heading}"
        keys = re.findall(r"Source:\s+([A-Za-z0-9.-]+)", text)
        assert keys, f"{node.name}: Source: begins with a key of the bookshelf"
        for key in keys:
            assert key.rstrip(",.;") in bookshelf(), f"{node.name}: {key} is not on the bookshelf"


def test_the_bookshelf_has_each_key_once() -> None:
    lines = (ROOT / "sitemodel" / "bookshelf.csv").read_text(encoding="utf-8").splitlines()[1:]
    keys = [line.split(",")[0] for line in lines]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("path", CODE, ids=name)
def test_every_dataclass_is_frozen(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.ClassDef):
            continue
        for mark in node.decorator_list:
            if isinstance(mark, ast.Call) and getattr(mark.func, "id", "") == "dataclass":
                words = {word.arg: getattr(word.value, "value", None) for word in mark.keywords}
                assert words.get("frozen") is True, f"{node.name} is not frozen"
            else:
                assert getattr(mark, "id", "") != "dataclass", f"{node.name} is not frozen"


def test_the_top_level_holds_the_agreed_list() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    names = {line.split("/")[0] for line in listed.stdout.splitlines()}
    if not names:
        pytest.skip("not a git checkout")
    assert {entry for entry in names if not entry.startswith(".")} <= TOP


def test_ci_runs_the_test_command_of_the_readme() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    command = next(line for line in script.splitlines() if line.startswith("python3 -m venv .venv-tests"))
    assert command in readme
