"""The forces on one block, seen from the verge: what the hook brings, what screws and skin give back."""

import math
from dataclasses import dataclass

from markupsafe import Markup

from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.reference_check import ReferenceRow
from sitemodel.report.blocks import Drawing
from sitemodel.report.wording import kn, mm
from sitemodel.units import Metres, Newtons

WIDTH = 600.0
SKIN = 300.0
"""Height on the paper of the top of the skin."""
LONGEST = 90.0
"""Of an arrow."""
SHORTEST = 22.0
SHOWN: Newtons = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """Paper units for places up the slope; the largest force has the longest arrow."""

    left: Metres
    scale: float
    largest: Newtons

    def x(self, place: Metres) -> float:
        """Across the paper."""
        return round((place - self.left) * self.scale, 1)

    def length(self, force: Newtons) -> float:
        """Of the arrow of a force."""
        return max(LONGEST * abs(force) / self.largest, SHORTEST)


def free_body(row: ReferenceRow, kit: SpreaderBlockKit, hook: Hook, reach: Metres, stands: Metres = 0.0) -> Drawing:
    """The block with every force on it, by the reference model.

    Args:
        row: forces and answers in one combination.
        kit: the block.
        hook: the hook.
        reach: of the load line.
        stands: how far from the middle of the block its arm stands up out of the slates; 0 where it is not known.
    """
    half = kit.height / 2.0
    left, right = min(-reach, -stands, -half) - 0.07, half + 0.05
    pulls, pushes = float(row.block.tension.sum()), float(row.block.push.sum())
    largest = max(pulls, pushes, abs(row.forces.normal), abs(row.forces.down_slope), SHOWN)
    view = SideView(left=left, scale=WIDTH / (right - left), largest=largest)
    top, line = SKIN - kit.thickness * view.scale, SKIN - hook.height * view.scale
    parts = (
        f'<rect x="0" y="{SKIN:g}" width="{WIDTH:g}" height="9" fill="#b4b4b4" stroke="#000"/>',
        _text(WIDTH - 8, SKIN + 26, "outer skin", "end"),
        f'<rect x="{view.x(-half)}" y="{top:.1f}" width="{kit.height * view.scale:.1f}" '
        f'height="{kit.thickness * view.scale:.1f}" fill="#fff" stroke="#000" stroke-width="2"/>',
        f'<path d="{_arm(view, hook, (reach, stands), line, top)}" fill="none" stroke="#777" stroke-width="5" '
        'stroke-linejoin="round"/>',
        *_hook_forces(row, view, view.x(-reach), line),
        *_screws(row, view),
        *_push(row, view),
        _reach(view.x(-reach), view.x(0.0), SKIN + 148.0, f"e = {mm(reach)} mm"),
    )
    high = min(line - LONGEST - 40.0, top - 20.0)
    svg = (
        f'<svg class="chart" viewBox="0 {high:.0f} {WIDTH:g} {SKIN + 170.0 - high:.0f}" role="img" '
        f'aria-label="Forces on the block, seen from the verge">{"".join(parts)}</svg>'
    )
    balance = row.forces.normal + pushes - pulls
    caption = (
        f"Forces on the block in {row.forces.combination.replace('_', ' ')}, kN, by the reference model; seen from the "
        "verge, the slope turned level, down the slope to the left. Square to the roof: "
        f"{kn(row.forces.normal)} from the hook and {kn(pushes)} from the skin up, {kn(pulls)} from the screws down; "
        f"what is left over: {kn(abs(balance))}."
    )
    return Drawing(svg=Markup(svg), caption=caption, wide=False)  # noqa: S704


def _arm(view: SideView, hook: Hook, reach: tuple[Metres, Metres], line: float, top: float) -> str:
    """From the load line, by where the arm comes out of the slates, to the foot plate."""
    foot = f"L{view.x(-hook.foot_length / 2)} {top:.1f} H{view.x(hook.foot_length / 2)}"
    load, stands = view.x(-reach[0]), view.x(-max(reach))
    if not reach[1]:
        return f"M{load} {line:.1f} {foot}"
    slates = top - 0.4 * (top - line)
    back = min(line + 12.0, slates) if stands < load else line
    return f"M{load} {line:.1f} V{back:.1f} H{stands} V{slates:.1f} {foot}"


