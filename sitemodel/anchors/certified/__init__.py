"""The fewest anchors on one rail with their proof, by labels on prefixes of the continuous beam."""

from sitemodel.anchors.certified.count import CountAnswer, Workings, fewest_anchors, workings
from sitemodel.anchors.certified.goals import CostAnswer, GentleAnswer, cheapest, gentlest
from sitemodel.anchors.certified.linear import LinearRail, LoadCase
from sitemodel.anchors.certified.question import RailQuestion, rail_question
from sitemodel.anchors.certified.rail import CertifiedRail, cheapest_rail, solve_rail

__all__ = [
    "CertifiedRail",
    "CostAnswer",
    "CountAnswer",
    "GentleAnswer",
    "LinearRail",
    "LoadCase",
    "RailQuestion",
    "Workings",
    "cheapest",
    "cheapest_rail",
    "fewest_anchors",
    "gentlest",
    "rail_question",
    "solve_rail",
    "workings",
]
