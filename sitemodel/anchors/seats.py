"""Seat: every spot along a rail that could take an anchor."""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
import shapely
from shapely import GeometryCollection, LineString, Polygon

from sitemodel.buildup import Bay, BuildUp, bays_over, sip_joint_positions
from sitemodel.errors import InputError
from sitemodel.fixings.method import Surroundings
from sitemodel.rails.runs import RailRun
from sitemodel.roof import RoofPlane
from sitemodel.slates.bond import SlateBond
from sitemodel.slates.disturbance import disturbance
from sitemodel.units import Metres

RAIL_END: Metres = 0.020
"""Least distance of a hook from the end of its rail: project choice, no source."""
_TOUCH: Metres = 1e-9
_SAME: Metres = 1e-6

Places = npt.NDArray[np.float64]
Kept = npt.NDArray[np.bool_]
Size = tuple[Metres, Metres]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A spot on one course: block centre, the bay it lies in, its margins."""

    x: Metres
    y: Metres
    course: int
    bay: int
    margin_left: Metres
    """Block edge to the edge of the counter-batten (or roof) on its left, as drawn or surveyed, before tolerance."""
    margin_right: Metres
    robust: bool
    """The block fits wherever both counter-battens stand within their tolerance; else only where they are drawn."""
    eccentricity: Metres
    surroundings: Surroundings
    slates_lifted: int
    disturbance: int
    """What the seat costs in whole quarters of a slate: 4 a slate lifted, 1 a ripped nail, 2 a slate that does not
    get both nails back, 4 a slate-and-a-half or cut slate. Two seats differ by at least 1 or not at all. What a seat
    saves beside another, whose slates it shares, depends on both and is not in it."""
    arm_offset: Metres = 0.0
    """The hook's arm beside the block's centre, to the right positive."""

    @property
    def margin_to_batten(self) -> Metres:
        """Block edge to the nearest counter-batten edge, before tolerance."""
        return min(self.margin_left, self.margin_right)

    @property
    def rail_x(self) -> Metres:
        """Where the hook holds its rail."""
        return self.x + self.arm_offset


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatRules:
    """The distances that a seat keeps, each an assumption or an input of the brief."""

    joint_distance: Metres
    """Outermost screw to a sip joint or a free edge of the sip."""
    edge_distance: Metres
    """Block edge to eaves, ridge, hip, valley and verge."""
    step: Metres
    """Spacing of candidate seats along a bay."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidates:
    """Block centres along one rail, and which of them each limit leaves; a limit counts on its own."""

    x: Places
    bay: npt.NDArray[np.int64]
    left: Places
    right: Places
    joint_distance: Places
    edge_distance: Places
    clear_of_joints: Kept
    clear_of_edges: Kept
    clear_of_obstructions: Kept

    @property
    def kept(self) -> Kept:
        """Those that every limit leaves."""
        return self.clear_of_joints & self.clear_of_edges & self.clear_of_obstructions


def seats_on_rail(
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
    doubtful: bool = False,
) -> tuple[Seat, ...]:
    """Every seat under a rail, from left to right.

    Candidates lie every step in the part of each bay where the block is clear of both counter-battens by the position
    tolerance and above the rail, both ends of that part included. Asked for doubtful seats as well, the rest of each
    bay that holds the block as drawn is offered in the same way. Where counter-battens are surveyed, the places that
    the drawn ones would have offered are candidates too, so that an anchor stays where it can. Kept are those whose
    block keeps the joint distance from sip joints, the edge distance (and, an edge of the plane being a free edge of
    the sip, the joint distance) from every edge, the joint distance from obstructions, and whose block and arm are
    clear of obstructions and exclusions. Distances run from the block's edge: the outermost screw lies inside it.
    None lies on the eaves course. The surroundings handed on count an edge of the plane as a joint, and the edge of
    an obstruction as an edge: there the skin ends too.

    Raises:
        InputError: a step, a block or a distance that is none; surveyed lines that do not run up the slope.
    """
    block, arm = (block_width, block_height), (arm_width, arm_offset)
    found = candidates(run, plane, build_up, block, arm, rules, doubtful=doubtful)
    if found is None or not found.kept.any():
        return ()
    kept = found.kept
    course, tolerance = run.line.course, build_up.counter_batten.position_tolerance
    x = found.x[kept]
    counted = disturbance(bond, build_up, course.number, x, block_width, arm_width, arm_offset)
    kept_of = (found.bay, found.left, found.right, found.joint_distance, found.edge_distance)
    columns = (x, *(column[kept] for column in kept_of), counted.lifted, counted.cost)
    return tuple(
        Seat(
            x=place,
            y=course.batten_y,
            course=course.number,
            bay=bay,
            margin_left=left,
            margin_right=right,
            robust=min(left, right) >= tolerance - _TOUCH,
            eccentricity=run.line.eccentricity,
            surroundings=Surroundings(joint_distance=joint, edge_distance=edge),
            slates_lifted=count,
            disturbance=cost,
            arm_offset=arm_offset,
        )
        for place, bay, left, right, joint, edge, count, cost in zip(*(c.tolist() for c in columns), strict=True)
    )


