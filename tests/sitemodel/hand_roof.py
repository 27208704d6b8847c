"""The roof, the kit and the loads of the design made up by hand: every number is invented."""

from dataclasses import replace

from shapely import LineString, Polygon, box

from sitemodel.anchors.seats import SeatRules
from sitemodel.brief import Brief
from sitemodel.buildup import Batten, BuildUp, Core, CounterBatten, Course, Sip, Skin, Slate
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import BlockBoard, CoachBolt, Screw, ScrewPlace, SpreaderBlockKit
from sitemodel.loads import LoadCombination
from sitemodel.national import recommended
from sitemodel.panels.kinds import LayoutRequest, PanelType
from sitemodel.rails.kinds import RailType
from sitemodel.roof import Obstruction, PlaneFrame, RoofPlane
from sitemodel.site import Building, LocalMap, Site
from sitemodel.sources import Step, cite
from sitemodel.sun import DefaultClimate, EnergyYield, PanelCell
from sitemodel.wind.zones import WindZone

GAUGE = 0.205
SLATE = Slate(
    length=0.5, width=0.25, thickness=0.006, head_lap=0.09, joint=0.004, nailing="centre",
    nail_clearance=0.01,
    nail_inset=0.03, head_to_hole=0.025,
)  # fmt: skip
BUILD_UP = BuildUp(
    sip=Sip(
        outer_skin=Skin(board="OSB/3", thickness=0.015, strong_axis_up=True),
        core=Core(
            foam="EPS", thickness=0.15, modulus=6e6, modulus_upper=9e6, poisson=0.1, tensile_strength=1e5,
            tensile_basis="assumed", compressive_strength=1e5, compressive_basis="declared",
        ),
        inner_skin=Skin(board="OSB/3", thickness=0.015, strong_axis_up=True),
        joint_pitch=1.2, joint_origin=0.9, inside_access=False,
    ),
    counter_batten=CounterBatten(width=0.038, thickness=0.025, spacing=0.6, origin=0.15,
    position_tolerance=0.01),
    batten=Batten(width=0.05, thickness=0.025),
    slate=SLATE, driving_rain="moderate", eaves_overhang=0.05, service_class=2, block_gap=0.025,
)  # fmt: skip
SCREW = Screw(
    diameter=0.006, root_diameter=0.0038, head_diameter=0.012, length=0.05, steel_strength=5e8,
    steel_basis="declared", head_pull_through=1.2e7, head_basis="tabulated", tip_length=0.006,
)  # fmt: skip
KIT = SpreaderBlockKit(
    width=0.2, height=0.13, thickness=0.025,
    board=BlockBoard(
        density=460.0, bending_strength=2.4e7, bearing_strength=4e6, head_pull_through=1.2e7,
        basis="tabulated"
    ),
    places=(ScrewPlace(x=-0.07, y=0.04, through_batten=False), ScrewPlace(x=0.07, y=0.04,
    through_batten=False)),
    batten_screw=replace(SCREW, length=0.08), block_screw=SCREW, pilot_diameter=0.003,
    bolt=CoachBolt(
        diameter=0.006, head_diameter=0.016, hole_diameter=0.006, stress_area=2.01e-5, strength=7e8,
        property_class="A2-70",
    ),
    bolts=2, f_ax=3.5e6, f_ax_basis="target", f_ax_source="target of the brief, to be shown by pull tests", steel="A4",
)  # fmt: skip
HOOK = Hook(
    eccentricity_min=0.03, eccentricity_max=0.2, lateral_offset=0.0, height=0.12, foot_length=0.06,
    bolt_rows=1,
    bolt_row_distance=0.0, bolt_spacing=0.1, arm_width=0.03, mass=0.6, resistance_up=3000.0,
    resistance_down=4000.0, resistance_along=2500.0, basis="declared",
)  # fmt: skip
PLANE = RoofPlane(
    id="south",
    outline=box(0.0, 0.0, 9.0, 6.0),
    frame=PlaneFrame(
        local_map=LocalMap(longitude=-3.2, latitude=52.1), origin_east=-4.0, origin_north=-2.0,
        origin_height=4.8,
        azimuth=200.0, pitch=40.0,
    ),
    pitch=40.0, azimuth=200.0, eaves_height=4.8, ridge_height=8.66, eaves_found=True, fit_residual=0.0,
    obstructions=(Obstruction(id="rooflight-1", kind="rooflight", outline=box(6.6, 3.4, 7.4, 4.6),
    height=0.1),),
    exclusions=(box(0.3, 4.8, 1.0, 5.6),),
    sip_joints=(), supports=(LineString([(0.0, 5.9), (9.0, 5.9)]),), counter_battens=(),
)  # fmt: skip
COURSES = tuple(Course(number=n, tail_y=(n - 1) * GAUGE - 0.05, batten_y=(n - 1) * GAUGE + 0.255) for n in range(1, 28))
UPLIFT = LoadCombination(
    name="uplift", limit_state="ultimate", duration="instantaneous", dead=0.9, snow=0.0, wind_uplift=1.5,
    wind_down=0.0, citation=cite("EN1990", "Table A1.2(A)", "transcribed"),
)  # fmt: skip
SNOW = LoadCombination(
    name="snow_and_wind", limit_state="ultimate", duration="short", dead=1.35, snow=1.5, wind_uplift=0.0,
    wind_down=0.9, citation=cite("EN1990", "Table A1.2(B)", "transcribed"),
)  # fmt: skip
SUSTAINED = LoadCombination(
    name="quasi_permanent", limit_state="quasi_permanent", duration="permanent", dead=1.0, snow=0.0,
    wind_uplift=0.0, wind_down=0.0, citation=cite("EN1990", "6.5.3", "transcribed"),
)  # fmt: skip


