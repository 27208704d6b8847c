"""design.json: the whole answer as one document, the summary first."""

import dataclasses
import math

from sitemodel.anchors.placement import AnchorPoint, RailPlacement
from sitemodel.brief import Brief
from sitemodel.citations import CitedSource, cited_sources
from sitemodel.design import Design, DesignChanges, Part, PlaneDesign, SteelChoice
from sitemodel.design.governing_loads import governing_loads_of
from sitemodel.export.american_directions import direction_records
from sitemodel.export.anchor_figures import anchor_properties, clause_text, governing_properties
from sitemodel.export.figures import degrees, metres, newtons, pascals, ratio, rounded, significant
from sitemodel.export.panel_records import layout_proof, layout_record, panel_records
from sitemodel.export.sip_record import sip_record
from sitemodel.export.wind_sectors import sector_records
from sitemodel.fixings.method import AnchorForces, LimitCheck
from sitemodel.sources import Assumption, Step

Record = dict[str, object]


def design_document(design: Design) -> dict[str, object]:
    """The content of design.json: plain dictionaries, lists, texts and finite numbers, in a fixed order."""
    return {
        "summary": _summary(design),
        "title": design.brief.title,
        "assumptions": [_assumption(item) for item in design.assumptions],
        "planes": [_plane(plane, design.brief) for plane in design.planes],
        "wind_directions": direction_records(design.brief.site),
        "findings": list(design.findings),
        "steel": [_steel(choice) for choice in design.steel],
        "parts": [_part(part) for part in design.parts],
        "sources": [_source(item) for item in cited_sources(design)],
    }


def changes_document(found: DesignChanges) -> dict[str, object]:
    """The content of changes.json: what became of the anchors of an earlier design."""
    return {
        "sentence": found.sentence,
        "verdict": found.verdict,
        "earlier_verdict": found.earlier_verdict,
        "same_panels": found.same_panels,
        "anchors": [
            {
                "change": item.what,
                "plane": item.plane,
                "rail": item.rail,
                "earlier_id": item.earlier_id,
                "earlier_x_m": _known(item.earlier_x),
                "id": item.id,
                "x_m": _known(item.x),
                "room_at_earlier_place_m": _known(item.room),
            }
            for item in found.anchors
        ],
    }


def _known(value: float) -> float | None:
    return None if math.isnan(value) else metres(value)


def _summary(design: Design) -> Record:
    summary = design.summary
    return {
        "verdict": summary.verdict,
        "panel_count": summary.panel_count,
        "peak_power_kw": rounded(summary.peak_power_kw, 3),
        "annual_yield_kwh": rounded(summary.annual_yield_kwh, 1),
        "specific_yield_kwh_per_kw": rounded(summary.specific_yield_kwh_per_kw, 1),
        "rail_length_m": rounded(summary.rail_length_m, 3),
        "anchor_count": summary.anchor_count,
        "slates_lifted": summary.slates_lifted,
        "max_utilisation": ratio(summary.max_utilisation),
        "governing_check": summary.governing_check,
        "governing_clause": summary.governing_clause,
        "tests_required": summary.tests_required,
        "sentence": summary.sentence,
        "layout_proof": layout_proof(design),
        "force_level": design.brief.site.standards.force_level,
        "national_choices": design.brief.site.standards.name,
    }


def _assumption(item: Assumption) -> Record:
    return {
        "about": item.about,
        "sentence": item.sentence,
        "value": item.value,
        "source": item.citation.text(),
    }


def _part(item: Part) -> Record:
    return dataclasses.asdict(item) | {"quantity": significant(item.quantity)}


def _steel(choice: SteelChoice) -> Record:
    return {
        "parts": choice.parts,
        "required": choice.required,
        "stated": choice.stated,
        "passes": choice.passes,
        "sentence": choice.sentence,
        "clause": choice.citation.text(),
    }


def _source(item: CitedSource) -> Record:
    return {
        "key": item.source.key,
        "title": item.source.title,
        "kind": item.source.kind,
        "read": list(item.standings),
        "places": list(item.places),
    }


