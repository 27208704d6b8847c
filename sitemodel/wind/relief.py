"""WindRelief: a cited ratio of net to bare-roof uplift, or cited net coefficients, taken only within their record.

The bare roof is the basis of every design. A relief is never inferred; it comes with a record of where it was
published, what it holds for and who accepted it, and a panel that breaks one of its limits goes without.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon

from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.sources import Citation, cite
from sitemodel.standards.wind_asce7 import HIGHEST_TOP, LEAST_GAP, edge_clearance
from sitemodel.units import Degrees, Metres, Ratio, SquareMetres
from sitemodel.wind.directions import DIRECTIONS, Direction, coefficients, extent_of, wind_of, zone_depths
from sitemodel.wind.edges import edge_strip
from sitemodel.wind.net_coefficients import NetCoefficient, NetOnPanels
from sitemodel.wind.zone_shares import zone_shares
from sitemodel.wind.zones import edge_zones

LOWEST_RATIO: Ratio = 0.4
"""Below every readable source: the floor of ASCE/SEI 7-16 29.4.4 for areas from 9.29 m2."""
SMALL_ITEM_RATIO: Ratio = 0.8
"""The value of ASCE/SEI 7-16 29.4.4 up to 0.93 m2, which clamps and anchors never exceed here."""
LEAST_CLEAR_HEIGHT: Metres = 0.05
"""Under the panels, where any relief is taken: the lower end of two second-hand lists (AS/NZS 1170.2, a US criteria
sheet)."""
ROUNDING: Metres = 1e-6
ALL_ZONES = "all"
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class WindRelief:
    """The record of a cited ratio: what it is, where it stands, what it holds for, who accepted it."""

    ratio: Ratio
    """On uplift; 1 where net coefficients are cited instead."""
    title: str
    edition: str
    place: str
    kind: str
    issued_by: str
    accepted_by: str
    accepted_on: str
    zones: tuple[str, ...]
    """First letters of the zones it holds for; ``all`` for every zone."""
    least_area: SquareMetres
    greatest_area: SquareMetres
    least_pitch: Degrees
    greatest_pitch: Degrees
    least_clear_height: Metres
    greatest_clear_height: Metres
    least_gap: Metres
    longest_panel: Metres
    least_edge_distance: Metres
    array_edge_rule: str
    terrain_limits: str
    net: tuple[NetCoefficient, ...] = ()
    """Net coefficients zone by zone; empty where a ratio is cited."""

    @property
    def basis(self) -> str:
        """The name of the basis."""
        return "user_net_coefficient" if self.net else "user_cited_ratio"

    @property
    def citation(self) -> Citation:
        """Where the brief says it comes from; this program has not seen the document."""
        field = "net" if self.net else "relief"
        return cite("BRIEF", f"site.panel_wind.{field}: {self.title}, {self.edition}, {self.place}, {self.issued_by}")


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelRelief:
    """What the record does for one panel."""

    ratio: Ratio
    """On uplift; 1 where net coefficients are cited."""
    because: str
    """The limits that it breaks with what was found; empty where it keeps all."""
    spared: Ratio = 0.0
    """The largest share of the bare roof's suction that the record takes off some part of the panel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """One limit: what it asks, and for each panel what was found and whether it holds."""

    asks: str
    found: tuple[str, ...]
    holds: tuple[bool, ...]


def panel_reliefs(
    relief: WindRelief,
    plane: RoofPlane,
    building: Building,
    reference_height: Metres,
    panel_outlines: tuple[Polygon, ...],
    clear_height: Metres,
    thickness: Metres,
) -> tuple[PanelRelief, ...]:
    """The ratio of each panel: that of the record, or 1 where it breaks a limit. A rise is never dropped.

    Args:
        relief: the record.
        plane: the roof plane.
        building: the building under it.
        reference_height: of the zones.
        panel_outlines: rectangles of all panels, in plane axes.
        clear_height: of the underside of the panels above the slates.
        thickness: of a panel.
    """
    if not panel_outlines:
        return ()
    if relief.ratio > 1.0:
        return tuple(PanelRelief(ratio=relief.ratio, because="") for _ in panel_outlines)
    outlines = np.array(panel_outlines, dtype=object)
    met = _zones_met(plane, building, reference_height, panel_outlines)
    found = (*_of_geometry(relief, plane, outlines, clear_height, thickness), _of_zones(relief, met))
    answers = []
    for number in range(len(panel_outlines)):
        broken = "; ".join(f"{item.asks}, found {item.found[number]}" for item in found if not item.holds[number])
        taken = 0.0 if broken else _taken(relief, plane, building, met[number])
        answers.append(PanelRelief(ratio=1.0 if broken else relief.ratio, because=broken, spared=taken))
    return tuple(answers)


