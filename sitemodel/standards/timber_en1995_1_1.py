"""EN 1995-1-1: strength modification, creep, design values, embedment and yield moments.

Axial resistance stands in ``timber_axial_en1995_1_1``, lateral resistance in ``timber_lateral_en1995_1_1``.
"""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from math import cos, radians, sin, sqrt
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, KilogramsPerCubicMetre, Metres, NewtonMetres, Newtons, Pascals, Ratio

Material = Literal["solid timber", "plywood", "OSB/2", "OSB/3", "OSB/4"]
LoadDuration = Literal["permanent", "long", "medium", "short", "instantaneous"]
DURATIONS: tuple[LoadDuration, ...] = ("permanent", "long", "medium", "short", "instantaneous")


@cache
def _rows(table: str) -> Mapping[tuple[str, int], Mapping[str, str]]:
    text = files("sitemodel.standards").joinpath("tables", table).read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return {(row["material"], int(row["service_class"])): row for row in rows}


def _row(table: str, material: str, service_class: int, clause: str) -> Mapping[str, str]:
    rows = _rows(table)
    if (material, service_class) not in rows:
        allowed = ", ".join(f"{name} in class {number}" for name, number in rows)
        given = f"{material} in class {service_class}"
        raise OutsideScope("material and service class", value=given, allowed=allowed, clause=clause)
    return rows[material, service_class]


def k_mod(material: Material, service_class: int, duration: LoadDuration) -> Ratio:
    r"""Strength modification factor for the duration of the load and the moisture of the member.

    .. math:: k_{mod}

    Args:
        material: the material of the member.
        service_class: 1, 2 or 3.
        duration: class of the shortest action of the combination.

    Scope:
        OSB/2 in service class 1 only; OSB/3 and OSB/4 in classes 1 and 2.

    Source:
        EN1995-1-1, Table 3.1 (transcribed).

    Example:
        >>> k_mod("OSB/3", 2, "instantaneous")
        0.90
    """
    if duration not in DURATIONS:
        raise OutsideScope("duration", value=duration, allowed=", ".join(DURATIONS), clause="EN1995-1-1, Table 3.1")
    return float(_row("timber_k_mod.csv", material, service_class, "EN1995-1-1, Table 3.1")[duration])


def k_mod_of_two(first: Ratio, second: Ratio) -> Ratio:
    r"""Strength modification factor of a connection between two materials.

    .. math:: k_{mod} = \sqrt{k_{mod,1} k_{mod,2}}

    Args:
        first: k_mod,1.
        second: k_mod,2.

    Scope:
        Both factors positive.

    Source:
        EN1995-1-1, 2.3.2.1 (2), equation 2.6 (from memory).

    Example:
        >>> k_mod_of_two(0.90, 1.10)
        0.995
    """
    if not (first > 0.0 and second > 0.0):
        raise OutsideScope("k_mod", value=min(first, second), allowed="above 0", clause="EN1995-1-1, (2.6)")
    return sqrt(first * second)


def k_def(material: Material, service_class: int) -> Ratio:
    r"""Deformation factor for creep.

    .. math:: k_{def}

    Args:
        material: the material of the member.
        service_class: 1, 2 or 3.

    Scope:
        As Table 3.2; OSB/2 in service class 1 only, OSB/3 and OSB/4 in classes 1 and 2.

    Source:
        EN1995-1-1, Table 3.2 (transcribed; plywood and OSB/2 from memory).

    Example:
        >>> k_def("OSB/3", 2)
        2.25
    """
    return float(_row("timber_k_def.csv", material, service_class, "EN1995-1-1, Table 3.2")["k_def"])


