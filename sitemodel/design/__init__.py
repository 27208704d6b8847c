"""The answer to a brief: one design a plane, and the whole added up."""

from sitemodel.design.answer import Design, Part, PlaneDesign, SteelChoice, Summary
from sitemodel.design.whole import design_roof

__all__ = ["Design", "Part", "PlaneDesign", "SteelChoice", "Summary", "design_roof"]
