"""Net coefficients cited zone by zone: what they put in the place of the bare roof's, and how far they may go.

A net coefficient stands for the wind on both faces of a panel. Uplift takes the cited value where a panel keeps
every limit of the record, the larger of both where it does not. Pressure onto the roof takes the larger of both
always: no cited value lowers it. A zone that is not named keeps the bare roof. The tables use a letter again for
another wind: what is cited for every wind replaces them all, also where the bare roof bears less.
"""

from dataclasses import dataclass
from typing import Literal

from sitemodel.roof import RoofPlane
from sitemodel.site import RoofForm
from sitemodel.standards.roof_pressure_en1991_1_4 import RoofCoefficients, Wind
from sitemodel.units import Ratio
from sitemodel.wind.directions import DIRECTIONS, Direction, coefficients, extent_of, letters, wind_of


@dataclass(frozen=True, slots=True, kw_only=True)
class NetCoefficient:
    """The net coefficients of one zone, by the letter of the zone, for one wind or for every wind."""

    zone: str
    wind: Literal["every"] | Wind = "every"
    uplift: Ratio
    """Of the lifting sign, 0 or below."""
    pressure: Ratio = 0.0
    """Of the pressing sign, 0 or above."""
    pressure_stated: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class NetOnPanels:
    """Cited net coefficients, and which panels keep every limit of their record."""

    coefficients: tuple[NetCoefficient, ...] = ()
    kept: tuple[bool, ...] = ()

    def of(self, wind: Wind, letter: str) -> NetCoefficient | None:
        """That of a zone; the upper and lower corner of a monopitch roof share a letter."""
        return next(
            (item for item in self.coefficients if item.zone == letter[0] and item.wind in ("every", wind)), None
        )

    def uplift(self, direction: Direction, letter: str, bare: RoofCoefficients, *, kept: bool) -> Ratio:
        """Coefficient of uplift as a positive number."""
        suction, stated = max(0.0, -bare.suction_1), self.of(wind_of(direction), letter)
        if stated is None:
            return suction
        return -stated.uplift if kept else max(suction, -stated.uplift)

    def down(self, direction: Direction, letter: str, bare: RoofCoefficients) -> Ratio:
        """Coefficient of pressure onto the roof."""
        stated = self.of(wind_of(direction), letter)
        return max(0.0, bare.pressure, 0.0 if stated is None else stated.pressure)


NO_NET = NetOnPanels()


@dataclass(frozen=True, slots=True, kw_only=True)
class BareZone:
    """The bare roof of one zone letter of one plane under one wind, as positive numbers."""

    zone: str
    wind: Wind
    suction: Ratio
    """c_pe,1; of the worse corner where two share a letter."""
    pressure: Ratio
    """c_pe of the pressing sign."""


def bare_zones(plane: RoofPlane, form: RoofForm) -> tuple[BareZone, ...]:
    """The zones that a plane has under each wind, by their first letter.

    Args:
        plane: the roof plane.
        form: of the roof.
    """
    extent = extent_of(plane, form)
    found: dict[tuple[Wind, str], list[RoofCoefficients]] = {}
    for direction in DIRECTIONS:
        for letter in letters(form, direction):
            found.setdefault((wind_of(direction), letter[0]), []).append(coefficients(extent, direction, letter))
    return tuple(
        BareZone(
            zone=letter,
            wind=wind,
            suction=max(0.0, *(-cell.suction_1 for cell in cells)),
            pressure=max(0.0, *(cell.pressure for cell in cells)),
        )
        for (wind, letter), cells in found.items()
    )
