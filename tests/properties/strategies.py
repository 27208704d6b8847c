"""Briefs of invented roofs, drawn at random within what a house roof can be."""

import copy
import json
import math
from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st
from shapely import Polygon

from service.intake import read_brief
from sitemodel.brief import Brief
from sitemodel.site import LocalMap

Document = dict[str, Any]
Points = tuple[tuple[float, float], ...]
INLAND = ((-2.41, 52.2), (11.58, 48.14), (-3.7, 40.4), (27.7, 62.9), (149.1, -33.3), (-105.0, 39.7))
"""Places inland, where the embedded climate has a cell; two of them south and west of Europe."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnPlane:
    """A plane before it is put on the map: metres along the eaves and up the slope in plan, eaves edge first."""

    points: Points
    turn: float
    """Degrees that the drawing is turned anticlockwise: 0 faces south."""
    east: float = 0.0
    north: float = 0.0

    def on_map(self, longitude: float, latitude: float) -> list[list[float]]:
        """The ring in longitude and latitude, closed."""
        c, s = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        turned = [(self.east + x * c - u * s, self.north + x * s + u * c) for x, u in self.points]
        ring = LocalMap(longitude=longitude, latitude=latitude).to_map(Polygon(turned)).exterior.coords
        return [[round(x, 9), round(y, 9)] for x, y in ring]


def shapes(widest: float = 9.0) -> st.SearchStrategy[Points]:
    """Rectangles, trapezoids and L-shapes."""

    def points(kind: str, width: float, depth: float, share: float) -> Points:
        cut = width * share
        return {
            "rectangle": ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)),
            "trapezoid": ((0.0, 0.0), (width, 0.0), (width - cut, depth), (cut, depth)),
            "L": ((0.0, 0.0), (width, 0.0), (width, depth), (cut, depth), (cut, depth / 2), (0.0, depth / 2)),
        }[kind]

    kinds = st.sampled_from(("rectangle", "rectangle", "trapezoid", "L"))
    return st.builds(points, kinds, st.floats(2.5, widest), st.floats(2.2, 5.5), st.floats(0.05, 0.4))


def document_of(planes: list[tuple[DrawnPlane, float]], longitude: float, latitude: float, **said: Any) -> Document:
    """A brief with these planes, each with its pitch; further sections as given."""
    features = [
        {
            "type": "Feature",
            "properties": {
                "role": "roof_plane", "id": f"plane{n}", "pitch": f"{pitch} deg", "eaves_height": "3.2 m", "eaves": 0,
            },
            "geometry": {"type": "Polygon", "coordinates": [plane.on_map(longitude, latitude)]},
        }
        for n, (plane, pitch) in enumerate(planes, start=1)
    ]  # fmt: skip
    return {"roof": {"type": "FeatureCollection", "features": features}, **said}


def sections() -> st.SearchStrategy[Document]:
    """Everything but the roof."""
    return st.fixed_dictionaries(
        {
            "site": st.fixed_dictionaries(
                {
                    "basic_wind_velocity": st.floats(20.0, 30.0).map(lambda v: f"{v:.1f} m/s"),
                    "ground_snow": st.floats(0.0, 3.0).map(lambda s: f"{s:.2f} kPa"),
                    "altitude": st.floats(0.0, 1500.0).map(lambda a: f"{a:.0f} m"),
                    "terrain": st.sampled_from(("0", "I", "II", "III", "IV")),
                    "distance_to_sea": st.just("60 km"),
                }
            ),
            "build_up": st.fixed_dictionaries(
                {
                    "sip": st.fixed_dictionaries(
                        {"outer_skin": st.sampled_from((11, 15, 18)).map(lambda t: {"thickness": f"{t} mm"})}
                    ),
                    "counter_batten": st.fixed_dictionaries({"spacing": st.sampled_from(("400 mm", "600 mm"))}),
                    "slate": st.sampled_from(((500, 250), (400, 200), (600, 300))).map(
                        lambda s: {"length": f"{s[0]} mm", "width": f"{s[1]} mm"}
                    ),
                }
            ),
            "hook": st.builds(
                lambda low, more, turned: {
                    "reach_min": f"{low} mm",
                    "reach_max": f"{low + more} mm",
                    "arm_return": f"{turned} mm",
                },
                st.integers(20, 80),
                st.integers(80, 140),
                st.integers(80, 140),
            ),
            "layout": st.fixed_dictionaries(
                {"orientation": st.sampled_from(("portrait", "landscape", "mixed")), "max_panels": st.just(0)}
            ),
        }
    )


@st.composite
def documents(draw: st.DrawFn, most_planes: int = 1, widest: float = 9.0) -> Document:
    """A whole brief; several planes stand apart on a rough grid."""
    count = draw(st.integers(1, most_planes))
    planes = [
        (
            DrawnPlane(
                points=draw(shapes(widest)), turn=draw(st.floats(0.0, 360.0)), east=30.0 * n, north=20.0 * (n % 2)
            ),
            round(draw(st.floats(20.0, 60.0)), 2),
        )
        for n in range(count)
    ]
    longitude, latitude = draw(st.sampled_from(INLAND))
    return document_of(planes, longitude, latitude, **draw(sections()))


def read(document: Document) -> Brief:
    """The brief of a document, by way of its JSON."""
    return read_brief(json.loads(json.dumps(document)))


def changed(document: Document, value: Any, *place: str) -> Document:
    """A copy with one value set."""
    copied = copy.deepcopy(document)
    inside = copied
    for part in place[:-1]:
        inside = inside.setdefault(part, {})
    inside[place[-1]] = value
    return copied
