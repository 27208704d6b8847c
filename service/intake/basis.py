"""Which set of standards a document asks for, and the refusal to mix two of them."""

from collections.abc import Iterator
from typing import TypeAlias

from sitemodel.errors import InputError

Fields: TypeAlias = dict[str, tuple[str, ...]]

EUROPEAN_ONLY: Fields = {
    "": ("national_choices",),
    "site": ("basic_wind_velocity", "terrain", "direction_factor", "direction_table", "panel_wind"),
}
AMERICAN_ONLY: Fields = {
    "": ("design_format",),
    "site": (
        "basic_wind_speed", "exposure", "risk_category", "topographic_factor", "snow_exposure", "snow_thermal_factor",
    ),
}  # fmt: skip


def is_american(document: dict[str, object]) -> bool:
    """Whether a document asks for the American basis."""
    return document.get("basis") == "american"


def mixed(document: dict[str, object]) -> tuple[InputError, ...]:
    """One line for each field of the set that the basis does not choose; the two are never mixed."""
    if is_american(document):
        return tuple(_foreign(document, EUROPEAN_ONLY, AMERICAN_ONLY, "European", "american"))
    return tuple(_foreign(document, AMERICAN_ONLY, EUROPEAN_ONLY, "American", "european"))


def is_map(terrain: object) -> bool:
    """A map of the ground belongs to no set of standards; a terrain category does."""
    return isinstance(terrain, dict)


def _foreign(document: dict[str, object], foreign: Fields, own: Fields, whose: str, basis: str) -> Iterator[InputError]:
    for section, names in foreign.items():
        inside = document.get(section) if section else document
        if isinstance(inside, dict):
            allowed = f"with basis {basis}: {', '.join(own[section])}; two sets of standards are never mixed"
            for name in names:
                if name in inside and not (basis == "american" and name == "terrain" and is_map(inside[name])):
                    where = f"{section}.{name}" if section else name
                    yield InputError(where, given=f"a field of the {whose} basis", allowed=allowed)
