"""The columns of every layer: one table that the GeoPackage and the reference page are written from."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal, cast

Kind = Literal["text", "whole", "number", "boolean"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerField:
    """One property of a layer's features: name, kind of value, unit and meaning."""

    layer: str
    name: str
    kind: Kind
    unit: str
    meaning: str


@cache
def layer_fields() -> tuple[LayerField, ...]:
    """Every property of every layer, in the order of its table."""
    text = files("sitemodel").joinpath("export", "layer_fields.csv").read_text(encoding="utf-8")
    return tuple(
        LayerField(
            layer=row["layer"],
            name=row["field"],
            kind=cast("Kind", row["kind"]),
            unit=row["unit"],
            meaning=row["meaning"],
        )
        for row in csv.DictReader(text.splitlines())
    )


def fields_of(layer: str) -> tuple[LayerField, ...]:
    """The properties of one layer."""
    return tuple(field for field in layer_fields() if field.layer == layer)
