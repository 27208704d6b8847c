"""PanelLayout: where the panels and the two rails of each row lie on a plane."""

from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import MultiPolygon, Polygon

from sitemodel.buildup import Course
from sitemodel.errors import InputError
from sitemodel.panels.certificate import NOTHING_LAID, LayoutCertificate, certify
from sitemodel.panels.kinds import LayoutRequest, Orientation, PanelType
from sitemodel.panels.packing import pack_rows
from sitemodel.panels.place_worth import PlaceWorth
from sitemodel.panels.rail_lines import CourseRows, course_rows
from sitemodel.panels.region import usable_region
from sitemodel.panels.row_choice import RowChoice, choose_rows
from sitemodel.panels.row_programme import AnyHeight, RowKind, RowSpot
from sitemodel.panels.strips import TOUCH, Floats, boundary_edges, free_intervals, row_counts
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
    gap: Metres
    """Between neighbours; a wider gap parts two runs."""
    lower_rail: RailLine
    upper_rail: RailLine
    panels: tuple[PlacedPanel, ...]
    free: tuple[tuple[Metres, Metres], ...] = ()
    """Where the row's strip lies wholly in the usable region: left and right ends along the eaves, exact, from left to
    right. Panels may slide inside their own interval (``room_to_slide``). Empty: not known, nothing may slide."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelLayout:
    """All rows of one plane."""

    rows: tuple[PanelRow, ...]
    usable: Polygon | MultiPolygon | None
    notes: tuple[str, ...]
    """In words: what limited the layout, what bound is known, why nothing fits if nothing does."""
    certificate: LayoutCertificate = NOTHING_LAID
    """Of the fullest layout: it stays when panels are left out later."""

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
    *,
    worth: PlaceWorth | None = None,
    kept_clear: tuple[Polygon, ...] = (),
) -> PanelLayout:
    """The row-aligned layout with the most panels, or the most yield, whose two rails both meet slate courses.

    Courses handed in are those on which an anchor may stand at all (course 1 and the top course left out).
    Among layouts with as many panels the hooks reach least, then the rows lie lowest. In a free interval the
    panels stand in the middle, unless they earn more elsewhere. Landscape rows are clamped at the same shares of
    their short side, which the panel maker must allow.

    Args:
        plane: the roof plane.
        courses: those on which anchors may stand.
        panel: the panel type.
        reach: of the hook.
        request: margins, gap, orientation, objective.
        worth: what a panel is worth by where it lies, for the objective most_yield; the same everywhere, if left out.
        kept_clear: parts of the plane that stay free of panels, without a margin: wind zones that are too heavy.

    Raises:
        InputError: margins, gap, panel, clamp window or reach outside what they can be.
    """
    region = usable_region(plane, request, kept_clear)
    rising = tuple(sorted(courses, key=lambda course: course.batten_y))
    battens = tuple(course.batten_y for course in rising)
    places = course_rows(battens, panel, reach.eccentricity_min, reach.eccentricity_max)
    if region is None:
        return PanelLayout(rows=(), usable=None, notes=(_NO_REGION, *_windy(kept_clear)))
    kinds = _row_kinds(panel, request)
    packing = pack_rows(region, kinds, request.gap, places)
    if packing.count == 0:
        why = _why_nothing(region, kinds, request, places)
        return PanelLayout(rows=(), usable=region, notes=(*why, *_windy(kept_clear)))
    chosen = choose_rows(packing, region, kinds, request, places, worth)
    edges = boundary_edges(region)
    rows = tuple(
        _row(plane.id, number, spot, edges, request.gap, rising, places)
        for number, spot in enumerate(chosen.rows, start=1)
    )
    certificate = certify(region, kinds, request.gap, places, packing, chosen)
    return PanelLayout(rows=rows, usable=region, notes=_notes(chosen, certificate), certificate=certificate)


_LONGEST_HOOK: Metres = 0.6
"""Longer reaches are not looked for when a cure is named (project choice)."""
_NO_REGION = (
    "No panel fits: margins, obstructions and exclusions leave no usable area. Smaller margins or fewer "
    "exclusions would cure it."
)


def _windy(kept_clear: tuple[Polygon, ...]) -> tuple[str, ...]:
    """That heavy wind takes room away, where it does."""
    if not kept_clear:
        return ()
    area = shapely.union_all(list(kept_clear)).area
    return (
        f"Wind zones with more uplift than the brief allows (layout.most_uplift) take {area:.1f} m2 of the plane; a "
        "higher limit would give them back.",
    )


def _row_kinds(panel: PanelType, request: LayoutRequest) -> tuple[RowKind, ...]:
    """The orientations asked for."""
    portrait = RowKind(orientation="portrait", width=panel.width, height=panel.length)
    landscape = RowKind(orientation="landscape", width=panel.length, height=panel.width)
    return {"portrait": (portrait,), "landscape": (landscape,), "mixed": (portrait, landscape)}[request.orientation]


def _row(
    plane_id: str,
    number: int,
    spot: RowSpot,
    edges: Floats,
    gap: Metres,
    courses: tuple[Course, ...],
    places: CourseRows,
) -> PanelRow:
    """One row with its rails on their courses."""
    kind = spot.kind
    lower, upper = places.rails(kind, spot.y)
    centre, distance = spot.y + kind.height / 2, upper.y - lower.y
    shares = ((upper.y - centre) / distance, (centre - lower.y) / distance)
    free = free_intervals(edges, spot.y, spot.y + kind.height)
    lines = [
        RailLine(y=rail.y, course=courses[rail.course_index], eccentricity=rail.eccentricity, load_share=share)
        for rail, share in zip((lower, upper), shares, strict=True)
    ]
    return PanelRow(
        number=number,
        orientation=kind.orientation,
        y=spot.y,
        height=kind.height,
        gap=gap,
        lower_rail=lines[0],
        upper_rail=lines[1],
        panels=_panels_of_row(plane_id, number, spot, free, gap),
        free=free,
    )


def _panels_of_row(
    plane_id: str, number: int, spot: RowSpot, free: tuple[tuple[Metres, Metres], ...], gap: Metres
) -> tuple[PlacedPanel, ...]:
    """The panels from left to right: where the programme put them, else all that fit, in the middle."""
    kind = spot.kind
    lefts = spot.lefts or _in_the_middle(free, kind.width, gap)
    return tuple(
        PlacedPanel(
            id=f"{plane_id}-R{number}P{column}",
            row=number,
            column=column,
            orientation=kind.orientation,
            outline=shapely.box(x, spot.y, x + kind.width, spot.y + kind.height),
        )
        for column, x in enumerate(lefts, start=1)
    )


def _in_the_middle(free: tuple[tuple[Metres, Metres], ...], width: Metres, gap: Metres) -> tuple[Metres, ...]:
    """The left edge of every panel, as many as each interval holds."""
    pitch = width + gap
    lefts: list[Metres] = []
    for left, right in free:
        held = int((right - left + gap + TOUCH) / pitch)
        start = left + (right - left - held * pitch + gap) / 2
        lefts += [start + place * pitch for place in range(held)]
    return tuple(lefts)


def _notes(chosen: RowChoice, certificate: LayoutCertificate) -> tuple[str, ...]:
    """What is known about the layout, in words."""
    if not chosen.rows:
        return chosen.notes
    landscape = (
        "Landscape rows are clamped on their short sides, at the same shares as the long sides: check that "
        "the panel maker allows it (project choice, no source)."
    )
    has_landscape = any(row.kind.orientation == "landscape" for row in chosen.rows)
    notes = (*certificate.sentences(), *chosen.notes)
    return (*notes, landscape) if has_landscape else notes


def _why_nothing(
    region: Polygon | MultiPolygon, kinds: tuple[RowKind, ...], request: LayoutRequest, places: CourseRows
) -> tuple[str, ...]:
    """Which limit left the plane empty, and what would cure it."""
    free = pack_rows(region, kinds, request.gap, AnyHeight())
    if free.count == 0:
        left, low, right, high = region.bounds
        sizes = " or ".join(f"{kind.width:.3f} m by {kind.height:.3f} m ({kind.orientation})" for kind in kinds)
        return (
            f"No panel fits: inside the margins the usable area is at most {right - left:.2f} m along the eaves "
            f"and {high - low:.2f} m up the slope, and nowhere holds a panel of {sizes}. Smaller margins, "
            f"another orientation or a smaller panel would cure it.",
        )
    if len(places.battens) == 0:
        return (
            f"No row is possible: no slate course of this plane may carry an anchor, though {free.count} panels "
            f"would fit. A longer slope or a smaller gauge would cure it.",
        )
    window = f"{places.clamp_from:g} to {places.clamp_to:g} of the side"
    reach = f"{places.shortest * 1e3:.0f} mm to {places.longest * 1e3:.0f} mm"
    sentence = (
        f"No row is possible: {free.count} panels would fit, but at no height do both rails lie in the clamp "
        f"windows ({window}) and within the hook's reach ({reach}) of a slate course."
    )
    needed = _reach_that_cures(region, kinds, request, places)
    cure = (
        f"A hook whose load line can be set up to {np.ceil(needed * 1e3):.0f} mm below its block, or a wider "
        f"clamp window, would cure it; a longer reach weighs on the anchors."
        if np.isfinite(needed)
        else "A wider clamp window or another panel would cure it."
    )
    return (f"{sentence} {cure}",)


def _reach_that_cures(
    region: Polygon | MultiPolygon, kinds: tuple[RowKind, ...], request: LayoutRequest, places: CourseRows
) -> Metres:
    """The least longest reach with which some row would be possible; infinite when none would do."""
    edges = boundary_edges(region)
    longer = replace(places, longest=max(places.longest, _LONGEST_HOOK))
    needed = float("inf")
    for kind in kinds:
        y = np.arange(region.bounds[1], region.bounds[3], 1e-3)
        fits = row_counts(edges, y, y + kind.height, kind.width, request.gap) > 0
        fits &= longer.allowed(kind, y)
        needed = min(needed, float(longer.farther_reach(kind, y[fits]).min(initial=np.inf)))
    return needed


def thin_out(layout: PanelLayout, keep: int, uplift_of: tuple[Pascals, ...], loss_of: tuple[Ratio, ...]) -> PanelLayout:
    """The same layout with only the best ``keep`` panels: least shading first, then least uplift.

    Rows are emptied from their ends so that a row stays one or more unbroken runs. Shading counts in steps of
    0.1 per cent and uplift in steps of 1 Pa (project choice); between equals the shortest run goes first, then
    the highest, then the right-hand one. Ids and numbers stay those of the full layout.

    Args:
        layout: the full layout.
        keep: how many panels stay; all, if there are no more.
        uplift_of: net uplift of each panel, in the order of ``layout.panels``.
        loss_of: shading loss of each panel, in the same order.

    Raises:
        InputError: keep below zero, or values that do not match the panels.
    """
    panels = layout.panels
    if keep < 0:
        raise InputError("layout.max_panels", given=keep, allowed="0 or more")
    if not len(uplift_of) == len(loss_of) == len(panels):
        given = f"{len(uplift_of)} uplifts and {len(loss_of)} losses"
        raise InputError("layout", given=given, allowed=f"one of each for {len(panels)} panels")
    if keep >= len(panels):
        return layout
    worth = {p.id: (round(loss, 3), round(up)) for p, up, loss in zip(panels, uplift_of, loss_of, strict=True)}
    runs = [list(run) for row in layout.rows for run in unbroken_runs(row)]
    for _ in range(len(panels) - keep):
        ends = [(run, place) for run in runs if run for place in (0, len(run) - 1)]
        run, place = max(ends, key=lambda end: _goes_first(end[0], end[0][end[1]], worth))
        del run[place]
    kept = {panel.id for run in runs for panel in run}
    rows = tuple(replace(row, panels=tuple(p for p in row.panels if p.id in kept)) for row in layout.rows)
    note = (
        f"{keep} of {len(panels)} panels kept, as asked: those with the least shading, then the least uplift, "
        f"taken away from the ends of the rows."
    )
    return replace(layout, rows=tuple(row for row in rows if row.panels), notes=(*layout.notes, note))


def _goes_first(
    run: list[PlacedPanel], panel: PlacedPanel, worth: dict[str, tuple[Ratio, int]]
) -> tuple[Ratio, int, int, int, int]:
    """The largest key is the panel that goes."""
    loss, uplift = worth[panel.id]
    return loss, uplift, -len(run), panel.row, panel.column


def unbroken_runs(row: PanelRow) -> tuple[tuple[PlacedPanel, ...], ...]:
    """The panels of a row between gaps wider than the layout's gap (by more than 1 mm)."""
    runs: list[list[PlacedPanel]] = []
    for panel in row.panels:
        if runs and panel.outline.bounds[0] - runs[-1][-1].outline.bounds[2] <= row.gap + 1e-3:
            runs[-1].append(panel)
        else:
            runs.append([panel])
    return tuple(tuple(run) for run in runs)
