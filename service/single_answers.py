"""Questions that need no roof: one anchor by every method, and what pull-test readings prove."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from service.intake.anchor import AnchorQuestion, read_anchor, read_whole
from service.intake.ground_snow import ground_snow_help
from service.intake.pull_tests import read_series
from service.intake.site import read_choices
from service.intake.wind_exposure import read_wind_question
from service.links import JSON, process_links
from service.processes import VERSION
from service.schemas import Section
from service.schemas.anchor import AnchorInput
from service.schemas.ground_snow import GroundSnowInput
from service.schemas.pull_tests import PullQuestionInput
from service.schemas.wind_exposure import WindExposureInput
from service.sizing_answer import sizing_answer, sizing_lines
from sitemodel.american_set import AmericanSet, DesignFormat
from sitemodel.errors import InputError, InputErrors
from sitemodel.export import exposure_document
from sitemodel.fixings import (
    Comparison,
    FixingCheck,
    LimitCheck,
    MethodAnswer,
    SpreaderBlockKit,
    allowable_stress,
    compare_methods,
)
from sitemodel.pull_tests import Estimate, Evaluation, evaluate, f_ax_of, proves
from sitemodel.site import LocalMap
from sitemodel.sources import Assumption
from sitemodel.standards.timber_en1995_1_1 import DURATIONS, k_mod
from sitemodel.wind import wind_exposure


@dataclass(frozen=True, slots=True, kw_only=True)
class SingleProcess:
    """A process with one input and one output, both JSON."""

    id: str
    title: str
    description: str
    input: str
    section: type[Section]
    output: str
    run: Callable[[object], dict[str, object]]
    run_beside: Callable[[object, Path], dict[str, object]] | None = None
    """The same for a question in a file, which may name files beside it."""

    def summary(self, base: str) -> dict[str, object]:
        """The process as it stands in the list."""
        return {
            "id": self.id,
            "title": self.title,
            "description": self.description,
            "version": VERSION,
            "jobControlOptions": ["sync-execute"],
            "outputTransmission": ["value"],
            "links": [link.document() for link in process_links(base, self.id)],
        }

    def whole(self, base: str) -> dict[str, object]:
        """The description with the schema of its input."""
        schema = self.section.model_json_schema()
        given = {"title": self.input, "minOccurs": 1, "maxOccurs": 1, "schema": schema}
        made = {"title": self.output, "schema": {"type": "object", "contentMediaType": JSON}}
        return {**self.summary(base), "inputs": {self.input: given}, "outputs": {self.output: made}}


def check_anchor(document: object) -> dict[str, object]:
    """Every method on one anchor.

    Raises:
        InputErrors: the question is wrong.
        OutsideScope: a skin or core outside the tables.
    """
    question = read_anchor(document)
    found = compare_methods(question.build_up, question.hook, question.kits, question.choices, question.anchor)
    return {
        "summary": _anchor_summary(question, found),
        "methods": [_method(answer) for answer in found.answers],
        "sizing": sizing_answer(question),
        "second_answers": _second_answers(question),
        "pull_tests": [_evaluation(evaluation) for evaluation in question.pulls],
        "assumptions": [_assumption(line) for line in question.assumptions],
    }


def _second_answers(question: AnchorQuestion) -> list[dict[str, object]]:
    """The spreader block in the American format under the same forces, for comparison; it changes no verdict.

    Ultimate forces stand for factored ones (LRFD), characteristic ones for allowable-stress level (ASD).
    """
    reach, around, forces = question.anchor
    block = question.kits[0]
    answers: list[dict[str, object]] = []
    if not isinstance(block, SpreaderBlockKit):
        return answers
    formats: tuple[tuple[DesignFormat, str], ...] = (("LRFD", "ultimate"), ("ASD", "characteristic"))
    for design_format, level in formats:
        taken = tuple(replace(f, limit_state="ultimate") for f in forces if f.limit_state == level)
        if not taken:
            answers.append({"format": design_format, "sentence": f"no {level} force was given, so nothing is said"})
            continue
        chosen = _american(design_format)
        check = allowable_stress.check_anchors(
            question.build_up, question.hook, block, chosen, ((reach, around, taken),)
        )[0]
        answers.append(
            {
                "format": design_format,
                "sentence": f"{chosen.name}: {level} forces as given; for comparison, it changes no verdict",
                "verdict": check.verdict,
                "utilisation": _finite(check.utilisation),
                "governing_check": check.governing.name,
                "checks": [_check(item) for item in check.checks],
            }
        )
    return answers


def _american(design_format: DesignFormat) -> AmericanSet:
    """The set with nothing in it that a single anchor does not read."""
    return AmericanSet(
        design_format=design_format,
        exposure="C",
        risk_category="II",
        topographic_factor=1.0,
        directionality=1.0,
        altitude=0.0,
        snow_exposure_factor=1.0,
        snow_thermal_factor=1.0,
        citations=(),
    )


def _anchor_summary(question: AnchorQuestion, found: Comparison) -> dict[str, object]:
    reach, around, _ = question.anchor
    best = next((a for a in found.answers if a.method in found.recommended), None)
    verdict = best.check.verdict if best else "fails"
    words = {"holds": "Holds", "holds_if_tested": "Holds only if tested", "fails": "Fails"}[verdict]
    return {
        "verdict": verdict,
        "recommended": best.method if best else "none",
        "sentence": f"{words}. {found.sentence} To be confirmed by a licensed engineer and the panel maker.",
        "eccentricity_m": reach,
        "joint_distance_m": around.joint_distance,
        "edge_distance_m": around.edge_distance,
        "national_choices": question.choices.name,
    }


def _method(answer: MethodAnswer) -> dict[str, object]:
    check: FixingCheck = answer.check
    return {
        "method": answer.method,
        "title": answer.title,
        "verdict": check.verdict,
        "cannot_be_used_because": answer.why_not,
        "utilisation": _finite(check.utilisation),
        "governing_check": check.governing.name,
        "clause": check.governing.citation.text(),
        "required_f_ax": check.required_f_ax / 1e6,
        "pull_test_screw_n": check.pull_test_screw,
        "pull_test_anchor_n": check.pull_test_anchor,
        "beyond_test": [item.mode for item in check.beyond_test],
        "checks": [_check(item) for item in check.checks],
        "conditions": list(check.conditions),
        "cannot_tell": list(answer.cannot_tell),
    }


def _check(check: LimitCheck) -> dict[str, object]:
    return {
        "mode": check.mode,
        "name": check.name,
        "demand": check.demand,
        "resistance": check.resistance,
        "unit": check.unit,
        "utilisation": _finite(check.utilisation),
        "passes": check.passes,
        "combination": check.combination,
        "basis": check.basis,
        "clause": check.citation.text(),
        "in_scope": check.in_scope,
        "note": check.note,
    }


def _finite(value: float) -> float | None:
    """A utilisation, or null where there is no resistance at all."""
    return value if math.isfinite(value) else None


def _assumption(line: Assumption) -> dict[str, object]:
    return {"about": line.about, "value": line.value, "sentence": line.sentence, "source": line.citation.text()}


def evaluate_pull_tests(document: object) -> dict[str, object]:
    """What every series proves; a bare list is taken as the series.

    Raises:
        InputErrors: the question or its readings are wrong.
    """
    stated = read_whole(PullQuestionInput, {"tests": document} if isinstance(document, list) else document)
    gamma = read_choices(stated.national_choices).gamma_m_connection
    factors = {duration: k_mod(stated.board, stated.service_class, duration) for duration in DURATIONS}
    answers, found = [], []
    for number, series in enumerate(stated.tests):
        name = f"tests[{number}]"
        missing = [f for f in ("diameter", "thread_length") if getattr(series, f) is None]
        if series.specimen == "single_screw" and missing:
            found += [InputError(f"{name}.{f}", given="nothing", allowed="the size of the screw") for f in missing]
            continue
        try:
            evaluation = evaluate(read_series(series, name, 0.0, 0.0))
        except InputError as mistake:
            found.append(mistake)
            continue
        answer = _evaluation(evaluation)
        answer["design_n"] = {name: evaluation.design_value(factor, gamma) for name, factor in factors.items()}
        answer["k_mod"], answer["gamma_m"] = factors, gamma
        answer.update(_asked(stated, evaluation))
        answers.append(answer)
    if found:
        raise InputErrors(tuple(found))
    return {"summary": " ".join(str(answer["sentence"]) for answer in answers), "series": answers}


def _asked(stated: PullQuestionInput, evaluation: Evaluation) -> dict[str, object]:
    """Whether what a design asks for is shown."""
    shown: dict[str, object] = {}
    if stated.required_resistance is not None:
        shown["proves_required_resistance"] = proves(evaluation, stated.required_resistance)
    if stated.required_f_ax is not None and evaluation.series.specimen == "single_screw":
        shown["proves_required_f_ax"] = evaluation.enough and f_ax_of(evaluation) >= stated.required_f_ax * (1 - 1e-9)
    return shown


def _evaluation(found: Evaluation) -> dict[str, object]:
    series = found.series
    answer: dict[str, object] = {
        "name": series.name,
        "specimen": series.specimen,
        "readings": len(series.readings),
        "readings_n": [reading.load for reading in series.readings],
        "mean_n": found.mean,
        "geometric_mean_n": found.geometric_mean,
        "deviation_n": found.deviation,
        "variation": found.variation,
        "characteristic_n": found.characteristic,
        "counted_by": found.counted,
        "source": found.citation.text(),
        "counts_as_tested": found.enough,
        "allowable_by_practice_n": found.plausibility,
        "estimates": [_estimate(estimate) for estimate in found.estimates],
        "remarks": list(found.remarks),
    }
    words = f"{series.name}: {len(series.readings)} pulls, characteristic {found.characteristic / 1e3:.2f} kN"
    if series.specimen == "single_screw":
        answer["f_ax"] = f_ax_of(found) / 1e6
        words += f", f_ax {f_ax_of(found) / 1e6:.2f} N/mm2"
    standing = "counts as tested" if found.enough else "does not count as tested (five pulls and more do)"
    answer["sentence"] = f"{words}; {standing}."
    return answer


def _estimate(estimate: Estimate) -> dict[str, object]:
    return {
        "method": estimate.method,
        "characteristic_n": estimate.value if estimate.value > 0.0 else None,
        "factor": estimate.factor,
        "source": estimate.citation.text(),
        "note": estimate.note,
    }


def wind_at_point(document: object, folder: Path | None = None) -> dict[str, object]:
    """Wind at a point by direction.

    Raises:
        InputErrors: the question or its map is wrong.
        OutsideScope: a height outside the clause.
    """
    site, height = read_wind_question(document, folder)
    found = wind_exposure(site, height)
    return exposure_document(found, LocalMap(longitude=site.longitude, latitude=site.latitude))


def told(answer: dict[str, object]) -> tuple[str, ...]:
    """An answer in lines for a reader, the summary last."""
    lines: list[str] = []
    for row in _rows(answer.get("methods")):
        worst = row["utilisation"]
        use = "no resistance" if worst is None else f"utilisation {math.ceil(float(str(worst)) * 100 - 1e-6) / 100:.2f}"
        words = f"{row['title']}: {str(row['verdict']).replace('_', ' ')}, {row['governing_check']}, {use}"
        lines.append(words + (f" ({row['cannot_be_used_because']})" if row["cannot_be_used_because"] else ""))
    lines += sizing_lines(answer.get("sizing"))
    for row in _rows(answer.get("series")):
        lines += [f"{row['name']}: {remark}" for remark in _texts(row["remarks"])]
        lines += [
            f"{row['name']}: {way['method']}: "
            + (f"{float(str(way['characteristic_n'])) / 1e3:.3f} kN" if way["characteristic_n"] else str(way["note"]))
            for way in _rows(row["estimates"])
        ]
    for row in _rows(answer.get("sectors")):
        words = f"{row['direction_deg']:g} degrees: category {row['category']}, c_o {row['orography_factor']}, "
        lines.append(f"{words}q_p {float(str(row['peak_velocity_pressure_pa'])) / 1e3:.3f} kPa; {row['rule']}")
    summary = answer["summary"]
    lines += _texts(summary.get("for_an_engineer")) if isinstance(summary, dict) else ()
    lines.append(str(summary["sentence"] if isinstance(summary, dict) else summary))
    return tuple(lines)


def _rows(value: object) -> tuple[dict[str, object], ...]:
    return tuple(value) if isinstance(value, list) else ()


def _texts(value: object) -> tuple[str, ...]:
    return tuple(map(str, value)) if isinstance(value, list) else ()


CHECK_ANCHOR = SingleProcess(
    id="check-anchor",
    title="Check one anchor",
    description=(
        "One anchor without any roof: forces at the hook, skin, core and parts in; every failure mode of every "
        "method, the verdicts side by side, the recommended method, what must be tested, what would help and by how "
        "much, and the smallest block that holds out."
    ),
    input="anchor",
    section=AnchorInput,
    output="check",
    run=check_anchor,
)
EVALUATE_PULL_TESTS = SingleProcess(
    id="evaluate-pull-tests",
    title="Evaluate pull tests",
    description=(
        "Readings of pull tests in; characteristic and design values by EN 14358 and EN 1990 Annex D, with every "
        "reading kept and every doubt named, out."
    ),
    input="tests",
    section=PullQuestionInput,
    output="evaluation",
    run=evaluate_pull_tests,
)
WIND_EXPOSURE = SingleProcess(
    id="wind-exposure",
    title="Wind at a point by direction",
    description=(
        "A point, a height and the terrain around it (a category, twelve, or a map of land cover, buildings, water and "
        "elevation) in; terrain category, hills, and peak velocity pressure in twelve directions, and a map layer, out."
    ),
    input="site",
    section=WindExposureInput,
    output="exposure",
    run=wind_at_point,
    run_beside=wind_at_point,
)
GROUND_SNOW = SingleProcess(
    id="ground-snow",
    title="Ground snow by a national formula",
    description=(
        "A country, the zone of its snow map and a height in; the value of the published formula with its source out. "
        "Help that the designer must confirm and state: it is never filled into a brief."
    ),
    input="site",
    section=GroundSnowInput,
    output="ground_snow",
    run=ground_snow_help,
)
SINGLE_PROCESSES = (CHECK_ANCHOR, EVALUATE_PULL_TESTS, WIND_EXPOSURE, GROUND_SNOW)
