"""All files of a design in one folder: written beside it first, then moved in whole."""

import json
import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from sitemodel.design import Design
from sitemodel.errors import InputError
from sitemodel.export.document import design_document
from sitemodel.export.geopackage import write_geopackage
from sitemodel.export.layers import layer_collections
from sitemodel.export.spreadsheets import anchors_csv, parts_csv, slates_csv

OUT = "out"


def write_all(design: Design, report: str, folder: Path, pages: Mapping[str, str] | None = None) -> tuple[Path, ...]:
    """Write every file of the design, and the report handed over as text, into a folder.

    Args:
        design: the design.
        report: the report, as text.
        folder: where to.
        pages: further files by name, as text.

    Raises:
        InputError: the folder is not one, or cannot be written.
    """
    texts = _texts(design, report) | dict(pages or {})
    return write_files(texts, folder, layer_collections(design))


def write_files(
    texts: Mapping[str, str], folder: Path, collections: dict[str, dict[str, object]] | None = None
) -> tuple[Path, ...]:
    """Write texts by their names, and collections as a GeoPackage where there are any, into a folder.

    The files are complete before the first one is moved in, and each is moved in one step: a crash leaves no half
    file. A folder that exists keeps what else is in it.

    Raises:
        InputError: the folder is not one, or cannot be written.
    """
    folder = folder.absolute()
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=f".{folder.name}-", dir=folder.parent) as beside:
            fresh = Path(beside) / "files"
            names = _write(texts, collections or {}, fresh)
            _move(fresh, names, folder)
    except OSError as error:
        allowed = f"a folder that can be written ({error.strerror})"
        raise InputError(OUT, given=str(folder), allowed=allowed) from error
    return tuple(folder / name for name in names)


def _texts(design: Design, report: str) -> dict[str, str]:
    collections = layer_collections(design)
    return {
        "design.json": json_text(design_document(design), indent=1),
        **{f"layers/{name}.geojson": json_text(collection) for name, collection in collections.items()},
        "report.html": report,
        "anchors.csv": anchors_csv(design),
        "slates.csv": slates_csv(design),
        "parts.csv": parts_csv(design),
    }


def _write(texts: Mapping[str, str], collections: dict[str, dict[str, object]], folder: Path) -> tuple[str, ...]:
    (folder / "layers").mkdir(parents=True)
    for name, text in texts.items():
        (folder / name).write_bytes(text.encode("utf-8", errors="replace"))
    if not collections:
        return tuple(texts)
    write_geopackage(collections, folder / "design.gpkg")
    return (*texts, "design.gpkg")


def _move(fresh: Path, names: tuple[str, ...], folder: Path) -> None:
    if not folder.exists():
        shutil.move(fresh, folder)
        return
    (folder / "layers").mkdir(exist_ok=True)
    for name in names:
        os.replace(fresh / name, folder / name)


def json_text(content: dict[str, object], indent: int | None = None) -> str:
    """JSON as it is written into files."""
    return json.dumps(content, ensure_ascii=False, allow_nan=False, indent=indent) + "\n"
