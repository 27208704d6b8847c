"""EN 1990 section 6 and Annex A1: partial factors, and the combinations as factors on each action."""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Ratio

PSI_WIND: tuple[Ratio, Ratio, Ratio] = (0.6, 0.2, 0.0)
"""psi 0, 1 and 2 of wind on buildings, EN 1990, Table A1.1."""
PSI_SNOW_LOW: tuple[Ratio, Ratio, Ratio] = (0.5, 0.2, 0.0)
"""psi 0, 1 and 2 of snow at or below 1000 m (other member states), EN 1990, Table A1.1."""
PSI_SNOW_HIGH: tuple[Ratio, Ratio, Ratio] = (0.7, 0.5, 0.2)
"""psi 0, 1 and 2 of snow above 1000 m and in Nordic countries, EN 1990, Table A1.1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartialFactors:
    """One row of Table A1.2: permanent favourable and unfavourable, leading variable unfavourable."""

    table: str
    favourable: Ratio
    unfavourable: Ratio
    variable: Ratio


@cache
def partial_factors() -> Mapping[str, PartialFactors]:
    """The three sets of partial factors by table.

    Scope: A1.2(A), A1.2(B), A1.2(C).
    Source: EN1990, Table A1.2.

    Example:
        >>> partial_factors()["A1.2(B)"].unfavourable
        1.35
    """
    name = "combination_factors_en1990.csv"
    text = files("sitemodel.standards").joinpath("tables", name).read_text(encoding="utf-8")
    return {
        row["table"]: PartialFactors(
            table=row["table"],
            favourable=float(row["gamma_g_inf"]),
            unfavourable=float(row["gamma_g_sup"]),
            variable=float(row["gamma_q"]),
        )
        for row in csv.DictReader(text.splitlines())
    }


def snow_psi(altitude: Metres) -> tuple[Ratio, Ratio, Ratio]:
    """Combination, frequent and quasi-permanent factor of snow.

    Args:
        altitude: of the site above sea level.

    Scope: member states other than the Nordic ones, below 9000 m; outside it, OutsideScope.
    Source: EN1990, Table A1.1.

    Example:
        >>> snow_psi(250.0)
        (0.5, 0.2, 0.0)
    """
    if not -500.0 <= altitude <= 9000.0:
        raise OutsideScope("altitude", value=altitude, allowed="-500 m to 9000 m", clause="EN1990, Table A1.1")
    return PSI_SNOW_HIGH if altitude > 1000.0 else PSI_SNOW_LOW


def fundamental(permanent: Ratio, variable: Ratio, psi_0: Ratio) -> tuple[Ratio, Ratio, Ratio]:
    r"""Factors on the permanent, the leading and the accompanying action for strength.

    .. math:: \gamma_G G \;\text{"+"}\; \gamma_Q Q_1 \;\text{"+"}\; \gamma_Q \psi_0 Q_2

    Args:
        permanent: :math:`\gamma_G`.
        variable: :math:`\gamma_Q`.
        psi_0: combination factor of the accompanying action.

    Scope: persistent and transient situations, expression (6.10).
    Source: EN1990, 6.4.3.2 (6.10).

    Example:
        >>> fundamental(1.35, 1.5, 0.6)
        (1.35, 1.5, 0.9)
    """
    return permanent, variable, variable * psi_0


def characteristic(psi_0: Ratio) -> tuple[Ratio, Ratio, Ratio]:
    r"""Factors of the characteristic combination.

    .. math:: G \;\text{"+"}\; Q_1 \;\text{"+"}\; \psi_0 Q_2

    Args:
        psi_0: combination factor of the accompanying action.

    Scope: irreversible serviceability limits.
    Source: EN1990, 6.5.3 (6.14b).

    Example:
        >>> characteristic(0.6)
        (1.0, 1.0, 0.6)
    """
    return 1.0, 1.0, psi_0


def quasi_permanent(psi_2: Ratio) -> tuple[Ratio, Ratio]:
    r"""Factors of the quasi-permanent combination.

    .. math:: G \;\text{"+"}\; \psi_2 Q

    Args:
        psi_2: quasi-permanent factor of the variable action.

    Scope: long-term effects.
    Source: EN1990, 6.5.3 (6.16b).

    Example:
        >>> quasi_permanent(0.2)
        (1.0, 0.2)
    """
    return 1.0, psi_2
