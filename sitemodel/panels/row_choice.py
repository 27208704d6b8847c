"""Which rows are laid: the fullest, or those whose places are worth most; and what is proved of them, in words."""

from dataclasses import dataclass

from shapely import MultiPolygon, Polygon

from sitemodel.panels.kinds import LayoutRequest
from sitemodel.panels.packing import Packing
from sitemodel.panels.place_worth import PlaceWorth
from sitemodel.panels.row_programme import RowKind, RowPlaces, RowSpot
from sitemodel.panels.weighted_packing import WorthPacking, pack_for_worth
from sitemodel.units import KilowattHours


@dataclass(frozen=True, slots=True, kw_only=True)
class RowChoice:
    """The rows from the eaves up, and what was weighed."""

    rows: tuple[RowSpot, ...]
    worth: KilowattHours = 0.0
    """What the rows earn beyond what they must, where places were weighed for any number of panels."""
    worth_bound: KilowattHours = 0.0
    """What no row-aligned arrangement is worth more than; 0 where nothing was weighed."""
    notes: tuple[str, ...] = ()


def choose_rows(
    packing: Packing,
    region: Polygon | MultiPolygon,
    kinds: tuple[RowKind, ...],
    request: LayoutRequest,
    places: RowPlaces,
    field: PlaceWorth | None,
) -> RowChoice:
    """The fullest rows where all places are worth the same, else the rows that are worth most.

    Args:
        packing: the fullest rows.
        region: where panels may lie.
        kinds: how they may lie.
        request: gap, objective, hurdle and number of panels.
        places: heights that a row may take.
        field: what a panel is worth by where it lies; the same everywhere, if left out.
    """
    if field is None or request.objective == "most_panels":
        return RowChoice(rows=packing.rows)
    if field.gain <= 0.0:
        return RowChoice(rows=(), notes=(_no_place_earns(field.full, field.hurdle),))
    if field.even(kinds[0].width * kinds[0].height):
        return RowChoice(rows=packing.rows)
    number = request.max_panels if 0 < request.max_panels < packing.count else 0
    best = pack_for_worth(region, kinds, request.gap, places, field, number)
    if not best.rows:
        return RowChoice(rows=(), notes=(_none_worth(field, request),))
    if number:
        return RowChoice(rows=best.rows, worth_bound=best.bound, notes=(_for_a_number(best, number, request),))
    return RowChoice(
        rows=best.rows, worth=best.worth, worth_bound=best.bound, notes=_for_any_number(best, packing, request)
    )


def _no_place_earns(full: KilowattHours, hurdle: KilowattHours) -> str:
    return (
        f"No panel is laid: on the best place of this plane a panel earns {full:.0f} kWh a year, less than the "
        f"{hurdle:.0f} kWh asked of it (layout.least_panel_yield). A lower hurdle would cure it."
    )


def _none_worth(field: PlaceWorth, request: LayoutRequest) -> str:
    return (
        f"No panel is laid: on no place of this plane does a panel earn what is asked of it in a year "
        f"({_conditions(request)}; without shade it earns {field.full:.0f} kWh). A lower hurdle or price would cure it."
    )


def _asked(request: LayoutRequest) -> str:
    """What a panel must earn, in words; empty where nothing is asked."""
    conditions = _conditions(request)
    return f" beyond what they must earn ({conditions})" if conditions else ""


def _conditions(request: LayoutRequest) -> str:
    asked = []
    if request.least_panel_yield:
        asked.append(f"{request.least_panel_yield:.0f} kWh a panel")
    if request.yield_per_uplift:
        asked.append(f"{request.yield_per_uplift:g} kWh for each kN of wind uplift")
    return " and ".join(asked)


def _for_a_number(best: WorthPacking, number: int, request: LayoutRequest) -> str:
    return (
        f"Rows lie where about {number} panels earn most. No row-aligned arrangement of {number} panels with both "
        f"rails on slate courses earns more than {best.bound:,.0f} kWh a year{_asked(request)}, on a coarse grid of "
        f"shade."
    )


def _for_any_number(best: WorthPacking, packing: Packing, request: LayoutRequest) -> tuple[str, ...]:
    over = max(0.0, best.bound / best.worth - 1.0) * 100.0
    proved = (
        f"Rows lie where their panels earn most: {best.worth:,.0f} kWh a year{_asked(request)}, on a coarse grid of "
        f"shade and before anything is slid for its anchors. No row-aligned arrangement with both rails on slate "
        f"courses earns more than {best.bound:,.0f} kWh, {over:.1f} per cent more."
    )
    if best.count == packing.count:
        return (proved,)
    why = (
        f"{best.count} panels are laid where {packing.count} would fit in rows: the others would earn less than they "
        f"must, or would push the rest into shade."
    )
    return proved, why
