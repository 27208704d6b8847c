"""EN 1995-1-1, chapter 8: axial resistance of screws, nails and bolts, and axial with lateral force."""

from math import cos, pi, radians, sin

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, KilogramsPerCubicMetre, Metres, Newtons, Pascals, Ratio, SquareMetres


def effective_number_axial(number: int) -> Ratio:
    r"""Screws pulled together that count.

    .. math:: n_{ef} = n^{0.9}

    Args:
        number: n screws acting together.

    Scope:
        One screw or more.

    Source:
        EN1995-1-1, 8.7.2 (8), equation 8.41 (transcribed).

    Example:
        >>> effective_number_axial(6)
        5.016
    """
    if number < 1:
        raise OutsideScope("n", value=number, allowed="1 and more", clause="EN1995-1-1, (8.41)")
    return float(number**0.9)


def screw_withdrawal(
    *,
    diameter: Metres,
    root_diameter: Metres,
    penetration: Metres,
    density: KilogramsPerCubicMetre,
    angle: Degrees = 90.0,
    number: int = 1,
) -> Newtons:
    r"""Withdrawal of screws of the standard's own geometry from softwood.

    .. math:: F_{ax,\alpha,Rk} = \frac{n_{ef} f_{ax,k} d\, l_{ef} k_d}{1.2\cos^2\alpha + \sin^2\alpha}, \quad
        f_{ax,k} = 0.52\, d^{-0.5} l_{ef}^{-0.1} \rho_k^{0.8}, \quad k_d = \min(d/8; 1)

    Args:
        diameter: d, outer thread.
        root_diameter: d_1.
        penetration: l_ef, threaded length on the point side.
        density: rho_k.
        angle: alpha between screw axis and grain.
        number: n.

    Scope:
        6 <= d <= 12 mm, 0.6 <= d_1/d <= 0.75, l_ef >= 6 d, alpha >= 30 degrees. A sip skin is never inside it.

    Source:
        EN1995-1-1, 8.7.2, equations 8.38 to 8.40 (transcribed).

    Example:
        >>> screw_withdrawal(diameter=8e-3, root_diameter=5.4e-3, penetration=80e-3, density=350.0)
        8234.
    """
    d, length = diameter * 1e3, penetration * 1e3
    if not 6.0 <= d <= 12.0:
        raise OutsideScope("d", value=d, allowed="6 to 12 mm", clause="EN1995-1-1, 8.7.2 (4)")
    if not 0.6 <= root_diameter / diameter <= 0.75:
        ratio = root_diameter / diameter
        raise OutsideScope("d_1/d", value=ratio, allowed="0.6 to 0.75", clause="EN1995-1-1, 8.7.2 (4)")
    if not length >= 6.0 * d - 1e-9:
        raise OutsideScope("l_ef", value=length, allowed="6 d and more", clause="EN1995-1-1, 8.7.2 (3)")
    if not 30.0 <= angle <= 90.0:
        raise OutsideScope("alpha", value=angle, allowed="30 to 90 degrees", clause="EN1995-1-1, 8.7.2 (4)")
    f_ax = 0.52 * d**-0.5 * length**-0.1 * density**0.8
    slant = 1.2 * cos(radians(angle)) ** 2 + sin(radians(angle)) ** 2
    return float(effective_number_axial(number) * f_ax * d * length * min(d / 8.0, 1.0) / slant)


def declared_withdrawal(
    withdrawal_parameter: Pascals,
    diameter: Metres,
    threaded_length: Metres,
    density_ratio: Ratio = 1.0,
    number: int = 1,
) -> Newtons:
    r"""Withdrawal square to the face of screws with a declared or tested parameter.

    .. math:: F_{ax,Rk} = n_{ef} f_{ax,k} d\, l_{ef} (\rho_k / \rho_a)^{0.8}

    Args:
        withdrawal_parameter: f_ax,k at the density rho_a.
        diameter: d.
        threaded_length: l_ef, thread inside the member.
        density_ratio: rho_k / rho_a.
        number: n.

    Scope:
        All values positive. The limit l_ef >= 6 d is the caller's: in a sip skin the result is indicative.

    Source:
        EN1995-1-1, 8.7.2, equation 8.40a (transcribed).

    Example:
        >>> declared_withdrawal(8e6, 6e-3, 15e-3)
        720.
    """
    for name, value in (("f_ax", withdrawal_parameter), ("d", diameter), ("l_ef", threaded_length)):
        if not value > 0.0:
            raise OutsideScope(name, value=value, allowed="above 0", clause="EN1995-1-1, (8.40a)")
    single = withdrawal_parameter * diameter * threaded_length * density_ratio**0.8
    return float(effective_number_axial(number) * single)


