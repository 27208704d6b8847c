"""The fixing report that people read: verdict first, then everything that it rests on."""

from sitemodel.report.crew_sheet import CREW_SHEET, crew_sheet_html, works_html
from sitemodel.report.page import report_html
from sitemodel.report.shelf import sources_page

__all__ = ["CREW_SHEET", "crew_sheet_html", "report_html", "sources_page", "works_html"]
