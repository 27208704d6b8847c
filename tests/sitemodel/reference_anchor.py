"""The reference case of these tests: OSB/3 of 15 mm on 150 mm of EPS, block 200 by 130 by 25 mm, 4 + 2 screws."""

import numpy as np

from sitemodel.buildup import Batten, BuildUp, Core, CounterBatten, Sip, Skin, Slate
from sitemodel.fixings import (
    AnchorForces,
    BlockBoard,
    CoachBolt,
    Hook,
    Screw,
    ScrewPlace,
    SpreaderBlockKit,
    Surroundings,
)
from sitemodel.fixings.cases import AnchorLoads, Floats
from sitemodel.fixings.screw_group import block_loads
from sitemodel.loads import Duration, LimitState

SKIN = Skin(board="OSB/3", thickness=0.015, strong_axis_up=True)
CORE = Core(
    foam="EPS",
    thickness=0.150,
    modulus=6e6,
    modulus_upper=6e6,
    poisson=0.1,
    tensile_strength=100e3,
    tensile_basis="declared",
    compressive_strength=100e3,
    compressive_basis="declared",
)
BUILD_UP = BuildUp(
    sip=Sip(outer_skin=SKIN, core=CORE, inner_skin=SKIN, joint_pitch=0.0, joint_origin=0.0, inside_access=False),
    counter_batten=CounterBatten(width=0.050, thickness=0.025, spacing=0.6, origin=0.3, position_tolerance=0.01),
    batten=Batten(width=0.050, thickness=0.025),
    slate=Slate(
        length=0.5,
        width=0.25,
        thickness=0.006,
        head_lap=0.09,
        joint=0.005,
        nailing="centre",
        nail_clearance=0.01,
        nail_inset=0.03,
        head_to_hole=0.025,
    ),
    driving_rain="moderate",
    eaves_overhang=0.05,
    service_class=2,
    block_gap=0.025,
)
HOOK = Hook(
    eccentricity_min=0.04,
    eccentricity_max=0.15,
    lateral_offset=0.0,
    height=0.1,
    foot_length=0.06,
    bolt_rows=1,
    bolt_row_distance=0.0,
    bolt_spacing=0.05,
    arm_width=0.03,
    mass=0.9,
    resistance_up=5e3,
    resistance_down=5e3,
    resistance_along=5e3,
    basis="declared",
)


def screw(length: float) -> Screw:
    """A stainless screw, 6 mm."""
    return Screw(
        diameter=0.006,
        root_diameter=0.0039,
        head_diameter=0.012,
        length=length,
        steel_strength=600e6,
        steel_basis="declared",
        head_pull_through=10e6,
        head_basis="declared",
        tip_length=0.006,
    )


BOARD = BlockBoard(density=410.0, bending_strength=25e6, bearing_strength=10e6, head_pull_through=8e6, basis="declared")
BOLT = CoachBolt(
    diameter=0.006,
    head_diameter=0.016,
    hole_diameter=0.0066,
    stress_area=20.1e-6,
    strength=700e6,
    property_class="A2-70",
)
PLACES = tuple(
    ScrewPlace(x=x, y=y, through_batten=y == 0.0)
    for x, y in ((-0.075, -0.04), (0.075, -0.04), (-0.075, 0.04), (0.075, 0.04), (-0.05, 0.0), (0.05, 0.0))
)
KIT = SpreaderBlockKit(
    width=0.2,
    height=0.13,
    thickness=0.025,
    board=BOARD,
    places=PLACES,
    batten_screw=screw(0.080),
    block_screw=screw(0.050),
    pilot_diameter=0.003,
    bolt=BOLT,
    bolts=2,
    f_ax=8e6,
    f_ax_basis="declared",
    f_ax_source="reference case of the tests",
    steel="A2",
)
FAR = Surroundings(joint_distance=1.0, edge_distance=1.0)


def force(
    normal: float,
    down_slope: float = 0.0,
    *,
    duration: Duration = "instantaneous",
    limit_state: LimitState = "ultimate",
    combination: str = "uplift",
) -> AnchorForces:
    """One combination."""
    return AnchorForces(
        combination=combination, limit_state=limit_state, duration=duration, normal=normal, down_slope=down_slope
    )


def anchor(eccentricity: float, *forces: AnchorForces, surroundings: Surroundings = FAR) -> AnchorLoads:
    """One anchor."""
    return eccentricity, surroundings, forces


def hook_load(pull: float, slope: float, reach: float, lateral: float = 0.0, height: float = 0.1) -> Floats:
    """One row of loads on a block."""
    return block_loads(np.array([pull]), np.array([slope]), np.array([reach]), lateral, height)
