"""What all checks of one anchor add up to, and what must be true on site."""

from math import isfinite

from sitemodel.fixings.anchor_state import AnchorState
from sitemodel.fixings.evidence import PLAUSIBLE_F_AX, TESTS, WEAK
from sitemodel.fixings.hook_arm import arm_condition
from sitemodel.fixings.method import LimitCheck, Verdict
from sitemodel.units import Newtons, Pascals, Ratio

HOLDS = 1.0 + 1e-9


def verdict_of(checks: tuple[LimitCheck, ...], once_tested: tuple[Ratio, ...]) -> Verdict:
    """The verdict.

    Args:
        checks: every check as known now.
        once_tested: the utilisation of each with the most that tests may plausibly show.
    """
    if all(check.passes for check in checks) and not any(check.basis in WEAK for check in checks):
        return "holds"
    if all(utilisation <= HOLDS for utilisation in once_tested):
        return "holds_if_tested"
    return "fails"


def conditions_of_all(state: AnchorState) -> tuple[str, ...]:
    """What must be true for every anchor of this kit, in words."""
    skin = state.build_up.sip.outer_skin
    number = len(state.kit.places)
    lines = [
        f"Load path of uplift: block, {number} screws, outer skin of {skin.board} {skin.thickness * 1e3:g} mm, bond, "
        "foam. The slate batten and its nails contribute nothing.",
        "Drive the screws with a torque-limited driver or finish by hand: over-torqued screws lost 77 per cent of "
        "their load in tests (GATES-TORQUE). A stripped screw is rejected and set again elsewhere.",
        "Take and record a moisture reading of the skin before driving: dry and new skin only; wetting costs 25 to "
        "40 per cent (HERZOG-YEH and others).",
        "Full thread through the whole skin, tip clear in the foam; screws in the face of the board only, never "
        "near its edge.",
        arm_condition(state.hook),
        "An engineer signs the fixing off before installation; fatigue under gusts, debonding of an old panel and "
        "fire layers are not covered by calculation.",
    ]
    return tuple(lines + _of_weak_ingredients(state))


def _of_weak_ingredients(state: AnchorState) -> list[str]:
    kit, core, lines = state.kit, state.build_up.sip.core, []
    if kit.f_ax_basis in ("declared", "tabulated"):
        lines.append(
            f"f_ax {kit.f_ax / 1e6:.2f} N/mm2 is declared ({kit.f_ax_source}), not tested on this panel: the board's "
            "stamp, a new dry skin and torque-limited driving are conditions."
        )
    if core.tensile_basis in WEAK:
        lines.append(
            f"Bond strength {core.tensile_strength / 1e3:.0f} kPa is assumed: show it by the panel's declared TR class "
            "or by bond pulls."
        )
    if core.compressive_basis in WEAK:
        lines.append("The compressive class of the foam is assumed: show it by the panel's declaration.")
    if state.hook.basis in WEAK:
        lines.append("The hook's resistances are assumed: show them by its maker's declaration, up, down and along.")
    if kit.board.basis in WEAK:
        lines.append("Strengths of the block's plywood are assumed: show them by its declaration of performance.")
    screws = (kit.batten_screw, kit.block_screw)
    if any(screw.head_basis in WEAK or screw.steel_basis in WEAK for screw in screws):
        lines.append("Head and steel strength of the screws are assumed: show them by their declaration (EN 14592).")
    return lines


def beyond_any_test(checks: tuple[LimitCheck, ...], once_tested: tuple[Ratio, ...]) -> tuple[str, ...]:
    """The checks that no plausible test cures, each in one sentence."""
    return tuple(
        f"No test cures {check.mode}, {check.name}: "
        + (f"even then {utilisation:.2f} of its resistance" if isfinite(utilisation) else "there is no resistance")
        + f" in {check.combination}; {check.note}."
        for check, utilisation in zip(checks, once_tested, strict=True)
        if utilisation > HOLDS
    )


def conditions_of_tests(
    checks: tuple[LimitCheck, ...], required: Pascals, single: Newtons, whole: Newtons
) -> tuple[str, ...]:
    """What the pulls on this roof must show for one anchor, or why no pull settles it."""
    lines = []
    lateral = next(check for check in checks if check.mode == "a13")
    if required > 0.0:
        if required > PLAUSIBLE_F_AX:
            lines.append(
                f"This anchor would need f_ax {required / 1e6:.2f} N/mm2, above the {PLAUSIBLE_F_AX / 1e6:g} N/mm2 "
                "that a screw in a thin skin is known to hold: shorten the reach, lengthen the block up the slope, "
                "add screws or anchors."
            )
        lines.append(
            f"Needed: f_ax {required / 1e6:.2f} N/mm2 (characteristic). {TESTS} single-screw pulls on this roof, same "
            f"screw, driver and skin, with a geometric mean of {single / 1e3:.2f} kN or more at a coefficient of "
            "variation up to 0.25 prove it (EN 14358); the puller's feet stand 100 mm or more from the screw."
        )
        lines.append(
            f"A whole anchor pulled square to the roof at its true reach to {whole / 1e3:.2f} kN loads its worst screw "
            "to that value; it checks the installation and does not replace the single-screw pulls."
        )
    elif not lateral.passes:
        lines.append(
            "The down-slope force alone is too much for the screws: no withdrawal test cures it; add screws or anchors."
        )
    return tuple(lines)
