"""UK National Annex to BS EN 1991-1-3: characteristic snow on the ground from the zone number of the map."""

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Pascals

CLAUSE = "UK-NA-1991-1-3, NA.2.8"
HIGHEST: Metres = 1500.0


def ground_snow(zone: float, altitude: Metres) -> Pascals:
    r"""Characteristic ground snow of a site in the United Kingdom.

    .. math:: s_k = 0.15 + (0.1 Z + 0.05) + (A - 100)/525 \text{ kN/m}^2

    Args:
        zone: number of the zone on the snow map, Z.
        altitude: of the site above sea level, A.

    Scope: Z 1 to 7, A 0 to 1500 m; outside it, OutsideScope. Below 100 m the formula is used as printed.
    Source: UK-NA-1991-1-3, NA.2.8 with the sign of corrigendum 1.

    Example:
        >>> ground_snow(3.0, 100.0), ground_snow(4.0, 310.0)
        (500.0, 1000.0)
    """
    if not 1.0 <= zone <= 7.0:
        raise OutsideScope("zone", value=zone, allowed="1 to 7", clause=CLAUSE)
    if not 0.0 <= altitude <= HIGHEST:
        raise OutsideScope("altitude", value=altitude, allowed="0 m to 1500 m", clause=CLAUSE)
    return 1000.0 * (0.15 + (0.1 * zone + 0.05) + (altitude - 100.0) / 525.0)
