"""The four wind directions of a plane: which European zone a point lies in, and how deep the zones are.

Directions are counted clockwise, seen from above, from the way the plane faces: 0 blows square on to the eaves,
90 along the eaves from the left verge (as seen from in front of the roof), 180 from behind, 270 from the right.
Depths are plan depths; the axes here are x along the eaves and the plan depth behind the eaves line.
"""

import math
from dataclasses import dataclass
from typing import Literal

from sitemodel.roof import RoofPlane
from sitemodel.site import Building, RoofForm
from sitemodel.sources import Citation, Step, cite, our_choice
from sitemodel.standards.roof_pressure_en1991_1_4 import (
    TABLES,
    RoofCoefficients,
    Wind,
    edge_size,
    roof_coefficients,
)
from sitemodel.units import Degrees, Metres

Direction = Literal[0, 90, 180, 270]
DIRECTIONS: tuple[Direction, ...] = (0, 90, 180, 270)
_WIND: dict[Direction, Wind] = {0: "on_eaves", 90: "along_eaves", 180: "on_ridge", 270: "along_eaves"}
_LETTERS: dict[tuple[RoofForm, Wind], tuple[str, ...]] = {
    ("duopitch", "on_eaves"): ("F", "G", "H"),
    ("duopitch", "on_ridge"): ("I", "J"),
    ("duopitch", "along_eaves"): ("F", "G", "H", "I"),
    ("monopitch", "on_eaves"): ("F", "G", "H"),
    ("monopitch", "on_ridge"): ("F", "G", "H"),
    ("monopitch", "along_eaves"): ("F_up", "F_low", "G", "H", "I"),
    ("hipped", "on_eaves"): ("F", "G", "H"),
    ("hipped", "on_ridge"): ("I", "J", "K"),
    ("hipped", "along_eaves"): ("L", "M", "N"),
}
EDGE_ZONES = "FGJL"
"""Zones along hips, verges and eaves, whose worst value is taken beside every edge that the figures do not know."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneDepths:
    """The size e for wind across and along the eaves, and whether the building size behind it was stated."""

    on_eaves: Metres
    on_eaves_stated: bool
    along_eaves: Metres
    along_eaves_stated: bool

    def of(self, direction: Direction) -> Metres:
        """The size e of one direction."""
        return self.along_eaves if direction in (90, 270) else self.on_eaves

    def note(self, direction: Direction) -> str:
        """How the size e came about, in words."""
        stated = self.along_eaves_stated if direction in (90, 270) else self.on_eaves_stated
        return f"e = {self.of(direction):.2f} m" + ("" if stated else " (building size not stated: e = 2h)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """The plane's bounding rectangle: form and pitch of the roof, width along the eaves, depth in plan."""

    form: RoofForm
    pitch: Degrees
    width: Metres
    depth: Metres


def zone_depths(extent: Extent, building: Building, reference_height: Metres) -> ZoneDepths:
    """The size e of each direction; a building is never taken smaller than the plane, nor lower than its ridge."""
    height = max(reference_height, building.ridge_height)

    def size(stated: Metres, plane: Metres) -> Metres:
        return edge_size(max(stated, plane) if stated > 0.0 else 2.0 * height, height)

    return ZoneDepths(
        on_eaves=size(building.breadth, extent.width),
        on_eaves_stated=building.breadth > 0.0,
        along_eaves=size(building.length, extent.depth),
        along_eaves_stated=building.length > 0.0,
    )


def zone_steps(plane: RoofPlane, building: Building, reference_height: Metres) -> tuple[Step, ...]:
    """The two sizes e as lines of the calculation."""
    depths = zone_depths(extent_of(plane, building.form), building, reference_height)
    lines: tuple[tuple[str, Direction, str], ...] = (
        ("e_0", 0, "zone size, wind across the eaves"),
        ("e_90", 90, "zone size, wind along the eaves"),
    )
    figure = cite("EN1991-1-4", "Figures 7.7 to 7.9, e = min(b, 2h)", "from memory")
    unknown = our_choice("building size not stated: e = 2h, the largest edge zones")
    steps = []
    for symbol, direction, sentence in lines:
        stated = "not stated" not in depths.note(direction)
        steps.append(
            Step(
                symbol=symbol,
                value=depths.of(direction),
                unit="m",
                sentence=sentence if stated else f"{sentence}; building size not stated, so e = 2h",
                citation=figure if stated else unknown,
            )
        )
    return tuple(steps)


def extent_of(plane: RoofPlane, form: RoofForm) -> Extent:
    """The bounding rectangle of a plane in plan."""
    depth = plane.slope_length * math.cos(math.radians(plane.pitch))
    return Extent(form=form, pitch=plane.pitch, width=plane.width, depth=depth)


def zone_letter(extent: Extent, direction: Direction, edge: Metres, x: Metres, depth: Metres) -> str:
    """The zone of a point for one wind direction (EN 1991-1-4, Figures 7.7 to 7.9).

    The strips along the hips of a hipped roof (J, L) are drawn as edges, not here.

    Args:
        extent: the plane's bounding rectangle.
        direction: of the wind.
        edge: size e for that direction.
        x: from the left verge.
        depth: plan depth of the point behind the eaves line.
    """
    to_top = extent.depth - depth
    if direction in (90, 270):
        return _along_eaves(extent.form, edge, x if direction == 90 else extent.width - x, depth, to_top)
    if extent.form != "monopitch" and direction == 180:
        strip = "J" if extent.form == "duopitch" else "K"
        return strip if to_top < edge / 10.0 else "I"
    behind_edge = depth if direction == 0 else to_top
    if behind_edge >= edge / 10.0:
        return "H"
    return "F" if min(x, extent.width - x) < edge / 4.0 else "G"


def _along_eaves(form: RoofForm, edge: Metres, along: Metres, from_eaves: Metres, to_top: Metres) -> str:
    if form == "hipped":
        return "M" if along < edge / 2.0 else "N"
    if along >= edge / 2.0:
        return "I"
    if along >= edge / 10.0:
        return "H"
    if form == "monopitch" and to_top < edge / 4.0:
        return "F_up"
    if from_eaves >= edge / 4.0:
        return "G"
    return "F_low" if form == "monopitch" else "F"


def letters(form: RoofForm, direction: Direction) -> tuple[str, ...]:
    """Every zone that the tables know for one wind direction."""
    return _LETTERS[form, _WIND[direction]]


def wind_of(direction: Direction) -> Wind:
    """How the tables call a wind direction."""
    return _WIND[direction]


def coefficients(extent: Extent, direction: Direction, letter: str) -> RoofCoefficients:
    """The coefficients of one zone of this plane."""
    return roof_coefficients(extent.form, _WIND[direction], letter, extent.pitch)


def clause(extent: Extent, direction: Direction, letter: str, depths: ZoneDepths) -> Citation:
    """Where the coefficient of a zone comes from."""
    words = {0: "wind on the eaves", 180: "wind from behind"}.get(direction, "wind along the eaves")
    table = TABLES[extent.form, _WIND[direction]]
    return cite("EN1991-1-4", f"{table}, zone {letter}, c_pe,1, {words}, {depths.note(direction)}", "transcribed")
