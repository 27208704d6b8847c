"""The sip of a plane as design.json says it: wind on it, every span, what it does to the verdict."""

from sitemodel.design import PlaneDesign
from sitemodel.design.sip_verdict import sip_fails_on_assumed, sip_standing
from sitemodel.export.figures import metres, pascals, ratio, significant
from sitemodel.sip_panel import PanelLimit, SpanCheck

Record = dict[str, object]


def sip_record(plane: PlaneDesign) -> Record:
    """Nothing but notes where the sip was not checked."""
    wind = plane.sip_wind
    return {
        "standing": sip_standing(plane.sip, plane.sip_notes),
        "fails_on_assumed_supports": sip_fails_on_assumed(plane.sip),
        "notes": list(plane.sip_notes),
        "wind": {
            "uplift_pa": pascals(wind.uplift),
            "down_pa": pascals(wind.down),
            "internal_coefficient_out": ratio(wind.outward_coefficient),
            "internal_coefficient_in": ratio(wind.inward_coefficient),
            "inside_out_pa": pascals(wind.inside_out),
            "inside_in_pa": pascals(wind.inside_in),
            "beyond_wall_m": metres(wind.beyond),
            "overhang_uplift_pa": pascals(wind.overhang_uplift),
            "overhang_down_pa": pascals(wind.overhang_down),
            "steps": [
                {
                    "symbol": step.symbol,
                    "value": significant(step.value),
                    "unit": step.unit,
                    "sentence": step.sentence,
                    "source": step.citation.text(),
                }
                for step in wind.steps
            ],
        },
        "spans": [_span(check) for check in plane.sip],
    }


def _span(check: SpanCheck) -> Record:
    span = check.span
    return {
        "kind": span.kind,
        "lower_m": metres(span.lower),
        "upper_m": metres(span.upper),
        "assumed": span.assumed,
        "with_array": check.with_array,
        "checks": [_limit(limit) for limit in check.limits],
    }


def _limit(limit: PanelLimit) -> Record:
    return {
        "name": limit.name,
        "demand": significant(limit.demand),
        "resistance": significant(limit.resistance),
        "unit": limit.unit,
        "utilisation": ratio(limit.utilisation),
        "passes": limit.passes,
        "combination": limit.combination,
        "basis": limit.basis,
        "clause": limit.citation.text(),
        "note": limit.note,
    }
