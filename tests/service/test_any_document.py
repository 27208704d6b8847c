"""Any change of a good brief gives a Brief or InputErrors, nothing else, and never slowly."""

import json
import math
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.intake import read_brief
from service.schemas import read_json
from sitemodel.brief import Brief
from sitemodel.errors import InputError, InputErrors
from tests.service.scenario import box, feature, smallest_brief, with_places

Place = tuple[str | int, ...]


def rich_brief() -> dict[str, Any]:
    return with_places(
        smallest_brief(),
        {
            ("roof", "features", 1): feature("obstruction", box(-2.39995, 52.20002), height="1 m", kind="chimney"),
            ("site", "building"): {"roof_form": "duopitch", "breadth": "9 m"},
            ("national_choices",): {"base": "recommended", "psi_0_snow": {"value": 0.7, "source": "annex"}},
            ("build_up",): {"sip": {"core": {"tensile_strength": {"value": "90 kPa", "source": "assumed"}}}},
            ("fixing",): {"f_ax": {"value": "6 N/mm2", "source": "target"}, "methods": ["spreader_block"]},
            ("layout",): {"margins": {"eaves": "0.3 m"}, "max_panels": 6},
            ("hook",): {"reach_min": "120 mm"},
        },
    )


def places(value: object, here: Place = ()) -> list[Place]:
    found = [here] if here else []
    if isinstance(value, dict):
        for name, inner in value.items():
            found += places(inner, (*here, name))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            found += places(inner, (*here, index))
    return found


PLACES = places(rich_brief())
JSON_VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=12)
    | st.sampled_from(["25 mm", "0.6 kPa", "-1 m", "1e300 m", "Polygon", "roof_plane", "A2", 1e308, -0.0, 180.0, 90.0]),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


@settings(max_examples=50, deadline=None, derandomize=True)
@given(st.lists(st.tuples(st.sampled_from(PLACES), JSON_VALUES), min_size=1, max_size=3))
def test_any_value_anywhere(changes: list[tuple[Place, Any]]) -> None:
    document = rich_brief()
    for place, value in changes:
        try:
            document = with_places(document, {place: value})
        except (KeyError, IndexError, TypeError):
            continue  # an earlier change took the place away
    check(document)


@settings(max_examples=50, deadline=None, derandomize=True)
@given(
    st.lists(
        st.lists(
            st.floats(allow_nan=False, allow_infinity=False) | st.sampled_from([-2.4, 52.2, 52.20004944, 0.0]),
            min_size=2,
            max_size=3,
        ),
        min_size=3,
        max_size=8,
    )
)
def test_any_ring(ring: list[list[float]]) -> None:
    place = ("roof", "features", 0, "geometry", "coordinates")
    check(with_places(smallest_brief(), {place: [[*ring, ring[0]]]}))


@settings(max_examples=50, deadline=None, derandomize=True)
@given(
    st.lists(st.tuples(st.floats(-3e-4, 3e-4), st.floats(-3e-4, 3e-4)), min_size=3, max_size=8), st.floats(10.0, 80.0)
)
def test_any_small_ring(offsets: list[tuple[float, float]], pitch: float) -> None:
    ring = [[-2.4 + dx, 52.2 + dy] for dx, dy in offsets]
    place = ("roof", "features", 0)
    geometry = {"type": "Polygon", "coordinates": [[*ring, ring[0]]]}
    plane = feature("roof_plane", geometry, pitch=pitch, eaves_height=3)
    check(with_places(smallest_brief(), {place: plane}))


@settings(max_examples=50, deadline=None, derandomize=True)
@given(st.data())
def test_any_damage_to_the_bytes(data: st.DataObject) -> None:
    content = bytearray(json.dumps(rich_brief()).encode())
    for _ in range(data.draw(st.integers(1, 3))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    try:
        document = read_json(bytes(content))
    except InputError as error:
        text = str(error)
    else:
        text = "read"
        check(document)
    assert text.isprintable()


def check(document: object) -> None:
    lines: list[str] = []
    brief: Brief | None = None
    try:
        brief = read_brief(document)
    except InputErrors as error:
        lines = [str(mistake) for mistake in error.errors]
    assert bool(lines) != isinstance(brief, Brief)
    assert all(line.isprintable() for line in lines)
    for plane in brief.planes if brief else ():
        assert math.isfinite(plane.area)
        assert 0.0 <= plane.azimuth <= 360.0
