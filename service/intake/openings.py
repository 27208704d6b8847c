"""Openings and overhang of a building: what the air inside and under the eaves does to the sip."""

import math
from collections.abc import Iterator
from dataclasses import replace

from service.intake.assumptions import worked_out
from service.schemas.site import EuropeanBuildingInput, OpeningsInput
from sitemodel.errors import InputError
from sitemodel.roof import Roof
from sitemodel.site import UNKNOWN_OPENINGS, Building, Openings
from sitemodel.sources import Assumption

WHERE = "site.building.openings"


def with_openings(building: Building, said: EuropeanBuildingInput, roof: Roof) -> Building:
    """The building with its openings and its overhang.

    Raises:
        InputError: openings or an overhang that cannot be.
    """
    return replace(
        building,
        openings=read_openings(said.openings),
        overhang=read_overhang(said, roof),
        overhang_stated=said.overhang is not None,
    )


def read_openings(said: OpeningsInput) -> Openings:
    """What is known of the openings.

    Raises:
        InputError: half of a pair, a pair the wrong way round, or two ways at once.
    """
    least, greatest, times = said.least_suction_ratio, said.greatest_suction_ratio, said.dominant_wall_times_others
    if times is not None:
        if least is not None or greatest is not None:
            raise InputError(
                f"{WHERE}.dominant_wall_times_others",
                given="a dominant wall beside a ratio of openings",
                allowed="one of the two ways to state the openings",
            )
        return Openings(known="dominant", times_others=times)
    if least is None and greatest is None:
        return UNKNOWN_OPENINGS
    if least is None or greatest is None:
        missing = "least_suction_ratio" if least is None else "greatest_suction_ratio"
        raise InputError(f"{WHERE}.{missing}", given="nothing", allowed="both ratios, least and greatest, or none")
    if least > greatest:
        allowed = f"at most greatest_suction_ratio, {greatest:g}"
        raise InputError(f"{WHERE}.least_suction_ratio", given=f"{least:g}", allowed=allowed)
    return Openings(known="ratio", least_ratio=least, greatest_ratio=greatest)


def read_overhang(said: EuropeanBuildingInput, roof: Roof) -> float:
    """The overhang in metres, shorter than every plane; 0 where none is stated.

    Raises:
        InputError: an overhang as deep as a plane.
    """
    overhang = said.overhang or 0.0
    for plane in roof.planes:
        depth = plane.slope_length * math.cos(math.radians(plane.pitch))
        if overhang >= depth:
            allowed = f"less than {depth:.2f} m, the depth of plane {plane.id} in plan"
            raise InputError("site.building.overhang", given=f"{overhang:g} m", allowed=allowed)
    return overhang


def overhang_assumed(said: EuropeanBuildingInput) -> Iterator[Assumption]:
    """What was taken for the overhang where it was not stated."""
    if said.overhang is None:
        yield worked_out("site.building.overhang", "not stated", "")
