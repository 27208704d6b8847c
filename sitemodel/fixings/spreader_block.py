"""A plywood block under a slate batten, screwed to the outer skin."""

from sitemodel.buildup import BuildUp
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import AnchorForces, FixingCheck, Surroundings
from sitemodel.national import NationalChoices
from sitemodel.units import Metres, Ratio

TITLE = "Spreader block"


def check_anchors(
    build_up: BuildUp,
    hook: Hook,
    kit: SpreaderBlockKit,
    choices: NationalChoices,
    anchors: tuple[tuple[Metres, Surroundings, tuple[AnchorForces, ...]], ...],
) -> tuple[FixingCheck, ...]:
    """Check many anchors at once (vectorised): for each its eccentricity, surroundings and forces.

    All anchors share build-up, hook and kit; the order of the answers is that of ``anchors``.
    """
    raise NotImplementedError


def utilisations(
    build_up: BuildUp,
    hook: Hook,
    kit: SpreaderBlockKit,
    choices: NationalChoices,
    anchors: tuple[tuple[Metres, Surroundings, tuple[AnchorForces, ...]], ...],
    curable: bool,
) -> tuple[Ratio, ...]:
    """Only the governing utilisation of each anchor, for placement.

    Args:
        build_up: the layers.
        hook: the hook.
        kit: the block.
        choices: national choices.
        anchors: eccentricity, surroundings and forces of each anchor.
        curable: when True, withdrawal is measured against the largest plausible tested f_ax instead of the
            present one, so that placement asks "could this hold once tested?".
    """
    raise NotImplementedError
