"""AnchorPoint: the seats taken on a rail, with exact reactions and their checks."""

from dataclasses import dataclass, replace

import numpy as np

from sitemodel.anchors.capacity import FixingSet
from sitemodel.anchors.choosing import BLOCKS_APART as BLOCKS_APART
from sitemodel.anchors.choosing import NOT_ASKED, NOTHING, Chosen, RailProof, choose, reopened, stiff_seats
from sitemodel.anchors.choosing import RailSeats as RailSeats
from sitemodel.anchors.failing import why_failing, why_not_anchored
from sitemodel.anchors.levels import LevelSets, level_sets
from sitemodel.anchors.recheck import NOT_RECHECKED, RailRecheck, recheck_rails
from sitemodel.anchors.seats import Seat
from sitemodel.fixings.method import AnchorForces, FixingCheck
from sitemodel.fixings.methods import check_anchors
from sitemodel.rails.checks import check_rail
from sitemodel.rails.kinds import RailType
from sitemodel.rails.many import reactions_of_many
from sitemodel.rails.runs import RailRun
from sitemodel.slates.bond import SlateBond
from sitemodel.slates.strip import StripPlan, strip_plan
from sitemodel.sources import Citation
from sitemodel.units import Metres, Ratio

ROUNDS = 4
"""A rail that bends or sags too far on the fewest anchors is asked again with one more, so many times at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorPoint:
    """One anchor: its seat, where its rail meets the hook, its forces, its check, the slates that come out."""

    id: str
    rail: str
    seat: Seat
    rail_x: Metres
    rail_y: Metres
    forces: tuple[AnchorForces, ...]
    check: FixingCheck
    strip: StripPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class RailCheck:
    """Bending, deflection and cantilever of one rail on its anchors."""

    name: str
    utilisation: Ratio
    combination: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class RailPlacement:
    """A rail with its anchors; when no arrangement exists, why, and what would cure it."""

    run: RailRun
    anchors: tuple[AnchorPoint, ...]
    checks: tuple[RailCheck, ...]
    feasible: bool
    """Anchors and rail hold, or hold once tested."""
    reason: str
    cure: str
    proof: RailProof = NOT_ASKED
    recheck: RailRecheck = NOT_RECHECKED

    @property
    def moment_utilisation(self) -> Ratio:
        """Of rail bending."""
        return max((check.utilisation for check in self.checks if check.name == "bending"), default=0.0)


def place_anchors(
    plane_id: str,
    rails: tuple[RailSeats, ...],
    rail: RailType,
    fixing: FixingSet,
    bond: SlateBond,
    known: tuple[LevelSets, ...] = (),
) -> tuple[RailPlacement, ...]:
    """Anchors for every rail of a plane, numbered from the eaves and from the left.

    Asked first with the resistances as they stand; rails that cannot be held so are asked with the f_ax that may be
    entered without tests, then with the largest that pull tests could plausibly show, and all others with them.
    """
    chosen = [Chosen(seats=asked.taken, proof=NOT_ASKED) for asked in rails]
    least, level = [2] * len(rails), 0
    own = level_sets(fixing, (r.run for r in rails), (seat for r in rails for seat in r.seats))
    sets = next((made for made in known if made.serves(fixing, own.spots)), own)
    proofs: dict[int, RailProof] = {}
    for _ in range(ROUNDS):
        chosen, level = choose(rails, rail, sets, chosen, least, level)
        placements = _checked(plane_id, rails, rail, fixing, bond, chosen)
        again = [
            i
            for i, placed in enumerate(placements)
            if not placed.feasible and placed.proof.status != "proved none" and _may_gain(placed)
        ]
        if not again:
            break
        for i in again:
            tried = _asked_again(rails[i], rail, sets, chosen[i], placements[i], level)
            if not tried.sure:
                proofs.setdefault(i, chosen[i].proof)
            least[i], chosen[i] = len(chosen[i].seats) + 1, tried.chosen
    placements = tuple(
        replace(placed, proof=reopened(placed.proof, proofs[i])) if i in proofs else placed
        for i, placed in enumerate(placements)
    )
    held = [[(a.seat, a.forces, a.check.utilisation) for a in placed.anchors] for placed in placements]
    rechecked = recheck_rails(held, rail, fixing, sets.at(0)) if any(held) else (NOT_RECHECKED,) * len(rails)
    return tuple(replace(placed, recheck=found) for placed, found in zip(placements, rechecked, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Again:
    """What becomes of a rail that does not hold on the seats chosen."""

    chosen: Chosen
    """Other seats of the same number, or none: it is then asked with one more."""
    sure: bool
    """That its number is settled: other seats do, or none do."""


def _asked_again(
    seated: RailSeats, rail: RailType, sets: LevelSets, chosen: Chosen, placed: RailPlacement, level: int
) -> Again:
    """The same number of anchors elsewhere, where only the rail's sag speaks against these."""
    strong = all(anchor.check.verdict != "fails" for anchor in placed.anchors)
    if not strong or chosen.proof.status != "proved optimal":
        return Again(chosen=NOTHING, sure=False)
    elsewhere, none = stiff_seats(seated, rail, sets, chosen, level)
    return Again(chosen=elsewhere, sure=none or bool(elsewhere.seats))


