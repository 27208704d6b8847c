"""The exposed-edge test of a choice of panels is the same whether it is prepared for all of them or asked afresh."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from sitemodel.wind.array_edges import array_edges, part_arrays

ROOF = Polygon([(0.0, 0.0), (16.0, 0.0), (13.0, 7.5), (2.0, 7.5)])


@settings(max_examples=50, deadline=None, derandomize=True)
@given(
    st.lists(st.booleans(), min_size=24, max_size=24).filter(any),
    st.floats(0.02, 3.0),
    st.floats(0.05, 0.5),
    st.floats(1.0, 12.0),
)
def test_any_choice_of_panels(present: list[bool], gap: float, top: float, height: float) -> None:
    left, low = (a.ravel() for a in np.meshgrid(1.0 + np.arange(8) * (1.1 + gap), 0.4 + np.arange(3) * 1.8))
    boxes = np.stack([left, low, left + 1.1, low + 1.75], axis=1)
    chosen = np.flatnonzero(present)
    expected = [edge.exposed for edge in array_edges(ROOF, boxes[chosen], top, height)]
    assert part_arrays(ROOF, boxes, top, height).exposed(chosen).tolist() == expected