def candidates(
    run: RailRun,
    plane: RoofPlane,
    build_up: BuildUp,
    block: Size,
    arm: Size,
    rules: SeatRules,
    *,
    doubtful: bool = False,
) -> Candidates | None:
    """Every block centre that fits its bay and its rail, with its distances; none on the eaves course.

    A block is its width and height, an arm its width and how far it stands beside the block's centre.
    """
    (block_width, block_height), (arm_width, arm_offset) = block, arm
    _refuse(rules, block_width, block_height, arm_width)
    y = run.line.course.batten_y
    if run.line.course.number == 1:
        return None
    reach = run.start + RAIL_END - arm_offset, run.end - RAIL_END - arm_offset
    x, bay, left, right = _fitting(reach, y, plane, build_up, block, rules.step, doubtful=doubtful)
    if not len(x):
        return None
    half = block_width / 2.0
    blocks = _boxes(x, half, y - block_height / 2.0, y + block_height / 2.0)
    to_joint = _distance(blocks, sip_joint_positions(plane, build_up))
    to_edge = shapely.distance(blocks, plane.outline.boundary)
    to_opening = _distance(blocks, tuple(o.outline for o in plane.obstructions))
    free = to_opening >= rules.joint_distance - _TOUCH
    arms = _boxes(x + arm_offset, arm_width / 2.0, min(run.line.y, y), max(run.line.y, y))
    for area in (*(o.outline for o in plane.obstructions), *plane.exclusions):
        free &= ~(shapely.intersects(blocks, area) | shapely.intersects(arms, area))
    return Candidates(
        x=x,
        bay=bay,
        left=left,
        right=right,
        joint_distance=np.minimum(to_joint, to_edge),
        edge_distance=np.minimum(to_edge, to_opening),
        clear_of_joints=to_joint >= rules.joint_distance - _TOUCH,
        clear_of_edges=shapely.covers(plane.outline, blocks)
        & (to_edge >= max(rules.edge_distance, rules.joint_distance) - _TOUCH),
        clear_of_obstructions=free,
    )


def _fitting(
    reach: Size,
    y: Metres,
    plane: RoofPlane,
    build_up: BuildUp,
    block: Size,
    step: Metres,
    *,
    doubtful: bool,
) -> tuple[Places, npt.NDArray[np.int64], Places, Places]:
    """Block centres within bays and rail, the bay of each, and block edge to counter-batten edge on either side."""
    half, batten = block[0] / 2.0, build_up.counter_batten
    low, high = y - block[1] / 2.0, y + block[1] / 2.0
    drawn: Places = np.empty(0)
    if plane.counter_battens and batten.spacing > batten.width:
        unsurveyed = bays_over(replace(plane, counter_battens=()), build_up, low, high)
        drawn = np.concatenate(
            [_spread(reach, bay, half, batten.position_tolerance, step) for bay in unsurveyed] or [drawn]
        )
    columns: list[tuple[Places, npt.NDArray[np.int64], Places, Places]] = []
    for bay in bays_over(plane, build_up, low, high):
        offered = [_spread(reach, bay, half, batten.position_tolerance, step), drawn]
        x = _apart(np.concatenate([*offered, _outside(reach, bay, half, offered[0], step)] if doubtful else offered))
        left, right = x - bay.left - half, bay.right - x - half
        fits = np.minimum(left, right) >= (0.0 if doubtful else batten.position_tolerance) - _TOUCH
        columns.append((x[fits], np.full(int(fits.sum()), bay.number), left[fits].clip(0.0), right[fits].clip(0.0)))
    if not columns:
        return np.empty(0), np.empty(0, dtype=np.int64), np.empty(0), np.empty(0)
    x, number, left, right = (np.concatenate(column) for column in zip(*columns, strict=True))
    return x, number, left, right


def _spread(reach: Size, bay: Bay, half: Metres, tolerance: Metres, step: Metres) -> Places:
    """Block centres every step where the block keeps the tolerance from both counter-battens, both ends included."""
    start = max(bay.left + half + tolerance, reach[0])
    end = min(bay.right - half - tolerance, reach[1])
    if end < start - _TOUCH:
        return np.empty(0)
    steps = math.floor((end - start) / step + _SAME)
    x: Places = np.asarray(start + step * np.arange(steps + 1), dtype=np.float64)
    return np.append(x, end) if end - x[-1] > _SAME else x


def _outside(reach: Size, bay: Bay, half: Metres, inner: Places, step: Metres) -> Places:
    """Block centres every step where the block fits the bay as drawn, beside those that keep the tolerance."""
    x = _spread(reach, bay, half, 0.0, step)
    return x[(x < inner[0]) | (x > inner[-1])] if len(inner) else x


def _apart(x: Places) -> Places:
    """Rising places, each once; of two that are the same to a micrometre the left one."""
    rising = np.sort(x)
    return rising[np.diff(rising, prepend=-np.inf) > _SAME]


def _distance(blocks: npt.NDArray[np.object_], things: tuple[LineString | Polygon, ...]) -> Places:
    """From each block to the nearest of the things; infinite where there is none."""
    if not things:
        return np.full(len(blocks), np.inf)
    distances: Places = shapely.distance(blocks, GeometryCollection(list(things)))
    return distances


def _boxes(x: Places, half_width: Metres, low: Metres, high: Metres) -> npt.NDArray[np.object_]:
    """Rectangles of one height and width about each place."""
    level = np.ones_like(x)
    boxes: npt.NDArray[np.object_] = shapely.box(x - half_width, low * level, x + half_width, high * level)
    return boxes


def _refuse(rules: SeatRules, block_width: Metres, block_height: Metres, arm_width: Metres) -> None:
    """No seats for sizes that are no sizes."""
    sizes = (
        ("seat step", rules.step),
        ("block width", block_width),
        ("block height", block_height),
        ("arm width", arm_width),
    )
    for what, size in sizes:
        if not 1e-3 <= size < math.inf:
            raise InputError(what, given=f"{size:g} m", allowed="at least 0.001 m")
    for what, distance in (("joint distance", rules.joint_distance), ("edge distance", rules.edge_distance)):
        if not 0.0 <= distance < math.inf:
            raise InputError(what, given=f"{distance:g} m", allowed="0 or more")
