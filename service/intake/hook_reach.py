"""Whether the hook can carry its load where the brief says: past the tail that its arm comes out under."""

import math

from service.intake.agreement import millimetres
from sitemodel.buildup import BuildUp, gauge
from sitemodel.errors import InputError
from sitemodel.fixings import Hook
from sitemodel.roof import Roof
from sitemodel.slates import least_reach, make_bond
from sitemodel.slates.trim import TAIL_CLEAR
from sitemodel.sources import Assumption, our_choice
from sitemodel.units import Metres


def refuse_short_hook(hook: Hook, build_up: BuildUp, roof: Roof, bond_origin: float) -> None:
    """The longest reach gets past the slates on every plane.

    Raises:
        InputError: a straight arm, or one that turns back too little, would have to stand up through a slate.
    """
    for plane in roof.planes:
        bond = make_bond(plane, build_up, bond_origin, origin_assumed=True)
        least = least_reach(bond, hook.arm_exit, hook.arm_return)
        if hook.eccentricity_max < least - 1e-9:
            given = millimetres(hook.eccentricity_max)
            raise InputError("hook.reach_max", given=given, allowed=_allowed(hook, plane.id, least))


def reach_of_one_anchor(hook: Hook, build_up: BuildUp, reach: Metres) -> tuple[Assumption, ...]:
    """What must be true of the hook of an anchor without a roof that is nearer than slates of this lap allow."""
    slate, step = build_up.slate, gauge(build_up.slate)
    nails = step + slate.head_lap + slate.nail_clearance
    covered = nails if slate.nailing == "centre" else slate.length - slate.head_to_hole
    if hook.arm_exit == "course_above":
        covered -= step * (math.ceil(covered / step - 1e-9) - 1)
    turned = covered + TAIL_CLEAR - reach
    if turned <= hook.arm_return + 1e-9:
        return ()
    return (
        Assumption(
            about="eccentricity",
            sentence=(
                f"Nearer to the block than the tail that the arm comes out under, {covered * 1e3:.0f} mm by the head "
                "lap of the slates: true only of a hook whose arm turns back up over them by so much."
            ),
            value=_whole(turned),
            citation=our_choice("a straight arm stands up clear of the tail"),
        ),
    )


def _allowed(hook: Hook, plane: str, least: Metres) -> str:
    covered = least + hook.arm_return - TAIL_CLEAR
    words = (
        f"at least {_whole(least)}: on plane {plane} the arm comes out from under the slates "
        f"{covered * 1e3:.0f} mm below the block's middle and stands {millimetres(TAIL_CLEAR)} clear of the tail"
    )
    needed = least + hook.arm_return - hook.eccentricity_max
    return f"{words}; a shorter reach needs an arm that turns back up, hook.arm_return of {_whole(needed)} or more"


def _whole(length: Metres) -> str:
    """Up to the next whole millimetre."""
    return f"{math.ceil(length * 1e3 - 1e-6)} mm"
