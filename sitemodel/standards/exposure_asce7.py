"""ASCE/SEI 7-16, 26.7 and 26.8.1: how far upwind roughness counts, and which hills count."""

import math
from dataclasses import dataclass

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Ratio

LOW_ROOF: Metres = 9.144
"""30 ft of mean roof height, up to which exposure B needs the shorter distance."""
UPPER_HALF: Ratio = 0.5
"""Of the height of a feature: the site must stand in its upper half."""
PROTRUDES: Ratio = 2.0
"""A feature is at least this many times as high as what stands upwind of it."""
LEAST_STEEPNESS: Ratio = 0.2
"""H over L_h."""
TWO_MILES: Metres = 3219.0
HUNDRED_HEIGHTS: Ratio = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposureDistances:
    """How far upwind the ground must be rough or smooth."""

    rough: Metres
    """Exposure B: rough ground prevails at least so far."""
    smooth: Metres
    """Exposure D: smooth ground prevails at least so far."""
    smooth_begins: Metres
    """Exposure D also where that smooth ground begins no farther than this from the site."""


def exposure_distances(mean_roof_height: Metres) -> ExposureDistances:
    r"""How far upwind the ground counts for exposure B and D.

    .. math:: x_B = 457\,\mathrm{m}\;(h \le 9.1\,\mathrm{m}),\; \max(792\,\mathrm{m}, 20 h), \qquad
              x_D = \max(1524\,\mathrm{m}, 20 h), \quad \max(183\,\mathrm{m}, 20 h)

    Args:
        mean_roof_height: :math:`h`.

    Scope: h above 0 to 60 ft (18.288 m), as far as the roof figures go; outside it, OutsideScope.
    Source: ASCE7-16, 26.7.3 (from memory).

    Example:
        >>> exposure_distances(6.0).rough, exposure_distances(15.0).rough, exposure_distances(15.0).smooth_begins
        (457.2, 792.5, 300.0)
    """
    if not 0.0 < mean_roof_height <= 18.288:
        raise OutsideScope("h", value=mean_roof_height, allowed="up to 18.288 m (60 ft)", clause="ASCE7-16, 26.7.3")
    far = 20.0 * mean_roof_height
    return ExposureDistances(
        rough=457.2 if mean_roof_height <= LOW_ROOF else max(792.48, far),
        smooth=max(1524.0, far),
        smooth_begins=max(182.88, far),
    )


def least_feature_height(category: str) -> Metres:
    """How high a hill, ridge or escarpment must be to count.

    Args:
        category: exposure B, C or D.

    Scope: B, C, D; outside it, OutsideScope.
    Source: ASCE7-16, 26.8.1, condition 5 (from memory): 15 ft, or 60 ft in exposure B.

    Example:
        >>> least_feature_height("B"), least_feature_height("C")
        (18.3, 4.6)
    """
    if category not in ("B", "C", "D"):
        raise OutsideScope("exposure", value=category, allowed="B, C, D", clause="ASCE7-16, 26.8.1")
    return 18.288 if category == "B" else 4.572


def isolation_distance(height: Metres) -> Metres:
    r"""How far upwind a feature must be free of others of comparable height.

    .. math:: \min(100 H, 2\,\mathrm{mi})

    Args:
        height: of the feature, :math:`H`.

    Scope: above 0; outside it, OutsideScope.
    Source: ASCE7-16, 26.8.1, condition 1 (from memory).

    Example:
        >>> isolation_distance(20.0), isolation_distance(60.0)
        (2000.0, 3219.0)
    """
    if not (height > 0.0 and math.isfinite(height)):
        raise OutsideScope("H", value=height, allowed="above 0 m", clause="ASCE7-16, 26.8.1")
    return min(HUNDRED_HEIGHTS * height, TWO_MILES)