def _may_gain(placed: RailPlacement) -> bool:
    """More anchors can help a rail that the search thought would hold: it bends, or the table promised too much."""
    if len(placed.anchors) < 2:
        return False
    bends = any(check.utilisation > 1.0 for check in placed.checks)
    failing = [a.check.utilisation for a in placed.anchors if a.check.verdict == "fails"]
    return bends or (bool(failing) and max(failing) < 1.1)


def _checked(
    plane_id: str,
    rails: tuple[RailSeats, ...],
    rail: RailType,
    fixing: FixingSet,
    bond: SlateBond,
    chosen: list[Chosen],
) -> tuple[RailPlacement, ...]:
    """Exact reactions and every check of the anchors chosen, all anchors of the plane in one call."""
    taken = [tuple(r.seats[i] for i in c.seats) for r, c in zip(rails, chosen, strict=True)]
    forces = [
        forces_on(r.run, tuple(seat.rail_x for seat in seats)) if seats else ()
        for r, seats in zip(rails, taken, strict=True)
    ]
    flat = [
        (r, seat, f)
        for r, seats, fs in zip(rails, taken, forces, strict=True)
        for seat, f in zip(seats, fs, strict=True)
    ]
    questions = tuple((seat.eccentricity, seat.surroundings, f) for _, seat, f in flat)
    answers = check_anchors(fixing.build_up, fixing.hook, fixing.kit, fixing.choices, questions) if flat else ()
    anchors = [
        AnchorPoint(
            id=f"{plane_id}-A{number:02d}",
            rail=r.run.id,
            seat=seat,
            rail_x=seat.rail_x,
            rail_y=r.run.line.y,
            forces=f,
            check=answer,
            strip=_strip(bond, fixing, seat),
        )
        for number, ((r, seat, f), answer) in enumerate(zip(flat, answers, strict=True), start=1)
    ]
    return tuple(
        _placement(r, rail, fixing, tuple(a for a in anchors if a.rail == r.run.id), c.proof)
        for r, c in zip(rails, chosen, strict=True)
    )


def _strip(bond: SlateBond, fixing: FixingSet, seat: Seat) -> StripPlan:
    """The slates that come out for an anchor on a seat."""
    hook, width = fixing.hook, fixing.kit.width
    return strip_plan(
        bond,
        fixing.build_up,
        seat.course,
        seat.x,
        width,
        hook.arm_width,
        arm_offset=hook.lateral_offset,
        arm_exit=hook.arm_exit,
    )


def forces_on(run: RailRun, supports: tuple[Metres, ...]) -> tuple[tuple[AnchorForces, ...], ...]:
    """For each anchor its force in each combination, by the continuous beam."""
    clamps = np.array([load.x for load in run.loads[0].normal])
    normal = np.array([[load.force for load in loads.normal] for loads in run.loads]).T
    down = np.array([[load.force for load in loads.down_slope] for loads in run.loads]).T
    reactions = reactions_of_many(np.array([supports]), clamps, np.hstack([normal, down]))[0][0]
    cases = len(run.loads)
    return tuple(
        tuple(
            AnchorForces(
                combination=loads.combination.name,
                limit_state=loads.combination.limit_state,
                duration=loads.combination.duration,
                normal=float(at_anchor[case]),
                down_slope=float(at_anchor[cases + case]),
            )
            for case, loads in enumerate(run.loads)
        )
        for at_anchor in reactions
    )


def _placement(
    rail_seats: RailSeats, rail: RailType, fixing: FixingSet, anchors: tuple[AnchorPoint, ...], proof: RailProof
) -> RailPlacement:
    """The rail's own checks, whether all holds, and if not why."""
    run = rail_seats.run
    if len(anchors) < 2:
        why = why_not_anchored(rail_seats, rail, fixing.kit.width)
        return RailPlacement(
            run=run, anchors=(), checks=(), feasible=False, reason=why.reason, cure=why.cure, proof=proof
        )
    supports = tuple(anchor.rail_x for anchor in anchors)
    limits = check_rail(run, supports, rail)
    beyond = tuple((check, anchor.id) for anchor in anchors for check in anchor.check.beyond_test)
    why = why_failing(rail_seats, supports, limits, beyond, proof)
    checks = tuple(
        RailCheck(
            name=limit.name, utilisation=limit.utilisation, combination=limit.combination, citation=limit.citation
        )
        for limit in limits
    )
    return RailPlacement(
        run=run, anchors=anchors, checks=checks, feasible=not why.reason, reason=why.reason, cure=why.cure, proof=proof
    )
