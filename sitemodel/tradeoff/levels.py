"""The one level of resistance that a front is asked at, and the admissible sets of a plane at it."""

from dataclasses import dataclass, replace

import numpy as np

from sitemodel.anchors import FixingSet, RailSeats, Spot
from sitemodel.anchors.capacity import ForceClass, force_classes
from sitemodel.anchors.certified.admissible import AdmissibleSets, Bundle, admissible_sets
from sitemodel.anchors.certified.question import spot_of
from sitemodel.anchors.choosing import UNTESTED_LIMIT
from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround
from sitemodel.fixings import MethodName
from sitemodel.fixings.evidence import PLAUSIBLE_F_AX
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.tradeoff.blocks import Exposed, PlaneLoads, RowGround, Surrounding, block_at, exposures, row_runs
from sitemodel.tradeoff.bounds import least_anchors
from sitemodel.tradeoff.plane_front import PlaneAsked
from sitemodel.tradeoff.rail_book import RailBook
from sitemodel.units import Pascals

ALIKE = 12
"""Different loads of panels in one combination whose own lines are tabulated (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A level of resistance: the brief that states it, and how it is called."""

    brief: Brief
    words: str
    to_show: Pascals
    """Withdrawal parameter that tests have yet to show before any point holds; 0 where the brief's own is taken."""

    @property
    def fixing(self) -> FixingSet:
        """The fixing at this level."""
        brief = self.brief
        kit = brief.kit_of(brief.methods[0])
        return FixingSet(build_up=brief.build_up, hook=brief.hook, kit=kit, choices=brief.site.standards, curable=False)


def levels_of(brief: Brief, method: MethodName) -> tuple[Level, ...]:
    """As it stands, then at f_ax of 8 and 12 N/mm2 where it is only assumed."""
    alone = replace(brief, methods=(method,))
    stated = [Level(brief=alone, words="with the resistances as they stand", to_show=0.0)]
    kit = alone.kit_of(method)
    if isinstance(kit, SpreaderBlockKit) and kit.f_ax_basis == "assumed":
        stated += [at_f_ax(alone, f_ax) for f_ax in (UNTESTED_LIMIT, PLAUSIBLE_F_AX) if f_ax > kit.f_ax]
    return tuple(stated)


def at_f_ax(brief: Brief, f_ax: Pascals) -> Level:
    """The brief with another withdrawal parameter, to be shown by pull tests."""
    words = f"if pull tests show f_ax of {f_ax / 1e6:g} N/mm2"
    kit = replace(brief.kit, f_ax=f_ax, f_ax_basis="target", f_ax_source=f"target of the trade-off, {words}")
    return Level(brief=replace(brief, kit=kit), words=words, to_show=f_ax)


def plane_sets(level: Level, rows: tuple[RowGround, ...], loads: PlaneLoads) -> AdmissibleSets:
    """The sets at every seat of a plane, close along the directions of all its loads."""
    combinations = loads.cases.combinations
    spots: dict[Spot, None] = {}
    shares = set()
    for here in rows:
        lines = (here.row.lower_rail, here.row.upper_rail)
        spots.update(dict.fromkeys(spot_of(s) for line, seats in here.ground.seats if line in lines for s in seats))
        shares |= {line.load_share for line in lines}
    found: dict[ForceClass, list[Bundle]] = {kind: [] for kind in force_classes(combinations)}
    for number, combination in enumerate(combinations):
        kind = combination.limit_state, combination.duration
        if kind in found:
            for share in sorted(shares):
                forces = np.unique(loads.whole[:, number] * (share, 0.5), axis=0)
                together = [(float(normal), float(along)) for normal, along in forces]
                # Rails whose panels are all loaded alike are the usual ones: their lines are tabulated as they are.
                found[kind] += [together, *([force] for force in together[:ALIKE])]
    return admissible_sets(level.fixing, list(spots), found)


def book_of(level: Level, rows: tuple[RowGround, ...], loads: PlaneLoads) -> RailBook:
    """An empty book for the rails of a plane at one level."""
    return RailBook(rail=level.brief.rail, fixing=level.fixing, sets=plane_sets(level, rows, loads))


def plane_asked(
    level: Level, ground: PlaneGround, loads: PlaneLoads, rows: tuple[RowGround, ...], *, most_panels: int, slates: bool
) -> PlaneAsked:
    """One plane at one level, nothing solved yet."""
    brief = level.brief
    book = book_of(level, rows, loads)
    return PlaneAsked(
        brief=brief,
        rows=rows,
        loads=loads,
        bounds=tuple(least_anchors(brief, here, loads, book.sets) for here in rows),
        book=book,
        most_panels=most_panels,
        slates=slates,
    )


def equal_pieces(_: tuple[RailSeats, ...]) -> tuple[int, ...]:
    """A cost that parts a long block into the fewest pieces, as equal as possible, without solving any."""
    return (0,)


def at_least_nothing(_: int, __: int, ___: Exposed) -> tuple[int, ...]:
    """The bound of that cost."""
    return (0,)


def failing_rails(asked: PlaneAsked, *, at_most: int) -> int:
    """Rails of the full rows of a plane that hold with no number of anchors; counted up to so many."""
    count = 0
    for here in asked.rows:
        for first, last in row_runs(here):
            around = Surrounding(below=bool(here.below), above=bool(here.above))
            exposed = exposures(here, first, last, around, full=True)
            for seated in block_at(
                asked.brief, here, asked.loads, first, last, exposed, equal_pieces, at_least_nothing
            ).rails:
                count += asked.book.fewest(seated) is None
                if count >= at_most:
                    return count
    return count
