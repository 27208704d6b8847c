"""The trade-off of a roof: what each further kilowatt-hour costs in anchors and in slates."""

from sitemodel.tradeoff.answer import Knowledge, Point, Step, TradeOff, Variant
from sitemodel.tradeoff.document import front_csv, front_document
from sitemodel.tradeoff.page import trade_off_html
from sitemodel.tradeoff.picture import front_svg
from sitemodel.tradeoff.point import point_design, point_of
from sitemodel.tradeoff.whole import trade_off

__all__ = [
    "Knowledge",
    "Point",
    "Step",
    "TradeOff",
    "Variant",
    "front_csv",
    "front_document",
    "front_svg",
    "point_design",
    "point_of",
    "trade_off",
    "trade_off_html",
]
