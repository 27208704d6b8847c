"""Exposure B, C or D of twelve wind directions, read from the land cover as ASCE/SEI 7-16, 26.7 asks.

The ground of the two sectors of 45 degrees on either side of a direction counts, and the smoother of the two decides.
What is rough and what is smooth by its roughness length, and how much of the ground must be so, are choices of this
project on the safe side; that smoother ground never makes an exposure rougher follows from counting it together.
"""

import numpy as np
import numpy.typing as npt

from sitemodel.american_set import ExposureCategory
from sitemodel.standards.exposure_asce7 import ExposureDistances, exposure_distances
from sitemodel.units import Metres, Ratio
from sitemodel.wind.terrain import RAYS, RING, SECTORS, STEP, Fan

ROUGH: Metres = 0.3
"""Least published roughness of ground of suburbs and woods, roughness B."""
SMOOTH: Metres = 0.01
"""At most this, as water and mud flats have: roughness D."""
ALL_ROUGH: Ratio = 0.9
"""Share of each ring that must be rough for exposure B."""
SOME_SMOOTH: Ratio = 0.25
"""Share of the ground from which smooth ground counts for exposure D."""
HALF_SECTOR = 15
"""Rays of 45 degrees."""
_ORDER: tuple[ExposureCategory, ...] = ("D", "C", "B")
Mask = npt.NDArray[np.bool_]


def exposures_by_direction(fan: Fan, mean_roof_height: Metres) -> tuple[tuple[ExposureCategory, str], ...]:
    """Exposure and the rule that decided for wind from 0, 30, ... 330 degrees."""
    distances = exposure_distances(mean_roof_height)
    rays = fan.roughness.reshape(SECTORS * RAYS, -1)
    found = []
    for number in range(SECTORS):
        middle = number * RAYS + RAYS // 2
        halves = [
            _of_half(np.take(rays, range(first, first + HALF_SECTOR), axis=0, mode="wrap"), distances)
            for first in (middle - HALF_SECTOR, middle)
        ]
        found.append(min(halves, key=lambda half: _ORDER.index(half[0])))
    return tuple(found)


def _of_half(roughness: npt.NDArray[np.float64], distances: ExposureDistances) -> tuple[ExposureCategory, str]:
    """Exposure of one sector of 45 degrees."""
    begins = _smooth_from(roughness <= SMOOTH, distances)
    if begins >= 0.0:
        where = "the site" if begins == 0.0 else f"{begins:.0f} m upwind"
        ground = f"at least {SOME_SMOOTH:.0%} of the ground"
        return "D", f"water or flats on {ground} from {where} on, for {distances.smooth:.0f} m"
    share = _least_ring(roughness >= ROUGH, distances.rough)
    if share >= ALL_ROUGH:
        return "B", f"suburb or wood on at least {share:.0%} of every ring within {distances.rough:.0f} m"
    return "C", f"open ground: suburb or wood on no more than {share:.0%} of a ring within {distances.rough:.0f} m"


def _share(mask: Mask, first: int, last: int) -> Ratio:
    """Area share of spots from one distance to another; spots farther out stand for more ground."""
    weight = np.arange(first, last) + 0.5
    return float((mask[:, first:last] * weight).sum() / (len(mask) * weight.sum()))


def _least_ring(rough: Mask, reach: Metres) -> Ratio:
    last = int(np.ceil(reach / STEP))
    ring = int(RING / STEP)
    return min(_share(rough, first, min(first + ring, last)) for first in range(0, last, ring))


def _smooth_from(smooth: Mask, distances: ExposureDistances) -> Metres:
    """Where smooth ground that is long enough begins; -1 where none begins near enough."""
    long, ring = int(np.ceil(distances.smooth / STEP)), int(RING / STEP)
    for first in range(int(distances.smooth_begins / STEP) + 1):
        last = min(first + long, smooth.shape[1])
        if _share(smooth, first, first + ring) >= SOME_SMOOTH and _share(smooth, first, last) >= SOME_SMOOTH:
            return first * STEP
    return -1.0
