"""point_design: the whole design of one point of a front, through the same rooms as any other design."""

from dataclasses import replace

import numpy as np
import shapely

from sitemodel.brief import Brief
from sitemodel.design import Design, design_on
from sitemodel.design.ground import PlaneGround
from sitemodel.errors import InputError
from sitemodel.standards.wind_asce7 import SMALL_AREA, edge_increase
from sitemodel.tradeoff.answer import Point, TradeOff
from sitemodel.tradeoff.columns import Column, RailAnchors
from sitemodel.units import Ratio
from sitemodel.wind.array_edges import ArrayEdge, array_edges
from sitemodel.wind.pressures import PanelWind


def point_of(front: TradeOff, name: str) -> Point:
    """A point by its id.

    Raises:
        InputError: no point has this id.
    """
    found = next((point for point in front.points if point.id == name.strip().upper()), None)
    if found is None:
        last = front.main[-1].id if front.points else "none"
        raise InputError("point", given=name[:40], allowed=f"an id of the front, T01 to {last}, or one beside it")
    return found


def point_design(front: TradeOff, name: str) -> Design:
    """The design with exactly the panels of a point, its anchors placed and checked as in any design.

    Anchors are placed anew, so that the lowest utilisation is found too; only where a rail would get another number
    of anchors than in the front (more anchors for fewer slates, or a rail that sags in the gentlest arrangement) the
    front's own places are taken. Either way every anchor and rail goes through all checks.

    Raises:
        InputError: no point has this id.
    """
    point = point_of(front, name)
    variant = front.variants[point.variant]
    brief = variant.level.brief
    grounds = tuple(_with_panels(brief, ground, point) for ground in variant.grounds)
    asked = {
        ground.plane.id: anchors_by_rail([c for c in point.columns if c.plane == ground.plane.id]) for ground in grounds
    }
    fixed = {rail for rails in asked.values() for rail, there in rails.items() if there.anchors > there.fewest}
    design = design_on(brief, tuple(_fixed(ground, asked[ground.plane.id], fixed) for ground in grounds))
    placed = {rail.run.id: len(rail.anchors) for plane in design.planes for rail in plane.rails}
    other = {rail for rails in asked.values() for rail, there in rails.items() if placed.get(rail) != there.anchors}
    if not other:
        return design
    return design_on(brief, tuple(_fixed(ground, asked[ground.plane.id], fixed | other) for ground in grounds))


def _fixed(ground: PlaneGround, asked: dict[str, RailAnchors], rails: set[str]) -> PlaneGround:
    """The ground with the anchors of some rails decided."""
    places = tuple((rail, there.places) for rail, there in asked.items() if rail in rails)
    return replace(ground, fixed_anchors=places)


def _with_panels(brief: Brief, ground: PlaneGround, point: Point) -> PlaneGround:
    """The ground with only the panels of the point, no less exposed to wind than its front took them to be."""
    columns = [column for column in point.columns if column.plane == ground.plane.id]
    factors = {
        panel: factor for column in columns for panel, factor in zip(column.panel_ids, column.edge_factors, strict=True)
    }
    rows = tuple(
        replace(row, panels=tuple(panel for panel in row.panels if panel.id in factors)) for row in ground.layout.rows
    )
    layout = replace(
        ground.layout,
        rows=tuple(row for row in rows if row.panels),
        notes=(
            *ground.layout.notes,
            f"Point {point.id} of the trade-off: {len(factors)} of {len(ground.layout.panels)} panels, chosen with "
            "their anchors and slates.",
        ),
    )
    kept = [number for number, panel in enumerate(ground.layout.panels) if panel.id in factors]
    edges = _edges(brief, ground, tuple(panel.outline for panel in layout.panels))
    return replace(
        ground,
        layout=layout,
        losses=tuple(ground.losses[number] for number in kept),
        panel_snow=tuple(ground.panel_snow[number] for number in kept),
        winds=tuple(
            _at_edge(ground.winds[number], edge, factors[panel.id])
            for number, edge, panel in zip(kept, edges, layout.panels, strict=True)
        ),
    )


def _edges(brief: Brief, ground: PlaneGround, outlines: tuple[shapely.Polygon, ...]) -> tuple[ArrayEdge, ...]:
    """The exposed-edge test among the panels of the point."""
    if not outlines:
        return ()
    building = brief.site.building
    top = brief.layout.clear_height + brief.panel.thickness
    mean = (building.eaves_height + building.ridge_height) / 2.0
    return array_edges(ground.plane.outline, shapely.bounds(np.array(outlines, dtype=object)), top, mean)


def _at_edge(wind: PanelWind, edge: ArrayEdge, factor: Ratio) -> PanelWind:
    """The wind on one panel at the edge factor of the front; at the raised one wherever the panel is exposed."""
    factor = max(factor, edge_increase(SMALL_AREA) if edge.exposed else 1.0)
    share = factor / wind.edge_factor
    because = edge.sentence
    if factor > 1.0 and not edge.exposed:
        because = f"Taken as exposed, as for every point of the trade-off with these neighbours unknown. {because}"
    return replace(
        wind,
        uplift=wind.uplift * share,
        edge_factor=factor,
        exposed=factor > 1.0,
        exposed_because=because,
        cases=tuple(
            replace(case, uplift_left=case.uplift_left * share, uplift_right=case.uplift_right * share)
            for case in wind.cases
        ),
    )


def anchors_by_rail(columns: list[Column]) -> dict[str, RailAnchors]:
    """The anchors of the front by the ids of the rails they come to stand under.

    Rails are numbered along their row, from the left, over all its blocks.
    """
    found: dict[str, RailAnchors] = {}
    before: dict[int, int] = {}
    for column in sorted(columns, key=lambda column: (column.row, column.first)):
        passed = before.get(column.row, 0)
        for place, rail in enumerate(column.rails):
            found[f"{column.plane}-R{column.row}{'LU'[place % 2]}{passed + place // 2 + 1}"] = rail
        before[column.row] = passed + len(column.rails) // 2
    return found
