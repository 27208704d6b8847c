"""EN 1995-1-1, chapter 8: lateral resistance of dowel-type fasteners and their groups."""

from dataclasses import dataclass
from itertools import pairwise
from math import sqrt

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, NewtonMetres, Newtons, Pascals, Ratio

ROPE_SHARE_SCREW: Ratio = 1.0
"""8.2.2 (2): the rope effect of a screw counts up to the Johansen part itself (transcribed)."""
ROPE_SHARE_NAIL: Ratio = 0.15
"""8.2.2 (2), round nails (transcribed)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LateralResistance:
    """Characteristic resistance per shear plane: each failure mode by its letter, and the lowest."""

    modes: tuple[tuple[str, Newtons], ...]
    governing: str
    value: Newtons

    def mode(self, letter: str) -> Newtons:
        """The resistance of one mode."""
        return dict(self.modes)[letter]


def _lowest(modes: dict[str, float]) -> LateralResistance:
    governing = min(modes, key=lambda letter: modes[letter])
    return LateralResistance(modes=tuple(modes.items()), governing=governing, value=modes[governing])


def _positive(clause: str, **values: float) -> None:
    for name, value in values.items():
        if not value > 0.0:
            raise OutsideScope(name, value=value, allowed="above 0", clause=clause)


def _with_rope(johansen: Newtons, withdrawal: Newtons, share: Ratio) -> Newtons:
    return johansen + min(withdrawal / 4.0, share * johansen)


def single_shear(
    *,
    headside: Metres,
    pointside: Metres,
    diameter: Metres,
    embedment_headside: Pascals,
    embedment_pointside: Pascals,
    yield_moment: NewtonMetres,
    withdrawal: Newtons = 0.0,
    rope_share: Ratio = 0.0,
) -> LateralResistance:
    r"""Lateral resistance of one fastener between two timber or panel members, modes a to f.

    .. math:: F_{v,Rk} = \min(a, b, c, d, e, f), \quad
        f: 1.15 \sqrt{2\beta/(1+\beta)} \sqrt{2 M_{y,Rk} f_{h,1,k} d} + F_{ax,Rk}/4

    Args:
        headside: t_1, thickness of the member under the head.
        pointside: t_2, penetration into the other.
        diameter: d, of a screw d_ef.
        embedment_headside: f_h,1,k.
        embedment_pointside: f_h,2,k.
        yield_moment: M_y,Rk.
        withdrawal: F_ax,Rk; 0 where it has no value in the standard.
        rope_share: limit of the rope effect as a share of the Johansen part (8.2.2 (2)).

    Scope:
        Dimensions and strengths positive; penetration limits are checked by the caller.

    Source:
        EN1995-1-1, 8.2.2, equation 8.6 (transcribed).

    Example:
        >>> single_shear(headside=25e-3, pointside=15e-3, diameter=4.29e-3, embedment_headside=29.14e6,
        ...     embedment_pointside=30.75e6, yield_moment=7.937).governing
        'c'
    """
    t1, t2, d, f1, f2 = headside, pointside, diameter, embedment_headside, embedment_pointside
    _positive("EN1995-1-1, (8.6)", t_1=t1, t_2=t2, d=d, f_h_1=f1, f_h_2=f2, M_y=yield_moment)
    beta, tau = f2 / f1, t2 / t1
    root_c = sqrt(beta + 2 * beta**2 * (1 + tau + tau**2) + beta**3 * tau**2)
    root_d = sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * yield_moment / (f1 * d * t1**2))
    root_e = sqrt(2 * beta**2 * (1 + beta) + 4 * beta * (1 + 2 * beta) * yield_moment / (f1 * d * t2**2))
    johansen = {
        "c": f1 * t1 * d / (1 + beta) * (root_c - beta * (1 + tau)),
        "d": 1.05 * f1 * t1 * d / (2 + beta) * (root_d - beta),
        "e": 1.05 * f1 * t2 * d / (1 + 2 * beta) * (root_e - beta),
        "f": 1.15 * sqrt(2 * beta / (1 + beta)) * sqrt(2 * yield_moment * f1 * d),
    }
    rope = {letter: _with_rope(value, withdrawal, rope_share) for letter, value in johansen.items()}
    return _lowest({"a": f1 * t1 * d, "b": f2 * t2 * d, **rope})


def double_shear(
    *,
    outer: Metres,
    inner: Metres,
    diameter: Metres,
    embedment_outer: Pascals,
    embedment_inner: Pascals,
    yield_moment: NewtonMetres,
    withdrawal: Newtons = 0.0,
    rope_share: Ratio = 0.0,
) -> LateralResistance:
    r"""Lateral resistance per shear plane of one fastener through three members, modes g to k.

    .. math:: F_{v,Rk} = \min(f_{h,1,k} t_1 d;\ 0.5 f_{h,2,k} t_2 d;\ j;\ k)

    Args:
        outer: t_1, thickness or penetration of an outer member.
        inner: t_2, thickness of the middle member.
        diameter: d.
        embedment_outer: f_h,1,k.
        embedment_inner: f_h,2,k.
        yield_moment: M_y,Rk.
        withdrawal: F_ax,Rk.
        rope_share: limit of the rope effect.

    Scope:
        Dimensions and strengths positive; symmetric joint.

    Source:
        EN1995-1-1, 8.2.2, equation 8.7 (transcribed).

    Example:
        >>> double_shear(outer=36e-3, inner=48e-3, diameter=12e-3, embedment_outer=25.3e6,
        ...     embedment_inner=25.3e6, yield_moment=115.118).value
        6658.
    """
    t1, t2, d, f1, f2 = outer, inner, diameter, embedment_outer, embedment_inner
    _positive("EN1995-1-1, (8.7)", t_1=t1, t_2=t2, d=d, f_h_1=f1, f_h_2=f2, M_y=yield_moment)
    beta = f2 / f1
    root_j = sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * yield_moment / (f1 * d * t1**2))
    mode_j = 1.05 * f1 * t1 * d / (2 + beta) * (root_j - beta)
    mode_k = 1.15 * sqrt(2 * beta / (1 + beta)) * sqrt(2 * yield_moment * f1 * d)
    return _lowest(
        {
            "g": f1 * t1 * d,
            "h": 0.5 * f2 * t2 * d,
            "j": _with_rope(mode_j, withdrawal, rope_share),
            "k": _with_rope(mode_k, withdrawal, rope_share),
        }
    )


def effective_number_nails(number: int, spacing: Metres, diameter: Metres, *, predrilled: bool) -> Ratio:
    r"""Nails in a row along the grain that count.

    .. math:: n_{ef} = n^{k_{ef}}

    Args:
        number: n in the row.
        spacing: a_1.
        diameter: d.
        predrilled: whether the holes are.

    Scope:
        a_1 of at least 7 d, or 4 d in pre-drilled holes.

    Source:
        EN1995-1-1, 8.3.1.1 (8), equation 8.17 and Table 8.1 (transcribed).

    Example:
        >>> effective_number_nails(10, 24e-3, 3.4e-3, predrilled=False)
        5.046
    """
    ratio = spacing / diameter
    points = [(4.0, 0.5), (7.0, 0.7), (10.0, 0.85), (14.0, 1.0)]
    least = 4.0 if predrilled else 7.0
    if not ratio >= least:
        raise OutsideScope("a_1/d", value=ratio, allowed=f"{least:g} and more", clause="EN1995-1-1, Table 8.1")
    exponent = 1.0
    for (low, k_low), (high, k_high) in pairwise(points):
        if low <= ratio < high:
            exponent = k_low + (k_high - k_low) * (ratio - low) / (high - low)
    return float(number**exponent)


def effective_number_bolts(number: int, spacing: Metres, diameter: Metres, angle: Degrees = 0.0) -> Ratio:
    r"""Bolts in a row that count, between the grain direction and across it.

    .. math:: n_{ef,0} = \min(n;\ n^{0.9} \sqrt[4]{a_1/(13 d)}), \quad n_{ef,90} = n

    Args:
        number: n in the row.
        spacing: a_1.
        diameter: d.
        angle: alpha between force and grain, any angle; 120 degrees counts as 60.

    Scope:
        a_1 above 0; linear between 0 and 90 degrees.

    Source:
        EN1995-1-1, 8.5.1.1 (4), equations 8.34 and 8.35 (transcribed).

    Example:
        >>> effective_number_bolts(3, 60e-3, 10e-3, 120.0)
        2.738
    """
    _positive("EN1995-1-1, (8.34)", a_1=spacing, d=diameter)
    along: float = min(float(number), number**0.9 * (spacing / (13.0 * diameter)) ** 0.25)
    folded = angle % 180.0
    folded = min(folded, 180.0 - folded)
    return along + (number - along) * folded / 90.0
