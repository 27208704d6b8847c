"""A small invented roof for the tests of courses, bays, slates and seats."""

from dataclasses import replace

from shapely import Polygon, box

from sitemodel.anchors.seats import SeatRules
from sitemodel.buildup import (
    Batten,
    BuildUp,
    Core,
    CounterBatten,
    Course,
    Nailing,
    Sip,
    Skin,
    Slate,
    gauge,
)
from sitemodel.panels.layout import RailLine
from sitemodel.rails.runs import RailRun
from sitemodel.roof import PlaneFrame, RoofPlane
from sitemodel.site import LocalMap
from sitemodel.slates import SlateBond
from sitemodel.units import Metres

RULES = SeatRules(joint_distance=0.15, edge_distance=0.15, step=0.05)
BLOCK_WIDTH, BLOCK_HEIGHT, ARM_WIDTH = 0.200, 0.130, 0.040


def slate(
    length: Metres = 0.500, width: Metres = 0.250, head_lap: Metres = 0.090, nailing: Nailing = "centre"
) -> Slate:
    return Slate(
        length=length,
        width=width,
        thickness=0.006,
        head_lap=head_lap,
        joint=0.005,
        nailing=nailing,
        nail_clearance=0.010,
        nail_inset=0.030,
        head_to_hole=0.025,
    )


def build_up(of: Slate | None = None) -> BuildUp:
    skin = Skin(board="OSB/3", thickness=0.015, strong_axis_up=True)
    core = Core(
        foam="EPS",
        thickness=0.150,
        modulus=6e6,
        modulus_upper=8e6,
        poisson=0.1,
        tensile_strength=1e5,
        tensile_basis="assumed",
        compressive_strength=1e5,
        compressive_basis="assumed",
    )
    sip = Sip(outer_skin=skin, core=core, inner_skin=skin, joint_pitch=1.2, joint_origin=0.0, inside_access=False)
    return BuildUp(
        sip=sip,
        counter_batten=CounterBatten(
            width=0.045, thickness=0.025, spacing=0.600, origin=0.0225, position_tolerance=0.010
        ),
        batten=Batten(width=0.050, thickness=0.025),
        slate=of or slate(),
        driving_rain="moderate",
        eaves_overhang=0.050,
        service_class=2,
        block_gap=0.025,
    )


def plane(outline: Polygon | None = None, pitch: float = 35.0) -> RoofPlane:
    local_map = LocalMap(longitude=-2.0, latitude=52.0)
    frame = PlaneFrame(
        local_map=local_map, origin_east=0.0, origin_north=0.0, origin_height=4.5, azimuth=180.0, pitch=pitch
    )
    return RoofPlane(
        id="south",
        outline=outline or box(0.0, 0.0, 9.0, 5.0),
        frame=frame,
        pitch=pitch,
        azimuth=180.0,
        eaves_height=4.5,
        ridge_height=7.4,
        eaves_found=False,
        fit_residual=0.0,
        obstructions=(),
        exclusions=(),
        sip_joints=(),
        supports=(),
        counter_battens=(),
    )


def wide_bond(of: Slate, courses: int = 20) -> SlateBond:
    """A bond without verges near by: tails at 0, g, 2 g and so on, odd courses from x = 0."""
    largest = gauge(of)
    hole = of.length - largest + of.nail_clearance if of.nailing == "centre" else of.length - of.head_to_hole
    rows = tuple(Course(number=i + 1, tail_y=i * largest, batten_y=i * largest + hole) for i in range(courses))
    return SlateBond(
        slate=of,
        courses=rows,
        gauge=largest,
        origin_x=0.0,
        origin_assumed=False,
        outline=box(-50.0, 0.0, 50.0, courses * largest + 0.3),
    )


def run(course: Course, start: Metres = 0.5, end: Metres = 8.5, eccentricity: Metres = 0.080) -> RailRun:
    """A rail without loads, its hooks on one course."""
    line = RailLine(y=course.batten_y - eccentricity, course=course, eccentricity=eccentricity, load_share=0.5)
    return RailRun(id="R1-lower", row=1, side="lower", line=line, start=start, end=end, panel_ids=("P1",), loads=())


def with_tolerance(of: BuildUp, tolerance: Metres) -> BuildUp:
    return replace(of, counter_batten=replace(of.counter_batten, position_tolerance=tolerance))
