"""The wind rose of a site: twelve sectors as long as their pressure, with their category and what stands upwind."""

import math

from markupsafe import Markup

from sitemodel.report.blocks import Block, Bullets, Drawing, Table
from sitemodel.report.wording import NONE
from sitemodel.site import OrographicFeature
from sitemodel.units import Ratio
from sitemodel.wind import WindExposure, WindSector

CENTRE = 190.0
REACH = 120.0
ALIKE: Ratio = 1e-6
"""Pressures that differ by no more than this share are the same."""
SHADES = {"0": "#1f4e79", "I": "#2e75b6", "II": "#70a4d4", "III": "#b4c9a4", "IV": "#8d9a83"}


def wind_rose(exposure: WindExposure) -> Drawing:
    """Length by pressure, shade by category, the governing sector outlined."""
    worst = exposure.governing
    largest = worst.peak_velocity_pressure
    alike = all(sector.peak_velocity_pressure > (1.0 - ALIKE) * largest for sector in exposure.sectors)
    shapes, labels = [], []
    for sector in exposure.sectors:
        radius = REACH * sector.peak_velocity_pressure / largest
        governs = sector == worst and not alike
        edge = 'stroke="#000" stroke-width="3.5"' if governs else 'stroke="#fff" stroke-width="1"'
        shapes.append(f'<path d="{_wedge(sector.direction, radius)}" fill="{SHADES[sector.category]}" {edge}/>')
        labels.append(_label(sector, governs=governs))
    rings = "".join(
        f'<circle cx="{CENTRE:g}" cy="{CENTRE:g}" r="{REACH * share:g}" fill="none" stroke="#999" '
        f'stroke-dasharray="3 3"/><text x="{CENTRE + 3:g}" y="{CENTRE - REACH * share - 3:g}" font-size="11" '
        f'class="start halo" fill="#555">{share * largest / 1e3:.2f}</text>'
        for share in (0.5, 1.0)
    )
    used = [name for name in SHADES if any(sector.category == name for sector in exposure.sectors)]
    key = "".join(
        f'<rect x="{12 + 78 * place:g}" y="388" width="14" height="14" fill="{SHADES[name]}"/>'
        f'<text x="{31 + 78 * place:g}" y="400" font-size="13" class="start">cat. {name}</text>'
        for place, name in enumerate(used)
    )
    svg = (
        f'<svg class="chart" viewBox="0 0 {2 * CENTRE:g} 412" role="img" aria-label="Wind rose" '
        f'style="max-width:420px" text-anchor="middle">{"".join(shapes)}{rings}{"".join(labels)}{key}</svg>'
    )
    caption = (
        "Wind rose: each sector as long as its peak velocity pressure (rings and figures in kN/m²), wind from the side "
        "it points to, north up, its terrain category behind its name; "
        + ("every sector bears alike" if alike else f"outlined: the sector that governs ({worst.direction:g}°)")
    )
    return Drawing(svg=Markup(svg), caption=caption, wide=False)  # noqa: S704


def _wedge(direction: float, radius: float) -> str:
    points = [_at(direction + turn, radius) for turn in (-14.5, -7.0, 0.0, 7.0, 14.5)]
    rim = " L".join(f"{x:.1f} {y:.1f}" for x, y in points)
    return f"M{CENTRE:g} {CENTRE:g} L{rim} Z"


def _at(direction: float, radius: float) -> tuple[float, float]:
    angle = math.radians(direction)
    return CENTRE + radius * math.sin(angle), CENTRE - radius * math.cos(angle)


def _label(sector: WindSector, *, governs: bool) -> str:
    """Name and category, pressure, and the orography factor where there is one, outside the rim."""
    x, y = _at(sector.direction, REACH + 38.0)
    text = f"{sector.peak_velocity_pressure / 1e3:.2f}"
    second = f"c_o {sector.orography_factor:.2f}" if sector.orography_factor > 1.0 else ""
    name = {0.0: "N", 90.0: "E", 180.0: "S", 270.0: "W"}.get(sector.direction, f"{sector.direction:g}°")
    strong = 'class="bold"' if governs else ""
    lines = (
        f'<text x="{x:.1f}" y="{y - 3:.1f}" font-size="12" {strong}>{name}, {sector.category}</text>'
        f'<text x="{x:.1f}" y="{y + 11:.1f}" font-size="13" {strong}>{text}</text>'
    )
    if second:
        lines += f'<text x="{x:.1f}" y="{y + 23:.1f}" font-size="11" fill="#555">{second}</text>'
    return lines


def sector_blocks(exposure: WindExposure) -> tuple[Block, ...]:
    """The rose, the table of sectors, and what an engineer must look at; nothing where no sectors are known."""
    if not exposure.sectors:
        return ()
    rows = tuple(
        (
            f"{sector.direction:g}",
            sector.category,
            f"{sector.roughness_length:g}",
            f"{sector.begins:.0f} / {sector.fetch:.0f}" if sector.fetch else NONE,
            f"{sector.displacement:.1f}",
            f"{sector.orography_factor:.2f}",
            f"{sector.direction_factor:.2f}",
            f"{sector.peak_velocity_pressure / 1e3:.3f}",
            "; ".join((sector.rule, *(_words(found) for found in sector.features), *sector.notes)),
        )
        for sector in exposure.sectors
    )
    ground = ("category", "z_0, m", "begins / looked at, m", "h_dis, m")
    head = ("wind from, °", *ground, "c_o", "c_dir", "q_p, kN/m²", "why")
    table = Table(caption="Wind by direction", head=head, rows=rows)
    flags = (Bullets(items=exposure.flags),) if exposure.flags else ()
    return (wind_rose(exposure), table, *flags)


def _words(found: OrographicFeature) -> str:
    ends = f", L_d {found.downwind_length:.0f} m" if found.kind == "hill" else ""
    size = f"{found.kind}, H {found.height:.1f} m, L_u {found.upwind_length:.0f} m{ends}"
    return f"{size}, site at X {round(found.distance) + 0:d} m from its crest"