def head_pull_through(
    parameter: Pascals, head_diameter: Metres, density_ratio: Ratio = 1.0, number: int = 1
) -> Newtons:
    r"""Pull-through of screw heads with a declared parameter.

    .. math:: F_{ax,Rk} = n_{ef} f_{head,k} d_h^2 (\rho_k / \rho_a)^{0.8}

    Args:
        parameter: f_head,k at the density rho_a.
        head_diameter: d_h.
        density_ratio: rho_k / rho_a.
        number: n.

    Scope:
        All values positive.

    Source:
        EN1995-1-1, 8.7.2, equation 8.40b (transcribed).

    Example:
        >>> head_pull_through(10e6, 12e-3)
        1440.
    """
    if not (parameter > 0.0 and head_diameter > 0.0 and density_ratio > 0.0):
        lowest = min(parameter, head_diameter, density_ratio)
        raise OutsideScope("f_head, d_h or density", value=lowest, allowed="above 0", clause="EN1995-1-1, (8.40b)")
    return float(effective_number_axial(number) * parameter * head_diameter**2 * density_ratio**0.8)


def washer_bearing(bearing_strength: Pascals, area: SquareMetres) -> Newtons:
    r"""Bearing of a washer or bolt head on the wood under it.

    .. math:: F_{ax,Rk} = 3.0 f_{c,90,k} A

    Args:
        bearing_strength: f_c,90,k.
        area: net area under the washer or head.

    Scope:
        Timber; for panel faces the standard gives no f_c,90.

    Source:
        EN1995-1-1, 8.5.2 (2) (transcribed).

    Example:
        >>> washer_bearing(2.5e6, ring_area(48e-3, 13e-3))
        12576.
    """
    if not (bearing_strength > 0.0 and area > 0.0):
        lowest = min(bearing_strength, area)
        raise OutsideScope("f_c,90 or area", value=lowest, allowed="above 0", clause="EN1995-1-1, 8.5.2 (2)")
    return 3.0 * bearing_strength * area


def ring_area(outer: Metres, hole: Metres) -> SquareMetres:
    r"""Area of a washer or head less its hole.

    .. math:: A = \pi (D^2 - d_0^2) / 4

    Args:
        outer: D.
        hole: d_0.

    Scope:
        0 <= d_0 < D.

    Source:
        EN1995-1-1, 8.5.2 (transcribed).

    Example:
        >>> ring_area(18e-3, 6.6e-3) * 1e6
        220.3
    """
    if not 0.0 <= hole < outer:
        raise OutsideScope("hole", value=hole, allowed="from 0 to below D", clause="EN1995-1-1, 8.5.2")
    return pi / 4.0 * (outer**2 - hole**2)


def nail_withdrawal_parameters(density: KilogramsPerCubicMetre) -> tuple[Pascals, Pascals]:
    r"""Withdrawal and pull-through parameter of smooth nails.

    .. math:: f_{ax,k} = 20 \cdot 10^{-6} \rho_k^2, \quad f_{head,k} = 70 \cdot 10^{-6} \rho_k^2

    Args:
        density: rho_k.

    Scope:
        Smooth nails with a penetration of at least 12 d.

    Source:
        EN1995-1-1, 8.3.2, equations 8.25 and 8.26 (transcribed).

    Example:
        >>> nail_withdrawal_parameters(350.0)[1] / 1e6
        8.575
    """
    return 1e6 * 20e-6 * density**2, 1e6 * 70e-6 * density**2


def nail_penetration_factor(penetration: Metres, diameter: Metres, *, smooth: bool) -> Ratio:
    r"""Reduction of the withdrawal of a nail for a short penetration; zero below the least.

    .. math:: t_{pen}/(4 d) - 2 \ (smooth, 8 d\ to\ 12 d), \quad t_{pen}/(2 d) - 3 \ (other, 6 d\ to\ 8 d)

    Args:
        penetration: t_pen on the point side.
        diameter: d.
        smooth: smooth nails; else the other nails.

    Scope:
        Nails of positive diameter.

    Source:
        EN1995-1-1, 8.3.2 (7) (transcribed).

    Example:
        >>> nail_penetration_factor(25e-3, 3.4e-3, smooth=True)
        0.0
    """
    if not diameter > 0.0:
        raise OutsideScope("d", value=diameter, allowed="above 0", clause="EN1995-1-1, 8.3.2 (7)")
    ratio = penetration / diameter
    factor = ratio / 4.0 - 2.0 if smooth else ratio / 2.0 - 3.0
    least = 8.0 if smooth else 6.0
    return 0.0 if ratio < least else min(factor, 1.0)


def axial_and_lateral(axial: Ratio, lateral: Ratio, *, smooth_nail: bool = False) -> Ratio:
    r"""Utilisation of a fastener under both forces.

    .. math:: (F_{ax,Ed}/F_{ax,Rd})^2 + (F_{v,Ed}/F_{v,Rd})^2 \le 1

    Args:
        axial: F_ax,Ed / F_ax,Rd.
        lateral: F_v,Ed / F_v,Rd.
        smooth_nail: linear sum instead of squares (8.27).

    Scope:
        Ratios of 0 and more.

    Source:
        EN1995-1-1, 8.3.3, equations 8.27 and 8.28 (transcribed).

    Example:
        >>> axial_and_lateral(0.6, 0.8)
        1.0
    """
    if not (axial >= 0.0 and lateral >= 0.0):
        raise OutsideScope("ratio", value=min(axial, lateral), allowed="0 and more", clause="EN1995-1-1, (8.28)")
    return axial + lateral if smooth_nail else axial**2 + lateral**2
