"""The plan of one plane: outline, wind zones, what lies under the slates, panels, rails, anchors, slates."""

import shapely
from markupsafe import Markup, escape
from shapely import Polygon

from sitemodel.buildup import BuildUp
from sitemodel.design import PlaneDesign
from sitemodel.report.blocks import Drawing, LegendEntry
from sitemodel.report.sheet import Labels, Sheet, sheet_for
from sitemodel.report.signs import (
    anchor_sign,
    hatch_patterns,
    north_arrow,
    scale_bar,
    swatch,
    zone_swatch,
)
from sitemodel.report.wording import VERDICTS, compass, decimal, kpa, short, utilisation
from sitemodel.setting_out import counter_batten_lines, sip_joint_lines

COUNTER_BATTEN = 'stroke="#555" stroke-width="0.7" stroke-dasharray="4 4" fill="none"'
SIP_JOINT = 'stroke="#000" stroke-width="1.1" stroke-dasharray="12 4 2 4" fill="none"'
SLATE = 'fill="#d9c9a8" fill-opacity="0.55" stroke="#6b5a34" stroke-width="0.6"'
PANEL = 'fill="#dfe8f3" fill-opacity="0.5" stroke="#16365c" stroke-width="2.2"'
RAIL = 'stroke="#444" stroke-width="3.2" fill="none"'
UNHELD_RAIL = 'stroke="#b00000" stroke-width="3.2" stroke-dasharray="3 5" fill="none"'
OBSTRUCTION = 'fill="#c9c9c9" stroke="#000" stroke-width="1.4"'
SMALLEST_SPOT = 0.01
"""m2; what a panel's outline leaves of a zone by rounding is no place for a letter, and may have no inner point."""
EXCLUSION = 'fill="#fff" stroke="#000" stroke-width="1.2" stroke-dasharray="3 3"'


def roof_plan(design: PlaneDesign, build_up: BuildUp, prefix: str) -> Drawing:
    """The plan, with a legend of the signs that it uses; ``prefix`` keeps names of several plans apart."""
    plane = design.plane
    sheet, labels = sheet_for(plane.width, plane.slope_length), Labels()
    drawn = (
        *_zones(design, sheet, prefix),
        f'<path d="{sheet.path(plane.outline)}" fill="none" stroke="#000" stroke-width="2.6"/>',
        *(f'<path d="{sheet.line(item.line)}" {COUNTER_BATTEN}/>' for item in counter_batten_lines(design, build_up)),
        *(f'<path d="{sheet.line(item.line)}" {SIP_JOINT}/>' for item in sip_joint_lines(design, build_up)),
        *(f'<path d="{sheet.path(slate.outline)}" {SLATE}/>' for slate in design.slates),
        *_obstructions(design, sheet),
        *(f'<path d="{sheet.path(panel.outline)}" {PANEL}/>' for panel in design.layout.panels),
        *_rails(design, sheet),
        *_anchors(design, sheet, labels),
        *_edges(design, sheet),
        *_axes(sheet),
    )
    _label_panels(design, sheet, labels)
    _label_obstructions(design, sheet, labels)
    _label_zones(design, sheet, labels)
    title = escape(f"Plan of roof plane {plane.id}")
    paper = f"0 0 {sheet.paper_width:.0f} {sheet.paper_height:.0f}"
    svg = (
        f'<svg class="plan" style="min-width:{sheet.paper_width * 0.82:.0f}px" viewBox="{paper}" role="img" '
        f'aria-labelledby="{prefix}-title"><title id="{prefix}-title">{title}</title>'
        f"<defs>{hatch_patterns(_letters(design), prefix)}</defs>"
        f"{''.join(drawn)}{''.join(labels.written)}</svg>"
    )
    return Drawing(
        svg=Markup(svg),  # noqa: S704
        caption="Seen square on to the roof: true lengths, x from the left verge, y from the eaves.",
        wide=True,
        legend=_legend(design, build_up),
    )


def _letters(design: PlaneDesign) -> tuple[str, ...]:
    return tuple(dict.fromkeys(zone.zone for zone in design.zones))


