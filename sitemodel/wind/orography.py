"""Hills and cliffs found in the ground along one wind direction, and the one that speeds the wind up most.

The profile runs through the site with the wind: distances are negative upwind, positive downwind of the site.
A rising stretch is where the ground climbs at three per cent or more; from its foot to the crest above it is a
feature of EN 1991-1-4, A.3. Stretches that follow one another without a dip between may be one hill: every such
span is tried, and the one with the largest factor counts.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from sitemodel.site import OrographicFeature
from sitemodel.standards.orography_en1991_1_4 import FLAT, location_factor, orography_factor
from sitemodel.units import Degrees, Metres, Ratio

Floats = npt.NDArray[np.float64]
RISING: Ratio = 0.03
"""Slope at which a rise begins and ends (project choice)."""
STEEPER: Ratio = 0.05
"""Tried as well, so that a long gentle foot does not make a hill look flatter than it is (project choice)."""
BENCH: Metres = 50.0
"""Level stretches shorter than this do not end a slope (project choice)."""
LEAST_HEIGHT: Metres = 2.0
"""Lower banks are left out: the ground of a terrain model is not known better (project choice)."""
STANDS_ALONE: Metres = 10.0
"""Features from this height on are counted for ground with several of them (project choice)."""
MOST_SPANS = 4
"""How many rises in a row are tried together as one slope."""
STAYS_HIGH: Ratio = 0.05
"""Behind a cliff the ground falls less steeply than this (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedUp:
    """The orography factor of one direction and what it comes from."""

    factor: Ratio
    features: tuple[OrographicFeature, ...]
    upwind_features: int
    """How many features stand upwind or under the site."""
    all_features: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A feature with its places in the profile."""

    feature: OrographicFeature
    foot: int
    crest: int


def fitted_features(distance: Floats, ground: Floats, ray: Degrees) -> Iterator[Fitted]:
    """Every feature that a profile without gaps may be read as."""
    for slope in (RISING, STEEPER):
        yield from _features(distance, ground, rises(distance, ground, slope), ray)


def speed_up(distance: Floats, ground: Floats, above_ground: Metres, ray: Degrees) -> SpeedUp:
    """The largest orography factor of any feature in a profile.

    Args:
        distance: evenly spaced, rising with the wind, 0 at the site.
        ground: heights; not a number where unknown (the profile then ends there).
        above_ground: height at which the wind is wanted.
        ray: where the wind comes from, for the record.
    """
    distance, ground = known_around_site(distance, ground)
    if len(distance) < 5:
        return SpeedUp(factor=1.0, features=(), upwind_features=0, all_features=0)
    best: tuple[Ratio, OrographicFeature] | None = None
    for found in fitted_features(distance, ground, ray):
        factor = factor_of(found.feature, above_ground)
        if factor > 1.0 and (best is None or factor > best[0]):
            best = factor, found.feature
    high = [top for foot, top in rises(distance, ground, RISING) if ground[top] - ground[foot] >= STANDS_ALONE]
    return SpeedUp(
        factor=1.0 if best is None else best[0],
        features=() if best is None else (best[1],),
        upwind_features=sum(1 for top in high if distance[top] <= 0.0),
        all_features=len(high),
    )


def factor_of(feature: OrographicFeature, above_ground: Metres) -> Ratio:
    """The orography factor of one feature at a height above the ground of the site."""
    slope = feature.height / feature.upwind_length
    if slope < FLAT:
        return 1.0
    s = location_factor(
        feature.kind,
        feature.height,
        feature.upwind_length,
        feature.downwind_length,
        feature.distance,
        above_ground,
    )
    return orography_factor(slope, s)


def known_around_site(distance: Floats, ground: Floats) -> tuple[Floats, Floats]:
    """The stretch around the site without a gap."""
    unknown = np.isnan(ground)
    if not unknown.any():
        return distance, ground
    site = int(np.argmin(np.abs(distance)))
    if unknown[site]:
        return distance[:0], ground[:0]
    before, after = np.flatnonzero(unknown[:site]), np.flatnonzero(unknown[site:])
    start = int(before[-1]) + 1 if len(before) else 0
    stop = site + int(after[0]) if len(after) else len(distance)
    return distance[start:stop], ground[start:stop]


def _smoothed(ground: Floats) -> Floats:
    """Mean of three, for slopes only; heights are read from the ground itself."""
    padded = np.concatenate([ground[:1], ground, ground[-1:]])
    return np.asarray((padded[:-2] + padded[1:-1] + padded[2:]) / 3.0)


def rises(distance: Floats, ground: Floats, slope: Ratio) -> list[tuple[int, int]]:
    """Foot and top of every stretch that climbs, short benches bridged."""
    step = float(distance[1] - distance[0])
    climbing = np.diff(_smoothed(ground)) >= slope * step
    raw = np.diff(ground) >= slope * step
    edges = np.flatnonzero(np.diff(np.concatenate([[0], climbing.astype(np.int8), [0]])))
    found: list[tuple[int, int]] = []
    for first, last in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        own = np.flatnonzero(raw[first:last])
        if not len(own):
            continue
        # Smoothing spreads a slope by a cell at either end; the ground itself says where it begins.
        foot, top = first + int(own[0]), first + int(own[-1]) + 1
        if found and (foot - found[-1][1]) * step <= BENCH and ground[foot] >= ground[found[-1][1]] - 0.5:
            found[-1] = found[-1][0], top
        else:
            found.append((foot, top))
    return [(foot, top) for foot, top in found if ground[top] - ground[foot] >= LEAST_HEIGHT]


def _features(distance: Floats, ground: Floats, climbs: list[tuple[int, int]], ray: Degrees) -> Iterator[Fitted]:
    """Every span from a foot to a crest, the crest at the end of the rise and at the summit behind it."""
    for last, (_, top) in enumerate(climbs):
        for first in range(last, max(last - MOST_SPANS, -1), -1):
            foot = climbs[first][0]
            if _dips(ground, foot, top):
                break
            for crest in {top, _summit(ground, foot, top)}:
                feature = _feature(distance, ground, foot, crest, ray)
                yield Fitted(feature=feature, foot=foot, crest=crest)


def _dips(ground: Floats, foot: int, top: int) -> bool:
    """Whether the ground falls by a tenth of the height on its way up."""
    climb = ground[foot : top + 1]
    fall = float(np.max(np.maximum.accumulate(climb) - climb))
    return fall > 0.1 * float(ground[top] - ground[foot])


def _summit(ground: Floats, foot: int, top: int) -> int:
    """The highest ground behind the rise, no farther than half its length, before it falls."""
    reach = top + max((top - foot) // 2, 1)
    behind = ground[top : reach + 1]
    falls = np.flatnonzero(np.diff(behind) < 0.0)
    until = int(falls[0]) + 1 if len(falls) else len(behind)
    return top + int(np.argmax(behind[:until]))


def _feature(distance: Floats, ground: Floats, foot: int, crest: int, ray: Degrees) -> OrographicFeature:
    height = float(ground[crest] - ground[foot])
    down = _downwind_length(distance, ground, crest, height)
    return OrographicFeature(
        kind="hill" if down > 0.0 else "cliff",
        height=height,
        upwind_length=float(distance[crest] - distance[foot]),
        downwind_length=down,
        distance=-float(distance[crest]),
        ray=ray,
    )


def _downwind_length(distance: Floats, ground: Floats, crest: int, height: Metres) -> Metres:
    """L_d to the foot behind the crest; 0 where the ground stays high."""
    behind = ground[crest:]
    low = np.flatnonzero(behind <= ground[crest] - height / 2.0)
    if not len(low):
        return 0.0
    half = crest + int(low[0])
    step = float(distance[1] - distance[0])
    falling = np.diff(_smoothed(ground[half:])) <= -RISING * step
    bench = max(int(BENCH / step), 1)
    level = np.flatnonzero(~falling)
    foot = len(ground) - 1
    for start in level.tolist():
        if not falling[start : start + bench].any():
            foot = half + start
            break
    length = float(distance[foot] - distance[crest])
    drop = float(ground[crest] - ground[foot])
    return length if length > 0.0 and drop / length >= STAYS_HIGH else 0.0
