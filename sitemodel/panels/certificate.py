"""LayoutCertificate: what is proved about the number of panels, with and without rows, and in words."""

from dataclasses import dataclass

from shapely import MultiPolygon, Polygon

from sitemodel.panels.line_bound import LineBound, line_bound
from sitemodel.panels.packing import Packing
from sitemodel.panels.row_choice import RowChoice
from sitemodel.panels.row_programme import RowKind, RowPlaces
from sitemodel.units import KilowattHours, Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutCertificate:
    """The panels of the fullest rows on a plane, and two bounds: on rows, and on any arrangement."""

    found: int
    """Panels of the fullest layout, before any are left out for their number or for their anchors."""
    bound: int
    """What no row-aligned arrangement exceeds."""
    grid: Metres
    """Cells up the slope with which the bound on rows was found."""
    without_rows: tuple[LineBound, ...]
    """What no arrangement of panels of one orientation exceeds, in rows or not; one for each orientation asked for."""
    worth: KilowattHours = 0.0
    """Where rows were laid for their yield: what they earn in a year beyond what they must, on a coarse grid."""
    worth_bound: KilowattHours = 0.0
    """What no row-aligned arrangement earns more than (of the number of panels asked for, if any); 0: not weighed."""

    @property
    def proved(self) -> bool:
        """No row-aligned arrangement holds more."""
        return self.bound == self.found

    @property
    def more_without_rows(self) -> int | None:
        """So many more panels at most would fit without rows; unknown where both orientations may be mixed."""
        if len(self.without_rows) != 1:
            return None
        return max(0, self.without_rows[0].most - self.found)

    def sentences(self) -> tuple[str, ...]:
        """Both bounds in words."""
        return (self._on_rows(), self._without_rows()) if self.found else ()

    def _on_rows(self) -> str:
        grid = f"cells of {self.grid * 1e3:g} mm up the slope"
        if self.proved:
            return (
                f"Proved: no row-aligned arrangement with both rails on slate courses holds more than "
                f"{self.found} panels ({grid}, relaxed strips)."
            )
        return (
            f"Found {self.found} panels; no row-aligned arrangement with both rails on slate courses can "
            f"hold more than {self.bound} ({grid}, relaxed strips). The difference is not settled."
        )

    def _without_rows(self) -> str:
        more = self.more_without_rows
        if more is None:
            alone = " or ".join(f"{bound.most} all {bound.orientation}" for bound in self.without_rows)
            return (
                f"If rows were not required, at most {alone} would fit; for both orientations mixed without rows no "
                "bound is known."
            )
        lying = self.without_rows[0].orientation
        if more == 0:
            return f"Rows cost nothing: no arrangement of {lying} panels holds more, in rows or not (bound by lines)."
        panels = "panel" if more == 1 else "panels"
        return (
            f"At most {more} more {lying} {panels} would fit if rows were not required (bound by lines; whether so "
            "many really would is not known)."
        )


NOTHING_LAID = LayoutCertificate(found=0, bound=0, grid=0.0, without_rows=())
"""Of a layout that was not packed."""


def certify(
    region: Polygon | MultiPolygon,
    kinds: tuple[RowKind, ...],
    gap: Metres,
    places: RowPlaces,
    packing: Packing,
    chosen: RowChoice,
) -> LayoutCertificate:
    """The bounds of a packing and of the rows that were chosen."""
    return LayoutCertificate(
        found=packing.count,
        bound=packing.bound,
        grid=packing.step,
        without_rows=tuple(line_bound(region, kind, gap, places) for kind in kinds),
        worth=chosen.worth,
        worth_bound=chosen.worth_bound,
    )
