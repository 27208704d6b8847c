"""What every fixing method answers: the checks, the verdict, what a pull test would have to show."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.buildup import Basis
from sitemodel.loads import Duration, LimitState
from sitemodel.sources import Citation
from sitemodel.units import Metres, Newtons, Pascals, Ratio

MethodName = Literal["spreader_block", "through_bolt", "expansion_anchor"]
Verdict = Literal["holds", "holds_if_tested", "fails"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorForces:
    """What a rail hands to one anchor in one combination."""

    combination: str
    limit_state: LimitState
    duration: Duration
    normal: Newtons
    """Out of the roof positive (uplift), onto the roof negative."""
    down_slope: Newtons


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitCheck:
    """One check: demand against resistance in the worst combination."""

    mode: str
    """Key of the failure mode, for example a8."""
    name: str
    demand: float
    resistance: float
    unit: Literal["N", "Pa", "N m", "m", "-"]
    utilisation: Ratio
    combination: str
    basis: Basis
    """How the weakest ingredient of the resistance is known."""
    citation: Citation
    in_scope: bool
    """False where the clause does not cover the case and the value is indicative ('outside the standard')."""
    note: str

    @property
    def passes(self) -> bool:
        """Whether demand stays within resistance."""
        return self.utilisation <= 1.0 + 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingCheck:
    """Everything a method says about one anchor."""

    method: MethodName
    checks: tuple[LimitCheck, ...]
    governing: LimitCheck
    verdict: Verdict
    beyond_test: tuple[LimitCheck, ...]
    """The checks that no plausible test cures; empty unless the verdict is ``fails``."""
    required_f_ax: Pascals
    """Characteristic withdrawal parameter that every combination needs; the report prints it in N/mm2."""
    pull_test_screw: Newtons
    """Mean of the single-screw pulls that proves it (number of pulls and scatter stated in the conditions)."""
    pull_test_anchor: Newtons
    """Pull on a whole anchor, at its true eccentricity, that loads its worst screw to the required resistance."""
    conditions: tuple[str, ...]
    """What must be true on site, in words."""

    @property
    def utilisation(self) -> Ratio:
        """Of the governing check."""
        return self.governing.utilisation


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What the fixing must know of the spot: distances from the nearest screw or plate edge."""

    joint_distance: Metres
    """To the nearest sip joint."""
    edge_distance: Metres
    """To the nearest edge of the plane (eaves, ridge, verge, hip, valley)."""