def _plane(plane: PlaneDesign, brief: Brief) -> Record:
    roof = plane.plane
    return {
        "id": roof.id,
        "azimuth_deg": degrees(roof.azimuth),
        "pitch_deg": degrees(roof.pitch),
        "area_m2": rounded(roof.area, 3),
        "eaves_height_m": metres(roof.eaves_height),
        "ridge_height_m": metres(roof.ridge_height),
        "eaves_found": roof.eaves_found,
        "fit_residual_m": metres(roof.fit_residual),
        "dead_pa": pascals(plane.dead),
        "wind": _wind(plane),
        "snow": _snow(plane),
        "energy": _energy(plane),
        "sip": sip_record(plane),
        "combinations": _combinations(plane),
        "layout": layout_record(plane),
        "panels": panel_records(plane),
        "rails": [_rail(rail) for rail in plane.rails],
        "anchors": [
            _anchor(anchor) | governing_properties(load)
            for anchor, load in zip(plane.anchors, governing_loads_of(brief, plane), strict=True)
        ],
        "slates": _slates(plane),
        "build_up_checks": [dataclasses.asdict(check) for check in plane.build_up_checks],
        "notes": list(dict.fromkeys((*plane.layout.notes, *plane.notes))),
    }


def _steps(steps: tuple[Step, ...]) -> list[Record]:
    return [
        {
            "symbol": step.symbol,
            "value": significant(step.value),
            "unit": step.unit,
            "sentence": step.sentence,
            "source": step.citation.text(),
        }
        for step in steps
    ]


def _wind(plane: PlaneDesign) -> Record:
    return {
        "terrain": plane.exposure.terrain,
        "reference_height_m": metres(plane.exposure.reference_height),
        "peak_velocity_pressure_pa": pascals(plane.exposure.peak_velocity_pressure),
        "steps": _steps(plane.exposure.steps),
        "sectors": sector_records(plane.exposure),
        "for_an_engineer": list(plane.exposure.flags),
        "zones": [
            {
                "id": zone.id,
                "zone": zone.zone,
                "area_m2": rounded(zone.polygon.area, 3),
                "coefficient_uplift": ratio(zone.coefficient_uplift),
                "coefficient_down": ratio(zone.coefficient_down),
                "uplift_pa": pascals(zone.uplift),
                "down_pa": pascals(zone.down),
                "direction_uplift_deg": zone.direction_uplift,
                "direction_down_deg": zone.direction_down,
                "clause": zone.clause.text(),
            }
            for zone in plane.zones
        ],
    }


def _snow(plane: PlaneDesign) -> Record:
    snow = plane.snow
    return {
        "ground_pa": pascals(snow.ground),
        "shape_coefficient": ratio(snow.shape_coefficient),
        "shape_coefficient_on_panels": ratio(snow.shape_coefficient_on_panels),
        "on_roof_pa": pascals(snow.on_roof),
        "on_panels_pa": pascals(snow.on_panels),
        "clause": snow.citation.text(),
        "steps": _steps(snow.steps),
        "arrangements": [
            {
                "name": item.name,
                "sentence": item.sentence,
                "shape_coefficient": ratio(item.shape_coefficient),
                "on_roof_pa": pascals(item.on_roof),
                "on_panels_pa": pascals(item.on_panels),
                "governs": item.governs,
            }
            for item in snow.arrangements
        ],
        "drifts": [
            {
                "panel": panel,
                "shape_coefficient": ratio(drift.shape_coefficient),
                "on_panel_pa": pascals(drift.drifted),
                "because": drift.because,
                "clause": drift.citation.text(),
            }
            for panel, drift in plane.drifts
        ],
    }


def _energy(plane: PlaneDesign) -> Record:
    energy = plane.energy
    return {
        "annual_kwh_per_kw": rounded(energy.annual_kwh_per_kw, 1),
        "monthly_kwh_per_kw": [rounded(value, 2) for value in energy.monthly_kwh_per_kw],
        "annual_irradiation_kwh_per_m2": rounded(energy.annual_irradiation, 1),
        "monthly_irradiation_kwh_per_m2": [rounded(value, 2) for value in energy.monthly_irradiation],
        "mean_cell_temperature_c": rounded(energy.mean_cell_temperature, 1),
        "source": energy.source,
        "uncertainty": energy.uncertainty,
        "indicative": energy.indicative,
        "steps": _steps(energy.steps),
    }


