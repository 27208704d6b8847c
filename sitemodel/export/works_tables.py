"""The slate work as a document and as tables: slate_works.json, openings, labels, probes, setting_out.csv."""

from sitemodel.export.figures import millimetres
from sitemodel.export.spreadsheets import csv_text
from sitemodel.works import AnchorWork, OpeningWork, PlaneSheet, SlateStep, SlateWorks, by_room

LABEL_COLUMNS = (
    "plane", "faces_deg", "tag", "course", "place", "opening", "step_out", "step_back", "held_by", "cut", "anchors",
    "thickness",
)  # fmt: skip
PROBE_COLUMNS = (
    "id", "plane", "line", "course", "x_mm", "y_mm", "tolerance_mm", "nearest_slate_nail_mm", "anchors", "found_x_mm",
    "found_y_mm", "least_room_mm", "probe_first",
)  # fmt: skip
MARK_COLUMNS = (
    "plane", "anchor", "course", "x_mm", "y_mm", "diagonal_left_mm", "diagonal_right_mm", "running_mm", "to_next_mm",
    "level_tolerance_mm",
)  # fmt: skip
STEP_COLUMNS = (
    "plane", "opening", "step_out", "tag", "ripped_left", "ripped_right", "cuts", "step_back", "nails_back", "device",
    "device_length_mm", "device_from_left_mm", "anchors",
)  # fmt: skip


def works_texts(works: SlateWorks) -> dict[str, str]:
    """The spreadsheets of the slate work by their file names."""
    return {
        "openings.csv": csv_text(STEP_COLUMNS, (row for sheet in works.planes for row in _step_rows(sheet))),
        "labels.csv": csv_text(LABEL_COLUMNS, (row for sheet in works.planes for row in _label_rows(sheet))),
        "probes.csv": csv_text(PROBE_COLUMNS, (row for sheet in works.planes for row in _probe_rows(sheet))),
        "setting_out.csv": csv_text(MARK_COLUMNS, (row for sheet in works.planes for row in _mark_rows(sheet))),
    }


def works_document(works: SlateWorks) -> dict[str, object]:
    """The slate work as one document; lengths in metres."""
    return {
        "sentence": works.sentence,
        "planes": [
            {
                "id": sheet.works.design.plane.id,
                "slates": dict(sheet.works.kinds),
                "least_lap_m": round(sheet.works.least_lap, 4),
                "warnings": list(sheet.warnings),
                "anchors": [_anchor(anchor) for anchor in sheet.works.anchors],
                "openings": [_opening(opening) for opening in sheet.works.openings],
                "shared_flashings": [",".join(pair) for pair in sheet.works.shared_flashings],
            }
            for sheet in works.planes
        ],
    }


def _anchor(anchor: AnchorWork) -> dict[str, object]:
    piece = anchor.flashing
    return {
        "id": anchor.id,
        "opening": anchor.opening,
        "course": anchor.course,
        "x_m": round(anchor.x, 4),
        "y_m": round(anchor.y, 4),
        "arm_x_m": round(anchor.arm_x, 4),
        "arm_exit_y_m": round(anchor.exit_y, 4),
        "rail_y_m": round(anchor.rail_y, 4),
        "arm_turned_back": anchor.turned_back,
        "flashing": {
            "under_course": piece.course,
            "width_m": round(piece.width, 4),
            "length_m": round(piece.length, 4),
            "slit_m": round(anchor.slit, 4),
            "passes": piece.passes,
        },
        "cuts": [
            {
                "tag": covered.cut.tag,
                "shape": covered.cut.shape,
                "width_m": round(covered.cut.width, 4),
                "depth_m": round(covered.cut.depth, 4),
                "from_left_m": round(covered.cut.from_left, 4),
                "from_tail_m": round(covered.cut.from_tail, 4),
                "lap_below_m": round(covered.cut.lap_below, 4),
                "kept_dry_by": covered.cover,
            }
            for covered in anchor.cuts
        ],
    }


def _opening(opening: OpeningWork) -> dict[str, object]:
    return {
        "number": opening.number,
        "anchors": list(opening.anchors),
        "out": [step.slate.tag for step in opening.steps],
        "back": [step.slate.tag for step in opening.back],
        "ridge_first": opening.ridge_first,
        "steps": [_step(step) for step in opening.steps],
    }


def _step(step: SlateStep) -> dict[str, object]:
    held = step.holding
    return {
        "tag": step.slate.tag,
        "state": step.slate.state,
        "ripped_left": step.slate.ripped_left,
        "ripped_right": step.slate.ripped_right,
        "held_by": held.way,
        "nail": held.nail,
        "device": held.device,
        "device_x_m": round(held.x, 4),
        "device_y_m": round(held.y, 4),
        "device_length_m": round(held.length, 4),
    }


def _step_rows(sheet: PlaneSheet) -> list[tuple[object, ...]]:
    plane = sheet.works.design.plane.id
    return [
        (
            plane, opening.number, step.step_out, step.slate.tag, step.slate.ripped_left, step.slate.ripped_right,
            "; ".join(f"{cut.shape} {millimetres(cut.width)} x {millimetres(cut.depth)}" for cut in step.cuts),
            step.step_back, step.slate.nails_back, step.holding.device, millimetres(step.holding.length),
            millimetres(step.holding.from_left), ",".join(step.anchors),
        )
        for opening in sheet.works.openings
        for step in opening.steps
    ]  # fmt: skip


def _label_rows(sheet: PlaneSheet) -> list[tuple[object, ...]]:
    return [
        (
            label.plane, round(label.faces, 1), label.tag, label.course, label.place, label.opening, label.step_out,
            label.step_back, label.way, label.cut, ",".join(label.anchors), "",
        )
        for label in sheet.labels
    ]  # fmt: skip


def _probe_rows(sheet: PlaneSheet) -> list[tuple[object, ...]]:
    turn = {probe.id: number for number, probe in enumerate(by_room(sheet.probes), start=1)}
    return [
        (
            probe.id, probe.plane, probe.line, probe.course, millimetres(probe.x), millimetres(probe.y),
            millimetres(probe.tolerance), millimetres(probe.nearest_slate_nail), ",".join(probe.anchors), "", "",
            millimetres(probe.room), turn[probe.id],
        )
        for probe in sheet.probes
    ]  # fmt: skip


def _mark_rows(sheet: PlaneSheet) -> list[tuple[object, ...]]:
    plane = sheet.works.design.plane.id
    return [
        (
            plane, mark.anchor, mark.course, millimetres(mark.x), millimetres(mark.y),
            millimetres(mark.diagonal_left), millimetres(mark.diagonal_right), millimetres(mark.running),
            millimetres(mark.to_next), round(mark.level_tolerance * 1e3, 1),
        )
        for mark in sheet.setting_out.marks
    ]  # fmt: skip
