"""The whole delivery: report and files of a design, in one folder."""

from pathlib import Path

from sitemodel.design import Design
from sitemodel.export import write_all
from sitemodel.report import report_html


def deliver(design: Design, folder: Path) -> tuple[Path, ...]:
    """Write the report, design.json, the layers, the GeoPackage and the spreadsheets of a design.

    Raises:
        InputError: the folder is not one, or cannot be written.
    """
    return write_all(design, report_html(design), folder)
