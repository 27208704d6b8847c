"""Cases: the forces of many anchors in one table, so that every check runs over all of them at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from sitemodel.errors import InputError
from sitemodel.fixings.method import AnchorForces, Surroundings
from sitemodel.standards.timber_en1995_1_1 import DURATIONS, Material, k_mod
from sitemodel.units import Metres

Floats: TypeAlias = NDArray[np.float64]
Flags: TypeAlias = NDArray[np.bool_]
Indices: TypeAlias = NDArray[np.intp]
AnchorLoads: TypeAlias = tuple[Metres, Surroundings, tuple[AnchorForces, ...]]
"""Eccentricity, surroundings and forces of one anchor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cases:
    """One row for each anchor and combination, anchor by anchor."""

    starts: Indices
    """First row of each anchor."""
    combinations: tuple[str, ...]
    normal: Floats
    down_slope: Floats
    eccentricity: Floats
    duration: Indices
    """Position in DURATIONS."""
    ultimate: Flags
    sustained: Flags
    joint_distance: Floats
    edge_distance: Floats

    @property
    def count(self) -> int:
        """Number of rows."""
        return len(self.combinations)


def k_mod_of_cases(cases: Cases, material: Material, service_class: int) -> Floats:
    """Strength modification of a material in every case."""
    row = np.array([k_mod(material, service_class, duration) for duration in DURATIONS])
    return np.asarray(row[cases.duration], dtype=np.float64)


def cases_of(anchors: Sequence[AnchorLoads]) -> Cases:
    """The table of all anchors.

    Raises:
        InputError: a number that is not finite, a negative reach or distance, no ultimate combination.
    """
    for index, (eccentricity, surroundings, forces) in enumerate(anchors):
        _refuse_nonsense(f"anchors[{index}]", eccentricity, surroundings, forces)
    counts = [len(forces) for _, _, forces in anchors]
    flat = [force for _, _, forces in anchors for force in forces]
    return Cases(
        starts=np.concatenate(([0], np.cumsum(counts)[:-1])).astype(np.intp),
        combinations=tuple(force.combination for force in flat),
        normal=np.array([force.normal for force in flat], dtype=np.float64),
        down_slope=np.array([force.down_slope for force in flat], dtype=np.float64),
        eccentricity=np.repeat(np.array([reach for reach, _, _ in anchors], dtype=np.float64), counts),
        duration=np.array([DURATIONS.index(force.duration) for force in flat], dtype=np.intp),
        ultimate=np.array([force.limit_state == "ultimate" for force in flat], dtype=np.bool_),
        sustained=np.array([force.limit_state == "quasi_permanent" for force in flat], dtype=np.bool_),
        joint_distance=np.repeat(np.array([s.joint_distance for _, s, _ in anchors], dtype=np.float64), counts),
        edge_distance=np.repeat(np.array([s.edge_distance for _, s, _ in anchors], dtype=np.float64), counts),
    )


def _refuse_nonsense(
    where: str, eccentricity: Metres, surroundings: Surroundings, forces: tuple[AnchorForces, ...]
) -> None:
    if not (isfinite(eccentricity) and 0.0 <= eccentricity <= 2.0):
        allowed = "0 to 2 m, measured down the slope from the block's centre to the load line"
        raise InputError(f"{where}.eccentricity", given=f"{eccentricity:g} m", allowed=allowed)
    for name in ("joint_distance", "edge_distance"):
        distance = getattr(surroundings, name)
        if not distance >= 0.0:
            raise InputError(f"{where}.{name}", given=f"{distance:g} m", allowed="0 m and more")
    if not any(force.limit_state == "ultimate" for force in forces):
        raise InputError(f"{where}.forces", given="none", allowed="at least one ultimate combination")
    for force in forces:
        if not (isfinite(force.normal) and isfinite(force.down_slope)):
            given = f"{force.normal:g} N, {force.down_slope:g} N in {force.combination}"
            raise InputError(f"{where}.forces", given=given, allowed="finite forces")
        if max(abs(force.normal), abs(force.down_slope)) > 1e7:
            given = f"{force.normal:g} N, {force.down_slope:g} N in {force.combination}"
            raise InputError(f"{where}.forces", given=given, allowed="forces up to 10 000 kN")
