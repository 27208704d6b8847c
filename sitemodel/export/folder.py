"""All files of a design in one folder: written beside it first, then moved in whole."""

import json
import os
import shutil
import tempfile
from pathlib import Path

from sitemodel.design import Design
from sitemodel.errors import InputError
from sitemodel.export.document import design_document
from sitemodel.export.geopackage import write_geopackage
from sitemodel.export.layers import layer_collections
from sitemodel.export.spreadsheets import anchors_csv, parts_csv, slates_csv

OUT = "out"


def write_all(design: Design, report: str, folder: Path) -> tuple[Path, ...]:
    """Write every file of the design, and the report handed over as text, into a folder.

    The files are complete before the first one is moved in,
    and each is moved in one step: a crash leaves no half
    file. A folder that exists keeps what else is in it.

    Raises:
        InputError: the folder is not one, or cannot be written.
    """
    folder = folder.absolute()
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=f".{folder.name}-", dir=folder.parent) as beside:
            fresh = Path(beside) / "files"
            names = _write(design, report, fresh)
            _move(fresh, names, folder)
    except OSError as error:
        raise InputError(OUT, given=str(folder),
        allowed=f"a folder that can be written ({error.strerror})") from error
    return tuple(folder / name for name in names)


def _write(design: Design, report: str, folder: Path) -> tuple[str, ...]:
    collections = layer_collections(design)
    texts = {
        "design.json": _json(design_document(design), indent=1),
        **{f"layers/{name}.geojson": _json(collection) for name, collection in collections.items()},
        "report.html": report,
        "anchors.csv": anchors_csv(design),
        "slates.csv": slates_csv(design),
        "parts.csv": parts_csv(design),
    }
    (folder / "layers").mkdir(parents=True)
    for name, text in texts.items():
        (folder / name).write_bytes(text.encode("utf-8", errors="replace"))
    write_geopackage(collections, folder / "design.gpkg")
    return (*texts, "design.gpkg")


def _move(fresh: Path, names: tuple[str, ...], folder: Path) -> None:
    if not folder.exists():
        shutil.move(fresh, folder)
        return
    (folder / "layers").mkdir(exist_ok=True)
    for name in names:
        os.replace(fresh / name, folder / name)


def _json(content: dict[str, object], indent: int | None = None) -> str:
    return json.dumps(content, ensure_ascii=False, allow_nan=False, indent=indent) + "\n"
