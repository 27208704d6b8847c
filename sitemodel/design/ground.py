"""What a plane offers before anything stands on it: sun, wind, snow, courses, and all panels that would fit."""

from dataclasses import dataclass, replace

from sitemodel.anchors.levels import LevelSets
from sitemodel.anchors.placement import BLOCKS_APART
from sitemodel.anchors.seat_loss import seat_loss
from sitemodel.anchors.seats import Seat, seats_on_rail
from sitemodel.anchors.slide import slide_rows
from sitemodel.brief import Brief
from sitemodel.buildup import Course, courses
from sitemodel.design.basis import american_winds, exposure_of, snow_of, zones_of
from sitemodel.design.places import place_worth, too_windy
from sitemodel.design.snow_drifts import PanelSnow, panel_snow
from sitemodel.design.winds_on_panels import european_winds
from sitemodel.fixings.hook import Hook
from sitemodel.panels.layout import HookReach, PanelLayout, RailLine, lay_panels, thin_out
from sitemodel.rails.runs import RailRun
from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.slates.bond import SlateBond, make_bond
from sitemodel.slates.trim import least_reach
from sitemodel.snow import SnowLoad
from sitemodel.sun import EnergyYield, energy_yield, shading_losses
from sitemodel.units import Metres, Ratio
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.pressures import PanelWind
from sitemodel.wind.zones import WindZone

