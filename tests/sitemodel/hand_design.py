"""A small design made up by hand, for files and report: every number in it is invented."""

import math
from dataclasses import replace
from typing import Literal

from shapely import box

from sitemodel.anchors.placement import AnchorPoint, RailCheck, RailPlacement
from sitemodel.anchors.seats import Seat
from sitemodel.buildup import Bay, BuildUpCheck, Course
from sitemodel.design import Design, Part, PlaneDesign, SteelChoice, Summary
from sitemodel.fixings.method import AnchorForces, FixingCheck, LimitCheck, Surroundings, Verdict
from sitemodel.panels.layout import PanelLayout, PanelRow, PlacedPanel, RailLine
from sitemodel.rails.runs import RailRun
from sitemodel.slates.bond import SlateBond
from sitemodel.slates.opening import Opening
from sitemodel.slates.strip import SlateState, StripPlan, TouchedSlate
from sitemodel.snow import SnowLoad
from sitemodel.sources import Assumption, Step, cite, our_choice
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.pressures import PanelWind
from tests.sitemodel.hand_roof import COURSES, GAUGE, PLANE, SLATE, SNOW, SUSTAINED, UPLIFT, ZONES, brief, energy


def panel_rows() -> tuple[PanelRow, ...]:
    """Two rows of three portrait panels."""
    rows = []
    for number, y in ((1, 0.9), (2, 2.65)):
        panels = tuple(
            PlacedPanel(
                id=f"south-R{number}-{column}", row=number, column=column, orientation="portrait",
                outline=box(1.6 + (column - 1) * 1.154, y, 1.6 + (column - 1) * 1.154 + 1.134, y + 1.722),
            )
            for column in (1, 2, 3)
        )  # fmt: skip
        lower, upper = (
            RailLine(y=y + share * 1.722, course=course_above(y + share * 1.722), eccentricity=0.08, load_share=0.5)
            for share in (0.22, 0.78)
        )
        rows.append(
            PanelRow(
                number=number, orientation="portrait", y=y, height=1.722, lower_rail=lower, upper_rail=upper,
                panels=panels, gap=0.02,
            )
        )  # fmt: skip
    return tuple(rows)


def course_above(y: float) -> Course:
    """The first course whose batten lies above a height."""
    return next(course for course in COURSES if course.batten_y > y)


def limit_check(name: str, demand: float, resistance: float, **changes: object) -> LimitCheck:
    """One check, a withdrawal check unless changed."""
    check = LimitCheck(
        mode="a1", name=name, demand=demand, resistance=resistance, unit="N", utilisation=demand / resistance,
        combination="uplift", basis="target", in_scope=True, note="",
        citation=cite("EN1995-1-1", "8.7.2 (8.38)", "transcribed"),
    )  # fmt: skip
    return replace(check, **changes)  # type: ignore[arg-type]


def fixing_check(uplift: float, verdict: Verdict) -> FixingCheck:
    """Four checks; the worst governs."""
    checks = (
        limit_check("withdrawal of screws from the outer skin", uplift / 3.0, 420.0),
        limit_check(
            "bond of foam and outer skin", 61000.0, 100000.0, unit="Pa", basis="assumed", mode="a6",
            in_scope=False,
            citation=our_choice("half-space under a block, worst-case edge factor"),
            note="no clause covers tension across the foam under a block",
        ),
        limit_check(
            "hook upwards", uplift, 2400.0, basis="declared", mode="a9", citation=cite("EN1993-1-8",
            "Table 2.1")
        ),
        limit_check(
            "foam under sustained load", 9000.0, 25000.0, unit="Pa", basis="declared", mode="a7",
            combination="quasi_permanent", citation=cite("EN13163", "compressive creep", "from memory"),
        ),
    )  # fmt: skip
    governing = max(checks, key=lambda check: check.utilisation)
    return FixingCheck(
        method="spreader_block", checks=checks, governing=governing, verdict=verdict,
        beyond_test=(governing,) if verdict == "fails" else (),
        required_f_ax=3.5e6 * uplift / 1260.0, pull_test_screw=470.0, pull_test_anchor=1830.0,
        conditions=(
            "five single-screw pulls on this roof, 3 mm pilot holes, mean not below the stated pull",
            "screws not over-driven, skin dry",
        ),
    )  # fmt: skip


