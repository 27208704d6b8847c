"""Whether the hook can carry its load where the brief says: past the tail that its arm comes out under."""

import math

from service.intake.agreement import millimetres
from sitemodel.buildup import BuildUp
from sitemodel.errors import InputError
from sitemodel.fixings import Hook
from sitemodel.roof import Roof
from sitemodel.slates import least_reach, make_bond
from sitemodel.slates.trim import TAIL_CLEAR
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
