"""The hook as a part: its declared resistances, and how far its arm bends down towards the slate."""

import numpy as np

from sitemodel.fixings.cases import Cases
from sitemodel.fixings.evidence import PLAUSIBLE_HOOK, WEAK
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.limit import Mode, mode
from sitemodel.sources import our_choice
from sitemodel.units import Metres, Ratio

CLEAR_OF_SLATE: Metres = 5e-3
"""What must be left between arm and slate when the arm is bent down. A choice of this project."""
NO_ROOM: Metres = 1e-6


def hook_resistance_mode(hook: Hook, cases: Cases, gamma: Ratio) -> Mode:
    """a1: the declared resistances, added linearly."""
    along = np.abs(cases.down_slope) / hook.resistance_along
    up = np.maximum(cases.normal, 0.0) / hook.resistance_up
    down = np.maximum(-cases.normal, 0.0) / hook.resistance_down
    return mode(
        "a1",
        "hook",
        np.where(cases.ultimate, gamma * (along + up + down), 0.0),
        1.0,
        "-",
        hook.basis,
        our_choice("hook: maker's characteristic resistances over gamma_M2, square and along added linearly"),
        "sum of the shares of the hook's own resistances",
        curable=PLAUSIBLE_HOOK if hook.basis in WEAK else None,
    )


def arm_modes(hook: Hook, cases: Cases) -> tuple[Mode, ...]:
    """a1d: the arm bent down by the load, against its clearance less 5 mm; nothing where that is not declared.

    An arm that touches the slate is propped: the forces of every other check are then no longer true, so it fails.
    """
    if not hook.arm_declared:
        return ()
    deflection = np.maximum(-cases.normal, 0.0) * hook.deflection_per_newton
    return (
        mode(
            "a1d",
            "hook arm over the slate",
            deflection,
            max(hook.arm_clearance - CLEAR_OF_SLATE, NO_ROOM),
            "m",
            hook.basis,
            our_choice("arm stays 5 mm clear of the slate under every design load; a touching arm fails"),
            f"deflection under the force onto the roof, {hook.deflection_per_newton * 1e6:.2f} mm per kN (linear), "
            f"against {hook.arm_clearance * 1e3:g} mm of clearance less 5 mm",
        ),
    )


def arm_condition(hook: Hook) -> str:
    """What must be true of the arm on site."""
    if hook.arm_declared:
        return (
            f"The arm stands {hook.arm_clearance * 1e3:g} mm clear of the slate before loading, as stated: measure "
            "it at every anchor; less is packed or the anchor moved."
        )
    return (
        "The hook arm stays clear of the slate under full downward load: deflection plus 5 mm, as its maker "
        "declares. The brief states neither its clearance nor its stiffness, so this was not checked; an arm that "
        "touches the slate makes every other check void."
    )
