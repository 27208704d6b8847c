"""The sheet a plan is drawn on: metres on the roof to units on paper, and labels that never overlap."""

from dataclasses import dataclass

from markupsafe import escape
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.units import Metres

LETTER_WIDTH = 0.6
"""Mean width of a letter over the size of its type."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Paper units (one a pixel at full size) for a plane of given extent."""

    width: Metres
    height: Metres
    scale: float
    """Units a metre."""
    left: float = 62.0
    top: float = 58.0
    right: float = 40.0
    bottom: float = 62.0

    @property
    def paper_width(self) -> float:
        """Of the whole drawing."""
        return self.left + self.width * self.scale + self.right

    @property
    def paper_height(self) -> float:
        """Of the whole drawing."""
        return self.top + self.height * self.scale + self.bottom

    def x(self, metres: Metres) -> float:
        """Across the paper."""
        return round(self.left + metres * self.scale, 1)

    def y(self, metres: Metres) -> float:
        """Down the paper; the eaves are at the bottom."""
        return round(self.top + (self.height - metres) * self.scale, 1)

    def path(self, polygon: Polygon) -> str:
        """Outline and holes as path data."""
        rings = (polygon.exterior, *polygon.interiors)
        return " ".join("M" + " L".join(self._points(ring)[:-1]) + " Z" for ring in rings)

    def line(self, shape: BaseGeometry) -> str:
        """A line as path data."""
        return "M" + " L".join(self._points(shape))

    def _points(self, shape: BaseGeometry) -> list[str]:
        return [f"{self.x(point[0]):g} {self.y(point[1]):g}" for point in shape.coords]


def sheet_for(width: Metres, height: Metres) -> Sheet:
    """A sheet on which the smallest type still reads: large roofs get a large sheet."""
    comfortable = min(max(960.0 / width, 68.0), 110.0)
    largest = min(2600.0 / width, 2600.0 / height)
    return Sheet(width=width, height=height, scale=min(comfortable, largest))


class Labels:
    """Texts on a drawing: each takes the first of its places that is free, or is left out."""

    def __init__(self) -> None:
        self.taken: list[tuple[float, float, float, float]] = []
        self.written: list[str] = []

    def reserve(self, x: float, y: float, half_width: float, half_height: float) -> None:
        """Keep texts off a sign."""
        self.taken.append((x - half_width, y - half_height, x + half_width, y + half_height))

    def write(self, text: str, places: tuple[tuple[float, float], ...], size: float, style: str = "") -> bool:
        """Centre a text on the first free place; whether there was one."""
        half = len(text) * size * LETTER_WIDTH / 2.0
        for x, y in places:
            box = (x - half, y - size * 0.55, x + half, y + size * 0.55)
            if all(_apart(box, other) for other in self.taken):
                self.taken.append(box)
                self.written.append(
                    f'<text x="{x:.1f}" y="{y + size * 0.35:.1f}" font-size="{size:g}" class="halo {style}">'
                    f"{escape(text)}</text>"
                )
                return True
        return False


def _apart(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
