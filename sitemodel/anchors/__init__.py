"""Anchors: the seats under a rail, the search for places, and the anchors chosen with their checks."""

from sitemodel.anchors.capacity import CapacityTable, FixingSet, Spot, capacity_tables
from sitemodel.anchors.placement import AnchorPoint, RailCheck, RailPlacement, RailSeats, place_anchors
from sitemodel.anchors.seat_loss import SeatLoss, seat_loss, why_no_seat
from sitemodel.anchors.seats import Seat, SeatRules, seats_on_rail
from sitemodel.anchors.slide import Slid, slide_rows

__all__ = [
    "AnchorPoint",
    "CapacityTable",
    "FixingSet",
    "RailCheck",
    "RailPlacement",
    "RailSeats",
    "Seat",
    "SeatLoss",
    "SeatRules",
    "Slid",
    "Spot",
    "capacity_tables",
    "place_anchors",
    "seat_loss",
    "seats_on_rail",
    "slide_rows",
    "why_no_seat",
]
