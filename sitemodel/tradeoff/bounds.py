"""LeastAnchors: how many anchors a block needs at the least, from its whole load alone, before any rail is solved.

The reactions of the anchors under a rail add up to its load. Whatever each of them may take lies within the outer
admissible set of its seat, and all these sets within one that contains them all; so many anchors are needed as it
takes of that one to reach the load, in every combination. Blocks whose bound is never good enough for the front
need not be solved at all.
"""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from sitemodel.anchors.capacity import Spot
from sitemodel.anchors.certified.admissible import AdmissibleSets
from sitemodel.anchors.certified.question import spot_of
from sitemodel.anchors.seats import RAIL_END, Seat
from sitemodel.brief import Brief
from sitemodel.tradeoff.blocks import Exposed, PlaneLoads, RowGround
from sitemodel.units import Metres, Ratio

Floats = npt.NDArray[np.float64]
WAYS = np.radians(np.arange(0.0, 360.0, 3.0))
TURNED = np.stack([np.cos(WAYS), np.sin(WAYS)], axis=1)
FEWEST = 2
"""A rail stands on two anchors at the least."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """What all rails of a block along one line need at the least."""

    anchors: int
    slates: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineBound:
    """One rail line of a row: what the best seat along it takes in every direction, and where seats are."""

    share: Ratio
    """Of the normal load of a panel that goes to this line."""
    levels: Floats
    """Case, direction: how far an anchor can go at most; infinite where anchors are not checked."""
    places: Floats
    slates: Floats
    """Of the seats, rising."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LeastAnchors:
    """Bounds for every block of one row."""

    here: RowGround
    loads: PlaneLoads
    overhang: Metres
    cantilever: Metres
    longest: Metres
    lines: tuple[LineBound, ...]

    def of(self, first: int, last: int, exposed: Exposed) -> tuple[Bound, ...]:
        """For each of its lines the least of a block; empty where a rail has no seat near one of its ends."""
        panels = np.arange(self.here.start + first, self.here.start + last) + self.loads.count * np.array(exposed)
        forces = self.loads.whole[panels].sum(axis=0)
        left = self.here.row.panels[first].outline.bounds[0]
        right = self.here.row.panels[last - 1].outline.bounds[2]
        pieces = max(1, math.ceil((right - left) / self.longest - 1e-9))
        found = []
        for line in self.lines:
            if not self._near(line, left, right):
                return ()
            used = (forces * (line.share, 0.5)) @ TURNED.T / line.levels
            count = max(FEWEST * pieces, math.ceil(float(used.max(initial=0.0)) - 1e-6))
            under = (line.places >= left - self.overhang) & (line.places <= right + self.overhang)
            if int(under.sum()) < count:
                return ()
            fewest_slates = round(float(np.sort(line.slates[under])[:count].sum()))
            found.append(Bound(anchors=count, slates=fewest_slates))
        return tuple(found)

    def needed(self, first: int, last: int, exposed: Exposed) -> tuple[int, int]:
        """Of a block in one piece at the least: rails that nothing holds, and the anchors of the others."""
        found = self.of(first, last, exposed)
        return (0, sum(bound.anchors for bound in found)) if found else (1, 0)

    def _near(self, line: LineBound, left: Metres, right: Metres) -> bool:
        """Whether a seat lies within reach of both ends, however long the overhangs turn out."""
        x = line.places
        first = (x >= left - self.overhang + RAIL_END) & (x <= left + self.cantilever)
        last = (x <= right + self.overhang - RAIL_END) & (x >= right - self.cantilever)
        return bool(first.any() and last.any())


def least_anchors(brief: Brief, here: RowGround, loads: PlaneLoads, sets: AdmissibleSets) -> LeastAnchors:
    """Prepare the bounds of one row."""
    seats = dict(here.ground.seats)
    lines = []
    for line in (here.row.lower_rail, here.row.upper_rail):
        along = seats[line]
        lines.append(
            LineBound(
                share=line.load_share,
                levels=_levels(loads, sets, along),
                places=np.array([seat.rail_x for seat in along]),
                slates=np.array([float(seat.slates_lifted) for seat in along]),
            )
        )
    return LeastAnchors(
        here=here, loads=loads, overhang=brief.rail.overhang, cantilever=brief.rail.longest_cantilever,
        longest=brief.rail.longest_run, lines=tuple(lines),
    )  # fmt: skip


def _levels(loads: PlaneLoads, sets: AdmissibleSets, seats: tuple[Seat, ...]) -> Floats:
    """The furthest that the outer set of any seat reaches along every direction, in the class of every case."""
    spots: tuple[Spot, ...] = tuple(dict.fromkeys(spot_of(seat) for seat in seats))
    reach = {}
    for kind, found in zip(sets.classes, sets.sets, strict=True):
        corners = found.corners[np.unique(sets.outer(spots))] if spots else np.zeros((1, 1, 2))
        reach[kind] = (corners @ TURNED.T).max(axis=(0, 1))
    free = np.full(len(WAYS), np.inf)
    kinds = [(c.limit_state, c.duration) for c in loads.cases.combinations]
    levels: Floats = np.maximum(np.array([reach.get(kind, free) for kind in kinds]), 1e-9)
    return levels