def zone(id_: str, letter: str, polygon: Polygon, uplift: float, coefficient: float) -> WindZone:
    """One wind zone."""
    return WindZone(
        id=id_, zone=letter, polygon=polygon, coefficient_uplift=coefficient, coefficient_down=0.7,
        uplift=uplift,
        down=500.0, direction_uplift=90, direction_down=0,
        clause=cite("EN1991-1-4", "7.2.5, Table 7.4a", "transcribed"),
    )  # fmt: skip


ZONES = (
    zone("south-F1", "F", box(0.0, 0.0, 1.5, 1.2), 1500.0, -2.0),
    zone("south-F2", "F", box(7.5, 0.0, 9.0, 1.2), 1500.0, -2.0),
    zone("south-G1", "G", box(1.5, 0.0, 7.5, 1.2), 1100.0, -1.5),
    zone("south-H1", "H", box(0.0, 1.2, 9.0, 5.2), 700.0, -0.9),
    zone("south-J1", "J", box(0.0, 5.2, 9.0, 6.0), 900.0, -1.2),
)


def energy() -> EnergyYield:
    """Twelve invented months."""
    months = (28.0, 44.0, 78.0, 105.0, 120.0, 118.0, 116.0, 104.0, 84.0, 57.0, 34.0, 23.0)
    return EnergyYield(
        monthly_kwh_per_kw=months, annual_kwh_per_kw=sum(months), annual_irradiation=1130.0,
        monthly_irradiation=tuple(value * 1.24 for value in months), mean_cell_temperature=23.4,
        source="embedded default climate, mean-day chain", uncertainty="indicative, about 12 %",
        indicative=True,
        steps=(
            Step(
                symbol="H", value=1130.0, unit="kWh/m2", sentence="irradiation of the plane in a year",
                citation=cite("KLEIN-MEAN-DAYS", "chapter 2"),
            ),
        ),
    )  # fmt: skip


def brief() -> Brief:
    """The brief behind it."""
    building = Building(form="duopitch", breadth=9.0, length=9.2, ridge_height=8.66, eaves_height=4.8)
    site = Site(
        longitude=-3.2, latitude=52.1, altitude=180.0, distance_to_sea=60000.0, terrain="II",
        direction_factor=1.0,
        basic_wind_velocity=24.0, ground_snow=600.0, building=building, choices=recommended(),
    )  # fmt: skip
    panel = PanelType(
        length=1.722, width=1.134, thickness=0.03, mass=21.5, peak_power=430.0,
        temperature_coefficient=-0.0034,
        clamp_from=0.2, clamp_to=0.25, clamp_basis="declared",
    )  # fmt: skip
    return Brief(
        title="Made-up roof", site=site, planes=(PLANE,), neighbours=(), build_up=BUILD_UP, bond_origin=0.0,
        bond_origin_assumed=True, panel=panel,
        cell=PanelCell(temperature_coefficient=-0.0034, inverter_efficiency=0.96, system_loss=0.1),
        rail=RailType(
            design_moment=900.0, bending_stiffness=16000.0, mass=0.9, overhang=0.1, longest_cantilever=0.4,
            longest_run=12.0, deflection_limit=0.005, basis="declared",
        ),
        hook=HOOK, kit=KIT, seat_rules=SeatRules(joint_distance=0.1, edge_distance=0.4, step=0.01),
        layout=LayoutRequest(
            margin_eaves=0.4, margin_ridge=0.4, margin_verge=0.4, margin_obstruction=0.2, margin_other=0.4,
            gap=0.02,
            orientation="portrait", max_panels=6, objective="most_yield", clear_height=0.1,
        ),
        weather=DefaultClimate(), assumptions=(),
    )  # fmt: skip
