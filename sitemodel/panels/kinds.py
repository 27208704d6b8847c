"""PanelType and what the designer asks of a layout."""

import math
from dataclasses import dataclass
from typing import Literal

from sitemodel.buildup import Basis
from sitemodel.units import Kilograms, KilowattHours, Metres, Pascals, Ratio, Watts

Orientation = Literal["portrait", "landscape"]
OrientationChoice = Literal["portrait", "landscape", "mixed"]
Objective = Literal["most_yield", "most_panels"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelType:
    """One solar panel."""

    length: Metres
    """The long side."""
    width: Metres
    thickness: Metres
    mass: Kilograms
    peak_power: Watts
    temperature_coefficient: float
    """Of power, per kelvin, negative."""
    clamp_from: Ratio
    """Clamps stand between these two shares of the side that runs up the slope, from either end."""
    clamp_to: Ratio
    clamp_basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutRequest:
    """Margins, gaps and limits of the layout."""

    margin_eaves: Metres
    margin_ridge: Metres
    margin_verge: Metres
    margin_obstruction: Metres
    """Kept clear round obstructions and exclusions."""
    margin_other: Metres
    """Kept clear along hips, valleys and every other edge."""
    gap: Metres
    orientation: OrientationChoice
    max_panels: int
    """0 for as many as fit."""
    objective: Objective
    clear_height: Metres
    """Underside of the panels above the slates."""
    least_panel_yield: KilowattHours = 0.0
    """What a panel must earn in a year to be laid."""
    yield_per_uplift: float = 0.0
    """Kilowatt-hours a year that each kilonewton of characteristic wind uplift on a panel must earn on top."""
    most_uplift: Pascals = math.inf
    """Wind zones with more characteristic net uplift stay free of panels."""
