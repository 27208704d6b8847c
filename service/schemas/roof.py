"""The roof as a brief states it: a GeoJSON FeatureCollection whose features have roles."""

import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import Field, field_validator

from service.quantities import ANGLE, LENGTH, shown
from service.schemas.fields import Choice, Mark, Name, Quantity, Text, Whole, refusal
from service.schemas.section import Section, derived, required

MOST_FEATURES = 220
MOST_VERTICES = 500
Position = tuple[float, ...]
Role = Literal["roof_plane", "obstruction", "exclusion", "neighbour", "sip_joint", "support", "counter_batten"]


@dataclass(frozen=True, slots=True, kw_only=True)
class GeometryInput:
    """A polygon's rings, or a line as its only ring; positions of two or three finite numbers."""

    type: Literal["Polygon", "LineString"]
    rings: tuple[tuple[Position, ...], ...]

    @property
    def has_heights(self) -> bool:
        """Whether the positions have a third number."""
        return len(self.rings[0][0]) == 3


@dataclass(frozen=True, slots=True)
class Geometry(Mark):
    """Reads a GeoJSON Polygon or LineString."""

    def read(self, given: object) -> GeometryInput:
        """The geometry as plain numbers."""
        allowed = 'a GeoJSON geometry: {"type": "Polygon" or "LineString", "coordinates": [...]}'
        if not isinstance(given, dict):
            raise refusal(shown(given), allowed)
        kind, coordinates = given.get("type"), given.get("coordinates")
        if set(given) - {"type", "coordinates", "bbox"} or not isinstance(coordinates, list):
            raise refusal(f"an object with {', '.join(sorted(map(shown, given)))[:80] or 'nothing'}", allowed)
        if kind == "LineString":
            rings: tuple[tuple[Position, ...], ...] = (_positions(coordinates, "a line", 2),)
        elif kind == "Polygon":
            rings = _rings(coordinates)
        else:
            raise refusal(f"geometry type {shown(kind)}", "Polygon or LineString, one a feature")
        if len({len(position) for ring in rings for position in ring}) > 1:
            raise refusal("positions with and without a height", "two numbers in every position, or three in every one")
        return GeometryInput(type=kind, rings=rings)

    def json_schema(self) -> dict[str, Any]:
        """The part of GeoJSON that is read."""
        return {
            "type": "object",
            "required": ["type", "coordinates"],
            "properties": {
                "type": {"type": "string", "enum": ["Polygon", "LineString"]},
                "coordinates": {"type": "array", "items": {}},
            },
        }


def _rings(coordinates: list[object]) -> tuple[tuple[Position, ...], ...]:
    if not 1 <= len(coordinates) <= 50:
        raise refusal(f"a polygon of {len(coordinates)} rings", "1 to 50 rings, the outline first")
    rings = tuple(_positions(ring, "a ring", 4) for ring in coordinates)
    if any(ring[0] != ring[-1] for ring in rings):
        raise refusal("a ring that is not closed", "the first position repeated as the last")
    return rings


def _positions(given: object, what: str, fewest: int) -> tuple[Position, ...]:
    if not isinstance(given, list):
        raise refusal(f"{shown(given)} in place of {what}", "a list of positions")
    if not fewest <= len(given) <= MOST_VERTICES:
        raise refusal(f"{what} of {len(given)} positions", f"{fewest} to {MOST_VERTICES}")
    return tuple(_position(position) for position in given)


def _position(given: object) -> Position:
    allowed = "two or three finite numbers: longitude (or east), latitude (or north), height"
    if not isinstance(given, list) or len(given) not in (2, 3):
        raise refusal(f"the position {shown(given)}", allowed)
    for number in given:
        if isinstance(number, bool) or not isinstance(number, int | float) or not abs(number) < 1e8:
            raise refusal(f"{shown(number)} in a position", allowed)
    return tuple(float(number) for number in given)


