"""The commands: exit codes, what is printed, what is written."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from service import processes
from service.cli import main
from sitemodel.design import Design
from sitemodel.errors import InputError, OutsideScope
from tests.service.scenario import smallest_brief, with_places
from tests.sitemodel.hand_design import hand_design

ROOT = Path(__file__).parents[2]


def written(folder: Path, document: Any) -> str:
    path = folder / "brief.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    return str(path)


@pytest.fixture
def by_hand(monkeypatch: pytest.MonkeyPatch) -> Design:
    """A design made by hand in place of the computed one."""
    design = hand_design()
    monkeypatch.setattr("sitemodel.design.design_roof", lambda brief: design)
    return design


def test_design_writes_every_file_and_ends_with_the_summary(
    tmp_path: Path, by_hand: Design, capsys: pytest.CaptureFixture[str]
) -> None:
    brief = written(tmp_path, smallest_brief())
    out = tmp_path / "out" / "one"
    assert main(["design", brief, "--out", str(out)]) == 0
    printed = capsys.readouterr()
    assert printed.out.splitlines()[-1] == by_hand.summary.sentence
    assert printed.err == ""
    files = {str(path.relative_to(out)) for path in out.rglob("*") if path.is_file()}
    assert {"design.json", "design.gpkg", "report.html", "anchors.csv", "slates.csv", "parts.csv"} <= files
    assert "layers/anchors.geojson" in files
    assert (out / "brief.json").read_bytes() == Path(brief).read_bytes()
    assert not [name for name in files if name.endswith(".part")]


def test_a_failing_verdict_is_no_error(tmp_path: Path, by_hand: Design) -> None:
    assert main(["design", written(tmp_path, smallest_brief()), "--out", str(tmp_path / "out")]) == 0


def test_a_wrong_brief_is_exit_2_and_one_line_a_mistake(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    document = with_places(smallest_brief(), {("site",): {}, ("hok",): {}})
    out = tmp_path / "out"
    assert main(["design", written(tmp_path, document), "--out", str(out)]) == 2
    printed = capsys.readouterr()
    wheres = [line.split(":")[0] for line in printed.err.splitlines()]
    assert wheres == ["site.basic_wind_velocity", "site.ground_snow", "hok"]
    assert printed.out == ""
    assert not out.exists()


@pytest.mark.parametrize("content", [b"", b"{", b"\xff", b"[]", b"{}", b'{"a":NaN}'])
def test_a_file_that_is_no_brief_is_exit_2(tmp_path: Path, content: bytes, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "brief.json"
    path.write_bytes(content)
    assert main(["check", str(path)]) == 2
    assert capsys.readouterr().err.count("given") >= 1


def test_a_missing_file_a_folder_and_an_impossible_name_are_exit_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for path in (tmp_path / "none.json", tmp_path, Path("a\0b")):
        assert main(["check", str(path)]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 3


def test_a_folder_that_cannot_be_written_is_exit_2(
    tmp_path: Path, by_hand: Design, capsys: pytest.CaptureFixture[str]
) -> None:
    brief = written(tmp_path, smallest_brief())
    assert main(["design", brief, "--out", brief]) == 2
    assert capsys.readouterr().err.startswith("--out: given ")


def test_check_lists_every_assumption_and_designs_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delattr("sitemodel.design.design_roof")
    assert main(["check", written(tmp_path, smallest_brief())]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("plane A: ")
    assert any(line.startswith("build_up.sip.outer_skin.thickness = 11 mm: ") for line in lines)
    assert any(line.startswith("fixing.f_ax = 4.0 N/mm2 (assumed): ") for line in lines)
    assert lines[-1].startswith("Untitled design: the brief reads; 1 plane, ")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["brief.json"]


def failing(error: Exception) -> Any:
    def design_roof(brief: object) -> None:
        raise error

    return design_roof


def test_an_unexpected_error_is_exit_1_and_leaves_its_details(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sitemodel.design.design_roof", failing(ZeroDivisionError("a secret")))
    out = tmp_path / "out"
    assert main(["design", written(tmp_path, smallest_brief()), "--out", str(out)]) == 1
    printed = capsys.readouterr()
    place = out / "fault.txt"
    assert printed.err == f"our fault, not yours: ZeroDivisionError; the details are in {place}\n"
    assert "ZeroDivisionError: a secret" in place.read_text(encoding="utf-8")
    assert (out / "brief.json").exists()


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (OutsideScope("core thickness", value=50.0, allowed="90 mm and more", clause="OURS"), 2),
        (InputError("fixing.block", given="3 holes", allowed="wood"), 2),
        (InputError("anchors[7].forces", given="none", allowed="some"), 1),
    ],
)
def test_a_refusal_while_designing_is_the_briefs_only_if_it_names_it(
    tmp_path: Path, error: Exception, code: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sitemodel.design.design_roof", failing(error))
    assert main(["design", written(tmp_path, smallest_brief()), "--out", str(tmp_path / "out")]) == code


def test_serve_refuses_another_host_without_a_key(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("SIPROOF_KEY", raising=False)
    assert main(["serve", "--host", "0.0.0.0"]) == 2  # noqa: S104 - the refusal is what is tested
    assert "SIPROOF_KEY" in capsys.readouterr().err


def test_as_a_program_without_the_web_framework(tmp_path: Path) -> None:
    brief = written(tmp_path, smallest_brief())
    code = (
        "import sys; from service.cli import main; code = main(sys.argv[1:]);"
        "assert 'fastapi' not in sys.modules and 'uvicorn' not in sys.modules; sys.exit(code)"
    )
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    run = subprocess.run(
        [sys.executable, "-c", code, "check", brief], cwd=tmp_path, env=environment, capture_output=True, check=False
    )
    assert run.returncode == 0, run.stderr
    broken = subprocess.run(
        [sys.executable, "-m", "service", "check", "none.json"],
        cwd=tmp_path,
        env=environment,
        capture_output=True,
        check=False,
    )
    assert broken.returncode == 2
    assert b"Traceback" not in broken.stderr


def test_a_store_is_whole_or_not_there(tmp_path: Path) -> None:
    processes.store(tmp_path / "a.json", b"one")
    processes.store(tmp_path / "a.json", b"two")
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]
    assert (tmp_path / "a.json").read_bytes() == b"two"
