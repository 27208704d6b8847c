"""National Design Specification 2018: withdrawal, pull-through and the yield equations of a single shear plane.

The printed formulas are in inches, pounds and psi; arguments and answers here are SI. Allowable-stress
reference values, before any adjustment factor.
"""

from dataclasses import dataclass
from math import pi, sqrt

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Newtons, NewtonsPerMetre, Pascals, Ratio

INCH: float = 0.0254
"""Metres, exact."""
POUND: float = 4.4482216152605
"""Newtons, exact."""
PSI: float = POUND / INCH**2
"""Pascals."""


def _gravity(specific_gravity: Ratio) -> None:
    if not 0.31 <= specific_gravity <= 0.73:
        clause = "NDS2018, Tables 12.2A to 12.2C"
        raise OutsideScope("G", value=specific_gravity, allowed="0.31 to 0.73", clause=clause)


def wood_screw_withdrawal(specific_gravity: Ratio, diameter: Metres) -> NewtonsPerMetre:
    r"""Reference withdrawal of a wood screw per length of thread in side grain.

    .. math:: W = 2850\, G^2 D

    Args:
        specific_gravity: G, oven dry.
        diameter: D, nominal.

    Scope:
        0.31 <= G <= 0.73; side grain.

    Source:
        NDS2018, 12.2-2 (transcribed).

    Example:
        >>> wood_screw_withdrawal(0.40, 6e-3) * 15e-3
        283.0
    """
    _gravity(specific_gravity)
    return 2850.0 * specific_gravity**2 * (diameter / INCH) * POUND / INCH


def lag_screw_withdrawal(specific_gravity: Ratio, diameter: Metres) -> NewtonsPerMetre:
    r"""Reference withdrawal of a lag screw per length of thread without tip.

    .. math:: W = 1800\, G^{3/2} D^{3/4}

    Args:
        specific_gravity: G.
        diameter: D, nominal.

    Scope:
        0.31 <= G <= 0.73; side grain.

    Source:
        NDS2018, 12.2-1 (transcribed).

    Example:
        >>> lag_screw_withdrawal(0.50, 0.5 * INCH) / POUND * INCH
        378.
    """
    _gravity(specific_gravity)
    return float(1800.0 * specific_gravity**1.5 * (diameter / INCH) ** 0.75 * POUND / INCH)


def nail_withdrawal(specific_gravity: Ratio, diameter: Metres) -> NewtonsPerMetre:
    r"""Reference withdrawal of a plain nail per length in the main member.

    .. math:: W = 1380\, G^{5/2} D

    Args:
        specific_gravity: G.
        diameter: D.

    Scope:
        0.31 <= G <= 0.73; side grain.

    Source:
        NDS2018, 12.2-3 (transcribed).

    Example:
        >>> nail_withdrawal(0.50, 0.131 * INCH) / POUND * INCH
        32.
    """
    _gravity(specific_gravity)
    return float(1380.0 * specific_gravity**2.5 * (diameter / INCH) * POUND / INCH)


def head_pull_through(specific_gravity: Ratio, head: Metres, thickness: Metres) -> Newtons:
    r"""Reference pull-through of a round head.

    .. math:: W_H = 690 \pi D_H G^2 t_{ns} \ (t_{ns} \le 2.5 D_H), \quad 1725 \pi D_H^2 G^2 \ (beyond)

    Args:
        specific_gravity: G of the side member.
        head: D_H.
        thickness: t_ns of the side member.

    Scope:
        0.31 <= G <= 0.73.

    Source:
        NDS2018, 12.2-6a and 12.2-6b (transcribed).

    Example:
        >>> head_pull_through(0.50, 0.234 * INCH, 0.3125 * INCH) / POUND
        39.63
    """
    _gravity(specific_gravity)
    d_h, t = head / INCH, min(thickness, 2.5 * head) / INCH
    return 690.0 * pi * d_h * specific_gravity**2 * t * POUND


def bearing_strength(specific_gravity: Ratio) -> Pascals:
    r"""Dowel bearing strength of wood under a fastener below a quarter inch.

    .. math:: F_e = 16600\, G^{1.84}

    Args:
        specific_gravity: G.

    Scope:
        D < 1/4 in; 0.31 <= G <= 0.73. Rounded to 50 psi as the printed table is.

    Source:
        NDS2018, Table 12.3.3 (transcribed).

    Example:
        >>> bearing_strength(0.50) / PSI
        4650.
    """
    _gravity(specific_gravity)
    return float(round(16600.0 * specific_gravity**1.84 / 50.0) * 50.0 * PSI)


