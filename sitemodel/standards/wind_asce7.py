"""ASCE/SEI 7-16, 29.4.4: panels parallel to the roof, its conditions, and the exposed-edge test.

A European design borrows the two factors upwards only; the clause as a whole belongs to an American design.
"""

import math

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, Pascals, Ratio, SquareMetres

CLAUSE = "ASCE7-16, 29.4.4"
SMALL_AREA: SquareMetres = 0.92903
"""10 square feet."""
LARGE_AREA: SquareMetres = 9.2903
"""100 square feet."""
EXPOSED_EDGE: Ratio = 1.5
"""gamma_E for uplift on exposed panels, ASCE/SEI 7-16, 29.4.4."""
ROOF_EDGE_SHARE: Ratio = 0.5
"""Share of the mean roof height in the exposed-edge test."""
GAP_HEIGHTS: Ratio = 4.0
"""Multiple of h2 in the exposed-edge test."""
GAP_AT_LEAST: Metres = 1.22
"""4 feet, the least gap in the exposed-edge test."""
LARGEST_TILT: Degrees = 2.0
"""Between panels and roof, ASCE/SEI 7-16, 29.4.4."""
HIGHEST_TOP: Metres = 0.254
"""10 in: h2, top of the panels above the roof, at most."""
LEAST_GAP: Metres = 0.00635
"""0.25 in: between panels, both ways."""
LONGEST_PANEL: Metres = 2.04
"""6.7 ft: between gaps, at most."""
EDGE_HEIGHTS: Ratio = 2.0
"""Times h2 from the array to the roof edge, ridge or hip (from memory)."""
EDGE_AT_LEAST: Metres = 0.254
"""10 in from edge and ridge, an acceptance limit seen on a secondary page; the larger of the two counts."""
PANEL_LENGTHS: Ratio = 1.5
"""The edge factor acts within this many panel lengths of an exposed edge."""


def equalisation_factor(area: SquareMetres) -> Ratio:
    r"""Pressure equalisation factor of panels parallel to the roof.

    .. math:: \gamma_a = 0.8 - 0.4 \log_{10}(A / 10\,\mathrm{ft}^2), \quad 0.4 \le \gamma_a \le 0.8

    Args:
        area: effective wind area, :math:`A`.

    Scope: A > 0; outside it, OutsideScope. Not used to lower a European pressure.
    Source: ASCE7-16, Figure 29.4-8.

    Example:
        >>> equalisation_factor(1.18)
        0.7585
    """
    if not (area > 0.0 and math.isfinite(area)):
        raise OutsideScope("area", value=area, allowed="above 0 m2", clause="ASCE7-16, Figure 29.4-8")
    return 0.8 - 0.4 * math.log10(min(max(area, SMALL_AREA), LARGE_AREA) / SMALL_AREA)


def edge_increase(area: SquareMetres) -> Ratio:
    r"""Rise of the bare-roof uplift at an exposed array edge; only the increase is borrowed.

    .. math:: k_{edge} = \max(1, \gamma_E \gamma_a), \quad \gamma_E = 1.5

    Args:
        area: effective wind area, :math:`A`.

    Scope: A > 0; outside it, OutsideScope.
    Source: ASCE7-16, 29.4.4 (29.4-7); taking only the increase is a choice of this project.

    Example:
        >>> edge_increase(0.9), edge_increase(1.2), edge_increase(2.5)
        (1.2, 1.1333, 1.0)
    """
    return max(1.0, EXPOSED_EDGE * equalisation_factor(area))


