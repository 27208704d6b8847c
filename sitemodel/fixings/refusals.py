"""Kits and hooks that cannot be checked at all, each refused in one line."""

from math import isfinite

from sitemodel.buildup import BuildUp
from sitemodel.errors import InputError
from sitemodel.fixings.anchor_state import threaded_length
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import Screw, SpreaderBlockKit


def refuse_unsound(build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit) -> None:
    """Say what is wrong with the parts before anything is computed with them.

    Raises:
        InputError: a dimension or strength that is not a positive number, screws that miss the skin, bolts that
            do not fill their rows.
    """
    _positive("fixing.block", width=kit.width, height=kit.height, thickness=kit.thickness)
    board = kit.board
    _positive("fixing.block", density=board.density, bending_strength=board.bending_strength)
    _positive("fixing.block", bearing_strength=board.bearing_strength, head_pull_through=board.head_pull_through)
    _positive("fixing", f_ax=kit.f_ax)
    _screw("fixing.batten_screw", kit.batten_screw)
    _screw("fixing.block_screw", kit.block_screw)
    _hook(hook)
    _bolts(hook, kit)
    core = build_up.sip.core
    _positive("build_up.sip.core", modulus=core.modulus, modulus_upper=core.modulus_upper)
    _positive(
        "build_up.sip.core", tensile_strength=core.tensile_strength, compressive_strength=core.compressive_strength
    )
    if not 0.0 <= core.poisson < 0.5:
        raise InputError("build_up.sip.core.poisson", given=f"{core.poisson:g}", allowed="0 to below 0.5")
    if core.modulus_upper < core.modulus:
        given = f"{core.modulus_upper / 1e6:g} N/mm2"
        allowed = f"at least the modulus itself, {core.modulus / 1e6:g} N/mm2"
        raise InputError("build_up.sip.core.modulus_upper", given=given, allowed=allowed)
    for through_batten, name in ((True, "batten_screw"), (False, "block_screw")):
        used = any(place.through_batten is through_batten for place in kit.places)
        if used and threaded_length(build_up, kit, through_batten=through_batten) <= 0.0:
            screw = kit.batten_screw if through_batten else kit.block_screw
            given = f"{screw.length * 1e3:g} mm"
            raise InputError(
                f"fixing.{name}.length", given=given, allowed="long enough to bring thread into the outer skin"
            )


def _hook(hook: Hook) -> None:
    _positive("hook", height=hook.height, foot_length=hook.foot_length, bolt_spacing=hook.bolt_spacing)
    _positive("hook", resistance_up=hook.resistance_up, resistance_down=hook.resistance_down)
    _positive("hook", resistance_along=hook.resistance_along)
    if not (isfinite(hook.lateral_offset) and abs(hook.lateral_offset) <= 0.5):
        given = f"{hook.lateral_offset:g} m"
        raise InputError("hook.lateral_offset", given=given, allowed="-0.5 to 0.5 m")


def _bolts(hook: Hook, kit: SpreaderBlockKit) -> None:
    _positive("fixing.bolt", diameter=kit.bolt.diameter, head_diameter=kit.bolt.head_diameter)
    _positive("fixing.bolt", stress_area=kit.bolt.stress_area, strength=kit.bolt.strength)
    if hook.bolt_rows not in (1, 2):
        raise InputError("hook.bolt_rows", given=hook.bolt_rows, allowed="1 or 2")
    if kit.bolts % hook.bolt_rows or kit.bolts // hook.bolt_rows < 2:
        allowed = f"two or more in each of {hook.bolt_rows} rows"
        raise InputError("fixing.bolts", given=kit.bolts, allowed=allowed)
    if hook.bolt_rows == 2 and not 0.0 < hook.bolt_row_distance < hook.foot_length:
        given = f"{hook.bolt_row_distance:g} m"
        raise InputError("hook.bolt_row_distance", given=given, allowed="above 0 m, less than the foot's length")
    if not 0.0 <= kit.bolt.hole_diameter < kit.bolt.head_diameter:
        given = f"{kit.bolt.hole_diameter * 1e3:g} mm"
        raise InputError("fixing.bolt.hole_diameter", given=given, allowed="smaller than the bolt's head")
    left = min(
        kit.height - hook.bolt_rows * kit.bolt.hole_diameter,
        kit.width - kit.bolts // hook.bolt_rows * kit.bolt.hole_diameter,
    )
    if left <= 0.0:
        given = f"{kit.bolts} holes of {kit.bolt.hole_diameter * 1e3:g} mm"
        raise InputError("fixing.block", given=given, allowed="wood left between the bolt holes")


def _screw(where: str, screw: Screw) -> None:
    _positive(where, diameter=screw.diameter, root_diameter=screw.root_diameter, length=screw.length)
    _positive(where, head_diameter=screw.head_diameter, steel_strength=screw.steel_strength)
    _positive(where, head_pull_through=screw.head_pull_through, tip_length=screw.tip_length)
    if not 3e-3 <= screw.diameter <= 8e-3:
        given = f"{screw.diameter * 1e3:g} mm"
        raise InputError(f"{where}.diameter", given=given, allowed="3 to 8 mm")
    if screw.root_diameter >= screw.diameter:
        given = f"{screw.root_diameter * 1e3:g} mm"
        raise InputError(f"{where}.root_diameter", given=given, allowed="smaller than the outer diameter")


def _positive(where: str, **values: float) -> None:
    for name, value in values.items():
        if not (isfinite(value) and value > 0.0):
            raise InputError(f"{where}.{name}", given=f"{value:g}", allowed="a number above 0")
