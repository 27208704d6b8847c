"""RailType: one rail section with what its maker declares."""

from dataclasses import dataclass

from sitemodel.buildup import Basis
from sitemodel.units import KilogramsPerMetre, Metres, NewtonMetres, NewtonSquareMetres, Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class RailType:
    """A rail under the panels."""

    design_moment: NewtonMetres
    """Design bending resistance, both ways."""
    bending_stiffness: NewtonSquareMetres
    mass: KilogramsPerMetre
    overhang: Metres
    """The rail reaches this far past the outer panel edge."""
    longest_cantilever: Metres
    """Past the outermost anchor."""
    longest_run: Metres
    """A longer row is cut by thermal breaks, always at a panel gap."""
    deflection_limit: Ratio
    """Of the span, for example 1/200."""
    basis: Basis
    name: str = ""
    """As the designer calls it; empty where it has no name."""
    cost: float = 0.0
    """For a metre, in the money that the designer thinks in; 0 where it is not stated."""
