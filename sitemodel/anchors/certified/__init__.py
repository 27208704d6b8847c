"""The fewest anchors on one rail with their proof, by labels on prefixes of the continuous beam."""

from sitemodel.anchors.certified.count import CountAnswer, Workings, fewest_anchors, workings
from sitemodel.anchors.certified.goals import CostAnswer, GentleAnswer, cheapest, gentlest
from sitemodel.anchors.certified.linear import LinearRail, LoadCase

__all__ = [
    "CostAnswer",
    "CountAnswer",
    "GentleAnswer",
    "LinearRail",
    "LoadCase",
    "Workings",
    "cheapest",
    "fewest_anchors",
    "gentlest",
    "workings",
]
