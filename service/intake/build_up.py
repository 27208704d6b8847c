"""The layers of the roof from what the brief states."""

from service.intake.agreement import millimetres
from service.intake.assumptions import worked_out
from service.schemas.build_up import (
    BattenInput,
    BuildUpInput,
    CoreInput,
    InnerSkinInput,
    OuterSkinInput,
    SipInput,
    SlateInput,
)
from sitemodel.buildup import Batten, BuildUp, Core, CounterBatten, Sip, Skin, Slate, SurveyedBattens, courses
from sitemodel.errors import InputError
from sitemodel.roof import Roof
from sitemodel.sources import Assumption

ASSUMED_JOINT_PITCH = 1.2
"""Metres; the row build_up.sip.joint_pitch of the table of defaults."""


def read_build_up(stated: BuildUpInput, roof: Roof) -> tuple[BuildUp, tuple[Assumption, ...]]:
    """The build-up, and what was worked out for it."""
    sip, assumptions = _sip(stated.sip, roof)
    gap = stated.block_gap
    if gap is None:
        gap = stated.counter_batten.thickness
        assumptions.append(worked_out("build_up.block_gap", "counter-batten", millimetres(gap)))
    build_up = BuildUp(
        sip=sip,
        counter_batten=CounterBatten(
            width=stated.counter_batten.width,
            thickness=stated.counter_batten.thickness,
            spacing=stated.counter_batten.spacing,
            origin=stated.counter_batten.origin,
            position_tolerance=stated.counter_batten.position_tolerance,
        ),
        batten=_batten(stated.batten, roof),
        slate=_slate(stated.slate),
        driving_rain=stated.driving_rain,
        eaves_overhang=stated.eaves_overhang,
        service_class=stated.service_class,
        block_gap=gap,
    )
    for survey in build_up.batten.surveyed:
        plane = next(plane for plane in roof.planes if plane.id == survey.plane)
        courses(build_up, plane.slope_length, plane.id)
    return build_up, tuple(assumptions)


def _batten(stated: BattenInput, roof: Roof) -> Batten:
    """The battens, with what was measured of them.

    Raises:
        InputError: a survey of no plane of the roof, or of one twice.
    """
    names = [plane.id for plane in roof.planes]
    for number, survey in enumerate(stated.surveyed):
        earlier = [other.plane for other in stated.surveyed[:number]]
        if survey.plane not in names or survey.plane in earlier:
            allowed = f"each plane once: {', '.join(names)}"
            raise InputError(f"build_up.batten.surveyed[{number}].plane", given=survey.plane, allowed=allowed)
    surveyed = tuple(SurveyedBattens(plane=survey.plane, lines=survey.lines) for survey in stated.surveyed)
    return Batten(width=stated.width, thickness=stated.thickness, surveyed=surveyed)


def _sip(stated: SipInput, roof: Roof) -> tuple[Sip, list[Assumption]]:
    """Joints: stated ones; else drawn ones, if every plane has some; else assumed ones."""
    assumptions: list[Assumption] = []
    pitch, origin = stated.joint_pitch, stated.joint_origin
    if pitch is None and origin is None and all(plane.sip_joints for plane in roof.planes):
        pitch = 0.0
        assumptions.append(worked_out("build_up.sip.joint_pitch", "drawn", ""))
    elif pitch is None:
        pitch = ASSUMED_JOINT_PITCH
        assumptions.append(worked_out("build_up.sip.joint_pitch", "assumed", "1.2 m"))
    if origin is None and pitch > 0.0:
        assumptions.append(worked_out("build_up.sip.joint_origin", "assumed", "0 m"))
    sip = Sip(
        outer_skin=_skin(stated.outer_skin),
        core=_core(stated.core),
        inner_skin=_skin(stated.inner_skin),
        joint_pitch=pitch,
        joint_origin=origin or 0.0,
        inside_access=stated.inside_access,
    )
    return sip, assumptions


def _skin(stated: OuterSkinInput | InnerSkinInput) -> Skin:
    return Skin(board=stated.board, thickness=stated.thickness, strong_axis_up=stated.strong_axis == "up_slope")


def _core(stated: CoreInput) -> Core:
    return Core(
        foam=stated.foam,
        thickness=stated.thickness,
        modulus=stated.modulus,
        modulus_upper=stated.modulus_upper,
        poisson=stated.poisson,
        tensile_strength=stated.tensile_strength.value,
        tensile_basis=stated.tensile_strength.source,
        compressive_strength=stated.compressive_strength.value,
        compressive_basis=stated.compressive_strength.source,
        shear_strength=stated.shear_strength.value,
        shear_basis=stated.shear_strength.source,
    )


def _slate(stated: SlateInput) -> Slate:
    return Slate(
        length=stated.length,
        width=stated.width,
        thickness=stated.thickness,
        head_lap=stated.head_lap,
        joint=stated.joint,
        nailing=stated.nailing,
        nail_clearance=stated.nail_clearance,
        nail_inset=stated.nail_inset,
        head_to_hole=stated.head_to_hole,
    )
