"""What an anchor on one rail can take, tabulated by the direction of its force, for the search of places.

The checks of a fixing grow in proportion with the force as long as its direction stays, and they are convex in
the force; between two tabulated directions the table therefore never promises more than the checks would. The
anchors that are finally chosen are checked by the method itself.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from sitemodel.buildup import BuildUp
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import AnchorForces, Surroundings
from sitemodel.fixings.methods import AnchorKit, utilisations
from sitemodel.loads import Duration, LimitState, LoadCombination
from sitemodel.site import Standards
from sitemodel.units import Metres, Pascals

Array = npt.NDArray[np.float64]
Index = npt.NDArray[np.intp]
DIRECTIONS = 24
"""Every 15 degrees: the table then lies at most 1 per cent above a round set of admissible forces."""
REFERENCE_FORCE = 1000.0
"""Newtons at which the table is made; any would do, since the checks are proportional."""

ForceClass = tuple[LimitState, Duration]


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingSet:
    """Everything that a check of an anchor needs but its place and its forces."""

    build_up: BuildUp
    hook: Hook
    kit: AnchorKit
    choices: Standards
    curable: bool
    """Measure assumed values at the largest plausible test result: 'could this hold once tested?'."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """The place of an anchor as its capacity sees it: hook reach and the nearest joint and edge."""

    eccentricity: Metres
    surroundings: Surroundings


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CapacityTable:
    """Utilisation per newton for each class of combination (rows) and direction of force (columns)."""

    classes: tuple[ForceClass, ...]
    per_newton: Array

    def utilisation(self, row: Index, normal: Array, down_slope: Array) -> Array:
        """Utilisation of forces in classes ``row`` (integer array that broadcasts with the forces)."""
        size = np.hypot(normal, down_slope)
        step = 2.0 * math.pi / DIRECTIONS
        place = (np.arctan2(down_slope, normal) % (2.0 * math.pi)) / step
        lower = np.floor(place).astype(np.intp) % DIRECTIONS
        within = (place - np.floor(place)) * step
        upper = (lower + 1) % DIRECTIONS
        sine = math.sin(step)
        first = np.sin(step - within) / sine * self.per_newton[row, lower]
        second = np.sin(within) / sine * self.per_newton[row, upper]
        return np.asarray(size * (first + second))


def force_classes(combinations: tuple[LoadCombination, ...]) -> tuple[ForceClass, ...]:
    """The different classes of combination that anchors are checked in, in order of first appearance."""
    classes = [(c.limit_state, c.duration) for c in combinations if c.limit_state != "characteristic"]
    return tuple(dict.fromkeys(classes))


def capacity_tables(
    fixing: FixingSet, spots: tuple[Spot, ...], classes: tuple[ForceClass, ...]
) -> tuple[CapacityTable, ...]:
    """A table for each spot, all made in one call of the method."""
    angles = [2.0 * math.pi * k / DIRECTIONS for k in range(DIRECTIONS)]
    questions = tuple(
        (spot.eccentricity, spot.surroundings, _asked(kind, angle))
        for spot in spots
        for kind in classes
        for angle in angles
    )
    answers = utilisations(fixing.build_up, fixing.hook, fixing.kit, fixing.choices, questions, curable=fixing.curable)
    values = np.array(answers).reshape(len(spots), len(classes), DIRECTIONS) / REFERENCE_FORCE
    return tuple(CapacityTable(classes=classes, per_newton=values[i]) for i in range(len(spots)))


def _asked(kind: ForceClass, angle: float) -> tuple[AnchorForces, ...]:
    """One force in one class."""
    force = AnchorForces(
        combination="table",
        limit_state=kind[0],
        duration=kind[1],
        normal=REFERENCE_FORCE * math.cos(angle),
        down_slope=REFERENCE_FORCE * math.sin(angle),
    )
    return beside_unloaded(force)


def beside_unloaded(force: AnchorForces) -> tuple[AnchorForces, ...]:
    """A force with an unloaded ultimate combination beside it, as every anchor has one."""
    unloaded = AnchorForces(
        combination="unloaded", limit_state="ultimate", duration="instantaneous", normal=0.0, down_slope=0.0
    )
    return (force,) if force.limit_state == "ultimate" else (force, unloaded)


def with_f_ax(fixing: FixingSet, f_ax: Pascals) -> FixingSet:
    """The same fixing with another withdrawal parameter, to ask what a test result would change."""
    if not isinstance(fixing.kit, SpreaderBlockKit):
        return fixing
    return replace(fixing, kit=replace(fixing.kit, f_ax=f_ax))
