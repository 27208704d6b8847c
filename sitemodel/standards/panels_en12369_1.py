"""EN 12369-1: characteristic strength, mean stiffness and density of OSB."""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import KilogramsPerCubicMetre, Metres, Pascals


@dataclass(frozen=True, slots=True, kw_only=True)
class OsbProperties:
    """One row of the table; 0 is the strong axis of the board, 90 the weak one."""

    bending_strong: Pascals
    bending_weak: Pascals
    tension_strong: Pascals
    tension_weak: Pascals
    compression_strong: Pascals
    compression_weak: Pascals
    panel_shear: Pascals
    planar_shear: Pascals
    bending_modulus_strong: Pascals
    bending_modulus_weak: Pascals
    axial_modulus_strong: Pascals
    axial_modulus_weak: Pascals
    panel_shear_modulus: Pascals
    planar_shear_modulus: Pascals
    density: KilogramsPerCubicMetre


@cache
def _table() -> tuple[Mapping[str, str], ...]:
    text = files("sitemodel.standards").joinpath("tables/panels_osb.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


@cache
def osb_properties(board: str, thickness: Metres) -> OsbProperties:
    r"""Characteristic values of an OSB board of one type and thickness.

    .. math:: f_{m,0}, f_{m,90}, f_{r}, E_{m,0}, E_{m,90}, \rho_k, \dots

    Args:
        board: OSB/2, OSB/3 or OSB/4.
        thickness: t of the board.

    Scope:
        6 mm < t <= 25 mm.

    Source:
        EN12369-1, tables of OSB/2, OSB/3 and OSB/4 (transcribed; the edition of 2001).

    Example:
        >>> osb_properties("OSB/3", 15e-3).bending_weak / 1e6
        8.2
    """
    millimetres = thickness * 1e3
    for row in _table():
        if row["board"] == board and float(row["above_mm"]) < millimetres - 1e-9 <= float(row["to_mm"]):
            return _properties(row)
    boards = sorted({row["board"] for row in _table()})
    if board not in boards:
        raise OutsideScope("board", value=board, allowed=", ".join(boards), clause="EN12369-1")
    raise OutsideScope("t", value=millimetres, allowed="above 6 mm, up to 25 mm", clause="EN12369-1")


def _properties(row: Mapping[str, str]) -> OsbProperties:
    return OsbProperties(
        bending_strong=1e6 * float(row["f_m_0"]),
        bending_weak=1e6 * float(row["f_m_90"]),
        tension_strong=1e6 * float(row["f_t_0"]),
        tension_weak=1e6 * float(row["f_t_90"]),
        compression_strong=1e6 * float(row["f_c_0"]),
        compression_weak=1e6 * float(row["f_c_90"]),
        panel_shear=1e6 * float(row["f_v"]),
        planar_shear=1e6 * float(row["f_r"]),
        bending_modulus_strong=1e6 * float(row["e_m_0"]),
        bending_modulus_weak=1e6 * float(row["e_m_90"]),
        axial_modulus_strong=1e6 * float(row["e_t_0"]),
        axial_modulus_weak=1e6 * float(row["e_t_90"]),
        panel_shear_modulus=1e6 * float(row["g_v"]),
        planar_shear_modulus=1e6 * float(row["g_r"]),
        density=float(row["rho_k"]),
    )
