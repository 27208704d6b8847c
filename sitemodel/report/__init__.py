"""The fixing report that people read: verdict first, then everything that it rests on."""

from sitemodel.report.page import report_html
from sitemodel.report.shelf import sources_page

__all__ = ["report_html", "sources_page"]
