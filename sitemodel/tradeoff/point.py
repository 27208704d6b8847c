"""point_design: the whole design of one point of a front, through the same rooms as any other design."""

from dataclasses import replace

import numpy as np
import shapely

from sitemodel.brief import Brief
from sitemodel.design import Design, design_on
from sitemodel.design.ground import PlaneGround
from sitemodel.errors import InputError
from sitemodel.tradeoff.answer import Point, TradeOff
from sitemodel.tradeoff.blocks import at_edge, edge_heights
from sitemodel.tradeoff.columns import Column
from sitemodel.tradeoff.rail_book import RailAnchors
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
    taken = {p: exposed for column in columns for p, exposed in zip(column.panel_ids, column.exposed, strict=True)}
    rows = tuple(
        replace(row, panels=tuple(panel for panel in row.panels if panel.id in taken)) for row in ground.layout.rows
    )
    layout = replace(
        ground.layout,
        rows=tuple(row for row in rows if row.panels),
        notes=(
            *ground.layout.notes,
            f"Point {point.id} of the trade-off: {len(taken)} of {len(ground.layout.panels)} panels, chosen with "
            f"their anchors and slates{f', on the rail {brief.rail.name}' if brief.rail.name else ''}.",
        ),
    )
    kept = [number for number, panel in enumerate(ground.layout.panels) if panel.id in taken]
    edges = _edges(brief, ground, tuple(panel.outline for panel in layout.panels))
    return replace(
        ground,
        layout=layout,
        cut_before=tuple(panel for column in columns for panel in column.cut_before),
        losses=tuple(ground.losses[number] for number in kept),
        panel_snow=tuple(ground.panel_snow[number] for number in kept),
        winds=tuple(
            _at_edge(brief, ground.winds[number], edge, taken[panel.id])
            for number, edge, panel in zip(kept, edges, layout.panels, strict=True)
        ),
    )


def _edges(brief: Brief, ground: PlaneGround, outlines: tuple[shapely.Polygon, ...]) -> tuple[ArrayEdge, ...]:
    """The exposed-edge test among the panels of the point."""
    if not outlines:
        return ()
    boxes = shapely.bounds(np.array(outlines, dtype=object))
    return array_edges(ground.plane.outline, boxes, *edge_heights(brief, ground))


def _at_edge(brief: Brief, wind: PanelWind, edge: ArrayEdge, taken: bool) -> PanelWind:
    """The wind on one panel as exposed as the front took it to be, and wherever it is exposed."""
    because = edge.sentence
    if taken and not edge.exposed:
        because = f"Taken as exposed, as for every point of the trade-off with these neighbours unknown. {because}"
    return replace(at_edge(brief, wind, exposed=taken or edge.exposed), exposed_because=because)


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
