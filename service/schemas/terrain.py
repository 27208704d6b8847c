"""The terrain of a site as a brief states it: one category, twelve sectors, or a map."""

import base64
import binascii
from dataclasses import dataclass, field
from typing import Any

from service.quantities import shown
from service.schemas.fields import Mark, refusal
from sitemodel.site import TerrainCategory

CATEGORIES: tuple[TerrainCategory, ...] = ("0", "I", "II", "III", "IV")
LAYERS = ("landcover", "buildings", "water", "elevation")
SECTORS_ALLOWED = "twelve categories, for wind from 0, 30, ... 330 degrees, each 0, I, II, III or IV"
MAP_ALLOWED = (
    "an object with landcover, and if you have them buildings, water and elevation; each a GeoJSON FeatureCollection "
    '(with "crs": "EPSG:..." beside its features where it is projected) or, on the command line, the path of a file '
    "beside the brief"
)
LARGEST_RASTER = 15_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerInput:
    """One layer of the map: a path, a collection, or the bytes of a raster."""

    name: str
    path: str = ""
    collection: dict[str, Any] = field(default_factory=dict)
    content: bytes = b""


@dataclass(frozen=True, slots=True, kw_only=True)
class TerrainInput:
    """Exactly one of the three ways holds something."""

    category: TerrainCategory | None = None
    sectors: tuple[TerrainCategory, ...] = ()
    layers: tuple[LayerInput, ...] = ()

    def layer(self, name: str) -> LayerInput | None:
        """A layer by its name."""
        return next((layer for layer in self.layers if layer.name == name), None)


@dataclass(frozen=True, slots=True)
class Terrain(Mark):
    """Reads the three ways to state terrain, or a map alone."""

    map_only: bool = False

    def read(self, given: object) -> TerrainInput:
        """The terrain, its layers not yet opened."""
        if self.map_only and not isinstance(given, dict):
            raise refusal(shown(given), MAP_ALLOWED)
        if isinstance(given, list):
            return TerrainInput(sectors=self._sectors(given))
        if isinstance(given, dict):
            return TerrainInput(layers=self._layers(given))
        return TerrainInput(category=_category(given, ", ".join(CATEGORIES)))

    @staticmethod
    def _sectors(given: list[object]) -> tuple[TerrainCategory, ...]:
        if len(given) != 12:
            raise refusal(f"a list of {len(given)}", SECTORS_ALLOWED)
        return tuple(_category(item, SECTORS_ALLOWED) for item in given)

    @staticmethod
    def _layers(given: dict[str, object]) -> tuple[LayerInput, ...]:
        unknown = [name for name in given if name not in LAYERS]
        if unknown:
            raise refusal(f"the unknown field {shown(unknown[0])}", MAP_ALLOWED)
        if "landcover" not in given:
            raise refusal("a map without landcover", MAP_ALLOWED)
        return tuple(_layer(name, value) for name, value in given.items())

    def json_schema(self) -> dict[str, Any]:
        """A word, a list of twelve words, or an object; of a map alone the object."""
        word = {"type": "string", "enum": list(CATEGORIES)}
        layer = {"anyOf": [{"type": "string", "maxLength": 400}, {"type": "object"}]}
        layers: dict[str, Any] = {
            "type": "object",
            "required": ["landcover"],
            "properties": dict.fromkeys(LAYERS, layer),
            "additionalProperties": False,
        }
        if self.map_only:
            return layers | {"description": MAP_ALLOWED}
        return {
            "anyOf": [word, {"type": "array", "items": word, "minItems": 12, "maxItems": 12}, layers],
            "description": f"a category, or {SECTORS_ALLOWED}, or {MAP_ALLOWED}",
        }


def _category(given: object, allowed: str) -> TerrainCategory:
    if isinstance(given, int) and not isinstance(given, bool) and given == 0:
        return "0"
    for category in CATEGORIES:
        if given == category:
            return category
    raise refusal(shown(given), allowed)


def _layer(name: str, given: object) -> LayerInput:
    if isinstance(given, str) and 1 <= len(given) <= 400 and given.isprintable():
        return LayerInput(name=name, path=given)
    if isinstance(given, dict) and isinstance(given.get("features"), list):
        return LayerInput(name=name, collection=given)
    if name == "elevation" and isinstance(given, dict) and set(given) == {"name", "content_base64"}:
        return LayerInput(name=name, content=_decoded(given["content_base64"]))
    raise refusal(f"{name} as {shown(given)}", MAP_ALLOWED)


def _decoded(text: object) -> bytes:
    allowed = "the bytes of a GeoTIFF in base64"
    if not isinstance(text, str):
        raise refusal("elevation.content_base64 that is not text", allowed)
    try:
        content = base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        raise refusal("elevation.content_base64 that is not base64", allowed) from None
    if not 1 <= len(content) <= LARGEST_RASTER:
        raise refusal(f"elevation of {len(content)} bytes", f"1 to {LARGEST_RASTER} bytes")
    return content
