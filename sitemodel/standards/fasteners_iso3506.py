"""EN ISO 3506-1: tensile strength of stainless bolts by property class."""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Pascals


@cache
def _strengths() -> Mapping[str, Pascals]:
    text = files("sitemodel.standards").joinpath("tables/fasteners_stainless.csv").read_text(encoding="utf-8")
    return {row["property_class"]: 1e6 * float(row["r_m"]) for row in csv.DictReader(text.splitlines())}


def tensile_strength(property_class: str) -> Pascals:
    r"""Least tensile strength of a stainless bolt, from its class alone or from a mark such as A2-70.

    .. math:: R_m

    Args:
        property_class: "70", "A2-70", "A4-80".

    Scope:
        Classes 50, 70 and 80 of austenitic grades.

    Source:
        ISO3506, table of mechanical properties (transcribed).

    Example:
        >>> tensile_strength("A2-70") / 1e6
        700.
    """
    number = property_class.rpartition("-")[2]
    if number not in _strengths():
        allowed = ", ".join(_strengths())
        raise OutsideScope("property class", value=property_class, allowed=allowed, clause="ISO3506")
    return _strengths()[number]
