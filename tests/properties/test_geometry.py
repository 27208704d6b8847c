"""What holds between the map and a plane, and however an outline is drawn."""

import copy
import itertools
import json
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from pyproj import Geod
from shapely import Point

from sitemodel.design import design_roof
from sitemodel.export import design_document
from sitemodel.roof import RoofPlane
from tests.properties.strategies import Document, documents, read

PLANES = settings(max_examples=50, deadline=None, derandomize=True)
DESIGNS = settings(max_examples=8, deadline=None, derandomize=True)
EARTH = Geod(ellps="WGS84")


def plane_of(document: Document) -> RoofPlane:
    return read(document).planes[0]


def ring_of(document: Document) -> list[list[float]]:
    ring: list[list[float]] = document["roof"]["features"][0]["geometry"]["coordinates"][0]
    return ring


@PLANES
@given(documents(), st.floats(-0.5, 1.5), st.floats(-0.5, 1.5))
def test_from_plane_to_map_and_back_is_the_same_place(document: Document, across: float, up: float) -> None:
    plane = plane_of(document)
    place = Point(across * plane.width, up * plane.slope_length)
    there = plane.frame.local_map.to_map(plane.frame.to_local(place))
    back = plane.frame.to_plane(plane.frame.local_map.to_local(there))
    assert back.distance(place) < 1e-3


@PLANES
@given(documents())
def test_each_vertex_of_the_outline_returns_to_where_it_was_drawn(document: Document) -> None:
    plane = plane_of(document)
    back = plane.frame.local_map.to_map(plane.frame.to_local(plane.outline))
    corners = shapely.get_coordinates(back)
    for longitude, latitude in ring_of(document):
        distances = EARTH.inv([longitude] * len(corners), [latitude] * len(corners), corners[:, 0], corners[:, 1])[2]
        assert min(distances) < 1e-3


@PLANES
@given(documents())
def test_lengths_on_the_plane_are_true_lengths(document: Document) -> None:
    plane, ring = plane_of(document), ring_of(document)
    drawn = [Point(x, y) for x, y in ring]
    placed = [plane.frame.to_plane(plane.frame.local_map.to_local(point)) for point in drawn]
    for (start, end), (a, b) in zip(itertools.pairwise(drawn), itertools.pairwise(placed), strict=True):
        in_plan = EARTH.inv(start.x, start.y, end.x, end.y)[2]
        up = (b.y - a.y) * math.cos(math.radians(plane.pitch))
        assert math.hypot(b.x - a.x, up) == pytest.approx(in_plan, abs=1e-3)


@PLANES
@given(documents())
def test_the_axes_start_at_the_lower_left_and_the_plane_faces_away_from_its_eaves(document: Document) -> None:
    plane, ring = plane_of(document), ring_of(document)
    assert plane.outline.bounds[:2] == pytest.approx((0.0, 0.0), abs=2e-6)
    forward = EARTH.inv(ring[0][0], ring[0][1], ring[1][0], ring[1][1])[0]
    turned = (plane.azimuth - forward - 90.0 + 180.0) % 360.0 - 180.0
    # drawn anticlockwise, the way along the eaves has the outside on its right
    assert abs(turned) < 0.01


def redrawn(document: Document, by: int, backwards: bool, eaves: bool) -> Document:
    """The same outline begun at another corner, perhaps the other way round; the eaves edge follows."""
    copied = copy.deepcopy(document)
    feature = copied["roof"]["features"][0]
    corners = feature["geometry"]["coordinates"][0][:-1]
    count = len(corners)
    moved = corners[by:] + corners[:by]
    edge = (0 - by) % count
    if backwards:
        moved = moved[::-1]
        edge = (count - 2 - edge) % count
    feature["geometry"]["coordinates"][0] = [*moved, moved[0]]
    if eaves:
        feature["properties"]["eaves"] = edge
    else:
        del feature["properties"]["eaves"]
    return copied


@DESIGNS
@given(documents(), st.integers(0, 5), st.booleans(), st.booleans())
def test_any_first_corner_and_any_winding_give_the_same_design(
    document: Document, by: int, backwards: bool, eaves: bool
) -> None:
    by %= len(ring_of(document)) - 1
    first = redrawn(document, 0, False, eaves)
    other = redrawn(document, by, backwards, eaves)
    assert answer(first) == answer(other)


def answer(document: Document) -> str:
    return json.dumps(design_document(design_roof(read(document))))