class PropertiesInput(Section):
    """Everything a feature may say; which of it belongs to which role is checked by the intake."""

    role: Annotated[Role, Choice()] = required(f"one of {', '.join(Role.__args__)}")  # type: ignore[attr-defined]
    id: Annotated[str | None, Name()] = derived("Id of the feature; left out, counted by role.")
    plane: Annotated[str | None, Name()] = derived("Id of the plane it lies on; left out, found by position.")
    pitch: Annotated[float | None, Quantity(ANGLE, "1 deg", "89 deg")] = derived("Pitch of the plane.")
    eaves_height: Annotated[float | None, Quantity(LENGTH, "0 m", "200 m")] = derived("Eaves above ground.")
    ridge_height: Annotated[float | None, Quantity(LENGTH, "0.5 m", "200 m")] = derived("Ridge above ground.")
    eaves: Annotated[int | None, Whole(0, MOST_VERTICES)] = derived(
        "Index of the eaves edge: edge 0 runs from the first vertex to the second."
    )
    height: Annotated[float | None, Quantity(LENGTH, "0.01 m", "200 m")] = derived(
        "Of an obstruction above the slates; of a neighbour above ground."
    )
    kind: Annotated[Literal["chimney", "dormer", "rooflight", "vent", "other"] | None, Choice()] = derived(
        "Kind of an obstruction."
    )
    name: Annotated[str | None, Text(200)] = derived("A remark; not used.")


class FeatureInput(Section):
    """One feature: geometry and properties."""

    type: Annotated[Literal["Feature"], Choice()] = required("Feature")
    id: Annotated[str | None, Name()] = derived("Id of the feature.")
    bbox: Annotated[tuple[float, ...] | None, Field(max_length=6)] = derived("Not used.")
    geometry: Annotated[GeometryInput, Geometry()] = required("a GeoJSON Polygon or LineString")
    properties: PropertiesInput = required("an object with role, and what the role needs")

    @field_validator("properties", mode="before")
    @classmethod
    def _without_empty_columns(cls, given: object) -> object:
        """GIS programs write every column of a table; an empty one says nothing."""
        if isinstance(given, dict):
            return {name: value for name, value in given.items() if value is not None}
        return given


_EPSG = re.compile(r"(?:EPSG:|urn:ogc:def:crs:EPSG:[0-9.]*:)(\d{4,6})", re.ASCII)
_CRS84 = ("OGC:CRS84", "urn:ogc:def:crs:OGC:1.3:CRS84", "EPSG:4326", "urn:ogc:def:crs:EPSG::4326")


@dataclass(frozen=True, slots=True)
class CoordinateSystem(Mark):
    """Longitude and latitude, or a projected system by its EPSG code."""

    def read(self, given: object) -> str:
        """``EPSG:…``; empty for longitude and latitude."""
        if isinstance(given, dict) and isinstance(given.get("properties"), dict):
            given = given["properties"].get("name")
        if isinstance(given, str) and given in _CRS84:
            return ""
        match = _EPSG.fullmatch(given) if isinstance(given, str) else None
        if match is None:
            allowed = 'a projected system in metres such as "EPSG:27700"; none for longitude, latitude'
            raise refusal(shown(given), allowed)
        return f"EPSG:{match[1]}"

    def json_schema(self) -> dict[str, Any]:
        """Text."""
        return {"type": "string", "examples": ["EPSG:27700"]}


class RoofInput(Section):
    """The FeatureCollection."""

    type: Annotated[Literal["FeatureCollection"], Choice()] = required("FeatureCollection")
    crs: Annotated[str, CoordinateSystem()] = ""
    name: Annotated[str | None, Text(200)] = derived("Not used.")
    bbox: Annotated[tuple[float, ...] | None, Field(max_length=6)] = derived("Not used.")
    features: Annotated[tuple[FeatureInput, ...], Field(min_length=1, max_length=MOST_FEATURES)] = required(
        "a list of features, at least one of them with role roof_plane"
    )