def touched_slates(anchor: int, x: float, course: int) -> tuple[TouchedSlate, ...]:
    """Three slates over a block."""
    left = math.floor(x / 0.254) * 0.254
    lower = COURSES[course - 1].tail_y
    places: tuple[tuple[float, float, SlateState], ...] = (
        (0.0, 0.0, "trimmed"),
        (0.127, GAUGE, "hooked"),
        (-0.127, GAUGE, "renailed"),
    )
    return tuple(
        TouchedSlate(
            tag=f"C{course + (dy > 0):02d}-{anchor * 3 + order}", course=course + (dy > 0),
            column=round(left / 0.254), outline=box(left + dx, lower + dy, left + dx + 0.25,
            lower + dy + 0.5),
            state=state, order=order, ripped_nails=2, nails_back=2 if state == "renailed" else 0,
        )
        for order, (dx, dy, state) in enumerate(places, start=1)
    )  # fmt: skip


def anchor(number: int, run: RailRun, x: float, uplift: float, verdict: Verdict) -> AnchorPoint:
    """One anchor on a rail."""
    course = run.line.course
    strip = StripPlan(slates=touched_slates(number, x, course.number))
    seat = Seat(
        x=x, y=run.line.y + 0.08, course=course.number, bay=int((x - 0.15) / 0.6) + 1, margin_left=0.041,
        margin_right=0.314, robust=True,
        eccentricity=0.08, surroundings=Surroundings(joint_distance=0.24, edge_distance=0.9),
        slates_lifted=strip.count, disturbance=4 * strip.count,
    )  # fmt: skip
    forces = (
        AnchorForces(
            combination="uplift", limit_state="ultimate", duration="instantaneous", normal=uplift,
            down_slope=180.0
        ),
        AnchorForces(
            combination="snow_and_wind", limit_state="ultimate", duration="short", normal=-1450.0,
            down_slope=620.0
        ),
        AnchorForces(
            combination="quasi_permanent", limit_state="quasi_permanent", duration="permanent", normal=-160.0,
            down_slope=130.0,
        ),
    )  # fmt: skip
    return AnchorPoint(
        id=f"{run.id}-A{number}", rail=run.id, seat=seat, rail_x=x, rail_y=run.line.y, forces=forces,
        check=fixing_check(uplift, verdict), strip=strip,
    )  # fmt: skip


def rail_placements(rows: tuple[PanelRow, ...], verdict: Verdict) -> tuple[RailPlacement, ...]:
    """Four rails with two anchors each."""
    placements = []
    for row in rows:
        sides: tuple[tuple[Literal["lower", "upper"], RailLine], ...] = (
            ("lower", row.lower_rail),
            ("upper", row.upper_rail),
        )
        for side, line in sides:
            run = RailRun(
                id=f"south-R{row.number}-{side}", row=row.number, side=side, line=line, start=1.5, end=5.142,

                panel_ids=tuple(panel.id for panel in row.panels), loads=(),
            )  # fmt: skip
            uplift = 1240.0 - 120.0 * row.number
            anchors = tuple(anchor(n, run, x, uplift + 15.0 * n, verdict) for n, x in ((1, 2.25), (2, 4.05)))
            bending = RailCheck(
                name="bending", utilisation=0.54, combination="snow_and_wind",
                citation=cite("BEAM-TABLES", "point loads, three-moment equation", "from memory"),
            )  # fmt: skip
            checks = (bending, replace(bending, name="deflection", utilisation=0.71))
            placements.append(RailPlacement(run=run, anchors=anchors, checks=checks, feasible=True, reason="", cure=""))
    return tuple(placements)


def openings(slates: tuple[tuple[TouchedSlate, str], ...]) -> tuple[Opening, ...]:
    """One opening an anchor, from the top down."""
    ids = dict.fromkeys(id_ for _, id_ in slates)
    return tuple(
        Opening(
            number=number,
            anchors=(id_,),
            slates=tuple(slate for slate, of in slates if of == id_),
            slate_anchors=tuple((id_,) for _, of in slates if of == id_),
        )
        for number, id_ in enumerate(ids, start=1)
    )


