"""The same brief gives the same bytes: twice in one process, and in processes that hash differently."""

import hashlib
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings

from sitemodel import deliver, design_roof
from tests.properties.strategies import Document, documents, read

ROOT = Path(__file__).parents[2]
DESIGNS = settings(max_examples=6, deadline=None, derandomize=True)
DEMO = ROOT / "demo_sites" / "l_shape_with_valley" / "brief.json"


def fingerprints(folder: Path) -> dict[str, str]:
    """A checksum of every file in a folder."""
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


@DESIGNS
@given(document=documents(most_planes=2))
def test_the_same_brief_gives_the_same_bytes(tmp_path_factory: pytest.TempPathFactory, document: Document) -> None:
    folders = [tmp_path_factory.mktemp("design") for _ in range(2)]
    for folder in folders:
        deliver(design_roof(read(document)), folder)
    first, second = (fingerprints(folder) for folder in folders)
    assert {"design.json", "design.gpkg", "report.html", "layers/anchors.geojson"} <= set(first)
    assert first == second


def test_processes_that_hash_differently_give_the_same_bytes(tmp_path: Path) -> None:
    found = []
    for seed in ("1", "2"):
        folder = tmp_path / seed
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        command = [sys.executable, "-m", "service", "design", str(DEMO), "--out", str(folder)]
        subprocess.run(command, cwd=ROOT, env=environment, check=True, capture_output=True)
        found.append(fingerprints(folder))
    assert found[0] == found[1]
    assert json.loads((tmp_path / "1" / "design.json").read_text(encoding="utf-8"))["summary"]["panel_count"] > 0
