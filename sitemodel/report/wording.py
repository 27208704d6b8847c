"""How numbers and verdicts read in the report: mm, kN and N/mm2, and never a bare pass."""

import math

from sitemodel.fixings.method import LimitCheck, Verdict
from sitemodel.units import Degrees, Metres, Newtons, Pascals, Ratio

NONE = "–"

VERDICTS: dict[Verdict, str] = {"holds": "holds", "holds_if_tested": "holds if tested", "fails": "fails"}

BASES: dict[str, str] = {
    "declared": "declared by the maker",
    "tested": "tested on this roof",
    "tabulated": "characteristic value printed in a standard",
    "assumed": "assumed, not known for this roof",
    "target": "target that pull tests on this roof must show",
}

_POINTS = (
    "north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east", "south-east",
    "south-south-east", "south", "south-south-west", "south-west", "west-south-west", "west",
    "west-north-west",
    "north-west", "north-north-west",
)  # fmt: skip


def decimal(value: float, digits: int) -> str:
    """A number with so many digits after the point; a dash where there is none."""
    return f"{value:.{digits}f}" if math.isfinite(value) else NONE


def significant(value: float) -> str:
    """Four significant digits without an exponent.

    Example:
        >>> significant(748.26), significant(0.000123456), significant(24.0)
        ('748.3', '0.0001235', '24')
    """
    if not math.isfinite(value):
        return NONE
    if value == 0.0:
        return "0"
    digits = max(0, 3 - math.floor(math.log10(abs(value))))
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def mm(value: Metres) -> str:
    """Metres as whole millimetres."""
    return decimal(value * 1e3, 0)


def kn(value: Newtons) -> str:
    """Newtons as kilonewtons."""
    return decimal(value / 1e3, 2)


def kpa(value: Pascals) -> str:
    """Pascals as kilonewtons per square metre."""
    return decimal(value / 1e3, 2)


def raised(value: float, digits: int) -> str:
    """A number rounded up, for what must be reached: a utilisation just above 1 never reads 1.00.

    Example:
        >>> raised(1.0004, 2), raised(0.9, 2)
        ('1.01', '0.90')
    """
    if not math.isfinite(value):
        return NONE
    step = 10.0**digits
    return f"{math.ceil(value * step - 1e-6) / step:.{digits}f}"


def lowered(value: float, digits: int) -> str:
    """A number rounded down, for what is there.

    Example:
        >>> lowered(4.637, 2)
        '4.63'
    """
    if not math.isfinite(value):
        return NONE
    step = 10.0**digits
    return f"{math.floor(value * step + 1e-6) / step:.{digits}f}"


def utilisation(value: Ratio) -> str:
    """Demand over resistance, rounded up; in words where there is no resistance."""
    return raised(value, 2) if math.isfinite(value) else "no resistance"


def n_per_mm2(value: Pascals) -> str:
    """Pascals as N/mm2, rounded up."""
    return raised(value / 1e6, 2)


def test_kn(value: Newtons) -> str:
    """A pull-test load in kN, rounded up."""
    return raised(value / 1e3, 2)


def compass(azimuth: Degrees) -> str:
    """The compass point that a plane faces.

    Example:
        >>> compass(180.0), compass(359.0)
        ('south', 'north')
    """
    return _POINTS[round(azimuth / 22.5) % 16]


def clause(check: LimitCheck) -> str:
    """Clause of a check, or that it lies outside the standard's scope."""
    text = check.citation.text()
    return text if check.in_scope else f"outside the standard's scope; indicative value after: {text}"


def short(id_: str, plane: str) -> str:
    """An id without the name of its plane, for drawings."""
    return id_.removeprefix(f"{plane}-")


def counted(number: int, one: str, many: str = "") -> str:
    """A number with its noun.

    Example:
        >>> counted(1, "anchor"), counted(2, "anchor")
        ('1 anchor', '2 anchors')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"
