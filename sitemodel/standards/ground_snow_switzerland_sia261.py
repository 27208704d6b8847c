"""SIA 261: characteristic snow on the ground from the reference altitude of the map."""

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Pascals

CLAUSE = "SIA261, 5.2"
HIGHEST: Metres = 2000.0
LEAST: Pascals = 900.0
"""SIA261, 5.2 (transcribed)."""


def ground_snow(reference_altitude: Metres) -> Pascals:
    r"""Characteristic ground snow of a site in Switzerland.

    .. math:: s_k = 0.4 (1 + (h_0/350)^2) \ge 0.9 \text{ kN/m}^2

    Args:
        reference_altitude: of the site by the map of zones, h_0; not its plain altitude.

    Scope: h_0 0 to 2000 m; outside it, OutsideScope.
    Source: SIA261, 5.2.

    Example:
        >>> ground_snow(300.0), ground_snow(700.0)
        (900.0, 2000.0)
    """
    if not 0.0 <= reference_altitude <= HIGHEST:
        raise OutsideScope("reference altitude", value=reference_altitude, allowed="0 m to 2000 m", clause=CLAUSE)
    return max(LEAST, 400.0 * (1.0 + (reference_altitude / 350.0) ** 2))
