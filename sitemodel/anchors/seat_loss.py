"""SeatLoss: what leaves a rail without a seat, and what would cure it."""

from dataclasses import dataclass

import numpy as np

from sitemodel.anchors.seats import RAIL_END, SeatRules, candidates
from sitemodel.buildup import BuildUp, bays_over
from sitemodel.rails.runs import RailRun
from sitemodel.roof import RoofPlane
from sitemodel.slates.bond import SlateBond
from sitemodel.units import Metres

_TOUCH: Metres = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatLoss:
    """Why no anchor can stand under a rail, in a sentence, and the cure."""

    sentence: str
    cure: str


def seat_loss(
    run: RailRun,
    plane: RoofPlane,
    build_up: BuildUp,
    bond: SlateBond,
    block_width: Metres,
    block_height: Metres,
    arm_width: Metres,
    rules: SeatRules,
    *,
    arm_offset: Metres = 0.0,
) -> SeatLoss:
    """The limit which left no seat under a rail, or that seats exist."""
    where = f"course {run.line.course.number}"
    if run.line.course.number > len(bond.courses):
        return SeatLoss(sentence=f"No seat on {where}: the plane has {len(bond.courses)} courses.", cure=_OTHER_COURSE)
    if run.line.course.number == 1:
        return SeatLoss(sentence="No seat on course 1: no anchor stands on the eaves course.", cure=_OTHER_COURSE)
    block, arm = (block_width, block_height), (arm_width, arm_offset)
    found = candidates(run, plane, build_up, block, arm, rules)
    if found is None:
        return _why_no_candidate(run, plane, build_up, block_width, block_height)
    limits = (
        (found.clear_of_edges, _edge_sentence(rules), _CLEAR_OF_EDGES),
        (found.clear_of_joints, f"every block is nearer than {_mm(rules.joint_distance)} to a sip joint", _JOINTS),
        (found.clear_of_obstructions, "an obstruction or exclusion lies under or too near every block or its arm",
         _OBSTRUCTIONS),
    )  # fmt: skip
    for kept, sentence, cure in limits:
        if not kept.any():
            return SeatLoss(sentence=f"No seat on {where}: {sentence}.", cure=cure)
    left = np.ones(len(found.x), dtype=np.bool_)
    for kept, sentence, cure in limits:
        left &= kept
        if not left.any():
            return SeatLoss(sentence=f"No seat on {where}: where the other limits leave room, {sentence}.", cure=cure)
    return SeatLoss(sentence=f"{int(left.sum())} seats exist on {where}.", cure="")


_OTHER_COURSE = "another height of the row: a hook with a longer reach, or a wider clamp window declared by its maker"
_NARROWER = "a narrower block, or counter-battens measured on the roof and a smaller tolerance for them"
_CLEAR_OF_EDGES = "wider margins, so that the row lies further from the edges of the roof"
_JOINTS = "a narrower block, a row of fewer panels, or the sip joints drawn where they really are"
_OBSTRUCTIONS = "panels moved clear of the obstruction or exclusion, or left out beside it"


def why_no_seat(
    run: RailRun,
    plane: RoofPlane,
    build_up: BuildUp,
    bond: SlateBond,
    block_width: Metres,
    block_height: Metres,
    arm_width: Metres,
    rules: SeatRules,
    *,
    arm_offset: Metres = 0.0,
) -> str:
    """One sentence that names the limit which left no seat under a rail, or says that seats exist."""
    size = (block_width, block_height, arm_width)
    return seat_loss(run, plane, build_up, bond, *size, rules, arm_offset=arm_offset).sentence


def _why_no_candidate(
    run: RailRun, plane: RoofPlane, build_up: BuildUp, block_width: Metres, block_height: Metres
) -> SeatLoss:
    """Which of bays, block and rail leaves nothing to try."""
    y = run.line.course.batten_y
    where = f"course {run.line.course.number}"
    clear = bays_over(plane, build_up, y - block_height / 2.0, y + block_height / 2.0)
    tolerance = build_up.counter_batten.position_tolerance
    if not clear:
        sentence = f"No seat on {where}: the plane has no bay between two counter-battens there."
        return SeatLoss(sentence=sentence, cure=_NO_BAY)
    needed = block_width + 2.0 * tolerance
    widest = max(bay.right - bay.left for bay in clear)
    if widest < needed - _TOUCH:
        sentence = (
            f"No seat on {where}: the widest bay is {_mm(widest)} clear, but a block of {_mm(block_width)} with a "
            f"counter-batten tolerance of {_mm(tolerance)} on both sides needs {_mm(needed)}."
        )
        return SeatLoss(sentence=sentence, cure=_NARROWER)
    sentence = (
        f"No seat on {where}: in no bay does the block fit between the counter-battens with {_mm(tolerance)} to "
        f"spare while its centre lies {_mm(RAIL_END)} inside the rail."
    )
    return SeatLoss(sentence=sentence, cure=f"more panels on the row, so that its rails reach further; or {_NARROWER}")


_NO_BAY = "counter-battens drawn or measured where they are: at least two must cross the course"


def _edge_sentence(rules: SeatRules) -> str:
    distance = max(rules.edge_distance, rules.joint_distance)
    return f"every block is nearer than {_mm(distance)} to eaves, ridge, hip, valley or verge"


def _mm(length: Metres) -> str:
    return f"{length * 1000:.4g} mm"
