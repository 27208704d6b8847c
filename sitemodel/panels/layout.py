"""PanelLayout: where the panels and the two rails of each row lie on a plane."""

from dataclasses import dataclass

from shapely import Polygon

from sitemodel.buildup import Course
from sitemodel.panels.kinds import LayoutRequest, Orientation, PanelType
from sitemodel.roof import RoofPlane
from sitemodel.units import Metres, Pascals, Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class RailLine:
    """Where a rail can run under a row: its height up the slope, the course its hooks stand on, their offset."""

    y: Metres
    course: Course
    eccentricity: Metres
    """Block centre up the slope minus rail line: how far the hook reaches down-slope."""
    load_share: Ratio
    """Share of the row's normal load that this rail takes (two rails, by the lever rule)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedPanel:
    """One panel on the plane."""

    id: str
    row: int
    column: int
    orientation: Orientation
    outline: Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelRow:
    """One row of panels side by side; 1 is the lowest."""

    number: int
    orientation: Orientation
    y: Metres
    height: Metres
    lower_rail: RailLine
    upper_rail: RailLine
    panels: tuple[PlacedPanel, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelLayout:
    """All rows of one plane."""

    rows: tuple[PanelRow, ...]
    usable: Polygon | None
    notes: tuple[str, ...]
    """In words: what limited the layout, what bound is known, why nothing fits if nothing does."""

    @property
    def panels(self) -> tuple[PlacedPanel, ...]:
        """Every panel, row by row from the eaves, left to right."""
        return tuple(panel for row in self.rows for panel in row.panels)


@dataclass(frozen=True, slots=True, kw_only=True)
class HookReach:
    """How far down-slope of its block a hook's load line can be set, and where a block may stand."""

    eccentricity_min: Metres
    eccentricity_max: Metres


def lay_panels(
    plane: RoofPlane,
    courses: tuple[Course, ...],
    panel: PanelType,
    reach: HookReach,
    request: LayoutRequest,
) -> PanelLayout:
    """The row-aligned layout with the most panels whose two rails both meet slate courses.

    Courses handed in are those on which an anchor may stand at all (course 1 and the top course left out).
    """
    raise NotImplementedError


def thin_out(layout: PanelLayout, keep: int, uplift_of: tuple[Pascals, ...], loss_of: tuple[Ratio, ...]) -> PanelLayout:
    """The same layout with only the best ``keep`` panels: least shading first, then least uplift.

    Rows are emptied from their ends so that a row stays one or more unbroken runs.
    """
    raise NotImplementedError