def design_value(characteristic: float, modification: Ratio, gamma_m: Ratio) -> float:
    r"""Design value of a strength or resistance.

    .. math:: X_d = k_{mod} X_k / \gamma_M

    Args:
        characteristic: X_k, in any unit.
        modification: k_mod.
        gamma_m: gamma_M.

    Scope:
        gamma_M of 1 and more.

    Source:
        EN1995-1-1, 2.4.3, equation 2.17 (transcribed).

    Example:
        >>> design_value(720.0, 0.90, 1.3)
        498.46
    """
    if not gamma_m >= 1.0:
        raise OutsideScope("gamma_M", value=gamma_m, allowed="1 and more", clause="EN1995-1-1, (2.17)")
    return modification * characteristic / gamma_m


def embedment_nail_timber(diameter: Metres, density: KilogramsPerCubicMetre, *, predrilled: bool = False) -> Pascals:
    r"""Embedment strength of timber under a nail or thin screw.

    .. math:: f_{h,k} = 0.082 \rho_k d^{-0.3} \quad or \quad 0.082 (1 - 0.01 d) \rho_k

    Args:
        diameter: d.
        density: rho_k.
        predrilled: second form.

    Scope:
        d up to 8 mm.

    Source:
        EN1995-1-1, 8.3.1.1, equations 8.15 and 8.16 (transcribed).

    Example:
        >>> embedment_nail_timber(3.4e-3, 350.0) / 1e6
        19.88
    """
    d = _diameter(diameter, 8.0, "EN1995-1-1, (8.15)")
    return float(1e6 * 0.082 * density * ((1.0 - 0.01 * d) if predrilled else d**-0.3))


def embedment_nail_plywood(diameter: Metres, density: KilogramsPerCubicMetre) -> Pascals:
    r"""Embedment strength of plywood under a nail or thin screw whose head is at least 2 d wide.

    .. math:: f_{h,k} = 0.11 \rho_k d^{-0.3}

    Args:
        diameter: d.
        density: rho_k of the plywood.

    Scope:
        d up to 8 mm.

    Source:
        EN1995-1-1, 8.3.1.3, equation 8.20 (from memory).

    Example:
        >>> embedment_nail_plywood(6e-3, 630.0) / 1e6
        40.5
    """
    d = _diameter(diameter, 8.0, "EN1995-1-1, (8.20)")
    return float(1e6 * 0.11 * density * d**-0.3)


def embedment_nail_osb(diameter: Metres, thickness: Metres) -> Pascals:
    r"""Embedment strength of OSB or particleboard under a nail or thin screw.

    .. math:: f_{h,k} = 65 d^{-0.7} t^{0.1}

    Args:
        diameter: d.
        thickness: t of the board.

    Scope:
        d up to 8 mm. Bolts and pre-drilled nails have another form (8.37).

    Source:
        EN1995-1-1, 8.3.1.3, equation 8.22 (transcribed).

    Example:
        >>> embedment_nail_osb(6e-3, 15e-3) / 1e6
        24.3
    """
    d = _diameter(diameter, 8.0, "EN1995-1-1, (8.22)")
    if not thickness > 0.0:
        raise OutsideScope("thickness", value=thickness, allowed="above 0", clause="EN1995-1-1, (8.22)")
    return float(1e6 * 65.0 * d**-0.7 * (thickness * 1e3) ** 0.1)


def embedment_bolt_osb(diameter: Metres, thickness: Metres) -> Pascals:
    r"""Embedment strength of OSB or particleboard under a bolt, at any angle.

    .. math:: f_{h,k} = 50 d^{-0.6} t^{0.2}

    Args:
        diameter: d.
        thickness: t of the board.

    Scope:
        d up to 30 mm.

    Source:
        EN1995-1-1, 8.5.1.2, equation 8.37 (from memory).

    Example:
        >>> embedment_bolt_osb(6e-3, 15e-3) / 1e6
        29.3
    """
    d = _diameter(diameter, 30.0, "EN1995-1-1, (8.37)")
    if not thickness > 0.0:
        raise OutsideScope("thickness", value=thickness, allowed="above 0", clause="EN1995-1-1, (8.37)")
    return float(1e6 * 50.0 * d**-0.6 * (thickness * 1e3) ** 0.2)


