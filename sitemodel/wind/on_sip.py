"""Wind on the sip itself: roof zones above, the air of the room below, the wall's pressure under the overhang.

None of it acts on a panel: a panel has the outside air on both of its faces.
"""

import math
from dataclasses import dataclass

import shapely

from sitemodel.roof import RoofPlane
from sitemodel.site import Building, Openings
from sitemodel.sources import Citation, Step, cite, our_choice
from sitemodel.standards.internal_pressure_en1991_1_4 import (
    UNKNOWN,
    internal_coefficient,
    internal_coefficient_dominant,
    overhang_underside,
)
from sitemodel.standards.wall_pressure_en1991_1_4 import HIGHEST_SLENDERNESS, wall_coefficients
from sitemodel.units import Metres, Pascals, Ratio
from sitemodel.wind.directions import DIRECTIONS, Direction, coefficients, extent_of, letters, zone_depths
from sitemodel.wind.edges import edge_strip
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.zones import WindZone, edge_zones, pressures_of

SQUATTEST, TALLEST = 0.25, 1.0
"""h/d beyond which Figure 7.13 changes no more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SipWind:
    """Characteristic wind on the sip of one plane, positive numbers, the worst of all zones and directions.

    ``uplift`` and ``down`` act on its upper side. ``inside_out`` and ``inside_in`` act on its lower side over the
    room, outwards and inwards. ``beyond`` is how far up the slope the sip lies outside the wall; no room lies below
    there: ``overhang_uplift`` and ``overhang_down`` are upper and lower side together, ``under_uplift`` and
    ``under_down`` the lower side alone, as it counts below a panel.
    """

    uplift: Pascals
    down: Pascals
    outward_coefficient: Ratio
    """c_pi that presses outwards, at least 0."""
    inward_coefficient: Ratio
    """c_pi that sucks inwards, at most 0."""
    inside_out: Pascals
    inside_in: Pascals
    beyond: Metres
    overhang_uplift: Pascals
    overhang_down: Pascals
    under_uplift: Pascals
    under_down: Pascals
    steps: tuple[Step, ...]


NO_SIP_WIND = SipWind(
    uplift=0.0, down=0.0, outward_coefficient=0.0, inward_coefficient=0.0, inside_out=0.0, inside_in=0.0, beyond=0.0,
    overhang_uplift=0.0, overhang_down=0.0, under_uplift=0.0, under_down=0.0, steps=(),
)  # fmt: skip
"""Where the sip was not asked."""


def sip_wind(
    plane: RoofPlane, zones: tuple[WindZone, ...], building: Building, exposure: WindExposure, beyond: Metres
) -> SipWind:
    """Wind on the sip of one plane.

    Args:
        plane: the roof plane.
        zones: its wind zones.
        building: with its openings.
        exposure: peak velocity pressure by direction; the largest one fills the room.
        beyond: length up the slope that lies outside the wall.
    """
    highest, lowest, source, how = internal_range(building, exposure.reference_height)
    outward, inward = max(0.0, highest), min(0.0, lowest)
    peak = exposure.peak_velocity_pressure
    highest_zone = max(zones, key=lambda zone: zone.uplift)
    lowest_zone = max(zones, key=lambda zone: zone.down)
    uplift, down = highest_zone.uplift, lowest_zone.down
    over_up, over_down = _overhang(plane, building, exposure) if beyond > 0.0 else (0.0, 0.0)
    under_up, under_down = _under(plane, exposure) if beyond > 0.0 else (0.0, 0.0)
    steps = _steps((highest_zone, lowest_zone), (outward, inward), peak, (source, how))
    if beyond > 0.0:
        steps += _overhang_steps(beyond, over_up, over_down, building)
    return SipWind(
        uplift=uplift,
        down=down,
        outward_coefficient=outward,
        inward_coefficient=inward,
        inside_out=outward * peak,
        inside_in=-inward * peak,
        beyond=beyond,
        overhang_uplift=over_up,
        overhang_down=over_down,
        under_uplift=under_up,
        under_down=under_down,
        steps=steps,
    )


def internal_range(building: Building, height: Metres) -> tuple[Ratio, Ratio, Citation, str]:
    """The highest and the lowest c_pi of a building, where they come from, and how, in words."""
    known = building.openings
    if known.known == "nothing":
        place = "7.2.9 (6), note 2, openings not known: +0.2 and -0.3, the more onerous for each case"
        return *UNKNOWN, cite("EN1991-1-4", place, "from memory"), "openings not stated"
    if known.known == "dominant":
        return _dominant(known)
    slender = _slenderness(building, height)
    highest = max(internal_coefficient(known.least_ratio, item) for item in slender)
    lowest = min(internal_coefficient(known.greatest_ratio, item) for item in slender)
    how = f"openings at suction {known.least_ratio:g} to {known.greatest_ratio:g} of all openings, as stated"
    return highest, lowest, cite("EN1991-1-4", "7.2.9 (6), Figure 7.13", "from memory"), how


def _dominant(known: Openings) -> tuple[Ratio, Ratio, Citation, str]:
    """The dominant wall faces the wind (zone D) or has it along it (zone A), both as small areas."""
    faces = [wall_coefficients(zone, HIGHEST_SLENDERNESS).coefficient_1 for zone in ("D", "A")]
    highest, lowest = (internal_coefficient_dominant(face, known.times_others) for face in faces)
    how = f"one wall has {known.times_others:g} times the openings of the rest, as stated; wind from any side"
    place = "7.2.9 (5), with zones D and A of Table 7.1, c_pe,1"
    return highest, lowest, cite("EN1991-1-4", place, "from memory"), how


def _slenderness(building: Building, height: Metres) -> tuple[Ratio, ...]:
    """h/d for wind across and along the eaves; both ends of the figure where a size is not stated."""
    sizes = (building.breadth, building.length)
    return tuple(value for size in sizes for value in ((height / size,) if size > 0.0 else (SQUATTEST, TALLEST)))


def _overhang(plane: RoofPlane, building: Building, exposure: WindExposure) -> tuple[Pascals, Pascals]:
    """Upper side by the roof's zones and lower side by the wall's, in each direction; relief is never counted."""
    extent = extent_of(plane, building.form)
    depths = zone_depths(extent, building, exposure.reference_height)
    depth = max(depths.on_eaves, depths.along_eaves) / 10.0
    slanted = not edge_strip(shapely.normalize(plane.outline), plane.pitch, depth).is_empty
    beside = edge_zones(extent) if slanted else []
    pressures = pressures_of(plane, exposure)
    ups, downs = [], []
    for direction in DIRECTIONS:
        above = [coefficients(extent, direction, letter) for letter in letters(extent.form, direction)]
        suction = max(-cell.suction_1 for cell in (*above, *(coefficients(extent, *zone) for zone in beside)))
        below = under_overhang(direction)
        ups.append((max(0.0, suction) + max(0.0, below)) * pressures[direction])
        downs.append((max(0.0, *(cell.pressure for cell in above)) + max(0.0, -below)) * pressures[direction])
    return max(ups), max(downs)


def _under(plane: RoofPlane, exposure: WindExposure) -> tuple[Pascals, Pascals]:
    """The lower side alone, the worst of the four directions."""
    pressures = pressures_of(plane, exposure)
    below = [under_overhang(direction) * pressures[direction] for direction in DIRECTIONS]
    return max(0.0, *below), max(0.0, *(-value for value in below))


def under_overhang(direction: Direction) -> Ratio:
    """Coefficient of the wall under the eaves, small area: windward, side or leeward wall."""
    if direction == 0:
        return overhang_underside(HIGHEST_SLENDERNESS)
    return wall_coefficients("E" if direction == 180 else "A", HIGHEST_SLENDERNESS).coefficient_1


def _steps(
    worst: tuple[WindZone, WindZone], inside: tuple[Ratio, Ratio], peak: Pascals, source: tuple[Citation, str]
) -> tuple[Step, ...]:
    citation, how = source
    net = cite("EN1991-1-4", "5.2 (3), w = w_e - w_i", "transcribed")
    up, down = worst
    all_over = "the worst zone of the plane over the whole of it"
    rows: tuple[tuple[str, float, str, str, Citation], ...] = (
        ("w_e,up", up.uplift, "Pa", f"suction on the upper side of the sip, {all_over}: {up.zone}", up.clause),
        ("w_e,down", down.down, "Pa", f"pressure on the upper side of the sip, {all_over}", _of_pressure(down)),
        ("c_pi,out", inside[0], "-", f"internal pressure that adds to uplift; {how}", citation),
        ("c_pi,in", inside[1], "-", f"internal suction that adds to pressure from above; {how}", citation),
        ("w_up", up.uplift + inside[0] * peak, "Pa", "net uplift of the sip, at the largest q_p of the site", net),
        ("w_down", down.down - inside[1] * peak, "Pa", "net pressure onto the sip, at the largest q_p", net),
    )
    return tuple(
        Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=cited)
        for symbol, value, unit, sentence, cited in rows
    )


def _of_pressure(zone: WindZone) -> Citation:
    place = f"Tables 7.3 to 7.5, positive values, c_pe {zone.coefficient_down:.2f}, direction {zone.direction_down}"
    return cite("EN1991-1-4", place, "transcribed")


def _overhang_steps(beyond: Metres, up: Pascals, down: Pascals, building: Building) -> tuple[Step, ...]:
    wall = cite("EN1991-1-4", "7.2.1 (3), Table 7.1: zone D of the windward wall, A of a side wall, E leeward",
                "from memory")  # fmt: skip
    stated = cite("BRIEF", "site.building.overhang")
    read = our_choice("what lies below the lowest support that is drawn counts as beyond the wall")
    rows: tuple[tuple[str, float, str, str, Citation], ...] = (
        (
            "l",
            beyond,
            "m",
            "of the sip up the slope lies beyond the wall",
            stated if building.overhang_stated else read,
        ),
        ("w_up,eaves", up, "Pa", "uplift beyond the wall: roof zone above and the wall's pressure below", wall),
        ("w_down,eaves", down, "Pa", "pressure beyond the wall: relief of one side by the other is not counted", wall),
    )
    return tuple(
        Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=cited)
        for symbol, value, unit, sentence, cited in rows
    )


def beyond_wall(plane: RoofPlane, building: Building, lowest_support: Metres) -> Metres:
    """Length up the slope outside the wall: as stated, else what lies below the lowest support (0 for none)."""
    if building.overhang_stated:
        return building.overhang / math.cos(math.radians(plane.pitch))
    return lowest_support
