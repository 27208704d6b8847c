"""Invented planes, courses, panels and rails for the tests of panels and rails."""

from dataclasses import replace
from typing import Literal

from shapely import Polygon, box

from sitemodel.buildup import Course
from sitemodel.loads import LimitState, LoadCombination
from sitemodel.panels import HookReach, LayoutRequest, PanelLayout, PanelType, lay_panels
from sitemodel.rails import RailType
from sitemodel.roof import Obstruction, PlaneFrame, RoofPlane
from sitemodel.site import LocalMap
from sitemodel.sources import our_choice

PANEL = PanelType(
    length=1.722,
    width=1.134,
    thickness=0.030,
    mass=21.0,
    peak_power=430.0,
    temperature_coefficient=-0.0035,
    clamp_from=0.20,
    clamp_to=0.25,
    clamp_basis="assumed",
)
RAIL = RailType(
    design_moment=800.0,
    bending_stiffness=10_000.0,
    mass=1.1,
    overhang=0.05,
    longest_cantilever=0.40,
    longest_run=12.0,
    deflection_limit=1 / 200,
    basis="assumed",
)
REACH = HookReach(eccentricity_min=0.03, eccentricity_max=0.09)
Orientation = Literal["portrait", "landscape", "mixed"]


def plane(outline: Polygon, *obstructions: Polygon, exclusions: tuple[Polygon, ...] = ()) -> RoofPlane:
    frame = PlaneFrame(
        local_map=LocalMap(longitude=-2.4, latitude=52.2),
        origin_east=0.0,
        origin_north=0.0,
        origin_height=5.0,
        azimuth=180.0,
        pitch=35.0,
    )
    standing = tuple(
        Obstruction(id=f"O{number}", kind="chimney", outline=shape, height=1.0)
        for number, shape in enumerate(obstructions, start=1)
    )
    return RoofPlane(
        id="A",
        outline=outline,
        frame=frame,
        pitch=35.0,
        azimuth=180.0,
        eaves_height=5.0,
        ridge_height=8.0,
        eaves_found=False,
        fit_residual=0.0,
        obstructions=standing,
        exclusions=exclusions,
        sip_joints=(),
        supports=(),
        counter_battens=(),
    )


def request(orientation: Orientation = "portrait", margin: float = 0.0, gap: float = 0.02) -> LayoutRequest:
    return LayoutRequest(
        margin_eaves=margin,
        margin_ridge=margin,
        margin_verge=margin,
        margin_obstruction=margin,
        margin_other=margin,
        gap=gap,
        orientation=orientation,
        max_panels=0,
        objective="most_panels",
        clear_height=0.1,
    )


def courses(count: int = 40, gauge: float = 0.205, first: float = 0.25) -> tuple[Course, ...]:
    return tuple(Course(number=n + 2, tail_y=first + n * gauge - 0.3, batten_y=first + n * gauge) for n in range(count))


def laid(
    outline: Polygon,
    *obstructions: Polygon,
    reach: HookReach = REACH,
    orientation: Orientation = "portrait",
    margin: float = 0.0,
    gauge: float = 0.205,
) -> PanelLayout:
    """A layout on an invented plane."""
    return lay_panels(plane(outline, *obstructions), courses(gauge=gauge), PANEL, reach, request(orientation, margin))


def combination(name: str, limit_state: LimitState) -> LoadCombination:
    return LoadCombination(
        name=name,
        limit_state=limit_state,
        duration="short",
        dead=1.0,
        snow=0.0,
        wind_uplift=1.0,
        wind_down=0.0,
        citation=our_choice("invented combination of a test"),
    )


UPLIFT = combination("uplift", "ultimate")
SERVICE = combination("characteristic_uplift", "characteristic")
ROOF = box(0.0, 0.0, 9.0, 5.6)
LONG_RAIL = replace(RAIL, longest_run=4.0)
