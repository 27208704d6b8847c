"""Exposed edges of an array of panels: how far each side of each panel is from the roof edge and the next panel."""

import math
from dataclasses import dataclass

import numpy as np
from shapely import Polygon

from sitemodel.standards.wind_asce7 import PANEL_LENGTHS, exposed_edge_limits, is_exposed_edge
from sitemodel.units import Metres

SIDES = ("left", "right", "lower", "upper")
TOUCHING: Metres = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrayEdge:
    """What the exposed-edge test found for one panel."""

    exposed: bool
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    """All panels seen from one of their sides: ``out`` grows the way the side faces, ``low``/``high`` across it."""

    name: str
    out: np.ndarray
    back: np.ndarray
    low: np.ndarray
    high: np.ndarray
    ring: np.ndarray
    """The roof outline as (out, across)."""


def array_edges(
    outline: Polygon, boxes: np.ndarray, panel_top_height: Metres, mean_roof_height: Metres
) -> tuple[ArrayEdge, ...]:
    """The exposed-edge test for every panel, from its real rectangle.

    A side is exposed when the roof edge that way is farther off than half the mean roof height and any next panel
    that way is farther off than max(4 h2, 1.22 m). Every panel with a part within 1.5 panel lengths (up the slope)
    of an exposed side takes the edge factor.

    Args:
        outline: of the plane.
        boxes: left, low, right, top of each panel, one a row.
        panel_top_height: h2.
        mean_roof_height: h.
    """
    limits = exposed_edge_limits(mean_roof_height, panel_top_height)
    sides = _sides(outline, boxes)
    roof = np.stack([_to_roof_edge(side) for side in sides], axis=1)
    gap = np.stack([_to_next_panel(side) for side in sides], axis=1)
    exposed = np.array(
        [
            [
                is_exposed_edge(d1, d2, mean_roof_height, panel_top_height)
                for d1, d2 in zip(row_roof, row_gap, strict=True)
            ]
            for row_roof, row_gap in zip(roof.tolist(), gap.tolist(), strict=True)
        ]
    )
    cause = _causes(sides, exposed, PANEL_LENGTHS * (boxes[:, 3] - boxes[:, 1]))
    return tuple(
        _exposed(found, number, roof, limits)
        if found is not None
        else ArrayEdge(exposed=False, sentence=_sheltered(roof[number], gap[number], limits))
        for number, found in enumerate(cause)
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PartArrays:
    """The exposed-edge test prepared for any choice among the panels of a plane."""

    far: np.ndarray
    """Panel, side: the roof edge that way is farther off than the limit."""
    near: np.ndarray
    """Panel, other panel, side: so near that way that the side is not exposed."""
    reached: np.ndarray
    """Panel, other panel, side: the other one takes the edge factor where this side is exposed."""

    def exposed(self, present: np.ndarray) -> np.ndarray:
        """Which of the panels that are present take the edge factor, as ``array_edges`` says of them alone."""
        pairs = np.ix_(present, present)
        open_sides = self.far[present] & ~self.near[pairs].any(axis=1)
        found: np.ndarray = (open_sides[:, None, :] & self.reached[pairs]).any(axis=(0, 2))
        return found


def part_arrays(outline: Polygon, boxes: np.ndarray, panel_top_height: Metres, mean_roof_height: Metres) -> PartArrays:
    """Distances of every panel to the roof edges and to every other panel; arguments as for ``array_edges``."""
    roof_edge, limit = exposed_edge_limits(mean_roof_height, panel_top_height)
    far, near, reached = [], [], []
    reach = PANEL_LENGTHS * (boxes[:, 3] - boxes[:, 1])[:, None]
    for side in _sides(outline, boxes):
        gap, behind, beside = (
            side.back[None, :] - side.out[:, None],
            side.out[:, None] - side.out[None, :],
            _overlap(side),
        )
        far.append(_to_roof_edge(side) > roof_edge)
        near.append(beside & (gap >= -TOUCHING) & (gap <= limit))
        reached.append(beside & (behind >= -TOUCHING) & (behind < reach))
    return PartArrays(far=np.stack(far, axis=1), near=np.stack(near, axis=2), reached=np.stack(reached, axis=2))


def _sides(outline: Polygon, boxes: np.ndarray) -> tuple[_Side, ...]:
    ring = np.asarray(outline.exterior.coords)[:, :2]
    left, low, right, top = boxes.T
    mirrored, up, down = ring * (-1.0, 1.0), ring[:, ::-1], ring[:, ::-1] * (-1.0, 1.0)
    return (
        _Side(name="left", out=-left, back=-right, low=low, high=top, ring=mirrored),
        _Side(name="right", out=right, back=left, low=low, high=top, ring=ring),
        _Side(name="lower", out=-low, back=-top, low=left, high=right, ring=down),
        _Side(name="upper", out=top, back=low, low=left, high=right, ring=up),
    )


def _to_roof_edge(side: _Side) -> np.ndarray:
    """Largest of three distances, from both ends and the middle of the side; infinite where no edge is met."""
    inset = np.minimum(1e-4, 0.25 * (side.high - side.low))
    across = np.stack([side.low + inset, (side.low + side.high) / 2.0, side.high - inset], axis=1)[:, :, None]
    (u_a, v_a), (u_b, v_b) = side.ring[:-1].T, side.ring[1:].T
    crossing = (v_a <= across) != (v_b <= across)
    share = np.where(crossing, across - v_a, 0.0) / np.where(crossing, v_b - v_a, 1.0)
    met = u_a + share * (u_b - u_a)
    ahead = crossing & (met >= side.out[:, None, None] - TOUCHING)
    first = np.where(ahead, met, math.inf).min(axis=2)
    distance: np.ndarray = np.maximum(first - side.out[:, None], 0.0).max(axis=1)
    return distance


def _to_next_panel(side: _Side) -> np.ndarray:
    """Clear gap to the nearest panel that way; infinite where there is none."""
    beside = _overlap(side)
    gap = side.back[None, :] - side.out[:, None]
    nearest: np.ndarray = np.where(beside & (gap >= -TOUCHING), np.maximum(gap, 0.0), math.inf).min(axis=1)
    return nearest


def _overlap(side: _Side) -> np.ndarray:
    shared: np.ndarray = np.minimum(side.high[:, None], side.high[None, :]) - np.maximum(
        side.low[:, None], side.low[None, :]
    )
    overlap: np.ndarray = shared > TOUCHING
    return overlap


def _causes(
    sides: tuple[_Side, ...], exposed: np.ndarray, reach: np.ndarray
) -> tuple[tuple[int, int, float, float] | None, ...]:
    """For each panel the nearest exposed side that reaches it: panel, side, distance, reach."""
    count = len(reach)
    best: list[tuple[float, int, int] | None] = [None] * count
    for index, side in enumerate(sides):
        behind = side.out[:, None] - side.out[None, :]
        reached = exposed[:, index, None] & _overlap(side) & (behind >= -TOUCHING) & (behind < reach[:, None])
        for panel, at in zip(*(found.tolist() for found in np.nonzero(reached)), strict=True):
            candidate = (max(round(float(behind[panel, at]), 9), 0.0), panel, index)
            known = best[at]
            if known is None or candidate < known:
                best[at] = candidate
    return tuple(None if found is None else (found[1], found[2], found[0], float(reach[found[1]])) for found in best)


def _exposed(
    cause: tuple[int, int, float, float], number: int, roof: np.ndarray, limits: tuple[Metres, Metres]
) -> ArrayEdge:
    panel, side, distance, reach = cause
    where = f"its {SIDES[side]} side is exposed"
    if panel != number:
        where = f"{distance:.2f} m behind an exposed {SIDES[side]} array edge, within {reach:.2f} m (1.5 panel lengths)"
    to_edge = _distance(float(roof[panel, side]))
    return ArrayEdge(
        exposed=True,
        sentence=(
            f"Exposed: {where}; {to_edge} to the roof edge, over {limits[0]:.2f} m (half the mean roof height), "
            f"and no panel within {limits[1]:.2f} m; edge increase after ASCE/SEI 7-16 29.4.4, not a Eurocode rule"
        ),
    )


def _sheltered(roof: np.ndarray, gap: np.ndarray, limits: tuple[Metres, Metres]) -> str:
    free = [(float(d1), name) for d1, d2, name in zip(roof, gap, SIDES, strict=True) if d2 > limits[1]]
    rule = "test after ASCE/SEI 7-16 29.4.4, not a Eurocode rule"
    if not free:
        return f"Not exposed: a next panel within {limits[1]:.2f} m on every side; {rule}"
    distance, name = max(free)
    return (
        f"Not exposed: of the sides with no panel within {limits[1]:.2f} m the {name} one is farthest from the roof "
        f"edge, {_distance(distance)}, not over {limits[0]:.2f} m (half the mean roof height); {rule}"
    )


def _distance(value: Metres) -> str:
    return f"{value:.2f} m" if math.isfinite(value) else "an unknown distance (taken as far)"
