"""Panel, rail, hook and layout from what the brief states."""

from service.intake.assumptions import worked_out
from service.schemas.equipment import HookInput, PanelInput, RailInput
from service.schemas.layout import LayoutInput
from sitemodel.fixings.hook import Hook
from sitemodel.panels.kinds import LayoutRequest, PanelType
from sitemodel.rails.kinds import RailType
from sitemodel.sources import Assumption
from sitemodel.sun.energy import PanelCell


def read_panel(stated: PanelInput) -> PanelType:
    """The panel as a thing of size, weight and clamps."""
    return PanelType(
        length=stated.length,
        width=stated.width,
        thickness=stated.thickness,
        mass=stated.mass,
        peak_power=stated.peak_power,
        temperature_coefficient=stated.temperature_coefficient,
        clamp_from=stated.clamp_from,
        clamp_to=stated.clamp_to,
        clamp_basis=stated.source,
    )


def read_cell(stated: PanelInput) -> PanelCell:
    """The panel as a source of energy."""
    return PanelCell(
        temperature_coefficient=stated.temperature_coefficient,
        inverter_efficiency=stated.inverter_efficiency,
        system_loss=stated.system_loss,
    )


def read_rail(stated: RailInput) -> RailType:
    """The rail."""
    return RailType(
        design_moment=stated.design_moment,
        bending_stiffness=stated.bending_stiffness,
        mass=stated.mass,
        overhang=stated.overhang,
        longest_cantilever=stated.longest_cantilever,
        longest_run=stated.longest_run,
        deflection_limit=stated.deflection_limit,
        basis=stated.source,
        name=stated.name or "",
        cost=stated.cost_per_metre or 0.0,
    )


def unstated_cost(stated: RailInput) -> tuple[Assumption, ...]:
    """That nobody said what the rail costs."""
    return (worked_out("rail.cost_per_metre", "not stated", ""),) if stated.cost_per_metre is None else ()


def read_other_rails(stated: RailInput) -> tuple[RailType, ...]:
    """The rails offered beside the first."""
    first = read_rail(stated)

    def as_first(value: float | None, of_first: float) -> float:
        return of_first if value is None else value

    return tuple(
        RailType(
            design_moment=offered.design_moment,
            bending_stiffness=offered.bending_stiffness,
            mass=offered.mass,
            overhang=as_first(offered.overhang, first.overhang),
            longest_cantilever=as_first(offered.longest_cantilever, first.longest_cantilever),
            longest_run=as_first(offered.longest_run, first.longest_run),
            deflection_limit=as_first(offered.deflection_limit, first.deflection_limit),
            basis=offered.source,
            name=offered.name,
            cost=offered.cost_per_metre or 0.0,
        )
        for offered in stated.alternatives
    )


def read_hook(stated: HookInput) -> Hook:
    """The hook."""
    return Hook(
        eccentricity_min=stated.reach_min,
        eccentricity_max=stated.reach_max,
        lateral_offset=stated.lateral_offset,
        height=stated.height,
        foot_length=stated.foot_length,
        bolt_rows=stated.bolt_rows,
        bolt_row_distance=stated.bolt_row_distance,
        bolt_spacing=stated.bolt_spacing,
        arm_width=stated.arm_width,
        arm_exit=stated.arm_exit,
        arm_return=stated.arm_return,
        mass=stated.mass,
        resistance_up=stated.resistance_up,
        resistance_down=stated.resistance_down,
        resistance_along=stated.resistance_along,
        basis=stated.source,
        arm_clearance=stated.clearance or 0.0,
        deflection_per_newton=(stated.deflection_per_kn or 0.0) / 1e3,
    )


def unstated_arm(stated: HookInput) -> tuple[Assumption, ...]:
    """What is not known of the arm over the slate."""
    fields = (("hook.clearance", stated.clearance), ("hook.deflection_per_kn", stated.deflection_per_kn))
    return tuple(worked_out(field, "unknown", "not stated") for field, value in fields if value is None)


def read_layout(stated: LayoutInput) -> LayoutRequest:
    """What is asked of the layout."""
    margins = stated.margins
    return LayoutRequest(
        margin_eaves=margins.eaves,
        margin_ridge=margins.ridge,
        margin_verge=margins.verge,
        margin_obstruction=margins.obstruction,
        margin_other=margins.other,
        gap=stated.gap,
        orientation=stated.orientation,
        max_panels=stated.max_panels,
        objective=stated.objective,
        clear_height=stated.clear_height,
        least_panel_yield=stated.least_panel_yield,
        yield_per_uplift=stated.yield_per_uplift,
        most_uplift=stated.most_uplift,
    )