def bearing_strength_bolt(specific_gravity: Ratio, diameter: Metres, *, parallel: bool) -> Pascals:
    r"""Dowel bearing strength of wood under a fastener of a quarter inch and more.

    .. math:: F_{e\parallel} = 11200\, G, \quad F_{e\perp} = 6100\, G^{1.45} / \sqrt{D}

    Args:
        specific_gravity: G.
        diameter: D, nominal.
        parallel: load along the grain, else across it.

    Scope:
        D of 1/4 in and more. Rounded to 50 psi as the printed table is.

    Source:
        NDS2018, Table 12.3.3 (transcribed).

    Example:
        >>> bearing_strength_bolt(0.50, 0.25 * INCH, parallel=False) / PSI
        4450.
    """
    _gravity(specific_gravity)
    d = diameter / INCH
    if d < 0.25 - 1e-12:
        raise OutsideScope("D", value=d, allowed="0.25 in and more", clause="NDS2018, Table 12.3.3")
    value = 11200.0 * specific_gravity if parallel else 6100.0 * specific_gravity**1.45 / sqrt(d)
    return round(value / 50.0) * 50.0 * PSI


def k_d(diameter: Metres) -> Ratio:
    r"""Reduction term of the yield equations for small fasteners.

    .. math:: K_D = 2.2 \ (D \le 0.17), \quad 10 D + 0.5 \ (0.17 < D < 0.25)

    Args:
        diameter: D of the yield equations: of a wood screw or lag the root diameter.

    Scope:
        0 < D < 0.25 in.

    Source:
        NDS2018, Table 12.3.1B and its footnote 1 (transcribed).

    Example:
        >>> k_d(0.173 * INCH)
        2.23
    """
    d = diameter / INCH
    if not 0.0 < d < 0.25:
        raise OutsideScope("D", value=d, allowed="above 0, below 0.25 in", clause="NDS2018, Table 12.3.1B")
    return 2.2 if d <= 0.17 else 10.0 * d + 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class YieldModes:
    """Reference lateral value of one shear plane by mode (12.3-1 to 12.3-6), and the coefficients."""

    modes: tuple[tuple[str, Newtons], ...]
    k_1: Ratio
    k_2: Ratio
    k_3: Ratio
    governing: str
    value: Newtons

    def mode(self, name: str) -> Newtons:
        """The value of one mode."""
        return dict(self.modes)[name]


def single_shear(
    *,
    main: Metres,
    side: Metres,
    diameter: Metres,
    bearing_main: Pascals,
    bearing_side: Pascals,
    bending_yield: Pascals,
    reduction: tuple[Ratio, Ratio, Ratio],
) -> YieldModes:
    r"""Reference lateral value of one fastener in single shear.

    .. math:: Z = \min\left(\frac{D l_m F_{em}}{R_d}, \frac{D l_s F_{es}}{R_d}, II, III_m, III_s,
        \frac{D^2}{R_d} \sqrt{\frac{2 F_{em} F_{yb}}{3 (1 + R_e)}}\right)

    Args:
        main: l_m, bearing length in the main member.
        side: l_s, in the side member.
        diameter: D; of a threaded wood screw or lag the root diameter.
        bearing_main: F_em.
        bearing_side: F_es.
        bending_yield: F_yb.
        reduction: R_d of modes I, of mode II, of modes III and IV.

    Scope:
        All values positive.

    Source:
        NDS2018, Table 12.3.1A (transcribed; k_2 with 1 + 2 R_e).

    Example:
        >>> single_shear(main=1.71 * INCH, side=0.5 * INCH, diameter=0.152 * INCH, bearing_main=4650 * PSI,
        ...     bearing_side=4650 * PSI, bending_yield=80000 * PSI, reduction=(2.2, 2.2, 2.2)).value / POUND
        89.93
    """
    d, lm, ls = diameter / INCH, main / INCH, side / INCH
    fm, fs, fy = bearing_main / PSI, bearing_side / PSI, bending_yield / PSI
    for name, value in (("D", d), ("l_m", lm), ("l_s", ls), ("F_em", fm), ("F_es", fs), ("F_yb", fy)):
        if not value > 0.0:
            raise OutsideScope(name, value=value, allowed="above 0", clause="NDS2018, Table 12.3.1A")
    r_1, r_2, r_3 = reduction
    re, rt = fm / fs, lm / ls
    k_1 = (sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3) - re * (1 + rt)) / (1 + re)
    k_2 = -1 + sqrt(2 * (1 + re) + 2 * fy * (1 + 2 * re) * d**2 / (3 * fm * lm**2))
    k_3 = -1 + sqrt(2 * (1 + re) / re + 2 * fy * (2 + re) * d**2 / (3 * fm * ls**2))
    modes = {
        "Im": d * lm * fm / r_1,
        "Is": d * ls * fs / r_1,
        "II": k_1 * d * ls * fs / r_2,
        "IIIm": k_2 * d * lm * fm / ((1 + 2 * re) * r_3),
        "IIIs": k_3 * d * ls * fm / ((2 + re) * r_3),
        "IV": d**2 / r_3 * sqrt(2 * fm * fy / (3 * (1 + re))),
    }
    newtons = {name: value * POUND for name, value in modes.items()}
    governing = min(newtons, key=lambda name: newtons[name])
    return YieldModes(
        modes=tuple(newtons.items()), k_1=k_1, k_2=k_2, k_3=k_3, governing=governing, value=newtons[governing]
    )
