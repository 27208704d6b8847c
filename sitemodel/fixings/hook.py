"""The hook: the steel part between rail and block, as its maker declares it."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.buildup import Basis
from sitemodel.units import Kilograms, Metres, Newtons

FOOT_PAST_BOLT = 2.0
"""The foot plate reaches so many bolt diameters past its outer bolts across the slope: project choice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hook:
    """Geometry and declared resistances (characteristic) of the hook with its foot plate."""

    eccentricity_min: Metres
    """Shortest reach of the load line down-slope of the block's centre."""
    eccentricity_max: Metres
    lateral_offset: Metres
    """Load line beside the block's centre line."""
    height: Metres
    """Load line above the outer skin."""
    foot_length: Metres
    """Up the slope; two bolts across, in one row at mid-length unless rows are two."""
    bolt_rows: int
    bolt_row_distance: Metres
    """Between rows where there are two, else 0."""
    bolt_spacing: Metres
    """Across the slope."""
    arm_width: Metres
    mass: Kilograms
    resistance_up: Newtons
    resistance_down: Newtons
    resistance_along: Newtons
    basis: Basis
    arm_exit: Literal["own_course", "course_above"] = "course_above"
    """At whose tail the arm comes out: of the course nailed to the batten over the block, or the nearest one above."""
    arm_return: Metres = 0.0
    """How far the arm, out from under the slates, turns back up the slope to its load line; 0 of a straight one."""
    arm_clearance: Metres = 0.0
    """Between the underside of the unloaded arm and the slate; 0 where not declared."""
    deflection_per_newton: float = 0.0
    """Of the arm where it passes the slate, metres per newton onto the roof; 0 where not declared."""

    def foot_covers(self, x: Metres, y: Metres, bolt_diameter: Metres, in_row: int) -> bool:
        """Whether a place, from the middle of the block, lies under the foot plate."""
        half = self.bolt_spacing * (in_row - 1) / 2.0 + FOOT_PAST_BOLT * bolt_diameter
        return abs(x) < half - 1e-9 and abs(y) < self.foot_length / 2.0 - 1e-9

    @property
    def arm_declared(self) -> bool:
        """Whether the arm's clearance and stiffness are both known."""
        return self.arm_clearance > 0.0 and self.deflection_per_newton > 0.0
