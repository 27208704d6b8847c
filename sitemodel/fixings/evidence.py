"""What is known about a screw in a thin skin: the untested law, the believable range, the pulls that prove a value."""

from sitemodel.buildup import Basis
from sitemodel.errors import OutsideScope
from sitemodel.sources import Citation, cite, our_choice
from sitemodel.standards.tests_en14358 import mean_that_proves
from sitemodel.units import Metres, Newtons, Pascals, Ratio

SPECIFIC_GRAVITY: Ratio = 0.50
"""G in the untested law: the low one, below real boards."""
CHARACTERISTIC_SHARE: Ratio = 0.67
"""Characteristic over mean: log-normal with a variation of 0.25."""
VARIATION: Ratio = 0.25
"""Coefficient of variation of a fastener in an unknown board."""
TESTS = 5
"""Single-screw pulls asked for."""
MIDDLE_F_AX: Pascals = 8.0e6
"""Above this only a value tested on the actual panel is taken."""
PLAUSIBLE_F_AX: Pascals = 12.0e6
"""Above this a value is questioned, tested or not; no required value above it is promised."""
PLAUSIBLE_BOND: Pascals = 150.0e3
"""TR150: the most that a bond test on an undocumented panel may be expected to show."""
PLAUSIBLE_HOOK: Ratio = 1.5
"""A declared hook resistance may be expected up to this times an assumed one."""
PLAUSIBLE_BOARD: Ratio = 2.0
"""A declared block, or pulls on whole anchors, may be expected to show up to this times assumed bolt-head values.

The assumed bearing of 2.5 N/mm2 is that of softwood across the grain; dense plywood is declared at several times it.
"""
WEAK: tuple[Basis, ...] = ("target", "assumed")

LOW_LAW: Citation = cite(
    "WOOD-HANDBOOK", "particleboard screw law after Eckelman, stretched to d = 6 mm", "from memory"
)
SCATTER: Citation = our_choice("variation 0.25, after ten boards in J. Korean Wood Sci. Technol. 51(4), Table 3")


def low_law(thickness: Metres, diameter: Metres) -> Pascals:
    r"""Characteristic withdrawal parameter of a screw through an untested OSB skin.

    .. math:: f_{ax,k} = 0.67 \cdot 41.1\, d^{0.5} (t - d/3)^{1.25} G^2 / (d\, t), \quad G = 0.50

    Args:
        thickness: t of the skin.
        diameter: d of the screw.

    Scope:
        9 mm <= t <= 25 mm, 4 mm <= d <= 8 mm; given for 13 to 25 mm and sheet-metal screws, stretched below.

    Source:
        WOOD-HANDBOOK, particleboard law after Eckelman (from memory); 0.67 and G are choices of this project.

    Example:
        >>> low_law(15e-3, 6e-3) / 1e6
        4.6
    """
    t, d = thickness * 1e3, diameter * 1e3
    if not 9.0 - 1e-9 <= t <= 25.0 + 1e-9:
        raise OutsideScope("skin thickness", value=t, allowed="9 to 25 mm", clause="untested withdrawal law")
    if not 4.0 - 1e-9 <= d <= 8.0 + 1e-9:
        raise OutsideScope("screw diameter", value=d, allowed="4 to 8 mm", clause="untested withdrawal law")
    mean = 41.1 * d**0.5 * (t - d / 3.0) ** 1.25 * SPECIFIC_GRAVITY**2
    return float(CHARACTERISTIC_SHARE * mean / (d * t) * 1e6)


def f_ax_standing(value: Pascals, basis: Basis) -> tuple[str, ...]:
    """What the intake must say about a withdrawal parameter; a sentence that begins with 'refused' stops it.

    Example:
        >>> f_ax_standing(9e6, "declared")
        ('refused: f_ax 9 N/mm2 is above 8 N/mm2 and was not tested on this panel; give tests or 8 N/mm2 and less',)
    """
    shown = f"f_ax {value / 1e6:g} N/mm2"
    if not value > 0.0:
        return (f"refused: {shown}; a withdrawal parameter is above 0 N/mm2",)
    if value > PLAUSIBLE_F_AX:
        if basis == "tested":
            return (f"question: {shown} is above 12 N/mm2; check the unit, the screw and the board of the tests",)
        return (f"refused: {shown} is above 12 N/mm2, more than a screw in a thin skin is known to hold",)
    if value > MIDDLE_F_AX and basis in ("declared", "tabulated"):
        return (f"refused: {shown} is above 8 N/mm2 and was not tested on this panel; give tests or 8 N/mm2 and less",)
    if value > MIDDLE_F_AX and basis == "assumed":
        return (f"refused: {shown} is above 8 N/mm2 and has no source; name it a target or give tests",)
    if basis in ("declared", "tabulated"):
        return (
            f"note: {shown} is declared, not tested on this panel; it holds for declared OSB/3 or OSB/4, a new dry "
            "skin, torque-limited driving and full thread in the skin",
        )
    return ()


def pull_test_mean(required: Newtons) -> Newtons:
    """Geometric mean of five single-screw pulls that proves a characteristic value, by EN 14358 at a variation of 0.25.

    Example:
        >>> pull_test_mean(1000.0)
        1834.
    """
    return mean_that_proves(required, TESTS, VARIATION)


def weakest(*bases: Basis) -> Basis:
    """The basis that a resistance made of several ingredients stands on.

    Example:
        >>> weakest("declared", "target", "tabulated")
        'target'
    """
    order: tuple[Basis, ...] = ("tested", "declared", "tabulated", "target", "assumed")
    return max(bases, key=order.index)
