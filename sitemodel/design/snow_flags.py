"""Snow that the anchors are not designed for and an engineer must look at: sliding onto the array, into a valley."""

import math
from itertools import pairwise

import shapely

from sitemodel.brief import Brief
from sitemodel.design.answer import PlaneDesign
from sitemodel.roof import RoofPlane
from sitemodel.standards.snow_en1991_1_3 import sliding_force, valley_coefficient
from sitemodel.units import Metres, NewtonsPerMetre

WORTH_SAYING: Metres = 0.5
"""Of slate above the array, in plan: less holds little snow (project choice)."""
SLANTED = 0.2
"""An edge counts as slanted where it both rises and runs by more than this share of its length."""


def snow_flags(brief: Brief, design: PlaneDesign) -> tuple[str, ...]:
    """One sentence each; nothing on the American basis, without panels or without snow."""
    if brief.site.american is not None or not design.layout.panels or design.snow.ground <= 0.0:
        return ()
    return (*_sliding(design), *_valley(design))


def sliding_on_array(design: PlaneDesign) -> tuple[Metres, NewtonsPerMetre]:
    """Plan depth of slate above the array where it is largest, and the force of its snow along the top edge."""
    plane = design.plane
    cosine = math.cos(math.radians(plane.pitch))
    depths = [0.0]
    for panel in design.layout.panels:
        left, _, right, top = panel.outline.bounds
        above = shapely.box(left, top, right, plane.slope_length + 1.0)
        covered = any(
            other is not panel and other.outline.intersection(above).area > 0.0 for other in design.layout.panels
        )
        strip = shapely.intersection(above, plane.outline)
        if not covered and not strip.is_empty:
            depths.append((strip.bounds[3] - top) * cosine)
    depth = max(depths)
    return depth, sliding_force(design.snow.on_roof, depth, plane.pitch)


def _sliding(design: PlaneDesign) -> tuple[str, ...]:
    depth, force = sliding_on_array(design)
    if depth < WORTH_SAYING or force <= 0.0:
        return ()
    return (
        f"snow: from {depth:.1f} m of slate (in plan) above the panels up to "
        f"{math.ceil(force / 10.0) / 100.0:.2f} kN/m of snow may slide onto their top edge, down the slope (EN "
        "1991-1-3, 6.4 (6.1), characteristic, without friction); panels and anchors are not designed for it: snow "
        "guards above the array, or an engineer",
    )


def valley_edges(plane: RoofPlane) -> tuple[shapely.LineString, ...]:
    """Slanted edges from which the plane rises: valleys, and verges that a wing may meet."""
    ring = list(shapely.geometry.polygon.orient(plane.outline, 1.0).exterior.coords)
    found = []
    for (x0, y0), (x1, y1) in pairwise(ring):
        run, rise = x1 - x0, y1 - y0
        length = math.hypot(run, rise)
        slanted = min(abs(run), abs(rise)) > SLANTED * length
        if slanted and run > 0.0:  # counter-clockwise: the inside lies above an edge that runs to the right
            found.append(shapely.LineString([(x0, y0), (x1, y1)]))
    return tuple(found)


def _valley(design: PlaneDesign) -> tuple[str, ...]:
    edges = valley_edges(design.plane)
    pitch = design.plane.pitch
    if not edges or pitch >= 60.0:
        return ()
    line = shapely.union_all(edges)
    near = min(float(shapely.distance(line, panel.outline)) for panel in design.layout.panels)
    return (
        f"snow: the plane rises from a slanted edge; if that is a valley, snow may gather there up to mu "
        f"{valley_coefficient(pitch):.1f} instead of {design.snow.shape_coefficient_on_panels:.1f} (EN 1991-1-3, "
        f"5.3.4, falling to the ridge); the nearest panel lies {near:.2f} m from it and is not designed for that: an "
        "engineer must look at it",
    )
