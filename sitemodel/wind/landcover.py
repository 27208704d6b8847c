"""Land cover around a site: what roughness each piece of ground has, and which piece lies under a spot."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np
import numpy.typing as npt
import shapely
from shapely import STRtree

from sitemodel.errors import InputError
from sitemodel.sources import Citation, cite
from sitemodel.units import Metres

Floats = npt.NDArray[np.float64]
INLAND_WATER = frozenset({"511", "512"})
SEA = frozenset({"521", "522", "523"})
LAKE_ROUGHNESS: Metres = 0.01
"""Category I, which Table 4.1 of EN 1991-1-4 names for lakes."""
SEA_ROUGHNESS: Metres = 0.003
SMOOTHEST: Metres = 0.0002
ROUGHEST: Metres = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedRoughness:
    """One published roughness length of a land-cover class."""

    table: str
    roughness: Metres
    citation: Citation


@cache
def published_roughness() -> Mapping[str, tuple[PublishedRoughness, ...]]:
    """Every published relation by CORINE class code."""
    text = files("sitemodel.wind").joinpath("landcover_roughness.csv").read_text(encoding="utf-8")
    found: dict[str, list[PublishedRoughness]] = {}
    for row in csv.DictReader(text.splitlines()):
        citation = cite(row["source"], row["place"], "transcribed")
        entry = PublishedRoughness(table=row["table"], roughness=float(row["z0"]), citation=citation)
        for code in row["codes"].split():
            found.setdefault(code, []).append(entry)
    return {code: tuple(entries) for code, entries in sorted(found.items())}


def roughness_of_class(code: str) -> PublishedRoughness:
    """The least of the published roughness lengths of a land-cover class: smoother ground is the safe side.

    Raises:
        InputError: a code that no table has.

    Example:
        >>> roughness_of_class("211").roughness, roughness_of_class("311").roughness
        (0.05, 0.5)
    """
    entries = published_roughness().get(code)
    if entries is None:
        known = ", ".join(published_roughness())
        raise InputError("landcover.class", given=code, allowed=f"a CORINE class code: {known}")
    return min(entries, key=lambda entry: entry.roughness)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LandCover:
    """Ground in metres east and north of the site, each piece with its roughness length.

    ``lake`` marks inland water, which counts as category I, or as category 0 where it is long along the wind.
    """

    shapes: npt.NDArray[np.object_]
    roughness: Floats
    lake: npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GroundAt:
    """The ground under many spots; infinite roughness where the map has none."""

    roughness: Floats
    lake: npt.NDArray[np.bool_]
    overlapping: int
    """Spots that lie in two pieces of different roughness; the smoother one was taken."""

    @property
    def covered(self) -> npt.NDArray[np.bool_]:
        """Spots that lie on the map."""
        return np.isfinite(self.roughness)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spots:
    """Places at which ground is asked for, in a tree that can be asked again and again."""

    count: int
    tree: STRtree


def spots_at(east: Floats, north: Floats) -> Spots:
    """Spots in metres east and north of the site."""
    points: npt.NDArray[np.object_] = np.asarray(shapely.points(east, north), dtype=np.object_)
    return Spots(count=len(points), tree=STRtree(points))


def ground_at(cover: LandCover, spots: Spots) -> GroundAt:
    """The ground under spots; where pieces overlap the smoothest counts."""
    least = np.full(spots.count, math.inf)
    most = np.full(spots.count, -math.inf)
    lake = np.zeros(spots.count, dtype=np.bool_)
    if len(cover.shapes):
        # Each piece is prepared once and asked only about the spots in its box.
        piece, spot = spots.tree.query(cover.shapes, predicate="intersects")
        np.minimum.at(least, spot, cover.roughness[piece])
        np.maximum.at(most, spot, cover.roughness[piece])
        smoothest = cover.roughness[piece] <= least[spot]
        lake[spot[smoothest & cover.lake[piece]]] = True
    overlapping = int(np.count_nonzero(np.isfinite(least) & (most > least)))
    return GroundAt(roughness=least, lake=lake, overlapping=overlapping)
