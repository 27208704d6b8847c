"""The wind zones of a plane in pictures: one small plan for each wind direction, and the envelope over all."""

import math
from dataclasses import dataclass

import shapely
from markupsafe import Markup, escape
from shapely import Polygon

from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.design.wind_by_direction import zones_by_direction
from sitemodel.report.blocks import Block, Bullets, Drawing, Table
from sitemodel.report.sheet import Labels, Sheet
from sitemodel.report.signs import hatch_patterns, north_arrow
from sitemodel.report.wording import decimal, kpa
from sitemodel.wind.direction_zones import DirectionZone
from sitemodel.wind.directions import Direction
from sitemodel.wind.zone_shares import BLOWS

WIDEST, HIGHEST = 330.0, 230.0
"""Of a plane on its small plan, in paper units."""
MARGIN = 58.0
HEAD = (
    "wind", "from, °", "q_p, kN/m²", "zone", "area, m²", "c_pe,1 up", "c_pe down", "uplift, kN/m²", "onto roof, kN/m²",
    "form", "clause",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Patch:
    """What is drawn: an area with its letter and its uplift."""

    zone: str
    polygon: Polygon
    uplift: float


def zone_pictures(design: PlaneDesign, brief: Brief, prefix: str) -> tuple[Block, ...]:
    """A plan for each direction, the envelope, the table behind them; nothing where directions are not told apart."""
    zones = zones_by_direction(brief, design)
    if not zones:
        return ()
    drawn: list[Block] = []
    for direction in dict.fromkeys(zone.direction for zone in zones):
        mine = [zone for zone in zones if zone.direction == direction]
        patches = tuple(_Patch(zone=z.zone, polygon=z.polygon, uplift=z.uplift) for z in mine)
        caption = f"{_caption(mine[0], design)}; uplift in kN/m²: {_values(patches)}"
        drawn.append(_picture(design, patches, caption, f"{prefix}-from-{direction}", direction))
    worst = tuple(_Patch(zone=z.zone, polygon=z.polygon, uplift=z.uplift) for z in design.zones)
    caption = (
        "Envelope: each spot with the letter and the uplift of the direction that lifts it most, in kN/m²: "
        f"{_values(worst)}"
    )
    drawn.append(_picture(design, worst, caption, f"{prefix}-envelope", None))
    flags = tuple(dict.fromkeys(zone.flag for zone in zones if zone.flag))
    told = (Bullets(items=tuple(f"{flag[0].upper()}{flag[1:]}." for flag in flags)),) if flags else ()
    return (*drawn, *told, _table(zones, design))


def _caption(zone: DirectionZone, design: PlaneDesign) -> str:
    peak = kpa(design.exposure.pressure_from(zone.wind_from))
    return (
        f"Wind from {round(zone.wind_from) % 360}°, {BLOWS[zone.direction]}: q_p {peak} kN/m²; zones of a {zone.form}"
    )


def _values(patches: tuple[_Patch, ...]) -> str:
    """Letters with their uplift, the largest first; a letter with several as a range."""
    of: dict[str, list[float]] = {}
    for patch in sorted(patches, key=lambda item: -item.uplift):
        of.setdefault(patch.zone.replace("_", " "), []).append(patch.uplift)
    return ", ".join(
        f"{letter} {kpa(min(values))}" + (f" to {kpa(max(values))}" if kpa(min(values)) != kpa(max(values)) else "")
        for letter, values in of.items()
    )


def _picture(
    design: PlaneDesign, patches: tuple[_Patch, ...], caption: str, name: str, direction: Direction | None
) -> Drawing:
    plane = design.plane
    scale = min(WIDEST / plane.width, HIGHEST / plane.slope_length)
    sheet = Sheet(
        width=plane.width, height=plane.slope_length, scale=scale, left=MARGIN, top=MARGIN, right=MARGIN, bottom=MARGIN
    )
    letters = tuple(dict.fromkeys(patch.zone for patch in patches))
    areas = "".join(
        f'<path d="{sheet.path(patch.polygon)}" fill="url(#{name}-zone-{letters.index(patch.zone)})" '
        'stroke="#000" stroke-width="1"/>'
        for patch in patches
    )
    labels = Labels()
    for patch in sorted(patches, key=lambda item: -item.polygon.area):
        _label(patch, sheet, labels)
    outline = f'<path d="{sheet.path(plane.outline)}" fill="none" stroke="#000" stroke-width="2.4"/>'
    arrow = "" if direction is None else _arrow(direction, sheet)
    foot = f'<text x="{sheet.paper_width / 2:.1f}" y="{sheet.y(0.0) + 18:.1f}" font-size="12">eaves</text>'
    north = north_arrow(plane.azimuth, sheet.paper_width - 30.0, 30.0)
    svg = (
        f'<svg class="chart" viewBox="0 0 {sheet.paper_width:.0f} {sheet.paper_height:.0f}" role="img" '
        f'aria-label="{escape(caption)}" style="max-width:{max(sheet.paper_width, 300.0):.0f}px">'
        f"<defs>{hatch_patterns(letters, name)}</defs>{areas}{outline}{arrow}{foot}{north}"
        f"{''.join(labels.written)}</svg>"
    )
    return Drawing(svg=Markup(svg), caption=caption, wide=False, beside=True)  # noqa: S704


def _label(patch: _Patch, sheet: Sheet, labels: Labels) -> None:
    """Letter and uplift in the middle of the widest spot; the letter alone where there is no room for both."""
    spot = shapely.maximum_inscribed_circle(patch.polygon, tolerance=0.05).coords[0]
    x, y = sheet.x(spot[0]), sheet.y(spot[1])
    room = 2.0 * shapely.maximum_inscribed_circle(patch.polygon, tolerance=0.05).length * sheet.scale
    letter = patch.zone.replace("_", " ")
    up = f"{patch.uplift / 1e3:.2f}"
    if room >= 34.0:
        labels.write(letter, ((x, y - 8.0),), 14.0, "bold")
        labels.write(up, ((x, y + 8.0),), 12.0)
        return
    left, low, right, top = patch.polygon.bounds
    wide = (right - left) * sheet.scale
    text = f"{letter} {up}" if wide > 70.0 else letter
    labels.write(text, ((x, y), (x, y + 10.0), (x, y - 10.0)), 12.0, "bold") or labels.write(
        letter, ((x, y), (x, sheet.y(low) - 7.0), (x, sheet.y(top) + 7.0)), 10.5, "bold"
    )


def _arrow(direction: Direction, sheet: Sheet) -> str:
    """A broad arrow outside the plane, the way the wind blows as seen from in front of the roof."""
    middle_x, middle_y = sheet.x(sheet.width / 2.0), sheet.y(sheet.height / 2.0)
    half_x, half_y = sheet.width * sheet.scale / 2.0, sheet.height * sheet.scale / 2.0
    turn = math.radians(direction)
    # 0 blows up the paper, 90 (from the left verge) to the right, 180 down, 270 to the left.
    blow_x, blow_y = math.sin(turn), -math.cos(turn)
    reach = abs(blow_x) * half_x + abs(blow_y) * half_y
    tip_x, tip_y = middle_x - blow_x * (reach + 8.0), middle_y - blow_y * (reach + 8.0)
    side = 0.0 if direction in (90, 270) else half_x * 0.5
    angle = math.degrees(math.atan2(blow_x, -blow_y))
    return (
        f'<g transform="translate({tip_x - side:.1f} {tip_y:.1f}) rotate({angle:.0f})">'
        '<path d="M0 0 L-11 16 H-4.5 V40 H4.5 V16 H11 Z" fill="#fff" stroke="#000" stroke-width="1.8"/></g>'
    )


def _table(zones: tuple[DirectionZone, ...], design: PlaneDesign) -> Table:
    """Zones of one letter of one direction on one line, with the area they have together."""
    merged: dict[tuple[int, str, str], list[DirectionZone]] = {}
    for zone in zones:
        merged.setdefault((zone.direction, zone.zone, zone.flag), []).append(zone)
    rows = tuple(
        (
            str(first.direction), str(round(first.wind_from) % 360),
            kpa(design.exposure.pressure_from(first.wind_from)), first.zone.replace("_", " "),
            decimal(sum(zone.polygon.area for zone in same), 1), decimal(first.coefficient_uplift, 2),
            decimal(first.coefficient_down, 2), kpa(first.uplift), kpa(first.down), first.form, first.clause.text(),
        )
        for same in merged.values()
        for first in same[:1]
    )  # fmt: skip
    caption = "Wind zones direction by direction; the areas of each direction add up to the plane"
    return Table(caption=caption, head=HEAD, rows=rows)
