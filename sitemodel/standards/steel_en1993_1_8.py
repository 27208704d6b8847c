"""EN 1993-1-8: bolts in tension and in shear."""

from sitemodel.errors import OutsideScope
from sitemodel.units import Newtons, Pascals, Ratio, SquareMetres

K2_BOLT: Ratio = 0.9
"""k_2 of Table 3.4 for heads that are not countersunk."""
K2_COUNTERSUNK: Ratio = 0.63
"""k_2 of Table 3.4 for countersunk heads (from memory)."""


def bolt_tension(strength: Pascals, stress_area: SquareMetres, gamma_m2: Ratio, *, k_2: Ratio = K2_BOLT) -> Newtons:
    r"""Design tension resistance of a bolt.

    .. math:: F_{t,Rd} = k_2 f_{ub} A_s / \gamma_{M2}

    Args:
        strength: f_ub.
        stress_area: A_s.
        gamma_m2: gamma_M2.
        k_2: 0.9, or 0.63 countersunk.

    Scope:
        All values positive.

    Source:
        EN1993-1-8, Table 3.4 (transcribed).

    Example:
        >>> bolt_tension(1000e6, 245e-6, 1.25)
        176400.
    """
    _positive(f_ub=strength, A_s=stress_area, gamma_M2=gamma_m2, k_2=k_2)
    return k_2 * strength * stress_area / gamma_m2


def bolt_shear(strength: Pascals, area: SquareMetres, gamma_m2: Ratio, alpha_v: Ratio) -> Newtons:
    r"""Design shear resistance of a bolt per shear plane.

    .. math:: F_{v,Rd} = \alpha_v f_{ub} A / \gamma_{M2}

    Args:
        strength: f_ub.
        area: A_s where the thread is in the plane, else the shank.
        gamma_m2: gamma_M2.
        alpha_v: 0.5 thread, 0.6 shank for stainless bolts.

    Scope:
        alpha_v up to 0.6.

    Source:
        EN1993-1-8, Table 3.4; alpha_v of stainless bolts from EN 1993-1-4 (from memory).

    Example:
        >>> bolt_shear(700e6, 20.1e-6, 1.25, 0.5)
        5628.
    """
    _positive(f_ub=strength, A=area, gamma_M2=gamma_m2, alpha_v=alpha_v)
    if alpha_v > 0.6:
        raise OutsideScope("alpha_v", value=alpha_v, allowed="up to 0.6", clause="EN1993-1-8, Table 3.4")
    return alpha_v * strength * area / gamma_m2


def tension_and_shear(tension: Ratio, shear: Ratio) -> Ratio:
    r"""Utilisation of a bolt under both.

    .. math:: F_{v,Ed}/F_{v,Rd} + F_{t,Ed}/(1.4 F_{t,Rd}) \le 1

    Args:
        tension: F_t,Ed / F_t,Rd.
        shear: F_v,Ed / F_v,Rd.

    Scope:
        Ratios of 0 and more; F_t,Ed <= F_t,Rd is checked beside it.

    Source:
        EN1993-1-8, Table 3.4 (from memory).

    Example:
        >>> tension_and_shear(0.7, 0.5)
        1.0
    """
    if not (tension >= 0.0 and shear >= 0.0):
        clause = "EN1993-1-8, Table 3.4"
        raise OutsideScope("ratio", value=min(tension, shear), allowed="0 and more", clause=clause)
    return shear + tension / 1.4


def _positive(**values: float) -> None:
    for name, value in values.items():
        if not value > 0.0:
            raise OutsideScope(name, value=value, allowed="above 0", clause="EN1993-1-8, Table 3.4")
