"""What a layer, a table and design.json say of one anchor."""

from dataclasses import dataclass

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.design.governing_loads import GoverningLoad
from sitemodel.export.figures import metres, millimetres, newtons, newtons_per_square_millimetre, ratio
from sitemodel.fixings.method import AnchorForces, LimitCheck
from sitemodel.units import Newtons


@dataclass(frozen=True, slots=True, kw_only=True)
class LargestForce:
    """The largest ultimate force of one kind and the combination that it comes from; none where it is 0."""

    force: Newtons
    combination: str


def uplift_of(anchor: AnchorPoint) -> LargestForce:
    """Largest ultimate force out of the roof."""
    return _largest(tuple((forces, forces.normal) for forces in anchor.forces))


def down_of(anchor: AnchorPoint) -> LargestForce:
    """Largest ultimate force onto the roof, as a positive number."""
    return _largest(tuple((forces, -forces.normal) for forces in anchor.forces))


def down_slope_of(anchor: AnchorPoint) -> LargestForce:
    """Largest ultimate force down the slope."""
    return _largest(tuple((forces, forces.down_slope) for forces in anchor.forces))


def _largest(named: tuple[tuple[AnchorForces, Newtons], ...]) -> LargestForce:
    best = LargestForce(force=0.0, combination="")
    for forces, value in named:
        if forces.limit_state == "ultimate" and value > best.force:
            best = LargestForce(force=value, combination=forces.combination)
    return best


def clause_text(check: LimitCheck) -> str:
    """Clause of a check, with the words that it is outside the standard's scope where it is."""
    text = check.citation.text()
    return text if check.in_scope else f"outside the standard's scope (indicative): {text}"


def governing_properties(load: GoverningLoad) -> dict[str, object]:
    """Which wind or snow governs an anchor: the first bearing, all of them as a text, and why."""
    told = tuple(round(value, 2) % 360.0 for value in load.directions)
    return {
        "governing_case": load.case,
        "governing_direction_deg": told[0] if told else None,
        "governing_directions": ",".join(f"{value:g}" for value in told),
        "why": load.why,
    }


def anchor_properties(anchor: AnchorPoint) -> dict[str, object]:
    """The properties that the anchors layer and design.json share."""
    seat, check = anchor.seat, anchor.check
    uplift, down, along = uplift_of(anchor), down_of(anchor), down_slope_of(anchor)
    return {
        "x_m": metres(seat.x),
        "y_m": metres(seat.y),
        "rail_x_m": metres(anchor.rail_x),
        "rail_y_m": metres(anchor.rail_y),
        "rail": anchor.rail,
        "course": seat.course,
        "bay": seat.bay,
        "method": check.method,
        "uplift_n": newtons(uplift.force),
        "uplift_combination": uplift.combination,
        "down_n": newtons(down.force),
        "down_combination": down.combination,
        "down_slope_n": newtons(along.force),
        "down_slope_combination": along.combination,
        "utilisation": ratio(check.utilisation),
        "governing_check": check.governing.name,
        "combination": check.governing.combination,
        "clause": clause_text(check.governing),
        "verdict": check.verdict,
        "required_f_ax": newtons_per_square_millimetre(check.required_f_ax),
        "pull_test_screw_n": newtons(check.pull_test_screw),
        "pull_test_anchor_n": newtons(check.pull_test_anchor),
        "slates_lifted": anchor.strip.count,
        "margin_to_batten_mm": millimetres(seat.margin_to_batten),
        "margin_left_mm": millimetres(seat.margin_left),
        "margin_right_mm": millimetres(seat.margin_right),
        "robust": seat.robust,
    }
