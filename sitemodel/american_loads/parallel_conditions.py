"""The geometric conditions of ASCE/SEI 7-16, 29.4.4, checked one by one from the real layout."""

import math
from dataclasses import dataclass

import numpy as np
import shapely

from sitemodel.panels.kinds import PanelType
from sitemodel.panels.layout import PanelLayout
from sitemodel.roof import RoofPlane
from sitemodel.sources import Citation, cite, our_choice
from sitemodel.standards.wind_asce7 import HIGHEST_TOP, LARGEST_TILT, LEAST_GAP, LONGEST_PANEL, edge_clearance
from sitemodel.units import Metres

ROUNDING: Metres = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class ParallelCondition:
    """One condition: what it asks, what was found, and which panels break it."""

    key: str
    asks: str
    limit: str
    found: str
    """At the panel nearest to the limit."""
    failing: tuple[str, ...]
    """Panels that break it, by id; empty where all hold."""
    citation: Citation

    @property
    def holds(self) -> bool:
        """Whether every panel keeps it."""
        return not self.failing


def parallel_conditions(
    plane: RoofPlane, layout: PanelLayout, panel: PanelType, clear_height: Metres
) -> tuple[ParallelCondition, ...]:
    """V1 to V7 for the panels of a plane, from their real rectangles.

    A panel that breaks one has no pressure equalisation; the others keep theirs.
    """
    every = tuple(placed.id for placed in layout.panels)
    if not every:
        return ()
    top = clear_height + panel.thickness
    outlines = np.array([placed.outline for placed in layout.panels], dtype=object)
    return (
        _all_or_none("V1", "building enclosed or partially enclosed", "closed", "a closed building under a sip roof",
                     (), our_choice("a roof of sips closes the building; a canopy or carport must not be given")),
        _all_or_none("V2", "panels parallel to the roof", f"within {LARGEST_TILT:g} degrees", "0 degrees",
                     (), our_choice("both rails of a row stand at one height: hooks are packed to it on site")),
        _all_or_none("V3", "top of the panels above the roof, h2", f"at most {HIGHEST_TOP * 1e3:g} mm",
                     f"{top * 1e3:.0f} mm", every if top > HIGHEST_TOP + ROUNDING else (), _clause()),
        _gaps(every, shapely.bounds(outlines)),
        _all_or_none("V5", "distance between gaps: the longer side of a panel", f"at most {LONGEST_PANEL:g} m",
                     f"{panel.length:.3f} m", every if panel.length > LONGEST_PANEL + ROUNDING else (), _clause()),
        _edges(every, plane, outlines, top),
        _overhang(every, plane, outlines),
    )  # fmt: skip


def equalised(conditions: tuple[ParallelCondition, ...], panel_id: str) -> bool:
    """Whether a panel keeps every condition."""
    return all(panel_id not in condition.failing for condition in conditions)


def broken_by(conditions: tuple[ParallelCondition, ...], panel_id: str) -> str:
    """The conditions that a panel breaks, in words; empty where it keeps all."""
    return "; ".join(
        f"{condition.key}, {condition.asks}: {condition.limit}, found {condition.found}"
        for condition in conditions
        if panel_id in condition.failing
    )


def _clause(standing_from_memory: bool = False) -> Citation:
    return cite("ASCE7-16", "29.4.4", "from memory" if standing_from_memory else "transcribed")


def _all_or_none(
    key: str, asks: str, limit: str, found: str, failing: tuple[str, ...], citation: Citation
) -> ParallelCondition:
    return ParallelCondition(key=key, asks=asks, limit=limit, found=found, failing=failing, citation=citation)


def _gaps(every: tuple[str, ...], boxes: np.ndarray) -> ParallelCondition:
    left, low, right, top = boxes.T
    across = np.maximum(left[None, :] - right[:, None], left[:, None] - right[None, :])
    along = np.maximum(low[None, :] - top[:, None], low[:, None] - top[None, :])
    # Panels beside each other overlap one way; their gap is the distance the other way.
    apart = np.where(along < -ROUNDING, across, np.where(across < -ROUNDING, along, math.inf))
    np.fill_diagonal(apart, math.inf)
    nearest = apart.min(axis=1)
    failing = tuple(name for name, gap in zip(every, nearest.tolist(), strict=True) if gap < LEAST_GAP - ROUNDING)
    least = float(nearest.min())
    found = f"{least * 1e3:.1f} mm" if math.isfinite(least) else "no neighbour"
    return _all_or_none(
        "V4", "gap to the next panel, both ways", f"at least {LEAST_GAP * 1e3:.2f} mm", found, failing, _clause()
    )


def _edges(every: tuple[str, ...], plane: RoofPlane, outlines: np.ndarray, top: Metres) -> ParallelCondition:
    clearance = edge_clearance(top)
    distances = shapely.distance(plane.outline.exterior, outlines).tolist()
    failing = tuple(name for name, d in zip(every, distances, strict=True) if d < clearance - ROUNDING)
    limit = f"at least {clearance * 1e3:.0f} mm (the larger of 2 h2 and 10 in)"
    return _all_or_none(
        "V6", "panel to eaves, verge, ridge, hip or valley", limit, f"{min(distances) * 1e3:.0f} mm", failing,
        _clause(standing_from_memory=True),
    )  # fmt: skip


def _overhang(every: tuple[str, ...], plane: RoofPlane, outlines: np.ndarray) -> ParallelCondition:
    outside = shapely.area(shapely.difference(outlines, plane.outline)).tolist()
    failing = tuple(name for name, area in zip(every, outside, strict=True) if area > ROUNDING)
    return _all_or_none(
        "V7", "no panel past any roof edge", "none", f"{len(failing)} of {len(every)} panels", failing,
        our_choice("no overhang; a public criteria sheet for roofs of houses asks the same"),
    )  # fmt: skip