def plane_design(verdict: Verdict) -> PlaneDesign:
    """The one plane."""
    rows = panel_rows()
    layout = PanelLayout(
        rows=rows, usable=box(0.4, 0.4, 8.6, 5.6), notes=("the rooflight ends both rows on the right",)
    )
    rails = rail_placements(rows, verdict)
    winds = tuple(
        PanelWind(
            uplift=1100.0 * 1.5 if panel.column == 1 else 1100.0, down=500.0, zone="G", zone_id="south-G1",
            edge_factor=1.5 if panel.column == 1 else 1.0, exposed=panel.column == 1,
            exposed_because="1.60 m of bare roof beside it, more than 0.60 m",
            citation=cite("EN1991-1-4", "7.2.5", "transcribed"),
        )
        for panel in layout.panels
    )  # fmt: skip
    slates = {slate.tag: (slate, a.id) for rail in rails for a in rail.anchors for slate in a.strip.slates}
    step = Step(
        symbol="q_p", value=748.0, unit="Pa", sentence="peak velocity pressure at ridge height",
        citation=cite("EN1991-1-4", "4.5 (4.8)", "from memory"),
    )  # fmt: skip
    return PlaneDesign(
        plane=PLANE, energy=energy(), zones=ZONES, dead=140.0, combinations=(UPLIFT, SNOW, SUSTAINED),
        exposure=WindExposure(
            terrain="II", reference_height=8.66, peak_velocity_pressure=748.0,
            steps=(replace(step, symbol="v_b", value=24.0, unit="m/s", sentence="basic wind velocity"), step),
        ),
        snow=SnowLoad(
            ground=600.0, shape_coefficient=0.533, shape_coefficient_on_panels=0.8, on_roof=320.0,
            on_panels=480.0,
            steps=(), citation=cite("EN1991-1-3", "5.3.2, Table 5.2", "transcribed"),
        ),
        bond=SlateBond(
            slate=SLATE, courses=COURSES, gauge=GAUGE, origin_x=0.0, origin_assumed=True,
            outline=PLANE.outline
        ),
        courses=COURSES,
        bays=tuple(Bay(number=n + 1, left=0.169 + n * 0.6, right=0.731 + n * 0.6) for n in range(14)),
        build_up_checks=(
            BuildUpCheck(
                name="head lap", found="90 mm", required="at least 90 mm", passes=True,
                sentence="the head lap is that of the table for this pitch",
                clause="SLATE-LAPS-1, 500 mm slates",
            ),
            BuildUpCheck(
                name="tip of batten screw", found="15 mm below the skin",
                required="at least 6 mm, clear of the core",
                passes=False, sentence="the tip stands in the foam", clause="project choice, no source",
            ),
        ),
        layout=layout, notes=("rails end 100 mm past the panels",), panel_winds=winds,
        shading_losses=(0.02,) * 6, panel_yields=(372.5,) * 6, rails=rails,
        slates=tuple(slate for slate, _ in slates.values()),
        slate_anchors=tuple((id_,) for _, id_ in slates.values()),
        openings=openings(tuple(slates.values())),
    )  # fmt: skip


def hand_design(verdict: Verdict = "holds_if_tested") -> Design:
    """The whole design."""
    plane = plane_design(verdict)
    anchors = plane.anchors
    worst = max(anchors, key=lambda a: a.check.utilisation).check
    summary = Summary(
        verdict=verdict, panel_count=6, peak_power_kw=2.58, annual_yield_kwh=2235.0,
        specific_yield_kwh_per_kw=866.3, rail_length_m=14.568, anchor_count=8,
        slates_lifted=len(plane.slates),
        max_utilisation=worst.utilisation, governing_check=worst.governing.name,
        governing_clause=worst.governing.citation.text(),
        tests_required="" if verdict == "holds" else "pull tests that show f_ax of 3.19 N/mm2",
        sentence="6 panels, 2.58 kW, 8 anchors.",
    )  # fmt: skip
    assumption = Assumption(
        about="build_up.sip.core.tensile_strength", sentence="Foam and bond taken at the class of the foam.",
        value="0.10 N/mm2", citation=our_choice("lowest usual class"),
    )  # fmt: skip
    parts = (
        Part(part="block", specification="plywood 200 x 130 x 25 mm", quantity=8.0, unit="pieces", note=""),
        Part(part="screw", specification="6 x 50 mm, stainless A2", quantity=32.0, unit="pieces", note="block to skin"),
        Part(part="rail", specification="as declared", quantity=14.568, unit="m", note="cut from whole lengths"),
    )
    steel = SteelChoice(
        parts="hooks, screws, bolts", required="A2", stated="A4", passes=True,
        sentence="60 km from the sea", citation=cite("EN1993-1-4", "Table A.1", "from memory"),
    )  # fmt: skip
    return Design(
        brief=brief(), planes=(plane,), summary=summary, assumptions=(assumption,), parts=parts, steel=(steel,),
        findings=("The eaves edge of plane south was found by rule: confirm that it faces 200 degrees.",),
    )  # fmt: skip
