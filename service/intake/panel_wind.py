"""The basis of the wind on panels: a cited ratio is read with every limit of its record, or refused."""

import dataclasses
import re

from service.schemas.panel_wind import LETTERS, PanelWindInput
from sitemodel.errors import InputError
from sitemodel.wind.relief import ALL_ZONES, WindRelief

WHERE = "site.panel_wind"
ZONES = "FGHIJKLMN"
PAIRS = (("least_area", "greatest_area"), ("least_pitch", "greatest_pitch"),
         ("least_clear_height", "greatest_clear_height"))  # fmt: skip


def read_panel_wind(said: PanelWindInput) -> tuple[WindRelief, ...]:
    """The record of a cited ratio; none where the bare roof is the basis.

    Raises:
        InputError: a basis without its record, a record without its basis, or limits that cannot be.
    """
    if said.basis == "bare_roof_envelope":
        if said.relief is not None:
            raise InputError(f"{WHERE}.relief", given="a record", allowed="nothing, or basis user_cited_ratio with it")
        return ()
    if said.relief is None:
        raise InputError(f"{WHERE}.relief", given="nothing", allowed="the record of the ratio, with who accepted it")
    for low, high in PAIRS:
        if getattr(said.relief, low) > getattr(said.relief, high):
            allowed = f"at most {high}, {getattr(said.relief, high):g}"
            raise InputError(f"{WHERE}.relief.{low}", given=f"{getattr(said.relief, low):g}", allowed=allowed)
    values = {field.name: getattr(said.relief, field.name) for field in dataclasses.fields(WindRelief)}
    return (WindRelief(**values | {"zones": _zones(said.relief.zones)}),)


def _zones(text: str) -> tuple[str, ...]:
    letters = tuple(dict.fromkeys(re.split(r"[,;\s]+", text.strip())))
    if letters == (ALL_ZONES,):
        return letters
    unknown = [letter for letter in letters if len(letter) != 1 or letter not in ZONES]
    if unknown:
        raise InputError(f"{WHERE}.relief.zones", given=unknown[0], allowed=LETTERS)
    return letters
