"""Blocks and screw patterns that fit a build-up: sizes by the bay, thickness by the gap, screws by the stack."""

from dataclasses import dataclass, replace
from itertools import pairwise

from sitemodel.buildup import BuildUp
from sitemodel.fixings.kit import Screw, ScrewPlace, SpreaderBlockKit
from sitemodel.fixings.screw_checks import EDGE_DIAMETERS, SPACING_DIAMETERS, screw_checks
from sitemodel.units import Metres

STEP: Metres = 0.020
LEAST_SIDE: Metres = 0.100
MOST_WIDTH: Metres = 0.300
MOST_HEIGHT: Metres = 0.260
"""Sizes tried: project choice, no source."""
SCREW_STEP: Metres = 0.010
"""Screws are sold in lengths of whole centimetres: common practice, no source."""
IN_A_ROW = (2, 3, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockLimits:
    """The largest block that there is room for."""

    width: Metres
    """Across the slope, position tolerance of the counter-battens taken off."""
    height: Metres
    """Up the slope."""

    def takes(self, width: Metres, height: Metres) -> bool:
        """Whether a block fits."""
        return width <= self.width + 1e-9 and height <= self.height + 1e-9

    def in_words(self) -> str:
        """The limit as it is printed."""
        return f"{self.width * 1e3:.0f} mm across and {self.height * 1e3:.0f} mm up the slope"


def block_limits(build_up: BuildUp) -> BlockLimits:
    """By the nominal bay between two counter-battens, and by the largest size that is tried."""
    battens = build_up.counter_batten
    bay = battens.spacing - battens.width - 2.0 * battens.position_tolerance
    return BlockLimits(width=min(max(bay, 0.0), MOST_WIDTH), height=MOST_HEIGHT)


def grown(kit: SpreaderBlockKit, across: Metres, up: Metres) -> SpreaderBlockKit:
    """A larger block; screws beside the batten keep their distance from its edges, those through it stay in it."""
    places = tuple(
        replace(
            place,
            x=place.x + _sign(place.x) * across / 2.0,
            y=place.y if place.through_batten else place.y + _sign(place.y) * up / 2.0,
        )
        for place in kit.places
    )
    return replace(kit, width=kit.width + across, height=kit.height + up, places=places)


def _sign(value: float) -> float:
    return 0.0 if abs(value) < 1e-9 else (1.0 if value > 0.0 else -1.0)


def with_two_more(kit: SpreaderBlockKit) -> SpreaderBlockKit:
    """One more screw in the upper and one in the lower outermost row, in its widest gap."""
    beside = [place for place in kit.places if not place.through_batten] or list(kit.places)
    more = []
    for row in (max(place.y for place in beside), min(place.y for place in beside)):
        xs = sorted(place.x for place in beside if abs(place.y - row) < 1e-6)
        gap, start = max(((right - left, left) for left, right in pairwise(xs)), default=(0.0, xs[0]))
        more.append(ScrewPlace(x=start + gap / 2.0, y=row, through_batten=False))
    return replace(kit, places=(*kit.places, *more))


def stacked(screw: Screw, above: Metres, build_up: BuildUp) -> Screw:
    """The screw in the shortest length that brings its tip clear through the outer skin."""
    least = above + build_up.sip.outer_skin.thickness + screw.tip_length
    steps = int(least / SCREW_STEP - 1e-9) + 1
    return replace(screw, length=steps * SCREW_STEP)


def candidate_kits(build_up: BuildUp, kit: SpreaderBlockKit, limits: BlockLimits) -> tuple[SpreaderBlockKit, ...]:
    """Every block and pattern that passes the fitting rules, smallest area first, then fewest screws."""
    base = replace(
        kit,
        thickness=build_up.block_gap,
        block_screw=stacked(kit.block_screw, build_up.block_gap, build_up),
        batten_screw=stacked(kit.batten_screw, build_up.block_gap + build_up.batten.thickness, build_up),
    )
    kits = [
        replace(base, width=width, height=height, places=places)
        for width in _sides(limits.width)
        for height in _sides(limits.height)
        for places in _patterns(base, width, height)
    ]
    kits.sort(key=lambda k: (round(k.width * k.height, 9), k.width, len(k.places)))
    return tuple(k for k in kits if all(check.passes for check in screw_checks(build_up, k)))


def _sides(most: Metres) -> tuple[Metres, ...]:
    count = int((most - LEAST_SIDE) / STEP + 1e-6)
    return tuple(round(LEAST_SIDE + STEP * step, 6) for step in range(count + 1))


def _patterns(kit: SpreaderBlockKit, width: Metres, height: Metres) -> tuple[tuple[ScrewPlace, ...], ...]:
    """Two rows of two, three or four screws 4 d from the edges, with and without two through the batten."""
    diameter = max(kit.batten_screw.diameter, kit.block_screw.diameter)
    x, y = width / 2.0 - EDGE_DIAMETERS * diameter, height / 2.0 - EDGE_DIAMETERS * diameter
    if x <= 0.0 or y <= 0.0:
        return ()
    patterns = []
    for number in IN_A_ROW:
        if 2.0 * x / (number - 1) < SPACING_DIAMETERS * diameter - 1e-9:
            continue
        row = [-x + 2.0 * x * place / (number - 1) for place in range(number)]
        outer = tuple(ScrewPlace(x=at, y=side, through_batten=False) for side in (-y, y) for at in row)
        patterns.append(outer)
        patterns.append((*outer, *(ScrewPlace(x=at, y=0.0, through_batten=True) for at in (-x * 2 / 3, x * 2 / 3))))
    return tuple(patterns)