def _hook_forces(row: ReferenceRow, view: SideView, x: float, y: float) -> tuple[str, ...]:
    """At the load line: square to the roof, and along it."""
    drawn = []
    normal, along = row.forces.normal, row.forces.down_slope
    if abs(normal) >= SHOWN:
        size = view.length(normal)
        ends = (y, y - size) if normal > 0.0 else (y - size, y)
        drawn.append(_arrow(x, ends[0], x, ends[1]))
        drawn.append(_text(x, y - size - 10.0, f"F = {kn(abs(normal))}", "middle"))
    if abs(along) >= SHOWN:
        size = min(view.length(along), x - 6.0)
        ends = (x, x - size) if along > 0.0 else (x - size, x)
        drawn.append(_arrow(ends[0], y, ends[1], y))
        drawn.append(_text(max(x - size / 2.0, 36.0), y + 22.0, kn(abs(along)), "middle"))
    return tuple(drawn)


def _screws(row: ReferenceRow, view: SideView) -> tuple[str, ...]:
    """Screws of one height together: they pull the block down."""
    rows: dict[float, float] = {}
    for place, tension in zip(row.block.group.y, row.block.tension.tolist(), strict=True):
        key = round(place, 4)
        rows[key] = rows.get(key, 0.0) + tension
    drawn = []
    for place, tension in sorted(rows.items()):
        x = view.x(place)
        idle = tension < SHOWN
        drawn.append(
            f'<path d="M{x} {SKIN - 6:g} V{SKIN + 16:g}" stroke="#000" stroke-width="2.5" '
            f'{"stroke-dasharray=" + chr(34) + "3 3" + chr(34) if idle else ""} fill="none"/>'
        )
        if idle:
            drawn.append(_text(x, SKIN + 34.0, "0", "middle"))
        else:
            size = view.length(tension)
            drawn.append(_arrow(x, SKIN + 16.0, x, SKIN + 16.0 + size))
            drawn.append(_text(x, SKIN + 34.0 + size, kn(tension), "middle"))
    return tuple(drawn)


def _push(row: ReferenceRow, view: SideView) -> tuple[str, ...]:
    """The skin's push on the block as one force where it acts, and how far it touches."""
    push = row.block.push
    total = float(push.sum())
    if total < SHOWN:
        return ()
    place = float(push @ row.block.cell_y) / total
    touching = row.block.cell_y[push > 0.0]
    x, size = view.x(place), view.length(total)
    low, high = view.x(float(touching.min())), view.x(float(touching.max()))
    return (
        f'<path d="M{low} {SKIN - 4:g} H{max(high, low + 4.0)}" stroke="#000" stroke-width="6" fill="none"/>',
        _arrow(x, SKIN + 16.0 + size, x, SKIN + 2.0),
        _text(x, SKIN + 34.0 + size, f"C = {kn(total)}", "middle"),
    )


def _arrow(x: float, y: float, to_x: float, to_y: float) -> str:
    """A line with a filled head."""
    length = math.hypot(to_x - x, to_y - y)
    across, along = (to_x - x) / length, (to_y - y) / length
    foot_x, foot_y = to_x - 11.0 * across, to_y - 11.0 * along
    left = f"{foot_x - 5.0 * along:.1f} {foot_y + 5.0 * across:.1f}"
    right = f"{foot_x + 5.0 * along:.1f} {foot_y - 5.0 * across:.1f}"
    return (
        f'<path d="M{x:.1f} {y:.1f} L{foot_x:.1f} {foot_y:.1f}" stroke="#000" stroke-width="2.4" fill="none"/>'
        f'<path d="M{to_x:.1f} {to_y:.1f} L{left} L{right} Z" fill="#000"/>'
    )


def _text(x: float, y: float, text: str, anchor: str) -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="15" class="halo" style="text-anchor:{anchor}">{text}</text>'


def _reach(x: float, to_x: float, y: float, text: str) -> str:
    """A measure between load line and block centre."""
    return (
        f'<path d="M{x:.1f} {y - 7:.1f} v14 M{to_x:.1f} {y - 7:.1f} v14 M{x:.1f} {y:.1f} H{to_x:.1f}" '
        'stroke="#000" stroke-width="1" fill="none"/>' + _text((x + to_x) / 2.0, y - 6.0, text, "middle")
    )
