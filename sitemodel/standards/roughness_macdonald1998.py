"""Roughness length and displacement height of ground from the shape of its buildings: information beside a category."""

import math

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Ratio

DRAG: Ratio = 1.2
KARMAN: Ratio = 0.4
STAGGERED: tuple[Ratio, Ratio] = (4.43, 1.0)
"""alpha and beta of staggered blocks."""
SQUARE: tuple[Ratio, Ratio] = (3.59, 0.55)
"""alpha and beta of blocks in a square array."""


def displacement_of_blocks(height: Metres, plan_share: Ratio, *, staggered: bool) -> Metres:
    r"""Displacement height of ground covered with blocks.

    .. math:: z_d / H = 1 + \alpha^{-\lambda_p} (\lambda_p - 1)

    Args:
        height: mean height of the blocks, :math:`H`.
        plan_share: footprints over ground, :math:`\lambda_p`.
        staggered: blocks that do not stand in straight rows.

    Scope: H above 0, share above 0 and below 1; outside it, OutsideScope. Never the category of a design.
    Source: MACDONALD1998, from memory.

    Example:
        >>> displacement_of_blocks(8.0, 0.2, staggered=True)
        3.248
    """
    _in_scope(height, plan_share, 1.0)
    alpha = (STAGGERED if staggered else SQUARE)[0]
    return float(height * (1.0 + alpha**-plan_share * (plan_share - 1.0)))


def roughness_of_blocks(height: Metres, plan_share: Ratio, frontal_share: Ratio, *, staggered: bool) -> Metres:
    r"""Roughness length of ground covered with blocks.

    .. math:: \frac{z_0}{H} = \left(1 - \frac{z_d}{H}\right)
              e^{-\left[0.5 \beta \frac{C_D}{\kappa^2} \left(1 - \frac{z_d}{H}\right) \lambda_f\right]^{-0.5}}

    Args:
        height: mean height of the blocks, :math:`H`.
        plan_share: footprints over ground, :math:`\lambda_p`.
        frontal_share: faces towards the wind over ground, :math:`\lambda_f`.
        staggered: blocks that do not stand in straight rows.

    Scope: H and shares above 0, plan share below 1; outside it, OutsideScope. Never the category of a design.
    Source: MACDONALD1998, from memory.

    Example:
        >>> roughness_of_blocks(8.0, 0.2, 0.15, staggered=True), roughness_of_blocks(8.0, 0.2, 0.15, staggered=False)
        (0.843, 0.505)
    """
    _in_scope(height, plan_share, frontal_share)
    beta = (STAGGERED if staggered else SQUARE)[1]
    free = 1.0 - displacement_of_blocks(height, plan_share, staggered=staggered) / height
    return height * free * math.exp(-((0.5 * beta * DRAG / KARMAN**2 * free * frontal_share) ** -0.5))


def _in_scope(height: Metres, plan_share: Ratio, frontal_share: Ratio) -> None:
    for name, value, most in (
        ("H", height, math.inf), ("lambda_p", plan_share, 1.0), ("lambda_f", frontal_share, math.inf)
    ):  # fmt: skip
        if not 0.0 < value < most:
            allowed = "above 0" if math.isinf(most) else f"above 0, below {most:g}"
            raise OutsideScope(name, value=value, allowed=allowed, clause="MACDONALD1998")