def _taken(relief: WindRelief, plane: RoofPlane, building: Building, met: frozenset[tuple[Direction, str]]) -> Ratio:
    """The largest share of the suction of any zone under the panel that the record takes off."""
    extent, net = extent_of(plane, building.form), NetOnPanels(coefficients=relief.net)
    shares = [max(0.0, 1.0 - relief.ratio)]
    for direction, letter in sorted(met):
        cell, stated = coefficients(extent, direction, letter), net.of(wind_of(direction), letter)
        if stated is not None and cell.suction_1 < 0.0:
            shares.append(1.0 - stated.uplift / cell.suction_1)
    return max(shares)


def _of_geometry(
    relief: WindRelief, plane: RoofPlane, outlines: npt.NDArray[np.object_], clear_height: Metres, thickness: Metres
) -> tuple[_Found, ...]:
    boxes = shapely.bounds(outlines)
    sides = np.stack([boxes[:, 2] - boxes[:, 0], boxes[:, 3] - boxes[:, 1]], axis=1)
    top = clear_height + thickness
    away = max(relief.least_edge_distance, edge_clearance(top))
    same = np.ones(len(boxes))
    least_height, gap = max(relief.least_clear_height, LEAST_CLEAR_HEIGHT), max(relief.least_gap, LEAST_GAP)
    outside = shapely.area(shapely.difference(outlines, plane.outline))
    return (
        _between("pitch", "degrees", same * plane.pitch, relief.least_pitch, relief.greatest_pitch),
        _between("panel area", "m2", sides.prod(axis=1), relief.least_area, relief.greatest_area),
        _between("height under the panels", "m", same * clear_height, least_height, relief.greatest_clear_height),
        _between("top of the panels", "m", same * top, 0.0, HIGHEST_TOP),
        _between("gap to the next panel", "m", nearest_gaps(boxes), gap, math.inf),
        _between("longer side of a panel", "m", sides.max(axis=1), 0.0, relief.longest_panel),
        _between("distance to the roof edge", "m", shapely.distance(plane.outline.exterior, outlines), away, math.inf),
        _between("part past the roof edge", "m2", outside, 0.0, ROUNDING),
    )


def _between(name: str, unit: str, values: Floats, low: float, high: float) -> _Found:
    if low <= 0.0:
        asks = f"{name} at most {high:g} {unit}"
    else:
        asks = f"{name} at least {low:g} {unit}" if math.isinf(high) else f"{name} {low:g} to {high:g} {unit}"
    return _Found(
        asks=asks,
        found=tuple(f"{value:.3g}" if math.isfinite(value) else "none" for value in values.tolist()),
        holds=tuple(low - ROUNDING <= value <= high + ROUNDING for value in values.tolist()),
    )


def nearest_gaps(boxes: Floats) -> Floats:
    """Clear gap of each panel to the next one beside, above or below it; infinite where it stands alone."""
    left, low, right, top = boxes.T
    across = np.maximum(left[None, :] - right[:, None], left[:, None] - right[None, :])
    along = np.maximum(low[None, :] - top[:, None], low[:, None] - top[None, :])
    apart = np.where(along < -ROUNDING, across, np.where(across < -ROUNDING, along, math.inf))
    np.fill_diagonal(apart, math.inf)
    return np.asarray(apart.min(axis=1), dtype=np.float64)


def _zones_met(
    plane: RoofPlane, building: Building, height: Metres, outlines: tuple[Polygon, ...]
) -> tuple[frozenset[tuple[Direction, str]], ...]:
    """Every zone of every direction under a panel; beside a hip, valley or slanted edge also F and G."""
    extent = extent_of(plane, building.form)
    depths = zone_depths(extent, building, height)
    strip = edge_strip(shapely.normalize(plane.outline), plane.pitch, max(depths.on_eaves, depths.along_eaves) / 10.0)
    beside: frozenset[tuple[Direction, str]] = frozenset(edge_zones(extent))
    return tuple(
        frozenset(
            (direction, share.letter)
            for direction in DIRECTIONS
            for share in zone_shares(plane, building, height, plane.azimuth + direction, outline)
        )
        | (beside if strip.intersects(outline) else frozenset())
        for outline in outlines
    )


def _of_zones(relief: WindRelief, met: tuple[frozenset[tuple[Direction, str]], ...]) -> _Found:
    """A ratio needs every zone under a panel in its record; of net coefficients one is enough."""
    letters = tuple(sorted({letter for _, letter in zones}) for zones in met)
    known = any if relief.net else all
    return _Found(
        asks=f"{'one of zones' if relief.net else 'zones'} {', '.join(relief.zones)}",
        found=tuple(", ".join(row) for row in letters),
        holds=tuple(ALL_ZONES in relief.zones or known(letter[0] in relief.zones for letter in row) for row in letters),
    )
