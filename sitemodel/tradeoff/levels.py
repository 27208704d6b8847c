"""The one level of resistance that a front is asked at, and the admissible sets of a plane at it."""

from dataclasses import dataclass, replace

from sitemodel.anchors.capacity import FixingSet, ForceClass, Spot, force_classes
from sitemodel.anchors.certified.admissible import AdmissibleSets, admissible_sets
from sitemodel.anchors.certified.question import rail_question, spot_of
from sitemodel.anchors.certified.rail import solve_rail
from sitemodel.anchors.choosing import BLOCKS_APART, UNTESTED_LIMIT, RailSeats
from sitemodel.brief import Brief
from sitemodel.fixings import MethodName
from sitemodel.fixings.evidence import PLAUSIBLE_F_AX
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.tradeoff.blocks import PlaneLoads, RowGround


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A level of resistance: the brief that states it, and how it is called."""

    brief: Brief
    words: str
    assumed_f_ax: bool
    """The points rest on a withdrawal parameter that tests have yet to show."""

    @property
    def fixing(self) -> FixingSet:
        """The fixing at this level."""
        brief = self.brief
        kit = brief.kit_of(brief.methods[0])
        return FixingSet(build_up=brief.build_up, hook=brief.hook, kit=kit, choices=brief.site.choices, curable=False)


def levels_of(brief: Brief, method: MethodName) -> tuple[Level, ...]:
    """As it stands, then at f_ax of 8 and 12 N/mm2 where it is only assumed."""
    alone = replace(brief, methods=(method,))
    stated = [Level(brief=alone, words="with the resistances as they stand", assumed_f_ax=False)]
    kit = alone.kit_of(method)
    if isinstance(kit, SpreaderBlockKit) and kit.f_ax_basis == "assumed":
        stated += [at_f_ax(alone, f_ax) for f_ax in (UNTESTED_LIMIT, PLAUSIBLE_F_AX) if f_ax > kit.f_ax]
    return tuple(stated)


def at_f_ax(brief: Brief, f_ax: float) -> Level:
    """The brief with another withdrawal parameter, to be shown by pull tests."""
    words = f"if pull tests show f_ax of {f_ax / 1e6:g} N/mm2"
    kit = replace(brief.kit, f_ax=f_ax, f_ax_basis="target", f_ax_source=f"target of the trade-off, {words}")
    return Level(brief=replace(brief, kit=kit), words=words, assumed_f_ax=True)


def plane_sets(level: Level, rows: tuple[RowGround, ...], loads: PlaneLoads) -> AdmissibleSets:
    """The sets at every seat of a plane, close along the directions of all its loads."""
    combinations = loads.cases.combinations
    found: dict[ForceClass, list[tuple[float, float]]] = {kind: [] for kind in force_classes(combinations)}
    spots: dict[Spot, None] = {}
    for here in rows:
        lines = (here.row.lower_rail, here.row.upper_rail)
        spots.update(dict.fromkeys(spot_of(s) for line, seats in here.ground.seats if line in lines for s in seats))
        at = [loads.place[panel.id] + extra for panel in here.row.panels for extra in (0, loads.count)]
        for number, combination in enumerate(combinations):
            kind = combination.limit_state, combination.duration
            if kind in found:
                found[kind] += [
                    (round(load.normal * line.load_share, 3), round(load.down_slope * 0.5, 3))
                    for i in at
                    for line in lines
                    for load in (loads.cases.left[i][number], loads.cases.right[i][number])
                ]
    unique = {kind: list(dict.fromkeys(forces)) for kind, forces in found.items()}
    return admissible_sets(level.fixing, list(spots), unique)


def fewest(level: Level, rails: tuple[RailSeats, ...], sets: AdmissibleSets) -> tuple[int, int, bool]:
    """Anchors under all rails that hold, how many rails do not, and whether all of it is proved."""
    total, none, proved = 0, 0, True
    spacing = level.fixing.kit.width + BLOCKS_APART
    for seated in rails:
        if len(seated.seats) < 2:
            none += 1
            continue
        answer = solve_rail(rail_question(seated.run, seated.seats, level.brief.rail, sets, spacing), goals=False)
        total, none = total + len(answer.seats), none + (not answer.seats)
        proved &= answer.proved
    return total, none, proved
