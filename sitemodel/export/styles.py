"""Drawing styles as the XML that desktop GIS read from the table of styles of a GeoPackage."""

from dataclasses import dataclass
from typing import Literal
from xml.sax.saxutils import escape, quoteattr

SymbolKind = Literal["marker", "line", "fill"]
_CLASSES: dict[SymbolKind, str] = {"marker": "SimpleMarker", "line": "SimpleLine", "fill": "SimpleFill"}
_GEOMETRIES: dict[SymbolKind, str] = {"marker": "PointGeometry", "line": "LineGeometry", "fill": "PolygonGeometry"}

_CENTRED = 'quadOffset="4"'
_BESIDE = 'quadOffset="2" xOffset="2" yOffset="-1" offsetUnits="MM"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One entry of a layer's legend: the value it stands for and the options of its symbol."""

    value: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Writing:
    """A text on every feature, between two scales."""

    expression: str
    nearest: int = 0
    """1 in so much; 0 for no limit."""
    farthest: int = 0
    size: float = 8.0
    bold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerStyle:
    """One layer drawn by the values of one property, or all of it alike."""

    layer: str
    attribute: str
    """Empty where every feature looks alike."""
    kind: SymbolKind
    looks: tuple[Look, ...]
    description: str
    label: str = ""
    """Property that is written on each feature."""
    only: tuple[str, str] = ("", "")
    """Property and value of the features that are drawn; the others stay hidden."""
    writings: tuple[Writing, ...] = ()
    """Texts by scale, in place of the label."""
    written_at: str = ""
    """Expression for the point at which they stand; empty for the middle."""
    rising: str = ""
    """Property by which features are drawn one over another, the lowest first."""
    backed: bool = False
    """White under the pattern, so that what lies below does not show through."""

    def qml(self) -> str:
        """The style as the XML that desktop GIS read from ``layer_styles``."""
        labelled = bool(self.label or self.writings)
        return (
            f'<qgis version="3.22" styleCategories="{"Symbology|Labeling" if labelled else "Symbology"}" '
            f'labelsEnabled="{1 if labelled else 0}">{self._renderer()}{self._labelling()}</qgis>'
        )

    def _renderer(self) -> str:
        symbols = "".join(self._symbol(place, look) for place, look in enumerate(self.looks))
        if not self.attribute:
            return f'<renderer-v2 type="singleSymbol"><symbols>{symbols}</symbols></renderer-v2>'
        categories = "".join(
            f'<category value={quoteattr(look.value)} label={quoteattr(look.value)} symbol="{place}" render="true"/>'
            for place, look in enumerate(self.looks)
        )
        order = (
            f'<orderby><orderByClause asc="1" nullsFirst="0">"{self.rising}"</orderByClause></orderby>'
            if self.rising
            else ""
        )
        return (
            f'<renderer-v2 type="categorizedSymbol" enableorderby="{1 if self.rising else 0}" '
            f"attr={quoteattr(self._drawn(self.attribute))}><categories>{categories}</categories>"
            f"<symbols>{symbols}</symbols>{order}</renderer-v2>"
        )

    def _symbol(self, place: int, look: Look) -> str:
        backs = (_BACK,) if self.backed else ()
        layers = "".join(
            f'<layer class="{_CLASSES[self.kind]}" enabled="1"><Option type="Map">{_options(one)}</Option></layer>'
            for one in (*backs, look)
        )
        return f'<symbol name="{place}" type="{self.kind}" alpha="1">{layers}</symbol>'

    def _drawn(self, attribute: str) -> str:
        """The attribute, or an expression that is nothing for features that stay hidden."""
        name, value = self.only
        return f'CASE WHEN "{name}" = \'{value}\' THEN "{attribute}" END' if name else attribute

    def _labelling(self) -> str:
        """Texts on the features, black with a white rim."""
        if self.writings:
            rules = "".join(
                f'<rule key="{{{place}}}" active="1"{_scales(writing)}>{self._settings(writing)}</rule>'
                for place, writing in enumerate(self.writings)
            )
            return f'<labeling type="rule-based"><rules key="{{all}}">{rules}</rules></labeling>'
        if not self.label:
            return ""
        return (
            f'<labeling type="simple"><settings><text-style fieldName={quoteattr(self._drawn(self.label))} '
            f'isExpression="{1 if self.only[0] else 0}" fontSize="8" '
            'textColor="0,0,0,255"><text-buffer bufferDraw="1" bufferSize="1" bufferColor="255,255,255,255"/>'
            "</text-style></settings></labeling>"
        )

    def _settings(self, writing: Writing) -> str:
        """One text, centred on its point, never left out for another."""
        point = (
            f'geometryGeneratorEnabled="1" geometryGeneratorType="PointGeometry" '
            f"geometryGenerator={quoteattr(self.written_at)} "
            if self.written_at
            else ""
        )
        return (
            f'<settings><text-style fieldName={quoteattr(writing.expression)} isExpression="1" '
            f'fontSize="{writing.size:g}" fontSizeUnit="Point" fontWeight="{75 if writing.bold else 50}" '
            f'namedStyle="{"Bold" if writing.bold else "Regular"}" textColor="0,0,0,255">'
            '<text-buffer bufferDraw="1" bufferSize="0.8" bufferSizeUnits="MM" bufferColor="255,255,255,255"/>'
            f'</text-style><text-format multilineAlign="1"/><placement placement="1" {point}'
            f'{_BESIDE if self.kind == "marker" else _CENTRED} layerType="{_GEOMETRIES[self.kind]}"/>'
            '<rendering displayAll="1" obstacle="0" drawLabels="1"/></settings>'
        )

    def sld(self) -> str:
        """The same for programs that read Styled Layer Descriptors 1.0; areas only, hatches become shades."""
        if self.kind != "fill" or not self.attribute:
            return ""
        text = ""
        if self.label:
            text = (
                f"<TextSymbolizer><Label><ogc:PropertyName>{escape(self.label)}</ogc:PropertyName></Label>"
                "</TextSymbolizer>"
            )
        rules = "".join(
            f"<Rule><Name>{escape(look.value)}</Name><ogc:Filter>{self._filter(look)}</ogc:Filter>"
            f"{_polygon(look)}{text}</Rule>"
            for look in self.looks
        )
        return (
            '<StyledLayerDescriptor version="1.0.0" xmlns="http://www.opengis.net/sld" '
            f'xmlns:ogc="http://www.opengis.net/ogc"><NamedLayer><Name>{escape(self.layer)}</Name><UserStyle>'
            f"<FeatureTypeStyle>{rules}</FeatureTypeStyle></UserStyle></NamedLayer></StyledLayerDescriptor>"
        )

    def _filter(self, look: Look) -> str:
        one = _equal(self.attribute, look.value)
        return f"<ogc:And>{one}{_equal(*self.only)}</ogc:And>" if self.only[0] else one


def _scales(writing: Writing) -> str:
    """The scales between which a text is written."""
    nearest = f' scalemindenom="{writing.nearest}"' if writing.nearest else ""
    farthest = f' scalemaxdenom="{writing.farthest}"' if writing.farthest else ""
    return nearest + farthest


def _equal(name: str, value: str) -> str:
    return (
        f"<ogc:PropertyIsEqualTo><ogc:PropertyName>{escape(name)}</ogc:PropertyName>"
        f"<ogc:Literal>{escape(value)}</ogc:Literal></ogc:PropertyIsEqualTo>"
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


_BACK = Look(value="", options=(("style", "solid"), ("color", "255,255,255,255"), ("outline_style", "no")))


def _options(look: Look) -> str:
    return "".join(
        f'<Option name={quoteattr(name)} type="QString" value={quoteattr(value)}/>' for name, value in look.options
    )
