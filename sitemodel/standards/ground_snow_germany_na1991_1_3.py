"""DIN EN 1991-1-3/NA: characteristic snow on the ground by the five zones of the map."""

from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Pascals

GermanZone = Literal["1", "1a", "2", "2a", "3"]
CLAUSE = "DIN-NA-1991-1-3, equations NA.1 to NA.3"
HIGHEST: Metres = 1500.0
RAISED = 1.25
"""Zones 1a and 2a over 1 and 2."""
_ZONES: dict[str, tuple[float, float, float]] = {
    "1": (0.65, 0.19, 0.91),
    "2": (0.85, 0.25, 1.91),
    "3": (1.10, 0.31, 2.91),
}
"""Least value, base and slope, kN/m2; DIN-NA-1991-1-3, equations NA.1 to NA.3 (transcribed)."""


def ground_snow(zone: str, altitude: Metres) -> Pascals:
    r"""Characteristic ground snow of a site in Germany.

    .. math:: s_k = \max(s_0, a + b ((A + 140)/760)^2) \text{ kN/m}^2

    Args:
        zone: of the snow map, 1, 1a, 2, 2a or 3.
        altitude: of the site above sea level, A.

    Scope: A 0 to 1500 m; outside it, OutsideScope. Parts of the Harz and of the northern plain have rules of their own.
    Source: DIN-NA-1991-1-3, equations NA.1 to NA.3.

    Example:
        >>> ground_snow("2", 400.0), ground_snow("3", 400.0), ground_snow("1a", 0.0)
        (1214.26, 1779.11, 812.5)
    """
    base = _ZONES.get(zone.removesuffix("a"))
    if base is None or zone == "3a" or zone.count("a") > 1:
        raise OutsideScope("zone", value=zone, allowed="1, 1a, 2, 2a, 3", clause=CLAUSE)
    if not 0.0 <= altitude <= HIGHEST:
        raise OutsideScope("altitude", value=altitude, allowed="0 m to 1500 m", clause=CLAUSE)
    least, start, slope = base
    found = max(least, start + slope * ((altitude + 140.0) / 760.0) ** 2)
    return 1000.0 * found * (RAISED if zone.endswith("a") else 1.0)
