"""Seat: every spot along a rail that could take an anchor."""

from dataclasses import dataclass

from sitemodel.buildup import BuildUp
from sitemodel.fixings.method import Surroundings
from sitemodel.rails.runs import RailRun
from sitemodel.roof import RoofPlane
from sitemodel.slates.bond import SlateBond
from sitemodel.units import Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A spot on one course: block centre, the bay it lies in, its margins."""

    x: Metres
    y: Metres
    course: int
    bay: int
    margin_to_batten: Metres
    """Block edge to the nearest counter-batten edge, before tolerance."""
    eccentricity: Metres
    surroundings: Surroundings
    slates_lifted: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SeatRules:
    """The distances that a seat keeps, each an assumption or an input of the brief."""

    joint_distance: Metres
    """Outermost screw to a sip joint or a free edge of the sip."""
    edge_distance: Metres
    """Block edge to eaves, ridge, hip, valley and verge."""
    step: Metres
    """Spacing of candidate seats along a bay."""


def seats_on_rail(
    run: RailRun,
    plane: RoofPlane,
    build_up: BuildUp,
    bond: SlateBond,
    block_width: Metres,
    block_height: Metres,
    arm_width: Metres,
    rules: SeatRules,
) -> tuple[Seat, ...]:
    """Every seat under a rail, from left to right."""
    raise NotImplementedError
