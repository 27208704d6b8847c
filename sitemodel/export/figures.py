"""Numbers as they leave the model: rounded by quantity, and never anything but a number or nothing."""

import math

from sitemodel.units import Degrees, Metres, Newtons, Pascals, Ratio


def rounded(value: float, digits: int) -> float | None:
    """A decimal number with so many digits after the point; nothing where there is no finite number.

    Example:
        >>> rounded(-0.0001, 2), rounded(float("inf"), 2)
        (0.0, None)
    """
    return round(value, digits) + 0.0 if math.isfinite(value) else None


def significant(value: float) -> float | None:
    """Six significant digits, for quantities of any size.

    Example:
        >>> significant(1234567.8), significant(0.000123456789)
        (1234570.0, 0.000123457)
    """
    return float(f"{value:.6g}") + 0.0 if math.isfinite(value) else None


def metres(value: Metres) -> float | None:
    """To a tenth of a millimetre."""
    return rounded(value, 4)


def newtons(value: Newtons) -> float | None:
    """To a tenth of a newton."""
    return rounded(value, 1)


def pascals(value: Pascals) -> float | None:
    """To a tenth of a pascal."""
    return rounded(value, 1)


def ratio(value: Ratio) -> float | None:
    """To a ten-thousandth."""
    return rounded(value, 4)


def degrees(value: Degrees) -> float | None:
    """To a hundredth of a degree."""
    return rounded(value, 2)


def newtons_per_square_millimetre(value: Pascals) -> float | None:
    """Pascals to N/mm2, the unit in which f_ax is printed."""
    return rounded(value / 1e6, 3)


def millimetres(value: Metres) -> float | None:
    """Metres to millimetres, to a tenth."""
    return rounded(value * 1e3, 1)


def kilonewtons(value: Newtons) -> float | None:
    """Newtons to kilonewtons, to a newton."""
    return rounded(value / 1e3, 3)
