"""The stress between skin and foam under one block, as a picture that survives a photocopier."""

import numpy as np
from markupsafe import Markup

from sitemodel.fixings.cases import Floats
from sitemodel.fixings.reference_check import ReferenceRow
from sitemodel.report.blocks import Drawing, LegendEntry
from sitemodel.report.signs import swatch
from sitemodel.report.wording import kn, mm
from sitemodel.units import Metres, Ratio

MARGIN: Metres = 0.080
"""Drawn beyond the block on each side."""
CELL: Metres = 0.010
GREYS = ("#ffffff", "#dcdcdc", "#b4b4b4", "#858585", "#4d4d4d")
SHARES = (0.1, 0.3, 0.5, 0.75)
"""Of the largest tension: where one grey ends and the next begins."""


def bond_picture(row: ReferenceRow, factor: Ratio, prefix: str) -> Drawing:
    """Stress between skin and foam in greys; where the block pushes, hatched."""
    group = row.block.group
    half_x, half_y = group.width / 2.0 + MARGIN, group.height / 2.0 + MARGIN
    x = np.linspace(-half_x, half_x, round(2.0 * half_x / CELL) + 1)
    y = np.linspace(-half_y, half_y, round(2.0 * half_y / CELL) + 1)
    field = row.block.bond_stress(*np.meshgrid(x, y)) * factor
    most = max(row.bond_reference, float(field.max()), 1e-9)
    scale = 560.0 / (2.0 * half_x)

    def px(value: float) -> float:
        return round((value + half_x) * scale, 1)

    def py(value: float) -> float:
        return round((half_y - value) * scale, 1)

    drawn = _fills(field, most, x, y, scale, prefix)
    drawn.append(
        f'<rect x="{px(-group.width / 2)}" y="{py(group.height / 2)}" width="{group.width * scale:.1f}" '
        f'height="{group.height * scale:.1f}" fill="none" stroke="#000" stroke-width="2"/>'
    )
    for at_x, at_y, tension in zip(group.x, group.y, row.block.tension.tolist(), strict=True):
        drawn.append(f'<circle cx="{px(at_x)}" cy="{py(at_y)}" r="5" fill="#fff" stroke="#000" stroke-width="1.6"/>')
        text = f'<text class="halo bold" x="{px(at_x)}" y="{py(at_y) - 10:.1f}" font-size="15">{kn(tension)}</text>'
        drawn.append(text)
    hatch = (
        f'<defs><pattern id="{prefix}-push" width="7" height="7" patternUnits="userSpaceOnUse">'
        '<path d="M0 7 L7 0" stroke="#000" stroke-width="0.9"/></pattern></defs>'
    )
    svg = (
        f'<svg class="chart" viewBox="0 0 560 {2.0 * half_y * scale:.1f}" role="img" aria-label="Stress between skin '
        f'and foam under the block">{hatch}{"".join(drawn)}</svg>'
    )
    caption = (
        f"Stress between outer skin and foam in {row.forces.combination.replace('_', ' ')}, seen from above, up the "
        f"slope at the top; block {mm(group.width)} by {mm(group.height)} mm outlined. Figures: pull of each screw, "
        f"kN. Largest tension {most / 1e3:.1f} kPa."
    )
    return Drawing(svg=Markup(svg), caption=caption, wide=False, legend=_bond_legend(most))  # noqa: S704


def _fills(field: Floats, most: float, x: Floats, y: Floats, scale: float, prefix: str) -> list[str]:
    """One path for each grey, runs of equal cells joined; the hatch last."""
    level = np.digitize(field / most, SHARES)
    level[field < -0.02 * most] = -1
    side_x, side_y = (x[1] - x[0]) * scale, (y[1] - y[0]) * scale
    paths: dict[int, list[str]] = {}
    for line, row in enumerate(level.tolist()):
        top = (len(y) - 1 - line) * side_y - side_y / 2.0
        start = 0
        for place in range(1, len(row) + 1):
            if place == len(row) or row[place] != row[start]:
                left, width = start * side_x - side_x / 2.0, (place - start) * side_x
                run = f"M{left:.1f} {top:.1f}h{width:.1f}v{side_y:.1f}h-{width:.1f}z"
                paths.setdefault(row[start], []).append(run)
                start = place
    return [
        f'<path d="{"".join(runs)}" fill="{f"url(#{prefix}-push)" if key < 0 else GREYS[key]}"/>'
        for key, runs in sorted(paths.items(), reverse=True)
        if key != 0
    ]


def _bond_legend(most: float) -> tuple[LegendEntry, ...]:
    ends = (0.0, *SHARES, 1.0)
    box = '<rect x="1" y="2" width="32" height="16" fill="{0}" stroke="#000"/>'
    entries = [
        LegendEntry(
            sign=swatch(box.format(grey)),
            meaning=f"tension {low * most / 1e3:.1f} to {high * most / 1e3:.1f} kPa",
        )
        for grey, low, high in zip(GREYS, ends[:-1], ends[1:], strict=True)
    ]
    lines = '<path d="M4 18 L16 2 M12 18 L24 2 M20 18 L32 2" stroke="#000" fill="none"/>'
    entries.append(LegendEntry(sign=swatch(box.format("#fff") + lines), meaning="pressed: the block pushes"))
    return tuple(entries)
