"""The rails of a plane before any anchor is chosen: load cases, runs, the seats under each."""

from sitemodel.anchors.placement import RailSeats
from sitemodel.anchors.seat_loss import SeatLoss, seat_loss
from sitemodel.anchors.seats import RAIL_END
from sitemodel.brief import Brief
from sitemodel.design.basis import combinations_of
from sitemodel.design.ground import PlaneGround
from sitemodel.design.load_cases import PlaneCases, plane_cases
from sitemodel.rails.runs import RailRun, rail_runs
from sitemodel.units import GRAVITY, Pascals
from sitemodel.wind.cases import envelope


def dead_load(brief: Brief) -> Pascals:
    """Weight of panels and both rails, per square metre of panel, rails counted along the shorter run of panels."""
    panel, rail = brief.panel, brief.rail
    # A row of panels laid across has the longer side along its rails: that is the most rail a panel can need.
    along = max(panel.width, panel.length) if brief.layout.orientation != "portrait" else panel.width
    rails = 2.0 * rail.mass * (along + brief.layout.gap)
    return (panel.mass + rails) * GRAVITY / (panel.width * panel.length)


def cases_on(brief: Brief, ground: PlaneGround) -> PlaneCases:
    """Every load case of the plane, by wind direction and arrangement of the snow."""
    return plane_cases(
        combinations_of(brief),
        tuple(wind.cases or (envelope(wind.uplift, wind.down),) for wind in ground.winds),
        dead_load(brief),
        ground.snow.on_panels,
        tuple(snow.drifted for snow in ground.panel_snow),
        ground.plane.pitch,
    )


def runs_on(brief: Brief, ground: PlaneGround, cases: PlaneCases) -> tuple[RailRun, ...]:
    """Every rail of the plane, row by row from the eaves, loaded in every case."""
    runs: list[RailRun] = []
    first = 0
    for row in ground.layout.rows:
        here = slice(first, first + len(row.panels))
        runs += rail_runs(
            row, brief.panel, brief.rail, cases.combinations, cases.left[here], right_loads=cases.right[here],
            cut_before=ground.cut_before,
        )  # fmt: skip
        first = here.stop
    return tuple(runs)


def seated(brief: Brief, ground: PlaneGround, runs: tuple[RailRun, ...]) -> tuple[RailSeats, ...]:
    """The seats under every rail; where there are none, why."""
    kit, hook, rules = brief.kit, brief.hook, brief.seat_rules
    along, fixed = ground.every_seat, dict(ground.fixed_anchors)
    rails = []
    for run in runs:
        seats = tuple(s for s in along[run.line] if run.start + RAIL_END <= s.rail_x <= run.end - RAIL_END)
        why = SeatLoss(sentence="", cure="")
        if not seats:
            why = seat_loss(
                run, ground.plane, brief.build_up, ground.bond, kit.width, kit.height, hook.arm_width, rules,
                arm_offset=hook.lateral_offset,
            )  # fmt: skip
        taken = tuple(i for i, seat in enumerate(seats) if seat.x in fixed.get(run.id, ()))
        rails.append(RailSeats(run=run, seats=seats, why_none=why.sentence, cure_none=why.cure, taken=taken))
    return tuple(rails)
