"""K_zt of twelve wind directions from the ground: the feature, and the conditions of ASCE/SEI 7-16, 26.8.1, one by one.

Where a condition is broken K_zt is 1, as the clause has it, and what it would be otherwise is said. What the map does
not show counts as held, which is the safe side.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from sitemodel.american_set import ExposureCategory, TopographicCondition, TopographicFeature, TopographicShape
from sitemodel.standards.exposure_asce7 import (
    LEAST_STEEPNESS,
    PROTRUDES,
    TWO_MILES,
    UPPER_HALF,
    isolation_distance,
    least_feature_height,
)
from sitemodel.standards.velocity_pressure_asce7 import topographic_factor
from sitemodel.units import Degrees, Metres, Ratio
from sitemodel.wind.elevation import Elevation
from sitemodel.wind.ground_profiles import FAN, LEAST_STEP, MOUNTAIN, UNSEEN, profiles, valley_axes
from sitemodel.wind.orography import RISING, Fitted, fitted_features, known_around_site, rises

Floats = npt.NDArray[np.float64]
REACH: Metres = 5000.0
"""A feature near the site and two miles upwind of it."""
COMPARABLE: Ratio = 0.5
"""A rise upwind from this share of the height counts as comparable (project choice)."""
ROUND: tuple[Ratio, Ratio] = (0.67, 1.5)
"""Across the wind a hill falls to half its height within these times L_h; otherwise it is a ridge (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Profile:
    """The ground along one direction without gaps, and where it lies on the map."""

    distance: Floats
    ground: Floats
    ray: Degrees
    elevation: Elevation


def topography(
    elevation: Elevation, exposures: Sequence[ExposureCategory], height: Metres
) -> tuple[tuple[tuple[TopographicFeature, ...], ...], tuple[str, ...]]:
    """For each of twelve directions the feature that decides, and what an engineer must look at.

    Args:
        elevation: the ground, in metres east and north of the site.
        exposures: B, C or D of the twelve directions.
        height: mean roof height.
    """
    site = float(elevation.at(np.zeros(1), np.zeros(1))[0])
    if np.isnan(site):
        why = "elevation does not cover the site" if elevation.spacing > 0.0 else "no elevation was given"
        return ((),) * 12, (f"{why}: the ground counts as flat in every direction; near a hill K_zt must be stated",)
    bearings = np.array([30.0 * k + turn for k in range(12) for turn in FAN])
    distance, ground = profiles(elevation, bearings, max(LEAST_STEP, elevation.spacing), REACH)
    found = []
    for number in range(12):
        candidates: list[TopographicFeature] = []
        for row in range(number * len(FAN), (number + 1) * len(FAN)):
            stretch = known_around_site(distance, ground[row])
            profile = _Profile(
                distance=stretch[0], ground=stretch[1], ray=float(bearings[row]) % 360.0, elevation=elevation
            )
            candidates += _looked_at(profile, exposures[number], height)
        found.append((max(candidates, key=_rank),) if candidates else ())
    return tuple(found), _flags(distance, ground, found, site)


def _rank(feature: TopographicFeature) -> tuple[Ratio, Ratio, Ratio]:
    """What counts before what does not, then the larger factor, then the steeper."""
    counted = feature.factor_if_all_held if feature.counts else 1.0
    return counted, feature.factor_if_all_held, feature.height / feature.half_length


def _looked_at(profile: _Profile, exposure: ExposureCategory, height: Metres) -> Iterator[TopographicFeature]:
    """Every feature of a profile that reaches the site, with its conditions."""
    if len(profile.distance) < 5:
        return
    for fitted in fitted_features(profile.distance, profile.ground, profile.ray):
        size, half = fitted.feature.height, _half_length(profile, fitted)
        length = half if size / half <= 0.5 else 2.0 * size
        reach = 4.0 if fitted.feature.kind == "cliff" and fitted.feature.distance >= 0.0 else 1.5
        if abs(fitted.feature.distance) >= reach * length:
            continue
        shape = _shape(profile, fitted, half)
        place = fitted.feature.distance
        factor = topographic_factor(shape, exposure, size, half, place, height)
        yield TopographicFeature(
            shape=shape,
            height=size,
            half_length=half,
            distance=place,
            ray=profile.ray,
            conditions=_conditions(profile, fitted, half, exposure),
            factor_if_all_held=factor,
        )


def _half_length(profile: _Profile, fitted: Fitted) -> Metres:
    """Upwind from the crest to where the ground lies half the height lower."""
    half = float(profile.ground[fitted.crest]) - fitted.feature.height / 2.0
    below = fitted.foot + int(np.flatnonzero(profile.ground[fitted.foot : fitted.crest + 1] <= half)[-1])
    low, high = float(profile.ground[below]), float(profile.ground[below + 1])
    step = float(profile.distance[1] - profile.distance[0])
    return float(profile.distance[fitted.crest] - profile.distance[below]) - step * (half - low) / (high - low)


def _shape(profile: _Profile, fitted: Fitted, half_length: Metres) -> TopographicShape:
    """An escarpment; a round hill where the ground falls across the wind as well; else a ridge, the larger factor."""
    if fitted.feature.kind == "cliff":
        return "escarpment"
    angle = np.radians(profile.ray)
    crest = float(profile.distance[fitted.crest])
    level = float(profile.ground[fitted.crest]) - fitted.feature.height / 2.0
    offset = np.linspace(0.0, ROUND[1] * half_length, 31)
    for side in (-1.0, 1.0):
        east = -np.sin(angle) * crest + side * np.cos(angle) * offset
        north = -np.cos(angle) * crest - side * np.sin(angle) * offset
        fallen = np.flatnonzero(profile.elevation.at(east, north) <= level)
        if not len(fallen) or offset[fallen[0]] < ROUND[0] * half_length:
            return "ridge"
    return "hill"


def _conditions(
    profile: _Profile, fitted: Fitted, half_length: Metres, exposure: ExposureCategory
) -> tuple[TopographicCondition, ...]:
    """26.8.1, from memory."""
    size = fitted.feature.height
    site = float(np.interp(0.0, profile.distance, profile.ground)) - float(profile.ground[fitted.foot])
    least = least_feature_height(exposure)
    return (
        _isolated(profile, fitted),
        _protrudes(profile, fitted),
        TopographicCondition(
            key="T3", asks="the site stands in the upper half of it, or near the crest",
            limit=f"at least {UPPER_HALF * size:.1f} m above its foot", found=f"{site:.1f} m",
            holds=site >= UPPER_HALF * size - 1e-6,
        ),
        TopographicCondition(
            key="T4", asks="steep enough, H/L_h", limit=f"at least {LEAST_STEEPNESS:g}",
            found=f"{size / half_length:.2f}", holds=size / half_length >= LEAST_STEEPNESS - 1e-9,
        ),
        TopographicCondition(
            key="T5", asks="high enough for its exposure, H", limit=f"at least {least:.1f} m, exposure {exposure}",
            found=f"{size:.1f} m", holds=size >= least - 1e-6,
        ),
    )  # fmt: skip


def _isolated(profile: _Profile, fitted: Fitted) -> TopographicCondition:
    size = fitted.feature.height
    wanted = isolation_distance(size)
    begin = float(profile.distance[fitted.foot])
    others = [
        begin - float(profile.distance[top])
        for foot, top in rises(profile.distance, profile.ground, RISING)
        if top <= fitted.foot
        and float(profile.ground[top] - profile.ground[foot]) >= COMPARABLE * size
        and begin - float(profile.distance[top]) <= wanted
    ]
    known = begin - float(profile.distance[0])
    found = f"another at least half as high {min(others):.0f} m upwind" if others else "none"
    if not others and known < wanted - 1.0:
        found = f"none within {known:.0f} m; the map shows no more, the rest counts as free"
    return TopographicCondition(
        key="T1", asks="isolated: no feature of comparable height upwind", limit=f"for {wanted:.0f} m",
        found=found, holds=not others,
    )  # fmt: skip


def _protrudes(profile: _Profile, fitted: Fitted) -> TopographicCondition:
    near = (profile.distance < profile.distance[fitted.foot]) & (profile.distance >= -TWO_MILES)
    foot = float(profile.ground[fitted.foot])
    upwind = float(profile.ground[near].max()) - foot if near.any() else 0.0
    return TopographicCondition(
        key="T2", asks="at least twice as high as the ground upwind of it within 2 miles",
        limit=f"upwind ground at most {fitted.feature.height / PROTRUDES:.1f} m above its foot",
        found=f"{max(upwind, 0.0):.1f} m", holds=fitted.feature.height >= PROTRUDES * upwind - 1e-6,
    )  # fmt: skip


def _flags(
    distance: Floats, ground: Floats, found: Sequence[tuple[TopographicFeature, ...]], site: Metres
) -> tuple[str, ...]:
    flags = []
    missing = float(np.isnan(ground[:, (distance <= 0.0) & (distance >= -TWO_MILES)]).mean())
    if missing >= UNSEEN:
        flags.append(f"elevation is missing on {missing:.0%} of the way upwind within 2 miles (3.2 km) of the site")
    shadowed = [
        f"{30 * k} degrees ({feature.factor_if_all_held:.2f})"
        for k, features in enumerate(found)
        for feature in features
        if feature.factor_if_all_held > 1.0 and not all(c.holds for c in feature.conditions[:2])
    ]
    if shadowed:
        flags.append(
            f"a hill behind other ground as high: wind from {', '.join(shadowed)}; K_zt is 1.0 by 26.8.1, in brackets "
            "what it would be if an engineer counts the hill as standing free"
        )
    relief = float(np.nanmax(ground) - np.nanmin(ground))
    if relief > MOUNTAIN:
        flags.append(f"mountainous ground, {relief:.0f} m of relief: a special wind region may hold; ask the authority")
    if valley_axes(distance, ground, site):
        flags.append("the site lies in a valley or hollow: wind may be channelled, which 26.8 does not compute")
    return tuple(flags)
