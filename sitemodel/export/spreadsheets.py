"""anchors.csv, slates.csv and parts.csv: what a crew or a buyer opens in a spreadsheet, in mm and kN."""

import csv
import io
from collections.abc import Iterable

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.design import Design
from sitemodel.design.governing_loads import governing_loads_of
from sitemodel.export.anchor_figures import clause_text, down_of, down_slope_of, governing_properties, uplift_of
from sitemodel.export.figures import (
    kilonewtons,
    millimetres,
    newtons_per_square_millimetre,
    ratio,
    significant,
)

ANCHOR_COLUMNS = (
    "id", "plane", "rail", "course", "bay", "x_mm", "y_mm", "rail_x_mm", "rail_y_mm", "margin_to_batten_mm",
    "method", "uplift_kn", "down_kn", "down_slope_kn", "utilisation", "governing_check", "combination",
    "clause",
    "verdict", "required_f_ax_n_per_mm2", "pull_test_screw_kn", "pull_test_anchor_kn", "slates_lifted",
    "margin_left_mm", "margin_right_mm", "robust", "governing_case", "governing_direction_deg",
    "governing_directions", "why",
)  # fmt: skip
SLATE_COLUMNS = (
    "plane", "tag", "course", "column", "state", "order", "ripped_nails", "nails_back", "x_mm", "y_mm",
    "anchors",
)  # fmt: skip
PART_COLUMNS = ("part", "specification", "quantity", "unit", "note")


def anchors_csv(design: Design) -> str:
    """One line an anchor."""
    rows = (
        (*_anchor_row(plane.plane.id, anchor), *governing_properties(load).values())
        for plane in design.planes
        for anchor, load in zip(plane.anchors, governing_loads_of(design.brief, plane), strict=True)
    )
    return csv_text(ANCHOR_COLUMNS, rows)


def slates_csv(design: Design) -> str:
    """One line a slate that is touched."""
    rows = (
        (
            plane.plane.id, slate.tag, slate.course, slate.column, slate.state, slate.order,
            slate.ripped_nails,
            slate.nails_back, millimetres(slate.outline.bounds[0]), millimetres(slate.outline.bounds[1]),
            ",".join(anchors),
        )
        for plane in design.planes
        for slate, anchors in zip(plane.slates, plane.slate_anchors, strict=True)
    )  # fmt: skip
    return csv_text(SLATE_COLUMNS, rows)


def parts_csv(design: Design) -> str:
    """One line a part to buy."""
    rows = ((part.part, part.specification, significant(part.quantity), part.unit, part.note) for part in design.parts)
    return csv_text(PART_COLUMNS, rows)


def _anchor_row(plane: str, anchor: AnchorPoint) -> tuple[object, ...]:
    seat, check = anchor.seat, anchor.check
    return (
        anchor.id, plane, anchor.rail, seat.course, seat.bay, millimetres(seat.x), millimetres(seat.y),
        millimetres(anchor.rail_x), millimetres(anchor.rail_y), millimetres(seat.margin_to_batten),
        check.method,
        kilonewtons(uplift_of(anchor).force), kilonewtons(down_of(anchor).force),
        kilonewtons(down_slope_of(anchor).force), ratio(check.utilisation), check.governing.name,
        check.governing.combination, clause_text(check.governing), check.verdict,
        newtons_per_square_millimetre(check.required_f_ax), kilonewtons(check.pull_test_screw),
        kilonewtons(check.pull_test_anchor), anchor.strip.count,
        millimetres(seat.margin_left), millimetres(seat.margin_right), str(seat.robust).lower(),
    )  # fmt: skip


def csv_text(columns: tuple[str, ...], rows: Iterable[tuple[object, ...]]) -> str:
    """A table as CSV, its first line the names of its columns."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(columns)
    writer.writerows(tuple(_cell(value) for value in row) for row in rows)
    return out.getvalue()


def _cell(value: object) -> object:
    """A text that a spreadsheet would run as a formula gets an apostrophe before it."""
    if isinstance(value, str) and value.startswith(("=", "+", "-", "@", "\t", "\r")):
        return "'" + value
    return value
