"""AnchorPoint: the seats taken on a rail, with exact reactions and their checks."""

from dataclasses import dataclass

from sitemodel.anchors.seats import Seat
from sitemodel.fixings.method import AnchorForces, FixingCheck
from sitemodel.rails.runs import RailRun
from sitemodel.slates.strip import StripPlan
from sitemodel.sources import Citation
from sitemodel.units import Metres, Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorPoint:
    """One anchor: its seat, where its rail meets the hook, its forces and its check."""

    id: str
    rail: str
    seat: Seat
    rail_x: Metres
    rail_y: Metres
    forces: tuple[AnchorForces, ...]
    check: FixingCheck
    strip: StripPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class RailCheck:
    """Bending, deflection and cantilever of one rail on its anchors."""

    name: str
    utilisation: Ratio
    combination: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class RailPlacement:
    """A rail with its anchors; when no arrangement exists, why, and what would cure it."""

    run: RailRun
    anchors: tuple[AnchorPoint, ...]
    checks: tuple[RailCheck, ...]
    feasible: bool
    """Anchors and rail hold, or hold once tested."""
    reason: str
    cure: str

    @property
    def moment_utilisation(self) -> Ratio:
        """Of rail bending."""
        return max((check.utilisation for check in self.checks if check.name == "bending"), default=0.0)
