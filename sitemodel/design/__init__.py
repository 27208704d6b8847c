"""The answer to a brief: one design a plane, and the whole added up."""

from sitemodel.design.answer import Design, Part, PlaneDesign, SteelChoice, Summary
from sitemodel.design.changes import AnchorChange, DesignChanges, EarlierDesign, changes_since, read_earlier
from sitemodel.design.whole import design_on, design_roof

__all__ = [
    "AnchorChange",
    "Design",
    "DesignChanges",
    "EarlierDesign",
    "Part",
    "PlaneDesign",
    "SteelChoice",
    "Summary",
    "changes_since",
    "design_on",
    "design_roof",
    "read_earlier",
]