def _combinations(plane: PlaneDesign) -> list[Record]:
    return [
        {
            "name": item.name,
            "limit_state": item.limit_state,
            "duration": item.duration,
            "dead": ratio(item.dead),
            "snow": ratio(item.snow),
            "wind_uplift": ratio(item.wind_uplift),
            "wind_down": ratio(item.wind_down),
            "clause": item.citation.text(),
        }
        for item in plane.combinations
    ]


def _rail(rail: RailPlacement) -> Record:
    run = rail.run
    return {
        "id": run.id,
        "row": run.row,
        "side": run.side,
        "y_m": metres(run.line.y),
        "start_m": metres(run.start),
        "end_m": metres(run.end),
        "length_m": metres(run.length),
        "panels": list(run.panel_ids),
        "anchors": [anchor.id for anchor in rail.anchors],
        "proof": _proof(rail),
        "recheck": _recheck(rail),
        "feasible": rail.feasible,
        "reason": rail.reason,
        "cure": rail.cure,
        "checks": [
            {
                "name": check.name,
                "utilisation": ratio(check.utilisation),
                "combination": check.combination,
                "clause": check.citation.text(),
            }
            for check in rail.checks
        ],
    }


def _proof(rail: RailPlacement) -> Record:
    proof = rail.proof
    return {
        "status": proof.status,
        "resistance": proof.level,
        "anchors": proof.found,
        "at_least": proof.lower,
        "most_that_fit": proof.most,
        "disturbance_in_slates": rounded(proof.disturbance, 2),
        "disturbance_at_least": rounded(proof.disturbance_lower, 2),
        "utilisation_at_least": ratio(proof.utilisation_lower),
        "sentence": proof.sentence,
    }


def _recheck(rail: RailPlacement) -> Record:
    found = rail.recheck
    return {
        "utilisation_rigid": ratio(found.rigid),
        "utilisation_on_springs": ratio(found.on_springs),
        "utilisation_out_of_line": ratio(found.out_of_line),
        "utilisation_out_of_line_rigid": ratio(found.out_of_line_rigid),
        "spring_n_per_m": newtons(found.spring),
        "height_tolerance_mm": rounded(found.tolerance * 1e3, 1),
    }


def _anchor(anchor: AnchorPoint) -> Record:
    return {
        "id": anchor.id,
        **anchor_properties(anchor),
        "eccentricity_m": metres(anchor.seat.eccentricity),
        "joint_distance_m": metres(anchor.seat.surroundings.joint_distance),
        "edge_distance_m": metres(anchor.seat.surroundings.edge_distance),
        "forces": [_forces(forces) for forces in anchor.forces],
        "checks": [_check(check) for check in anchor.check.checks],
        "conditions": list(anchor.check.conditions),
        "slates": [slate.tag for slate in anchor.strip.slates],
    }


def _forces(forces: AnchorForces) -> Record:
    return {
        "combination": forces.combination,
        "limit_state": forces.limit_state,
        "duration": forces.duration,
        "normal_n": newtons(forces.normal),
        "down_slope_n": newtons(forces.down_slope),
    }


def _check(check: LimitCheck) -> Record:
    return {
        "mode": check.mode,
        "name": check.name,
        "demand": significant(check.demand),
        "resistance": significant(check.resistance),
        "unit": check.unit,
        "utilisation": ratio(check.utilisation),
        "passes": check.passes,
        "combination": check.combination,
        "basis": check.basis,
        "clause": clause_text(check),
        "in_scope": check.in_scope,
        "note": check.note,
    }


def _slates(plane: PlaneDesign) -> list[Record]:
    return [
        {
            "tag": slate.tag,
            "course": slate.course,
            "column": slate.column,
            "state": slate.state,
            "order": slate.order,
            "ripped_nails": slate.ripped_nails,
            "nails_back": slate.nails_back,
            "anchors": list(anchors),
        }
        for slate, anchors in zip(plane.slates, plane.slate_anchors, strict=True)
    ]