def _zones(design: PlaneDesign, sheet: Sheet, prefix: str) -> tuple[str, ...]:
    letters = _letters(design)
    return tuple(
        f'<path d="{sheet.path(zone.polygon)}" fill="url(#{prefix}-zone-{letters.index(zone.zone)})" '
        'stroke="#8a8a8a" stroke-width="0.8"/>'
        for zone in design.zones
    )


def _obstructions(design: PlaneDesign, sheet: Sheet) -> tuple[str, ...]:
    standing = (f'<path d="{sheet.path(item.outline)}" {OBSTRUCTION}/>' for item in design.plane.obstructions)
    kept_clear = (f'<path d="{sheet.path(outline)}" {EXCLUSION}/>' for outline in design.plane.exclusions)
    return (*standing, *kept_clear)


def _rails(design: PlaneDesign, sheet: Sheet) -> tuple[str, ...]:
    return tuple(
        f'<path d="M{sheet.x(rail.run.start):g} {sheet.y(rail.run.line.y):g} H{sheet.x(rail.run.end):g}" '
        f"{RAIL if rail.feasible else UNHELD_RAIL}/>"
        for rail in design.rails
    )


def _anchors(design: PlaneDesign, sheet: Sheet, labels: Labels) -> tuple[str, ...]:
    """Signs; figures stand inside the row: above the sign on a lower rail, below it on an upper one."""
    placed = [
        (anchor, sheet.x(anchor.seat.x), sheet.y(anchor.seat.y), 1.0 if rail.run.side == "upper" else -1.0)
        for rail in design.rails
        for anchor in rail.anchors
    ]
    for _, x, y, _ in placed:
        labels.reserve(x, y, 8.0, 8.0)
    for anchor, x, y, inward in placed:
        places = ((x, y + 18.0 * inward), (x, y - 18.0 * inward), (x, y + 31.0 * inward), (x + 26.0, y), (x - 26.0, y))
        labels.write(utilisation(anchor.check.utilisation), places, 13.0, "bold")
    return tuple(anchor_sign(anchor.check.verdict, x, y) for anchor, x, y, _ in placed)


def _label_panels(design: PlaneDesign, sheet: Sheet, labels: Labels) -> None:
    for panel in design.layout.panels:
        left, lowest, right, top = panel.outline.bounds
        x = sheet.x((left + right) / 2.0)
        text = short(panel.id, design.plane.id)
        inside = len(text) * 3.3 + 4.0
        middle = tuple((x, sheet.y(lowest + share * (top - lowest))) for share in (0.5, 0.58, 0.42, 0.66, 0.34))
        corners = tuple(
            (across, up)
            for up in (sheet.y(top) + 9.0, sheet.y(lowest) - 9.0)
            for across in (sheet.x(left) + inside, sheet.x(right) - inside, x)
        )
        if not labels.write(text, middle, 12.0):
            labels.write(text, corners, 10.5)


def _label_obstructions(design: PlaneDesign, sheet: Sheet, labels: Labels) -> None:
    named = [(item.id, item.outline) for item in design.plane.obstructions]
    named += [("keep clear", outline) for outline in design.plane.exclusions]
    for text, outline in named:
        x, middle = sheet.x(outline.centroid.x), sheet.y(outline.centroid.y)
        lowest, highest = sheet.y(outline.bounds[1]) + 9.0, sheet.y(outline.bounds[3]) - 9.0
        labels.write(short(text, design.plane.id), ((x, middle), (x, lowest), (x, highest)), 11.0)


def _label_zones(design: PlaneDesign, sheet: Sheet, labels: Labels) -> None:
    """Each zone's letter on bare roof where it has any, near the middle of its widest clear spot."""
    covered = shapely.union_all(
        [panel.outline.buffer(0.1) for panel in design.layout.panels]
        + [item.outline for item in design.plane.obstructions]
    )
    for zone in design.zones:
        parts = shapely.get_parts(zone.polygon.difference(covered))
        bare = [part for part in parts if isinstance(part, Polygon) and part.area > SMALLEST_SPOT]
        spots = [part.representative_point() for part in sorted(bare, key=lambda part: -part.area)]
        spots.append(zone.polygon.representative_point())
        places = tuple((sheet.x(spot.x), sheet.y(spot.y)) for spot in spots if not spot.is_empty)
        labels.write(zone.zone, places, 16.0, "zone")


