"""Profiles of the ground through a site, three in each sector, and what they say about the site."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from sitemodel.units import Degrees, Metres, Ratio
from sitemodel.wind.elevation import Elevation
from sitemodel.wind.orography import SpeedUp, speed_up

Floats = npt.NDArray[np.float64]
REACH: Metres = 2000.0
FARTHEST: Metres = 5000.0
"""Profiles are longer than 2 km where the ground is high, ten times its relief, but not longer than this."""
FAN: tuple[Degrees, ...] = (-10.0, 0.0, 10.0)
"""Profiles of a sector, from its middle (project choice)."""
LEAST_STEP: Metres = 10.0
UNSEEN: Ratio = 0.005
"""Less missing ground than this is the rim of the grid."""
VALLEY_SLOPE: Ratio = 0.05
VALLEY_DEPTH: Metres = 30.0
MOUNTAIN: Metres = 300.0
"""Relief within 2 km from which the ground is called mountainous (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundReading:
    """What the ground does to the wind, sector by sector."""

    sectors: tuple[SpeedUp, ...]
    notes: tuple[tuple[str, ...], ...]
    flags: tuple[str, ...]


def read_ground(elevation: Elevation, above_ground: Metres) -> GroundReading:
    """The orography of the twelve sectors.

    Args:
        elevation: the ground, in metres east and north of the site.
        above_ground: height at which the wind is wanted.
    """
    flat = SpeedUp(factor=1.0, features=(), upwind_features=0, all_features=0)
    site = float(elevation.at(np.zeros(1), np.zeros(1))[0])
    if np.isnan(site):
        known = elevation.spacing > 0.0
        why = "elevation does not cover the site" if known else "no elevation was given"
        flags = (f"{why}: the ground counts as flat in every direction; on or near a hill or cliff it must be given",)
        return GroundReading(sectors=(flat,) * 12, notes=((),) * 12, flags=flags)
    step = max(LEAST_STEP, elevation.spacing)
    bearings = np.array([30.0 * k + turn for k in range(12) for turn in FAN])
    distance, ground = profiles(elevation, bearings, step, _reach(elevation, bearings, step))
    found = [speed_up(distance, ground[i], above_ground, float(bearings[i]) % 360.0) for i in range(len(bearings))]
    width = len(FAN)
    sectors = tuple(max(found[k * width : (k + 1) * width], key=lambda speed: speed.factor) for k in range(12))
    missing = np.isnan(ground[:, distance <= 0.0]).mean(axis=1).reshape(12, width).max(axis=1)
    notes = tuple(_notes(sector, share) for sector, share in zip(sectors, missing.tolist(), strict=True))
    return GroundReading(sectors=sectors, notes=notes, flags=_flags(distance, ground, found, site))


def profiles(elevation: Elevation, bearings: Floats, step: Metres, reach: Metres) -> tuple[Floats, Floats]:
    """Distance along the wind and ground heights of every profile; the wind comes from the bearing."""
    count = int(np.ceil(reach / step))
    distance: Floats = np.arange(-count, count + 1, dtype=np.float64) * step
    angle = np.radians(bearings)[:, None]
    return distance, elevation.at(-np.sin(angle) * distance, -np.cos(angle) * distance)


def _reach(elevation: Elevation, bearings: Floats, step: Metres) -> Metres:
    """Two kilometres, or ten times the relief within them, as far as there is ground."""
    _, ground = profiles(elevation, bearings[::3], 5.0 * step, REACH)
    relief = float(np.nanmax(ground) - np.nanmin(ground))
    return min(max(REACH, 10.0 * relief), FARTHEST)


def _notes(sector: SpeedUp, missing: Ratio) -> tuple[str, ...]:
    notes = []
    if missing >= UNSEEN:
        notes.append(f"elevation is missing on {missing:.0%} of the way upwind")
    if sector.upwind_features > 1:
        notes.append(
            f"{sector.upwind_features} rises in series upwind: A.3 covers one isolated feature; the one with the "
            "largest factor taken"
        )
    return tuple(notes)


def _flags(distance: Floats, ground: Floats, found: list[SpeedUp], site: Metres) -> tuple[str, ...]:
    flags = []
    missing = float(np.isnan(ground[:, np.abs(distance) <= REACH]).mean())
    if missing >= UNSEEN:
        flags.append(f"elevation is missing on {missing:.0%} of the profiles within {REACH / 1e3:g} km of the site")
    series = sorted({round(s.features[0].ray / 30.0) % 12 * 30 for s in found if s.upwind_features > 1 and s.features})
    if series:
        listed = ", ".join(str(direction) for direction in series)
        flags.append(
            f"features in series upwind (wind from {listed} degrees): outside A.3, which knows one isolated feature; "
            "an engineer must confirm c_o"
        )
    if np.median([s.all_features for s in found]) >= 3:
        flags.append("undulating ground, three rises or more along most directions: an engineer must confirm c_o")
    relief = float(np.nanmax(ground) - np.nanmin(ground))
    if relief > MOUNTAIN:
        flags.append(f"mountainous ground, {relief:.0f} m of relief: A.3 does not cover it; an engineer must confirm")
    flags += _valleys(distance, ground, site)
    return tuple(flags)


def valley_axes(distance: Floats, ground: Floats, site: Metres) -> tuple[int, ...]:
    """The axes of a valley that the site lies in, degrees below 180; all six where it is a hollow.

    Args:
        distance: along each profile, 0 at the site.
        ground: heights of three profiles in each of twelve sectors.
        site: height of the ground there.
    """
    near = np.abs(distance) <= 1000.0
    rise = ground[:, near] - site
    length = np.maximum(np.abs(distance[near]), 1.0)
    deep = (rise >= VALLEY_DEPTH) & (rise / length >= VALLEY_SLOPE)
    left, right = deep[:, distance[near] < 0.0].any(axis=1), deep[:, distance[near] > 0.0].any(axis=1)
    both: npt.NDArray[np.bool_] = np.asarray(left & right)
    across = np.flatnonzero(both[1::3])
    return tuple(sorted({int(30 * k + 90) % 180 for k in across.tolist()}))


def _valleys(distance: Floats, ground: Floats, site: Metres) -> list[str]:
    """The ground rises on both sides of the site."""
    axes = valley_axes(distance, ground, site)
    if not axes:
        return []
    if len(axes) == 6:
        return ["the site lies in a hollow with higher ground all round: an engineer must confirm c_o"]
    listed = ", ".join(f"{axis} and {axis + 180}" for axis in axes)
    return [
        f"the site lies in a valley that runs about {listed} degrees: wind may be channelled along it, which A.3 does "
        "not compute; an engineer must confirm c_o"
    ]
