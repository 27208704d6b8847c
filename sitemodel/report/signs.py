"""The signs of the plan: a shape for each verdict, a hatch for each wind zone, north arrow, scale bar."""

import math

from markupsafe import Markup

from sitemodel.fixings.method import Verdict
from sitemodel.report.sheet import Sheet
from sitemodel.units import Degrees, Metres

HATCHES: dict[str, str] = {
    "F": "M0 8 L8 0 M0 0 L8 8",
    "G": "M-2 2 L2 -2 M0 8 L8 0 M6 10 L10 6",
    "H": "",
    "I": "M4 3.6 L4 4.4",
    "J": "M-2 6 L2 10 M0 0 L8 8 M6 -2 L10 2",
    "K": "M4 0 L4 8",
    "L": "M0 4 L8 4 M4 0 L4 8",
    "M": "M0 4 L8 4",
    "N": "M4 2 L4 6",
}
"""Strokes of one 8 by 8 tile, by the first letter of the zone."""


def hatch(zone: str) -> str:
    """Strokes of a zone's tile; an unknown letter gets dashes."""
    return HATCHES.get(zone[:1], "M1 4 L5 4")


def hatch_patterns(zones: tuple[str, ...], prefix: str) -> str:
    """One pattern for each zone letter."""
    return "".join(
        f'<pattern id="{prefix}-zone-{place}" width="8" height="8" patternUnits="userSpaceOnUse">'
        f'<path d="{hatch(zone)}" stroke="#8a8a8a" stroke-width="0.9" fill="none"/></pattern>'
        for place, zone in enumerate(zones)
    )


def anchor_sign(verdict: Verdict, x: float, y: float) -> str:
    """Disc: holds. Open diamond: holds if tested. Crossed square: fails."""
    if verdict == "holds":
        return f'<circle cx="{x:g}" cy="{y:g}" r="6" fill="#000" stroke="#fff" stroke-width="1"/>'
    if verdict == "holds_if_tested":
        corners = f"M{x - 7.5:g} {y:g} L{x:g} {y - 7.5:g} L{x + 7.5:g} {y:g} L{x:g} {y + 7.5:g} Z"
        return f'<path d="{corners}" fill="#fff" stroke="#000" stroke-width="2"/>'
    square = f"M{x - 7:g} {y - 7:g} H{x + 7:g} V{y + 7:g} H{x - 7:g} Z"
    cross = f"M{x - 7:g} {y - 7:g} L{x + 7:g} {y + 7:g} M{x - 7:g} {y + 7:g} L{x + 7:g} {y - 7:g}"
    return f'<path d="{square} {cross}" fill="#fff" stroke="#b00000" stroke-width="2.4"/>'


def north_arrow(azimuth: Degrees, x: float, y: float) -> str:
    """An arrow to true north in plan, for a drawing whose foot is the eaves."""
    angle = (180.0 - azimuth + 360.0) % 360.0
    tip_x = x + 26.0 * math.sin(math.radians(angle))
    tip_y = y - 26.0 * math.cos(math.radians(angle))
    return (
        f'<g transform="rotate({angle:.1f} {x:g} {y:g})"><path d="M{x:g} {y + 15:g} V{y - 15:g} '
        f'M{x - 5:g} {y - 7:g} L{x:g} {y - 16:g} L{x + 5:g} {y - 7:g}" '
        'stroke="#000" stroke-width="1.8" fill="none"/>'
        f'</g><text x="{tip_x:.1f}" y="{tip_y + 4.5:.1f}" font-size="13" class="bold">N</text>'
    )


def scale_bar(sheet: Sheet, x: float, y: float) -> str:
    """A bar of whole metres that ends at x."""
    length: Metres = next((m for m in (1.0, 2.0, 5.0, 10.0) if m * sheet.scale >= 90.0), 20.0)
    start = x - length * sheet.scale
    middle = (start + x) / 2.0
    return (
        f'<path d="M{start:.1f} {y:g} H{x:g} V{y - 5:g} H{start:.1f} Z" fill="#fff" stroke="#000"/>'
        f'<path d="M{start:.1f} {y:g} H{middle:.1f} V{y - 5:g} H{start:.1f} Z" fill="#000"/>'
        f'<text x="{middle:.1f}" y="{y + 13:g}" font-size="12">{length:g} m</text>'
    )


def swatch(inside: str) -> Markup:
    """A sign alone, for the legend."""
    return Markup(f'<svg width="34" height="20" viewBox="0 0 34 20" aria-hidden="true">{inside}</svg>')  # noqa: S704


def zone_swatch(zone: str) -> Markup:
    """A piece of hatched roof, drawn without a pattern so that it stands alone."""
    tiles = "".join(
        f'<path transform="translate({1 + 8 * column} {2 + 8 * row})" d="{hatch(zone)}" stroke="#8a8a8a" '
        'stroke-width="0.9" fill="none"/>'
        for column in range(4)
        for row in range(2)
    )
    hatched = f'<svg x="1" y="2" width="32" height="16" viewBox="1 2 32 16">{tiles}</svg>'
    return swatch(f'{hatched}<rect x="1" y="2" width="32" height="16" fill="none" stroke="#8a8a8a"/>')
