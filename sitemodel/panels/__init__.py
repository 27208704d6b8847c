"""Panels on a plane: which region they may use, the rows that hold the most, the rails under each row."""

from sitemodel.panels.certificate import LayoutCertificate
from sitemodel.panels.kinds import LayoutRequest, Objective, Orientation, OrientationChoice, PanelType
from sitemodel.panels.layout import (
    HookReach,
    PanelLayout,
    PanelRow,
    PlacedPanel,
    RailLine,
    lay_panels,
    thin_out,
    unbroken_runs,
)
from sitemodel.panels.line_bound import LineBound
from sitemodel.panels.place_worth import PlaceWorth
from sitemodel.panels.slack import room_to_slide

__all__ = [
    "HookReach",
    "LayoutCertificate",
    "LayoutRequest",
    "LineBound",
    "Objective",
    "Orientation",
    "OrientationChoice",
    "PanelLayout",
    "PanelRow",
    "PanelType",
    "PlaceWorth",
    "PlacedPanel",
    "RailLine",
    "lay_panels",
    "room_to_slide",
    "thin_out",
    "unbroken_runs",
]
