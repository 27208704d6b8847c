"""EN 1991-1-4 section 7.2.9 and walls beside an eaves: pressure on the sip itself from inside and below."""

import math

from sitemodel.errors import OutsideScope
from sitemodel.units import Ratio

UNKNOWN: tuple[Ratio, Ratio] = (0.2, -0.3)
"""Both are looked at where openings are not known, 7.2.9 (6), note 2."""


def internal_coefficient(opening_ratio: Ratio, slenderness: Ratio) -> Ratio:
    r"""Internal pressure coefficient of a building without a dominant face.

    .. math:: \mu = \frac{\text{openings where } c_{pe} \le 0}{\text{all openings}}

    Args:
        opening_ratio: :math:`\mu`.
        slenderness: height over depth, :math:`h/d`.

    Scope: mu 0 to 1, h/d 0 or more; outside it, OutsideScope. Straight from 0.33 to 0.90 (h/d <= 0.25) or 0.95
        (h/d >= 1), level beyond, linear in h/d between.
    Source: EN1991-1-4, Figure 7.13 (from memory, one transcription agrees).

    Example:
        >>> internal_coefficient(0.33, 0.5), internal_coefficient(0.95, 0.2), internal_coefficient(1.0, 1.0)
        (0.35, -0.3, -0.5)
    """
    clause = "EN1991-1-4, Figure 7.13"
    if not 0.0 <= opening_ratio <= 1.0:
        raise OutsideScope("mu", value=opening_ratio, allowed="0 to 1", clause=clause)
    if not (slenderness >= 0.0 and math.isfinite(slenderness)):
        raise OutsideScope("h/d", value=slenderness, allowed="0 or more", clause=clause)

    def line(end: float, lowest: float) -> float:
        share = min(max((opening_ratio - 0.33) / (end - 0.33), 0.0), 1.0)
        return 0.35 + (lowest - 0.35) * share

    squat, tall = line(0.90, -0.3), line(0.95, -0.5)
    share = min(max((slenderness - 0.25) / 0.75, 0.0), 1.0)
    return squat + (tall - squat) * share


def internal_coefficient_dominant(external: Ratio, times_others: Ratio) -> Ratio:
    r"""Internal pressure coefficient where one face has most of the openings.

    .. math:: c_{pi} = 0.75 c_{pe} \;(\ge 2 \text{ times the rest}), \qquad 0.90 c_{pe} \;(\ge 3 \text{ times})

    Args:
        external: :math:`c_{pe}` at the openings of that face.
        times_others: openings of that face over those of the rest.

    Scope: a face with at least twice the openings of the rest; outside it, OutsideScope. Linear between 2 and 3.
    Source: EN1991-1-4, 7.2.9 (5) (from memory).

    Example:
        >>> internal_coefficient_dominant(0.8, 2.0), internal_coefficient_dominant(0.8, 3.0)
        (0.6, 0.72)
    """
    if not times_others >= 2.0:
        raise OutsideScope("ratio", value=times_others, allowed="2 or more", clause="EN1991-1-4, 7.2.9 (5)")
    return (0.75 + 0.15 * min(times_others - 2.0, 1.0)) * external


def net_on_sip(external: Ratio, internal: Ratio) -> Ratio:
    r"""Net coefficient on the sip: what acts above less what acts below.

    .. math:: c_{p,net} = c_{pe} - c_{pi}

    Args:
        external: :math:`c_{pe}`.
        internal: :math:`c_{pi}`.

    Scope: a closed roof without panels or under them; never a panel, under which the room's air does not act.
    Source: EN1991-1-4, 5.2 (3).

    Example:
        >>> net_on_sip(-1.5, 0.2), net_on_sip(0.7, -0.3)
        (-1.7, 1.0)
    """
    for name, value in (("c_pe", external), ("c_pi", internal)):
        if not math.isfinite(value):
            raise OutsideScope(name, value=value, allowed="a finite coefficient", clause="EN1991-1-4, 5.2 (3)")
    return external - internal


def overhang_underside(slenderness: Ratio) -> Ratio:
    r"""Pressure under an eaves overhang: that of the wall it stands out from, wind square on to it.

    .. math:: c_{pe,1}(D) = 1.0, \qquad \text{zone D of the wall}

    Args:
        slenderness: height over depth of the building, :math:`h/d`.

    Scope: h/d 0 or more; outside it, OutsideScope. The small-area value is 1.0 for every h/d.
    Source: EN1991-1-4, 7.2.1 (3) and Table 7.1, zone D (from memory).

    Example:
        >>> overhang_underside(0.5)
        1.0
    """
    if not (slenderness >= 0.0 and math.isfinite(slenderness)):
        raise OutsideScope("h/d", value=slenderness, allowed="0 or more", clause="EN1991-1-4, Table 7.1")
    return 1.0