LineSeats = dict[RailLine, tuple[Seat, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneGround:
    """One plane with its loads, its slates and a layout."""

    plane: RoofPlane
    energy: EnergyYield
    exposure: WindExposure
    zones: tuple[WindZone, ...]
    snow: SnowLoad
    bond: SlateBond
    courses: tuple[Course, ...]
    layout: PanelLayout
    seats: tuple[tuple[RailLine, tuple[Seat, ...]], ...]
    """The robust seats along every rail line of the fullest layout."""
    losses: tuple[Ratio, ...]
    winds: tuple[PanelWind, ...]
    panel_snow: tuple[PanelSnow, ...] = ()
    """In the order of the panels; what drifts put on each."""
    fixed_anchors: tuple[tuple[str, tuple[Metres, ...]], ...] = ()
    """By the id of a rail the places of its anchors, where they are decided beforehand."""
    doubtful: tuple[tuple[RailLine, tuple[Seat, ...]], ...] = ()
    """The seats along every rail line that fit only where the counter-battens are drawn."""
    cut_before: tuple[str, ...] = ()
    """Panels before which the rails of a long row are parted; by rule where there are none."""
    sets: tuple[LevelSets, ...] = ()
    """What an anchor holds, where it was asked for exactly these panels before."""

    @property
    def every_seat(self) -> LineSeats:
        """Along every rail line the robust and the doubtful seats, from left to right."""
        doubtful = dict(self.doubtful)
        return {
            line: tuple(sorted((*there, *doubtful.get(line, ())), key=lambda seat: seat.x))
            for line, there in self.seats
        }


def seats_along(
    brief: Brief, plane: RoofPlane, bond: SlateBond, line: RailLine, *, doubtful: bool = False
) -> tuple[Seat, ...]:
    """Every robust seat along a rail line, or every one that fits as drawn, from verge to verge."""
    kit, hook = brief.kit, brief.hook
    return seats_on_rail(
        _whole_line(plane, line),
        plane,
        brief.build_up,
        bond,
        kit.width,
        kit.height,
        hook.arm_width,
        brief.seat_rules,
        arm_offset=hook.lateral_offset,
        doubtful=doubtful,
    )


def line_seats(brief: Brief, plane: RoofPlane, bond: SlateBond, layout: PanelLayout) -> LineSeats:
    """Every seat along every rail line of a layout, the doubtful ones too."""
    lines = dict.fromkeys(line for row in layout.rows for line in (row.lower_rail, row.upper_rail))
    return {line: seats_along(brief, plane, bond, line, doubtful=True) for line in lines}


def of_kind(seats: LineSeats, *, robust: bool) -> tuple[tuple[RailLine, tuple[Seat, ...]], ...]:
    """The robust seats along each line, or the others."""
    return tuple((line, tuple(seat for seat in there if seat.robust is robust)) for line, there in seats.items())


def anchorable(brief: Brief, plane: RoofPlane, bond: SlateBond, layout: PanelLayout, seats: LineSeats) -> PanelLayout:
    """The layout slid, and if need be shortened, so that anchors can stand near both ends of every rail."""
    robust = dict(of_kind(seats, robust=True))
    slid = slide_rows(layout, brief.panel, brief.rail, brief.kit.width + BLOCKS_APART, (robust, seats))
    bare = (line for row in layout.rows for line in (row.lower_rail, row.upper_rail) if not seats[line])
    why = dict.fromkeys(_why_bare(brief, plane, bond, line) for line in bare)
    return replace(slid.layout, notes=(*slid.layout.notes, *slid.notes, *why))


def _why_bare(brief: Brief, plane: RoofPlane, bond: SlateBond, line: RailLine) -> str:
    """Why no seat lies along a rail line, and what would cure it."""
    kit, hook = brief.kit, brief.hook
    loss = seat_loss(
        _whole_line(plane, line), plane, brief.build_up, bond, kit.width, kit.height, hook.arm_width, brief.seat_rules,
        arm_offset=hook.lateral_offset,
    )  # fmt: skip
    return f"{loss.sentence} Cure: {loss.cure}."


def _whole_line(plane: RoofPlane, line: RailLine) -> RailRun:
    """A rail from verge to verge."""
    return RailRun(id="line", row=0, side="lower", line=line, start=-1.0, end=plane.width + 1.0, panel_ids=(), loads=())


def building_for(brief: Brief, plane: RoofPlane) -> Building:
    """The building as the wind zones of one plane see it.

    Stated sizes hold for planes that face the same way as the first or the opposite way; the ends of a hipped roof
    have them the other way round. On a wing that is turned against it zones are as wide as the ridge height allows.
    """
    turned = (plane.azimuth - brief.planes[0].azimuth + 90.0) % 180.0 - 90.0
    building = brief.site.building
    if abs(turned) < 15.0:
        return building
    if building.form == "hipped" and abs(turned) > 75.0:
        return replace(building, breadth=building.length, length=building.breadth)
    return replace(building, breadth=0.0, length=0.0)


def anchor_courses(every: tuple[Course, ...]) -> tuple[Course, ...]:
    """Courses an anchor may stand on: not the first (its block would meet the eaves), not the top one."""
    return every[1:-1]


def reach_past_slates(hook: Hook, bond: SlateBond) -> HookReach:
    """The declared reach, as far as the arm is out from under the slates there."""
    least = least_reach(bond, hook.arm_exit, hook.arm_return)
    return HookReach(eccentricity_min=max(hook.eccentricity_min, least), eccentricity_max=hook.eccentricity_max)


def plane_ground(brief: Brief, plane: RoofPlane) -> PlaneGround:
    """Sun, wind, snow, slates and the fullest layout of one plane."""
    building = building_for(brief, plane)
    exposure = exposure_of(brief, building)
    zones = zones_of(brief, plane, building, exposure)
    every = courses(brief.build_up, plane.slope_length, plane.id)
    bond = make_bond(plane, brief.build_up, brief.bond_origin, brief.bond_origin_assumed)
    reach = reach_past_slates(brief.hook, bond)
    energy = energy_yield(brief.site, plane, brief.cell, brief.weather)
    worth, windy = place_worth(brief, plane, energy, zones), too_windy(brief, zones)
    laid = lay_panels(plane, anchor_courses(every), brief.panel, reach, brief.layout, worth=worth, kept_clear=windy)
    seats = line_seats(brief, plane, bond, laid)
    layout = anchorable(brief, plane, bond, laid, seats)
    snow = snow_of(brief, plane)
    return PlaneGround(
        plane=plane,
        energy=energy,
        exposure=exposure,
        zones=zones,
        snow=snow,
        bond=bond,
        courses=every,
        layout=layout,
        seats=of_kind(seats, robust=True),
        doubtful=of_kind(seats, robust=False),
        losses=_losses(brief, plane, layout),
        winds=_winds(brief, plane, exposure, zones, layout),
        panel_snow=panel_snow(brief, plane, snow, layout),
    )


def _losses(brief: Brief, plane: RoofPlane, layout: PanelLayout) -> tuple[Ratio, ...]:
    outlines = tuple(panel.outline for panel in layout.panels)
    return shading_losses(brief.site, plane, brief.neighbours, outlines, brief.weather)


def _winds(
    brief: Brief, plane: RoofPlane, exposure: WindExposure, zones: tuple[WindZone, ...], layout: PanelLayout
) -> tuple[PanelWind, ...]:
    """Wind on each panel: its worst zone by name, its pressures by direction and by area."""
    if brief.site.american is not None:
        return american_winds(brief, plane, exposure, zones, layout)
    return european_winds(brief, plane, building_for(brief, plane), exposure, zones, layout)


def keep_best(brief: Brief, grounds: tuple[PlaneGround, ...]) -> tuple[PlaneGround, ...]:
    """No more panels than the brief allows, on the planes and places that yield most, then bear least uplift."""
    limit = brief.layout.max_panels
    total = sum(len(ground.layout.panels) for ground in grounds)
    if limit == 0 or total <= limit:
        return grounds
    ranked = sorted(
        (
            (-ground.energy.annual_kwh_per_kw * (1.0 - loss), wind.uplift, number)
            for number, ground in enumerate(grounds)
            for loss, wind in zip(ground.losses, ground.winds, strict=True)
        )
    )
    kept = [number for _, _, number in ranked[:limit]]
    return tuple(_thinned(brief, ground, kept.count(number)) for number, ground in enumerate(grounds))


def _thinned(brief: Brief, ground: PlaneGround, keep: int) -> PlaneGround:
    """The same ground with fewer panels; losses and winds are found again for the panels that stay."""
    thinned = thin_out(ground.layout, keep, tuple(wind.uplift for wind in ground.winds), ground.losses)
    layout = anchorable(brief, ground.plane, ground.bond, thinned, ground.every_seat)
    return with_layout(brief, ground, layout)


def with_layout(brief: Brief, ground: PlaneGround, layout: PanelLayout) -> PlaneGround:
    """The same ground with its panels elsewhere, or fewer: losses, winds and snow are found again."""
    return replace(
        ground,
        layout=layout,
        losses=_losses(brief, ground.plane, layout),
        winds=_winds(brief, ground.plane, ground.exposure, ground.zones, layout),
        panel_snow=panel_snow(brief, ground.plane, ground.snow, layout),
        sets=(),
    )
