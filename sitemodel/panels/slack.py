"""How far panels of a row can slide sideways inside their free interval."""

from sitemodel.panels.layout import PanelRow, PlacedPanel
from sitemodel.units import Metres

EDGE: Metres = 1e-6
"""Panels this far outside an interval still lie in it: rounding."""


def room_to_slide(row: PanelRow, panels: tuple[PlacedPanel, ...]) -> tuple[Metres, Metres]:
    """The shifts along the eaves that neighbouring panels may take together: farthest left (0 or less), farthest right.

    They stay inside the free interval they lie in and keep the row's gap to the row's other panels, which stay where
    they are. Every shift between the two is legal: no further check against the usable region is needed. Panels that
    lie in no interval of ``row.free`` may not slide.

    Args:
        row: the row with all its panels.
        panels: those that slide together, from left to right: an unbroken run, or a part of one.
    """
    left, right = panels[0].outline.bounds[0], panels[-1].outline.bounds[2]
    ends = [(a, b) for a, b in row.free if a <= left + EDGE and right <= b + EDGE]
    if not ends:
        return 0.0, 0.0
    begin, end = ends[0]
    moving = {panel.id for panel in panels}
    for other in row.panels:
        if other.id in moving:
            continue
        if other.outline.bounds[2] <= left:
            begin = max(begin, other.outline.bounds[2] + row.gap)
        else:
            end = min(end, other.outline.bounds[0] - row.gap)
    return min(0.0, begin - left), max(0.0, end - right)
