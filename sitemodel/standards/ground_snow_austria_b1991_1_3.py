"""ÖNORM B 1991-1-3:2006 and 2018: characteristic snow on the ground; since 2022 a map of cells holds in its place."""

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Pascals

CLAUSE = "OENORM-B1991-1-3, annex A"
HIGHEST: Metres = 1500.0


def ground_snow(zone: float, altitude: Metres) -> Pascals:
    r"""Characteristic ground snow of a site in Austria by the edition of 2006.

    .. math:: s_k = (0.642 z + 0.009) (1 + (A/728)^2) \text{ kN/m}^2

    Args:
        zone: number of the zone, z: 1.6 for zone 2*, else the number itself (from memory).
        altitude: of the site above sea level, A.

    Scope: z 1 to 4.5, A 0 to 1500 m; outside it, OutsideScope. Superseded in 2022.
    Source: OENORM-B1991-1-3, annex A.

    Example:
        >>> ground_snow(2.0, 170.0)
        1363.51
    """
    if not 1.0 <= zone <= 4.5:
        raise OutsideScope("zone", value=zone, allowed="1 to 4.5", clause=CLAUSE)
    if not 0.0 <= altitude <= HIGHEST:
        raise OutsideScope("altitude", value=altitude, allowed="0 m to 1500 m", clause=CLAUSE)
    return 1000.0 * (0.642 * zone + 0.009) * (1.0 + (altitude / 728.0) ** 2)
