"""Roof outlines on the map become planes with their own axes."""

from sitemodel.roof.outline import PlaneOutline, RoofItem
from sitemodel.roof.plane import Neighbour, Obstruction, ObstructionKind, PlaneFrame, RoofPlane
from sitemodel.roof.reading import Roof, read_roof

__all__ = [
    "Neighbour",
    "Obstruction",
    "ObstructionKind",
    "PlaneFrame",
    "PlaneOutline",
    "Roof",
    "RoofItem",
    "RoofPlane",
    "read_roof",
]
