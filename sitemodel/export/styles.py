"""How a desktop GIS draws the layers on opening the GeoPackage: shapes first, colour second."""

from dataclasses import dataclass
from typing import Literal
from xml.sax.saxutils import escape, quoteattr

SymbolKind = Literal["marker", "line", "fill"]
_CLASSES: dict[SymbolKind, str] = {"marker": "SimpleMarker", "line": "SimpleLine", "fill": "SimpleFill"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One entry of a layer's legend: the value it stands for and the options of its symbol."""

    value: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerStyle:
    """One layer drawn by the values of one property."""

    layer: str
    attribute: str
    kind: SymbolKind
    looks: tuple[Look, ...]
    description: str
    label: str = ""
    """Property that is written on each feature."""

    def qml(self) -> str:
        """The style as the XML that desktop GIS read from ``layer_styles``."""
        categories = "".join(
            f'<category value={quoteattr(look.value)} label={quoteattr(look.value)} symbol="{place}" render="true"/>'
            for place, look in enumerate(self.looks)
        )
        symbols = "".join(
            f'<symbol name="{place}" type="{self.kind}" alpha="1"><layer class="{_CLASSES[self.kind]}" '
            f'enabled="1"><Option type="Map">{_options(look)}</Option></layer></symbol>'
            for place, look in enumerate(self.looks)
        )
        return (
            f'<qgis version="3.22" styleCategories="{"Symbology|Labeling" if self.label else "Symbology"}" '
            f'labelsEnabled="{1 if self.label else 0}"><renderer-v2 type="categorizedSymbol" '
            f"attr={quoteattr(self.attribute)}><categories>{categories}</categories>"
            f"<symbols>{symbols}</symbols></renderer-v2>{self._labelling()}</qgis>"
        )

    def _labelling(self) -> str:
        """One text on each feature, black with a white rim."""
        if not self.label:
            return ""
        return (
            f'<labeling type="simple"><settings><text-style fieldName={quoteattr(self.label)} fontSize="8" '
            'textColor="0,0,0,255"><text-buffer bufferDraw="1" bufferSize="1" bufferColor="255,255,255,255"/>'
            "</text-style></settings></labeling>"
        )

    def sld(self) -> str:
        """The same for programs that read Styled Layer Descriptors 1.0; areas only, hatches become shades."""
        if self.kind != "fill":
            return ""
        text = ""
        if self.label:
            text = (
                f"<TextSymbolizer><Label><ogc:PropertyName>{escape(self.label)}</ogc:PropertyName></Label>"
                "</TextSymbolizer>"
            )
        rules = "".join(
            f"<Rule><Name>{escape(look.value)}</Name><ogc:Filter><ogc:PropertyIsEqualTo><ogc:PropertyName>"
            f"{escape(self.attribute)}</ogc:PropertyName><ogc:Literal>{escape(look.value)}</ogc:Literal>"
            f"</ogc:PropertyIsEqualTo></ogc:Filter>{_polygon(look)}{text}</Rule>"
            for look in self.looks
        )
        return (
            '<StyledLayerDescriptor version="1.0.0" xmlns="http://www.opengis.net/sld" '
            f'xmlns:ogc="http://www.opengis.net/ogc"><NamedLayer><Name>{escape(self.layer)}</Name><UserStyle>'
            f"<FeatureTypeStyle>{rules}</FeatureTypeStyle></UserStyle></NamedLayer></StyledLayerDescriptor>"
        )


def _polygon(look: Look) -> str:
    """An area in the colour of a look."""
    red, green, blue, alpha = (int(part) for part in dict(look.options)["color"].split(","))
    shade = f"#{red:02x}{green:02x}{blue:02x}"
    return (
        f'<PolygonSymbolizer><Fill><CssParameter name="fill">{shade}</CssParameter>'
        f'<CssParameter name="fill-opacity">{alpha / 255:.2f}</CssParameter></Fill>'
        '<Stroke><CssParameter name="stroke">#3c3c3c</CssParameter></Stroke></PolygonSymbolizer>'
    )


def _options(look: Look) -> str:
    return "".join(
        f'<Option name={quoteattr(name)} type="QString" value={quoteattr(value)}/>' for name, value in look.options
    )


def _marker(value: str, shape: str, colour: str) -> Look:
    options = (("name", shape), ("color", colour), ("outline_color", "0,0,0,255"), ("size", "3"))
    return Look(value=value, options=options)


def _fill(value: str, pattern: str, colour: str, width: str = "0.26") -> Look:
    options = (
        ("style", pattern), ("color", colour), ("outline_color", "60,60,60,255"), ("outline_width", width),
    )  # fmt: skip
    return Look(value=value, options=options)


STYLES: tuple[LayerStyle, ...] = (
    LayerStyle(
        layer="wind_zones",
        attribute="zone",
        kind="fill",
        description="Hatched by the letter of the zone that governs uplift",
        looks=(
            _fill("F", "diagonal_x", "120,120,120,160"),
            _fill("G", "f_diagonal", "120,120,120,160"),
            _fill("H", "no", "0,0,0,0"),
            _fill("I", "no", "0,0,0,0"),
            _fill("J", "b_diagonal", "120,120,120,160"),
        ),
    ),
    LayerStyle(
        layer="panels",
        attribute="orientation",
        kind="fill",
        description="Outlined",
        looks=(
            _fill("portrait", "solid", "40,70,110,90", "0.5"),
            _fill("landscape", "solid", "40,70,110,60", "0.5"),
        ),
    ),
    LayerStyle(
        layer="anchors",
        attribute="verdict",
        kind="marker",
        description="A shape for each verdict",
        looks=(
            _marker("holds", "circle", "0,0,0,255"),
            _marker("holds_if_tested", "diamond", "255,255,255,255"),
            _marker("fails", "cross_fill", "200,30,30,255"),
        ),
    ),
    LayerStyle(
        layer="slates",
        attribute="state",
        kind="fill",
        description="By what happens to the slate, with its tag",
        label="tag",
        looks=(
            _fill("lifted", "no", "0,0,0,0"),
            _fill("renailed", "solid", "235,235,235,160"),
            _fill("trimmed", "b_diagonal", "40,40,40,220", "0.7"),
            _fill("hooked", "cross", "130,130,130,200"),
        ),
    ),
)