def embedment_bolt_softwood(diameter: Metres, density: KilogramsPerCubicMetre, angle: Degrees = 0.0) -> Pascals:
    r"""Embedment strength of softwood under a bolt or dowel at an angle to the grain.

    .. math:: f_{h,\alpha,k} = \frac{0.082 (1 - 0.01 d) \rho_k}{k_{90} \sin^2\alpha + \cos^2\alpha},
        \quad k_{90} = 1.35 + 0.015 d

    Args:
        diameter: d.
        density: rho_k.
        angle: alpha between load and grain.

    Scope:
        d up to 30 mm.

    Source:
        EN1995-1-1, 8.5.1.1, equations 8.31 to 8.33 (transcribed).

    Example:
        >>> embedment_bolt_softwood(12e-3, 350.0) / 1e6
        25.3
    """
    d = _diameter(diameter, 30.0, "EN1995-1-1, (8.31)")
    k_90 = 1.35 + 0.015 * d
    share = k_90 * sin(radians(angle)) ** 2 + cos(radians(angle)) ** 2
    return 1e6 * 0.082 * (1.0 - 0.01 * d) * density / share


def yield_moment(diameter: Metres, tensile_strength: Pascals) -> NewtonMetres:
    r"""Yield moment of a round nail, bolt, dowel or (with d_ef) screw.

    .. math:: M_{y,Rk} = 0.3 f_{u,k} d^{2.6}

    Args:
        diameter: d, or d_ef = 1.1 root diameter of a screw.
        tensile_strength: f_u,k.

    Scope:
        d up to 30 mm; nails with f_u of at least 600 N/mm2 (bolts and dowels without that limit).

    Source:
        EN1995-1-1, 8.3.1.1 (8.14) and 8.5.1.1 (8.30) (transcribed).

    Example:
        >>> yield_moment(12e-3, 600e6)
        115.118
    """
    d = _diameter(diameter, 30.0, "EN1995-1-1, (8.30)")
    return float(0.3 * (tensile_strength * 1e-6) * d**2.6 * 1e-3)


def effective_diameter(root_diameter: Metres) -> Metres:
    r"""Diameter of a screw whose thread passes through the shear plane.

    .. math:: d_{ef} = 1.1 d_1

    Args:
        root_diameter: d_1 under the thread.

    Scope:
        Threaded part in the shear plane.

    Source:
        EN1995-1-1, 8.7.1 (3) (transcribed).

    Example:
        >>> effective_diameter(4.0e-3) * 1e3
        4.4
    """
    return 1.1 * root_diameter


def splitting_resistance(width: Metres, loaded_edge: Metres, depth: Metres) -> Newtons:
    r"""Splitting of a softwood member by a force across the grain, without a plate.

    .. math:: F_{90,Rk} = 14 b \sqrt{h_e / (1 - h_e / h)}

    Args:
        width: b.
        loaded_edge: h_e, loaded edge to the farthest fastener.
        depth: h.

    Scope:
        0 < h_e < h, softwood.

    Source:
        EN1995-1-1, 8.1.4, equation 8.4 (transcribed).

    Example:
        >>> splitting_resistance(71e-3, 50e-3, 200e-3)
        8116.
    """
    if not 0.0 < loaded_edge < depth:
        raise OutsideScope("h_e", value=loaded_edge, allowed="between 0 and h", clause="EN1995-1-1, (8.4)")
    return float(14.0 * width * 1e3 * sqrt(loaded_edge * 1e3 / (1.0 - loaded_edge / depth)))


def _diameter(diameter: Metres, largest: float, clause: str) -> float:
    """The diameter in millimetres, refused outside the clause."""
    millimetres = diameter * 1e3
    if not 0.0 < millimetres <= largest:
        raise OutsideScope("d", value=millimetres, allowed=f"above 0, up to {largest:g} mm", clause=clause)
    return millimetres
