"""The basis of the wind on panels: a cited value is read with every limit of its record, or refused."""

import dataclasses
import re
from typing import Any

from service.schemas.panel_wind import LETTERS, NetCoefficientInput, NetInput, PanelWindInput, RecordInput
from sitemodel.errors import InputError
from sitemodel.roof import RoofPlane
from sitemodel.site import RoofForm
from sitemodel.wind.net_coefficients import BareZone, NetCoefficient, bare_zones
from sitemodel.wind.relief import ALL_ZONES, LOWEST_RATIO, WindRelief

WHERE = "site.panel_wind"
ZONES = "FGHIJKLMN"
RECORDS = {"relief": ("user_cited_ratio", "ratio"), "net": ("user_net_coefficient", "net coefficients")}
PAIRS = (("least_area", "greatest_area"), ("least_pitch", "greatest_pitch"),
         ("least_clear_height", "greatest_clear_height"))  # fmt: skip
ROUNDING = 1e-9


def read_panel_wind(said: PanelWindInput, planes: tuple[RoofPlane, ...], form: RoofForm) -> tuple[WindRelief, ...]:
    """The record of a cited ratio or of net coefficients; none where the bare roof is the basis.

    Args:
        said: what the brief says.
        planes: the roof planes, whose bare-roof coefficients bound what may be cited.
        form: of the roof.

    Raises:
        InputError: a basis without its record, a record without its basis, or values that cannot be.
    """
    for field, (basis, what) in RECORDS.items():
        record = getattr(said, field)
        if record is not None and said.basis != basis:
            raise InputError(f"{WHERE}.{field}", given="a record", allowed=f"nothing, or basis {basis} with it")
        if record is None and said.basis == basis:
            raise InputError(
                f"{WHERE}.{field}", given="nothing", allowed=f"the record of the {what}, with who accepted it"
            )
    if said.relief is not None:
        _refuse_crossed(said.relief, "relief")
        return (WindRelief(**_limits(said.relief), ratio=said.relief.ratio, zones=_zones(said.relief.zones)),)
    if said.net is None:
        return ()
    _refuse_crossed(said.net, "net")
    net = _net(said.net, planes, form)
    return (WindRelief(**_limits(said.net), ratio=1.0, zones=tuple(dict.fromkeys(item.zone for item in net)), net=net),)


def _limits(record: RecordInput) -> dict[str, Any]:
    known = {field.name for field in dataclasses.fields(WindRelief)}
    return {name: getattr(record, name) for name in RecordInput.model_fields if name in known}


def _refuse_crossed(record: RecordInput, field: str) -> None:
    for low, high in PAIRS:
        if getattr(record, low) > getattr(record, high):
            allowed = f"at most {high}, {getattr(record, high):g}"
            raise InputError(f"{WHERE}.{field}.{low}", given=f"{getattr(record, low):g}", allowed=allowed)


def _zones(text: str) -> tuple[str, ...]:
    letters = tuple(dict.fromkeys(re.split(r"[,;\s]+", text.strip())))
    if letters == (ALL_ZONES,):
        return letters
    unknown = [letter for letter in letters if len(letter) != 1 or letter not in ZONES]
    if unknown:
        raise InputError(f"{WHERE}.relief.zones", given=unknown[0], allowed=LETTERS)
    return letters


def _net(said: NetInput, planes: tuple[RoofPlane, ...], form: RoofForm) -> tuple[NetCoefficient, ...]:
    """Each zone of each wind once, one that the roof has, and none below the floor on any plane."""
    roof = tuple((plane.id, zone) for plane in planes for zone in bare_zones(plane, form))
    found: list[NetCoefficient] = []
    for number, item in enumerate(said.coefficients):
        where = f"{WHERE}.net.coefficients[{number}]"
        if any(
            item.zone == other.zone and (item.wind == other.wind or "every" in (item.wind, other.wind))
            for other in found
        ):
            raise InputError(f"{where}.zone", given=f"{item.zone} again", allowed="each zone once for one wind")
        _refuse_below_floor(where, item, roof)
        found.append(
            NetCoefficient(
                zone=item.zone,
                wind=item.wind,
                uplift=item.uplift,
                pressure=item.pressure or 0.0,
                pressure_stated=item.pressure is not None,
            )
        )
    return tuple(found)


def _refuse_below_floor(where: str, item: NetCoefficientInput, roof: tuple[tuple[str, BareZone], ...]) -> None:
    """Whatever the wind, the ratio that it makes with the bare roof stays above that of every readable source."""
    of_wind = [(plane, zone) for plane, zone in roof if item.wind in ("every", zone.wind)]
    known = sorted({zone.zone for _, zone in of_wind})
    if item.zone not in known:
        raise InputError(
            f"{where}.zone", given=f"{item.zone}, which this roof has not under that wind", allowed=", ".join(known)
        )
    for plane, zone in of_wind:
        floor = LOWEST_RATIO * zone.suction
        if zone.zone == item.zone and -item.uplift < floor - ROUNDING:
            allowed = (
                f"{-floor:.3g} or further below 0, {LOWEST_RATIO:g} times c_pe,1 {-zone.suction:.3g} of the bare roof "
                f"in zone {zone.zone} of plane {plane}, wind {zone.wind.replace('_', ' ')}; "
                "no readable source goes lower"
            )
            raise InputError(f"{where}.uplift", given=f"{item.uplift:g}", allowed=allowed)
