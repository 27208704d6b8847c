"""front.json and front.csv: the front as programs and spreadsheets read it."""

import csv
import io

from sitemodel.rails import RailType
from sitemodel.tradeoff.answer import Knowledge, Point, Step, TradeOff

COLUMNS = (
    "id", "on_main_front", "anchors", "annual_yield_kwh", "slates_lifted", "panels", "peak_power_kw", "proved",
    "kwh_per_further_anchor", "rail", "rail_length_m", "rail_mass_kg", "rail_cost", "front",
)  # fmt: skip


def front_document(front: TradeOff) -> dict[str, object]:
    """The content of front.json."""
    return {
        "title": front.title,
        "knee": front.knee,
        "units": {
            "annual_yield_kwh": "kWh a year",
            "anchors": "number",
            "slates_lifted": "number, anchor by anchor",
            "rail_length_m": "m",
            "rail_mass_kg": "kg",
            "rail_cost": "money of the brief, null where not stated",
        },
        "with_slates": front.with_slates,
        "rails": [_rail(rail) for rail in front.rails],
        "fronts": [variant.name for variant in front.variants],
        "points": [_point(front, point) for point in front.points],
        "marginal": [_step(front, step) for step in front.steps],
        "price_of_knowledge": {
            "panels": front.panels_of_knowledge,
            "rows": [_known(row) for row in front.knowledge],
        },
        "notes": list(front.notes),
    }


def _point(front: TradeOff, point: Point) -> dict[str, object]:
    return {
        "id": point.id,
        "on_main_front": point.on_main_front,
        "anchors": point.anchors,
        "annual_yield_kwh": round(point.kwh, 3),
        "slates_lifted": point.slates if front.with_slates else None,
        "panels": point.panels,
        "peak_power_kw": round(point.peak_power_kw, 6),
        "proved": point.proved,
        "rail": front.rail_of(point).name or None,
        "rail_length_m": round(point.rail_length, 3),
        "rail_mass_kg": round(point.rail_mass, 3),
        "rail_cost": round(point.rail_cost, 2) if front.with_costs else None,
        "front": front.variants[point.variant].name,
        "blocks": [
            {
                "plane": column.plane,
                "row": column.row,
                "panels": list(column.panel_ids),
                "annual_yield_kwh": round(column.kwh, 3),
                "anchors_by_rail": [rail.anchors for rail in column.rails],
                "slates_by_rail": [rail.slates for rail in column.rails] if front.with_slates else None,
            }
            for column in point.columns
        ],
    }


def _step(front: TradeOff, step: Step) -> dict[str, object]:
    return {
        "from": step.before,
        "to": step.after,
        "further_anchors": step.anchors,
        "further_kwh": round(step.kwh, 3),
        "kwh_per_further_anchor": round(step.kwh_per_anchor, 3),
        "further_slates": step.slates if front.with_slates else None,
        "further_rail_mass_kg": round(step.rail_mass, 3),
        "further_rail_cost": round(step.rail_cost, 2) if front.with_costs else None,
    }


def _known(row: Knowledge) -> dict[str, object]:
    return {
        "about": row.about,
        "value": row.value,
        "anchors": row.anchors,
        "rails_that_do_not_hold": row.rails_without,
        "proved": row.proved,
        "as_asked": row.is_stated,
    }


def _rail(rail: RailType) -> dict[str, object]:
    return {
        "name": rail.name or None,
        "mass_kg_per_m": round(rail.mass, 4),
        "cost_per_m": round(rail.cost, 4) if rail.cost else None,
        "design_moment_n_m": round(rail.design_moment, 3),
        "bending_stiffness_n_m2": round(rail.bending_stiffness, 3),
    }


def front_csv(front: TradeOff) -> str:
    """The content of front.csv: one point a line."""
    gained = {step.after: step.kwh_per_anchor for step in front.steps}
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for point in front.points:
        writer.writerow(
            (
                point.id,
                "yes" if point.on_main_front else "no",
                point.anchors,
                f"{point.kwh:.3f}",
                point.slates if front.with_slates else "",
                point.panels,
                f"{point.peak_power_kw:.3f}",
                "yes" if point.proved else "no",
                f"{gained[point.id]:.3f}" if point.id in gained else "",
                front.rail_of(point).name,
                f"{point.rail_length:.3f}",
                f"{point.rail_mass:.2f}",
                f"{point.rail_cost:.2f}" if front.with_costs else "",
                front.variants[point.variant].name,
            )
        )
    return out.getvalue()
