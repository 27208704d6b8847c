"""How long a whole roof takes, warm and as a process of its own; how much memory the process needs."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from service.intake import read_brief
from sitemodel import Design, deliver, design_roof
from sitemodel.brief import Brief
from tests.properties.strategies import DrawnPlane, document_of

Answer = TypeVar("Answer")
ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_sites" / "plain_rectangle" / "brief.json"
CHILD = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], check=True, capture_output=True)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""
"""Runs a command in a process that has no other child, and prints the command's largest resident size in kilobytes."""
LOADS = {"site": {"basic_wind_velocity": "22 m/s", "ground_snow": "0.6 kPa", "distance_to_sea": "60 km"}}


def demo() -> Brief:
    return read_brief(json.loads(DEMO.read_text(encoding="utf-8")), folder=DEMO.parent)


def drawn(width: float, depth: float) -> Brief:
    plane = DrawnPlane(points=((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)), turn=10.0)
    return read_brief(document_of([(plane, 35.0)], -2.41, 52.2, **LOADS))


def timed(benchmark: BenchmarkFixture, run: Callable[[], Answer], rounds: int) -> Answer:
    """One untimed run, then so many timed ones."""
    measure: Any = benchmark
    answer: Answer = measure.pedantic(run, rounds=rounds, warmup_rounds=1)
    return answer


def noted(benchmark: BenchmarkFixture, design: Design) -> None:
    benchmark.extra_info["panels"] = design.summary.panel_count
    benchmark.extra_info["anchors"] = design.summary.anchor_count


def test_twenty_panels_warm(benchmark: BenchmarkFixture) -> None:
    """The demo, its climate and its map already in memory."""
    brief = demo()
    noted(benchmark, timed(benchmark, lambda: design_roof(brief), 10))


@pytest.mark.parametrize(("width", "depth"), [(3.2, 2.6), (9.0, 5.2), (24.0, 9.0)], ids=["small", "middling", "large"])
def test_roofs_of_three_sizes_warm(benchmark: BenchmarkFixture, width: float, depth: float) -> None:
    brief = drawn(width, depth)
    noted(benchmark, timed(benchmark, lambda: design_roof(brief), 3))


def test_writing_the_files_of_twenty_panels(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    design = design_roof(demo())
    timed(benchmark, lambda: deliver(design, tmp_path), 5)


def test_the_whole_process_of_twenty_panels(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """From the start of the interpreter to the last file written; byte code already compiled."""
    command = [sys.executable, "-m", "service", "design", str(DEMO), "--out", str(tmp_path / "out")]

    def once() -> str:
        child = [sys.executable, "-c", CHILD, *command]
        return subprocess.run(child, cwd=ROOT, check=True, capture_output=True, text=True).stdout

    kilobytes = timed(benchmark, once, 5)
    benchmark.extra_info["largest_resident_megabytes"] = round(int(kilobytes) / 1024.0, 1)
    print(f"largest resident size: {int(kilobytes) / 1024.0:.0f} MB")