def exposed_edge_limits(mean_roof_height: Metres, panel_top_height: Metres) -> tuple[Metres, Metres]:
    r"""Distance to the roof edge and gap to the next panel beyond which an array edge is exposed.

    .. math:: 0.5 h, \qquad \max(4 h_2, 1.22\,\mathrm{m})

    Args:
        mean_roof_height: mean of eaves and ridge height, :math:`h`.
        panel_top_height: top of the panels above the roof, :math:`h_2`.

    Scope: neither negative; outside it, OutsideScope.
    Source: ASCE7-16, 29.4.4, definition of exposed panels (from memory).

    Example:
        >>> exposed_edge_limits(6.0, 0.175)
        (3.0, 1.22)
    """
    for name, value in (("mean roof height", mean_roof_height), ("h2", panel_top_height)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 m or more", clause=CLAUSE)
    return ROOF_EDGE_SHARE * mean_roof_height, max(GAP_HEIGHTS * panel_top_height, GAP_AT_LEAST)


def is_exposed_edge(
    to_roof_edge: Metres, to_next_panel: Metres, mean_roof_height: Metres, panel_top_height: Metres
) -> bool:
    """Whether an array edge is exposed: far from the roof edge and far from any next panel.

    Args:
        to_roof_edge: d1.
        to_next_panel: gap to the next panel that way; infinite where there is none.
        mean_roof_height: h.
        panel_top_height: h2.

    Scope: that of the limits.
    Source: ASCE7-16, 29.4.4, definition of exposed panels (from memory).

    Example:
        >>> is_exposed_edge(3.2, 1.5, 6.0, 0.175), is_exposed_edge(2.8, 1.5, 6.0, 0.175)
        (True, False)
    """
    roof_edge, gap = exposed_edge_limits(mean_roof_height, panel_top_height)
    return to_roof_edge > roof_edge and to_next_panel > gap


def panel_pressure(
    velocity_pressure: Pascals, coefficient: Ratio, area: SquareMetres, *, exposed: bool, equalised: bool
) -> Pascals:
    r"""Uplift on panels parallel to the roof at strength level, positive.

    .. math:: p = q_h (GC_p) \gamma_E \gamma_a

    Args:
        velocity_pressure: :math:`q_h` at mean roof height.
        coefficient: :math:`GC_p` of the bare roof zone, negative for uplift.
        area: effective wind area, :math:`A`.
        exposed: :math:`\gamma_E` is 1.5 instead of 1.
        equalised: every condition of the clause holds; else :math:`\gamma_a` is 1, a choice of this project.

    Scope: q_h not negative, GC_p not positive; outside it, OutsideScope. Downward pressure takes neither factor.
    Source: ASCE7-16, 29.4.4 (29.4-7).

    Example:
        >>> panel_pressure(718.6, -2.0, 1.18, exposed=True, equalised=True)
        1635.1
    """
    if not (velocity_pressure >= 0.0 and math.isfinite(velocity_pressure)):
        raise OutsideScope("q_h", value=velocity_pressure, allowed="0 Pa or more", clause=CLAUSE)
    if not (coefficient <= 0.0 and math.isfinite(coefficient)):
        raise OutsideScope("GC_p", value=coefficient, allowed="0 or less", clause=CLAUSE)
    factor = (EXPOSED_EDGE if exposed else 1.0) * (equalisation_factor(area) if equalised else 1.0)
    return -velocity_pressure * coefficient * factor


def edge_clearance(panel_top_height: Metres) -> Metres:
    r"""Least distance of the array from a roof edge, a ridge or a hip.

    .. math:: \max(2 h_2, 10\,\mathrm{in})

    Args:
        panel_top_height: :math:`h_2`.

    Scope: not negative; outside it, OutsideScope.
    Source: ASCE7-16, 29.4.4 (2 h2, from memory); 10 in from a secondary page; the larger is our choice.

    Example:
        >>> edge_clearance(0.13), edge_clearance(0.1)
        (0.26, 0.254)
    """
    if not (panel_top_height >= 0.0 and math.isfinite(panel_top_height)):
        raise OutsideScope("h2", value=panel_top_height, allowed="0 m or more", clause=CLAUSE)
    return max(EDGE_HEIGHTS * panel_top_height, EDGE_AT_LEAST)
