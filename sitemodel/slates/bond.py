"""SlateBond: courses and joints of a slated plane, and where each slate lies."""

from dataclasses import dataclass

from shapely import Polygon

from sitemodel.buildup import Course, Slate
from sitemodel.units import Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class SlateBond:
    """Half-bond slating: odd courses start at the origin, even courses half a pitch further.

    Courses are the whole list from the eaves. Columns count from 0 at the origin (they may be negative); tags
    are ``C07-12``: course, place from the left verge starting at 1.
    """

    slate: Slate
    courses: tuple[Course, ...]
    gauge: Metres
    origin_x: Metres
    origin_assumed: bool
    outline: Polygon
    """Of the plane; slates are cut to it."""

    @property
    def pitch(self) -> Metres:
        """Width of a slate and its joint."""
        return self.slate.width + self.slate.joint
