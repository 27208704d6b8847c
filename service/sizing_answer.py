"""What would help one anchor and by how much, and the smallest block that holds it, as data and in one line each."""

from math import ceil, isfinite

from service.intake.anchor import AnchorQuestion
from sitemodel.errors import InputError, OutsideScope
from sitemodel.fixings import SpreaderBlockKit
from sitemodel.fixings.sizing import BlockChoice, Gain, SizingTable, sizing_table


def sizing_answer(question: AnchorQuestion) -> dict[str, object]:
    """Each change by itself, and the smallest blocks: of the spreader block, whichever method is recommended."""
    kit = question.kits[0]
    if not isinstance(kit, SpreaderBlockKit):
        return {"sentence": "No sizing: it is that of a spreader block, and none is stated."}
    try:
        found = sizing_table(question.build_up, question.hook, kit, question.choices, question.anchor)
    except (InputError, OutsideScope) as reason:
        return {"sentence": f"No sizing for this anchor: {reason}."}
    return {
        "sentence": _sentence(found),
        "present": _gain(found.present),
        "changes": [_gain(gain) for gain in found.gains],
        "smallest_block": _block(found.smallest),
        "smallest_block_once_tested": _block(found.smallest_once_tested),
        "why_none": found.why_none,
        "largest_tried_m": {"width": found.limits.width, "height": found.limits.height},
    }


def sizing_lines(answer: object) -> tuple[str, ...]:
    """The same for a reader, one line a change, the smallest block last."""
    if not isinstance(answer, dict):
        return ()
    lines = []
    for row in answer.get("changes", ()):
        now, later = (_up(row[name]) for name in ("utilisation", "utilisation_once_tested"))
        note = f" ({row['note']})" if row["note"] else ""
        lines.append(f"What would help: {row['change']}: utilisation {now}, {later} once tested{note}")
    return (*lines, str(answer["sentence"]))


def _up(value: float | None) -> str:
    """A utilisation rounded up, as everywhere."""
    return "without resistance" if value is None else f"{ceil(value * 100 - 1e-6) / 100:.2f}"


def _gain(gain: Gain) -> dict[str, object]:
    return {
        "change": gain.change,
        "utilisation": _finite(gain.utilisation),
        "utilisation_once_tested": _finite(gain.once_tested),
        "utilisation_of_withdrawal": _finite(gain.worst_screw),
        "utilisation_of_bond": _finite(gain.bond),
        "governing_check": gain.governing,
        "required_f_ax": gain.required_f_ax / 1e6,
        "fits": gain.fits,
        "note": gain.note,
    }


def _block(choice: BlockChoice | None) -> dict[str, object] | None:
    if choice is None:
        return None
    kit = choice.kit
    return {
        "width_m": kit.width,
        "height_m": kit.height,
        "thickness_m": kit.thickness,
        "screws": [{"x_m": p.x, "y_m": p.y, "through_batten": p.through_batten} for p in kit.places],
        "block_screw_length_m": kit.block_screw.length,
        "batten_screw_length_m": kit.batten_screw.length,
        "verdict": choice.check.verdict,
        "utilisation": _finite(choice.check.utilisation),
        "utilisation_once_tested": _finite(choice.once_tested),
        "governing_check": choice.check.governing.name,
        "required_f_ax": choice.check.required_f_ax / 1e6,
    }


def _sentence(found: SizingTable) -> str:
    """The smallest block that holds today, else once tested, else why there is none."""
    if found.smallest is not None:
        verdict = found.smallest.check.verdict.replace("_", " ")
        return f"Smallest block that passes by what is known today: {_in_words(found.smallest)} ({verdict})."
    if found.smallest_once_tested is not None:
        later = found.smallest_once_tested
        needed = f"pulls must show f_ax {later.check.required_f_ax / 1e6:.1f} N/mm2"
        return f"Smallest block that can hold once tested: {_in_words(later)}; {needed}."
    return f"No block that fits can hold it, tested or not: {found.why_none}."


def _in_words(choice: BlockChoice) -> str:
    kit = choice.kit
    through = sum(place.through_batten for place in kit.places)
    screws = f"{len(kit.places)} screws" + (f", {through} of them through the batten" if through else "")
    return f"{kit.width * 1e3:.0f} mm across, {kit.height * 1e3:.0f} mm up the slope, {screws}"


def _finite(value: float) -> float | None:
    """A utilisation, or null where there is no resistance at all."""
    return value if isfinite(value) else None