def _edges(design: PlaneDesign, sheet: Sheet) -> tuple[str, ...]:
    plane = design.plane
    middle = sheet.left + plane.width * sheet.scale / 2.0
    faces = f"eaves: the plane faces {decimal(plane.azimuth, 0)}° ({compass(plane.azimuth)})"
    highest = plane.slope_length - 1e-3
    at_top = sum(point[1] > highest for point in plane.outline.exterior.coords[:-1])
    top = "ridge (upper edge)" if at_top > 1 else "top"
    foot = f"{sheet.paper_height - 12:.1f}"
    return (
        f'<text x="{middle:.1f}" y="{sheet.top - 12:g}" font-size="13" class="bold">{top}</text>',
        f'<text x="{middle:.1f}" y="{foot}" font-size="13" class="bold">{escape(faces)}</text>',
        north_arrow(plane.azimuth, sheet.paper_width - 46.0, 32.0),
        scale_bar(sheet, sheet.paper_width - sheet.right, sheet.paper_height - 22.0),
    )


def _axes(sheet: Sheet) -> tuple[str, ...]:
    """Ticks each metre; figures where they have room."""
    foot, side = sheet.y(0.0), sheet.x(0.0)
    step = 1 if sheet.scale >= 30.0 else 5
    across = tuple(
        f'<path d="M{sheet.x(m):g} {foot + 4:g} v6" stroke="#000"/>'
        f'<text x="{sheet.x(m):g}" y="{foot + 22:g}" font-size="12">{m}</text>'
        for m in range(0, int(sheet.width + 1e-9) + 1, step)
    )
    up = tuple(
        f'<path d="M{side - 4:g} {sheet.y(m):g} h-6" stroke="#000"/>'
        f'<text x="{side - 20:g}" y="{sheet.y(m) + 4:g}" font-size="12">{m}</text>'
        for m in range(0, int(sheet.height + 1e-9) + 1, step)
    )
    return (
        *across,
        *up,
        f'<text x="{side:g}" y="{foot + 40:g}" font-size="12" class="start">x in m from the left verge</text>',
        f'<text transform="translate(18 {foot:g}) rotate(-90)" font-size="12" class="start">'
        "y in m up the slope from the eaves</text>",
    )


def _legend(design: PlaneDesign, build_up: BuildUp) -> tuple[LegendEntry, ...]:
    """Only the signs that the plan shows."""
    uplifts: dict[str, list[float]] = {}
    for zone in design.zones:
        uplifts.setdefault(zone.zone, []).append(zone.uplift)
    verdicts = {anchor.check.verdict for anchor in design.anchors}
    rect = '<rect x="3" y="2" width="28" height="16" {}/>'
    line = '<path d="M1 10 H33" {}/>'
    entries: list[tuple[bool, Markup, str]] = [
        (name in verdicts, swatch(anchor_sign(name, 17, 10)), f"anchor that {words}, with its utilisation")
        for name, words in VERDICTS.items()
    ]
    entries += [
        (bool(design.layout.panels), swatch(rect.format(PANEL)), "panel"),
        (any(rail.feasible for rail in design.rails), swatch(line.format(RAIL)), "rail"),
        (not all(rail.feasible for rail in design.rails), swatch(line.format(UNHELD_RAIL)), "rail that is not held"),
        (bool(design.slates), swatch(rect.format(SLATE)), "slate that is lifted and goes back"),
        (bool(counter_batten_lines(design, build_up)), swatch(line.format(COUNTER_BATTEN)), "counter-batten, centre"),
        (bool(sip_joint_lines(design, build_up)), swatch(line.format(SIP_JOINT)), "sip joint"),
        (bool(design.plane.obstructions), swatch(rect.format(OBSTRUCTION)), "obstruction"),
        (bool(design.plane.exclusions), swatch(rect.format(EXCLUSION)), "kept clear"),
    ]
    entries += [
        (True, zone_swatch(letter), f"wind zone {letter}: uplift {_range(values)} kN/m²")
        for letter, values in uplifts.items()
    ]
    return tuple(LegendEntry(sign=sign, meaning=meaning) for shown, sign, meaning in entries if shown)


def _range(values: list[float]) -> str:
    least, most = kpa(min(values)), kpa(max(values))
    return most if least == most else f"{least} to {most}"
