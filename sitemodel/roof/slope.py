"""Pitch, azimuth and eaves of one plane from what was given: a pitch, two heights, or vertices with heights."""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from sitemodel.errors import InputError
from sitemodel.units import Degrees, Metres

LOWEST_PITCH = 15.0
HIGHEST_PITCH = 75.0
"""Degrees: below, no slate lap is published; above, it is wall cladding (project choice after BS 5534 tables)."""
LARGEST_RESIDUAL = 0.15
"""Metres off the best-fit plane: more is not one plane (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """How a plane lies: pitch, the way it faces, and how that was known."""

    pitch: Degrees
    azimuth: Degrees
    eaves_found: bool
    fit_residual: Metres
    notes: tuple[str, ...]


def fitted_slope(where: str, points: np.ndarray, plan_size: Metres) -> Slope:
    """Best-fit plane through vertices (east, north, up): smallest squared distance, by singular values.

    Example:
        >>> points = np.array([(0, 0, 5), (8, 0, 5), (8, 4, 8), (0, 4, 8)], dtype=float)
        >>> slope = fitted_slope("roof", points, 8.0)
        >>> slope.pitch, slope.azimuth, slope.fit_residual
        (36.8699, 180.0, 0.0)

    Raises:
        InputError: the vertices do not lie in one plane, or the plane is too flat to face anywhere.
    """
    centred = points - points.mean(axis=0)
    normal = np.linalg.svd(centred)[2][2]
    normal = normal if normal[2] > 0 else -normal
    residual = float(np.abs(centred @ normal).max())
    if residual > max(LARGEST_RESIDUAL, 0.01 * plan_size):
        raise InputError(
            where,
            given=f"vertices up to {residual * 1e3:.0f} mm off one plane",
            allowed=f"{max(LARGEST_RESIDUAL, 0.01 * plan_size) * 1e3:.0f} mm at most; draw each plane by itself",
        )
    pitch = math.degrees(math.atan2(math.hypot(normal[0], normal[1]), normal[2]))
    azimuth = math.degrees(math.atan2(normal[0], normal[1])) % 360.0
    notes: tuple[str, ...] = ()
    if residual > 0.03:
        notes = (f"{where}: the given heights lie up to {residual * 1e3:.0f} mm off the best-fit plane; measure again",)
    return Slope(
        pitch=pitch,
        azimuth=round(azimuth, 9) % 360.0,
        eaves_found=False,
        fit_residual=0.0 if residual < 1e-9 else residual,
        notes=notes,
    )


def facing(edge: LineString, polygon: Polygon) -> Degrees:
    """Azimuth of the outward normal of one edge of a counter-clockwise outline (east, north).

    Example:
        >>> south = Polygon([(0, 0), (8, 0), (8, 4), (0, 4)])
        >>> facing(LineString([(0, 0), (8, 0)]), south)
        180.0
    """
    (e0, n0), (e1, n1) = edge.coords
    azimuth = math.degrees(math.atan2(n1 - n0, -(e1 - e0))) % 360.0
    if not polygon.exterior.is_ccw:
        azimuth = (azimuth + 180.0) % 360.0
    return round(azimuth, 9) % 360.0


def edges(polygon: Polygon) -> tuple[LineString, ...]:
    """The edges of the outer ring in its own order."""
    ring = shapely.get_coordinates(polygon.exterior)
    return tuple(LineString([ring[i], ring[i + 1]]) for i in range(len(ring) - 1))


def find_eaves(polygon: Polygon, others: tuple[Polygon, ...], latitude: Degrees) -> tuple[LineString, str]:
    """The most likely eaves edge of a plan outline, and a sentence that says how it was chosen.

    The longest outer edge that no other plane shares; of edges equally long (within 1 %) the one that faces the
    equator. A guess by rule: the plane may face the other way, and the sentence says so.
    """
    rim = shapely.union_all([other.exterior for other in others]) if others else None
    free = [
        edge
        for edge in edges(polygon)
        if rim is None or shapely.intersection(edge, rim.buffer(0.05)).length < 0.5 * edge.length
    ]
    candidates = free or list(edges(polygon))
    longest = max(edge.length for edge in candidates)
    equator = 180.0 if latitude >= 0.0 else 0.0

    def away(edge: LineString) -> float:
        return abs((facing(edge, polygon) - equator + 180.0) % 360.0 - 180.0)

    chosen = min((e for e in candidates if e.length > 0.99 * longest), key=lambda e: (round(away(e), 3), e.wkt))
    azimuth = facing(chosen, polygon)
    sentence = (
        f"no eaves edge was stated: the longest free edge, facing {azimuth:.1f} degrees, was taken for the eaves; "
        f"if it is the ridge the plane faces {(azimuth + 180.0) % 360.0:.1f} degrees: state 'eaves'"
    )
    return chosen, sentence


def pitch_from_heights(where: str, rise: Metres, run: Metres) -> Degrees:
    """Pitch from the height of the ridge over the eaves and the horizontal run square to the eaves.

    Example:
        >>> pitch_from_heights("roof", 3.0, 4.0)
        36.8699

    Raises:
        InputError: the ridge is not above the eaves.
    """
    if rise <= 0.0:
        raise InputError(where, given=f"a ridge {-rise:.2f} m below the eaves", allowed="a ridge above the eaves")
    return math.degrees(math.atan2(rise, run))


def check_pitch(where: str, pitch: Degrees) -> None:
    """Refuse a pitch that slate is not laid at.

    Raises:
        InputError: outside 15 to 75 degrees.
    """
    if not LOWEST_PITCH <= pitch <= HIGHEST_PITCH:
        raise InputError(
            f"{where}.pitch",
            given=f"{pitch:.1f} degrees",
            allowed=f"{LOWEST_PITCH:g} to {HIGHEST_PITCH:g} degrees for slate",
        )
