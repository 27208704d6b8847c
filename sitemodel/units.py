"""What the floats mean: inside the model every quantity is SI, and its unit stands in the type."""

from typing import TypeAlias

Metres: TypeAlias = float
SquareMetres: TypeAlias = float
Newtons: TypeAlias = float
NewtonMetres: TypeAlias = float
NewtonsPerMetre: TypeAlias = float
NewtonSquareMetres: TypeAlias = float
"""A bending stiffness, EI."""
Pascals: TypeAlias = float
Kilograms: TypeAlias = float
KilogramsPerMetre: TypeAlias = float
KilogramsPerCubicMetre: TypeAlias = float
MetresPerSecond: TypeAlias = float
Degrees: TypeAlias = float
Celsius: TypeAlias = float
Watts: TypeAlias = float
KilowattHours: TypeAlias = float
KilowattHoursPerSquareMetre: TypeAlias = float
Ratio: TypeAlias = float
"""A pure number: a factor, a coefficient, a utilisation."""

GRAVITY: float = 9.80665
"""Standard acceleration of gravity, m/s2, exact by definition (CGPM 1901)."""
