"""RailRun: one rail under one stretch of a row, its clamps and what they hand on in each combination."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.loads import LoadCombination, SurfaceLoad
from sitemodel.panels.layout import PanelRow, RailLine
from sitemodel.panels.kinds import PanelType
from sitemodel.rails.beam import PointLoad
from sitemodel.rails.kinds import RailType
from sitemodel.units import Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class RailLoads:
    """The loads of one combination on a rail: normal (out of the roof positive) and down the slope."""

    combination: LoadCombination
    normal: tuple[PointLoad, ...]
    down_slope: tuple[PointLoad, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RailRun:
    """One rail: its line, the panels it carries, its loads."""

    id: str
    row: int
    side: Literal["lower", "upper"]
    line: RailLine
    start: Metres
    end: Metres
    panel_ids: tuple[str, ...]
    loads: tuple[RailLoads, ...]

    @property
    def length(self) -> Metres:
        """Length of the rail."""
        return self.end - self.start


def rail_runs(
    row: PanelRow,
    panel: PanelType,
    rail: RailType,
    combinations: tuple[LoadCombination, ...],
    panel_loads: tuple[tuple[SurfaceLoad, ...], ...],
) -> tuple[RailRun, ...]:
    """The rails of a row, two for each run between thermal breaks; loads enter at the clamps.

    Args:
        row: the row of panels.
        panel: the panel type.
        rail: the rail type.
        combinations: every combination, in order.
        panel_loads: for each panel of the row (outer) the surface load of each combination (inner).
    """
    raise NotImplementedError
