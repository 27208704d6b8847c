"""The styles in the GeoPackage: they speak of properties that the layers have, and know every value that occurs."""

import re
from typing import get_args
from xml.etree.ElementTree import Element, fromstring

import pytest

from sitemodel.export import LAYERS, fields_of
from sitemodel.export.layer_looks import FAR, NEAR, STYLES
from sitemodel.export.styles import LayerStyle
from sitemodel.fixings import Verdict
from sitemodel.slates import SlateState

KINDS = {"marker": "SimpleMarker", "line": "SimpleLine", "fill": "SimpleFill"}
VALUES = {
    "slates": set(get_args(SlateState)),
    "anchors": set(get_args(Verdict)),
    "panels": {"portrait", "landscape"},
}
"""Every value that the drawn property can take, as its type says."""


def style(layer: str) -> LayerStyle:
    [found] = [one for one in STYLES if one.layer == layer]
    return found


def drawn(layer: str) -> Element:
    return fromstring(style(layer).qml())  # noqa: S314 - our own text


def named(expression: str) -> set[str]:
    """The properties that an expression reads."""
    return set(re.findall(r'"(\w+)"', expression))


def test_every_layer_has_one_style() -> None:
    assert sorted(one.layer for one in STYLES) == sorted(LAYERS)


@pytest.mark.parametrize("layer", LAYERS)
def test_a_style_reads_only_properties_of_its_layer(layer: str) -> None:
    known = {field.name for field in fields_of(layer)}
    qml = drawn(layer)
    renderer = qml.find("renderer-v2")
    assert renderer is not None
    attribute = renderer.get("attr", "")
    assert (named(attribute) or {attribute} - {""}) <= known
    for clause in qml.iter("orderByClause"):
        assert named(clause.text or "") <= known
    for text in qml.iter("text-style"):
        expression = text.get("fieldName", "")
        assert (named(expression) if text.get("isExpression") == "1" else {expression}) <= known


@pytest.mark.parametrize("layer", LAYERS)
def test_every_entry_has_a_symbol_of_the_kind_of_its_layer(layer: str) -> None:
    qml = drawn(layer)
    symbols = {symbol.get("name"): symbol for symbol in qml.iter("symbol")}
    assert symbols
    for category in qml.iter("category"):
        assert category.get("symbol") in symbols
    for symbol in symbols.values():
        assert symbol.get("type") == style(layer).kind
        assert {one.get("class") for one in symbol.findall("layer")} == {KINDS[style(layer).kind]}


@pytest.mark.parametrize("layer", VALUES)
def test_every_value_has_an_entry(layer: str) -> None:
    assert {category.get("value") for category in drawn(layer).iter("category")} == VALUES[layer]


def test_slates_are_told_apart_without_colour_and_by_words() -> None:
    patterns = {dict(look.options)["style"] for look in style("slates").looks}
    assert len(patterns) == len(style("slates").looks), "no two states share a hatch"
    near, far = drawn("slates").iter("rule")
    [text] = near.iter("text-style")
    assert named(text.get("fieldName", "")) == {"order", "tag", "state"}
    assert near.get("scalemaxdenom") == str(NEAR) == far.get("scalemindenom")
    assert far.get("scalemaxdenom") == str(FAR), "further off nothing is written"
    markers = {dict(look.options)["name"] for look in style("anchors").looks}
    assert len(markers) == len(style("anchors").looks)


def test_higher_courses_are_drawn_over_lower_ones_and_hide_them() -> None:
    qml = drawn("slates")
    renderer = qml.find("renderer-v2")
    assert renderer is not None
    assert renderer.get("enableorderby") == "1"
    assert [clause.text for clause in qml.iter("orderByClause")] == ['"course"']
    for symbol in qml.iter("symbol"):
        back = symbol.findall("layer")[0]
        options = {one.get("name"): one.get("value") for one in back.iter("Option")}
        assert (options["style"], options["color"]) == ("solid", "255,255,255,255")


def test_the_descriptor_of_areas_names_the_same_values() -> None:
    for layer, values in VALUES.items():
        text = style(layer).sld()
        assert (text == "") == (style(layer).kind != "fill")
        if text:
            assert set(re.findall(r"<Rule><Name>(\w+)</Name>", text)) == values
