"""The whole delivery: report and files of a design, in one folder."""

from pathlib import Path

from sitemodel.design import Design, DesignChanges
from sitemodel.export import (
    changes_collection,
    changes_document,
    json_text,
    layer_collections,
    parts_csv,
    slates_csv,
    works_document,
    works_texts,
    write_all,
    write_files,
)
from sitemodel.report import CREW_SHEET, crew_sheet_html, report_html, works_html
from sitemodel.tradeoff import TradeOff, front_csv, front_document, front_svg, trade_off_html
from sitemodel.works import SlateWorks

WORKS_LAYERS = ("roof_planes", "obstructions", "counter_battens", "battens", "anchors", "slates")


def deliver(design: Design, folder: Path, changes: DesignChanges | None = None) -> tuple[Path, ...]:
    """Write the report, the crew sheet, design.json, the layers, the GeoPackage and the spreadsheets of a design.

    Args:
        design: the design.
        folder: where to.
        changes: since an earlier design; they get a section in the report, a file, changes.json, and a layer.

    Raises:
        InputError: the folder is not one, or cannot be written.
    """
    pages = {CREW_SHEET: crew_sheet_html(design)}
    if changes is not None:
        pages["changes.json"] = json_text(changes_document(changes), indent=1)
        pages["layers/anchor_changes.geojson"] = json_text(changes_collection(changes, design))
    return write_all(design, report_html(design, changes), folder, pages)


def deliver_works(works: SlateWorks, folder: Path) -> tuple[Path, ...]:
    """Write the crew sheet, slate_works.json, the layers that it is read with, and the spreadsheets of the slate work.

    Raises:
        InputError: the folder is not one, or cannot be written.
    """
    collections = layer_collections(works.design)
    texts = {
        "slate_works.json": json_text(works_document(works), indent=1),
        CREW_SHEET: works_html(works),
        **works_texts(works),
        "slates.csv": slates_csv(works.design),
        "parts.csv": parts_csv(works.design),
        **{f"layers/{name}.geojson": json_text(collections[name]) for name in WORKS_LAYERS},
    }
    return write_files(texts, folder)


def trade_off_texts(front: TradeOff) -> dict[str, str]:
    """The files of a trade-off by name."""
    return {
        "front.json": json_text(front_document(front), indent=1),
        "front.csv": front_csv(front),
        "front.svg": front_svg(front),
        "trade-off.html": trade_off_html(front),
    }


def deliver_trade_off(front: TradeOff, folder: Path) -> tuple[Path, ...]:
    """Write the front as data, as a picture and as a page.

    Raises:
        InputError: the folder is not one, or cannot be written.
    """
    return write_files(trade_off_texts(front), folder)
