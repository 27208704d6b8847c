"""Rails under the panels: runs and thermal breaks, loads at the clamps, the continuous beam and its limits."""

from sitemodel.rails.beam import BeamResult, PointLoad, reactions, solve_beam
from sitemodel.rails.checks import (
    RailLimit,
    bending_limit,
    cantilever_limit,
    check_rail,
    deflection_limit,
    rail_limits,
)
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailLoads, RailRun, rail_runs

__all__ = [
    "BeamResult",
    "PointLoad",
    "RailLimit",
    "RailLoads",
    "RailRun",
    "RailType",
    "bending_limit",
    "cantilever_limit",
    "check_rail",
    "deflection_limit",
    "rail_limits",
    "rail_runs",
    "reactions",
    "solve_beam",
]
