"""Attempt, LevelSets: the levels of resistance that rails are asked at, and what an anchor holds at each."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

import numpy as np

from sitemodel.anchors.capacity import FixingSet, ForceClass, Spot, force_classes, with_f_ax
from sitemodel.anchors.certified.admissible import GRIDS, AdmissibleSets, Bundle, admissible_sets
from sitemodel.anchors.certified.compiled import Array
from sitemodel.anchors.certified.count import FAR
from sitemodel.anchors.certified.question import RailQuestion, spot_of
from sitemodel.anchors.certified.rail import CertifiedRail, solve_rail
from sitemodel.anchors.seats import Seat
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.rails.runs import RailRun
from sitemodel.units import Pascals

UNTESTED_LIMIT: Pascals = 8.0e6
"""The highest f_ax that may be entered without tests (middle level of the evidence), tried before any higher."""
AS_DRAWN = ", on seats some of which are clear of the counter-battens only where these are drawn"


def levels(fixing: FixingSet) -> tuple[FixingSet, ...]:
    """The resistances to ask with, one after the other."""
    asked, kit = [fixing], fixing.kit
    if isinstance(kit, SpreaderBlockKit) and kit.f_ax_basis == "assumed" and kit.f_ax < UNTESTED_LIMIT:
        asked.append(with_f_ax(fixing, UNTESTED_LIMIT))
    asked.append(replace(fixing, curable=True))
    return tuple(asked)


def in_words(level: FixingSet, fixing: FixingSet) -> str:
    """How a level of resistance is called."""
    if level.curable:
        return "even if tests show the most that is plausible"
    if level is fixing or not isinstance(level.kit, SpreaderBlockKit):
        return "with the resistances as they stand"
    return f"if pull tests show f_ax of {level.kit.f_ax / 1e6:g} N/mm2"


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """What a rail is asked with: resistances, and which of its seats."""

    number: int
    """Of the level, from 0."""
    level: FixingSet
    doubtful: bool
    """With every seat that fits as drawn; else with the robust ones alone."""
    words: str


def attempts(fixing: FixingSet) -> tuple[Attempt, ...]:
    """Robust seats at every level of resistance first: one anchor less is not worth a block that may not fit."""
    return tuple(
        Attempt(
            number=number, level=level, doubtful=doubtful,
            words=in_words(level, fixing) + (AS_DRAWN if doubtful else ""),
        )
        for doubtful in (False, True)
        for number, level in enumerate(levels(fixing))
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LevelSets:
    """The admissible sets of a plane at every level of resistance, each made when it is first asked for."""

    fixing: FixingSet
    spots: tuple[Spot, ...]
    loads: dict[ForceClass, list[Bundle]]
    made: dict[int, AdmissibleSets] = field(default_factory=dict)
    solved: dict[tuple[int, int, bytes], CertifiedRail] = field(default_factory=dict)

    def fixing_at(self, level: int) -> FixingSet:
        """The resistances of a level; -1 is the highest."""
        return levels(self.fixing)[level]

    def at(self, level: int) -> AdmissibleSets:
        """The sets of a level."""
        if level not in self.made:
            self.made[level] = admissible_sets(self.fixing_at(level), self.spots, self.loads)
        return self.made[level]

    def fewest(self, level: int, question: RailQuestion, most: int = FAR) -> CertifiedRail:
        """The fewest anchors of a rail at a level; rails that differ in nothing but their place are solved once.

        Args:
            level: of resistance.
            question: the rail.
            most: try no more anchors than this.
        """
        key = level, most, _key(question)
        if key not in self.solved:
            self.solved[key] = solve_rail(question, goals=False, most=most)
        return self.solved[key]

    def serves(self, fixing: FixingSet, spots: Iterable[Spot]) -> bool:
        """Whether these sets are as close as sets made for a fixing at some spots alone would be."""
        return fixing == self.fixing and self.at(0).grid == GRIDS[0] and set(spots) <= set(self.spots)


def _key(q: RailQuestion) -> bytes:
    """Equal for rails that differ in nothing but their place."""
    around: tuple[Array, ...] = (q.places - q.start, q.clamps - q.start, q.normal, q.down_slope)
    ends = np.array([q.end - q.start, len(q.places)])
    spots = q.inner.tobytes() + q.outer.tobytes()
    return spots + b"".join(np.round(part, 9).tobytes() for part in (ends, *around))


def level_sets(fixing: FixingSet, runs: Iterable[RailRun], seats: Iterable[Seat]) -> LevelSets:
    """Sets that are close along the directions of the loads of some rails, at every spot of some seats."""
    loads: dict[ForceClass, list[Bundle]] = {}
    for run in runs:
        for kind in force_classes(tuple(case.combination for case in run.loads)):
            loads.setdefault(kind, [])
        for case in run.loads:
            there = loads.get((case.combination.limit_state, case.combination.duration))
            if there is not None:
                there.append([(n.force, s.force) for n, s in zip(case.normal, case.down_slope, strict=True)])
    return LevelSets(fixing=fixing, spots=tuple(dict.fromkeys(spot_of(seat) for seat in seats)), loads=loads)
