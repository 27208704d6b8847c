"""Evaluation: characteristic and design values of a series, every method beside the one that counts."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from math import exp, log, sqrt

from sitemodel.errors import OutsideScope
from sitemodel.pull_tests.readings import PullSeries, refuse_nonsense
from sitemodel.sources import Citation, cite, our_choice
from sitemodel.standards import tests_en1990, tests_en14358
from sitemodel.standards.outliers_grubbs import critical_value, distances
from sitemodel.units import Newtons, Pascals, Ratio

ENOUGH = 5
"""Pulls with which a tested value counts; ten are better. A choice of this project."""
USUAL_VARIATION: Ratio = 0.25
"""Of a fastener in an unknown board: where fewer than five were pulled, and nothing better is documented."""
LEAST_VARIATION: Ratio = 0.10
"""Scatter is never taken smaller than this, however alike the readings are. A choice of this project."""
QUICK = 10.0
"""Seconds below which a pull is faster than the tests that k_mod of short loads is made for (project choice)."""
DRY: Ratio = 0.12


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """One way to a characteristic value."""

    method: str
    value: Newtons
    """0 where the method does not apply; ``note`` says why."""
    factor: Ratio
    """k_n or k_s."""
    citation: Citation
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Evaluation:
    """What a series of pulls proves."""

    series: PullSeries
    mean: Newtons
    geometric_mean: Newtons
    deviation: Newtons
    variation: Ratio
    """Of the sample."""
    log_deviation: Ratio
    estimates: tuple[Estimate, ...]
    characteristic: Newtons
    """The value that counts."""
    counted: str
    """Which method gave it, and why."""
    citation: Citation
    enough: bool
    """Whether the series counts as a test (five readings and more)."""
    plausibility: Newtons
    """Lower of mean / 4 and lowest / 2: an allowable load of installers' practice, never the design value."""
    remarks: tuple[str, ...]
    """Outliers, lower bounds, missing records: nothing is dropped."""

    def design_value(self, k_mod: Ratio, gamma_m: Ratio) -> Newtons:
        """Design resistance for one load duration: k_mod X_k / gamma_M."""
        return k_mod * self.characteristic / gamma_m


def evaluate(series: PullSeries) -> Evaluation:
    """Characteristic value of a series.

    Five readings and more: EN 14358, log-normal, with a scatter of at least 0.10. Fewer: EN 1990 Annex D with a known
    variation (documented, else 0.25), shown but not counted as a test. Every reading counts, also one that a test
    finds to lie far out, and also one that stopped before anything gave way (its load is then a lower bound).

    Raises:
        InputError: readings that cannot be.
    """
    refuse_nonsense(series)
    loads = tuple(reading.load for reading in series.readings)
    number = len(loads)
    logs = [log(load) for load in loads]
    mean, log_mean = sum(loads) / number, sum(logs) / number
    spread = sqrt(sum((x - mean) ** 2 for x in loads) / (number - 1)) if number > 1 else 0.0
    log_spread = sqrt(sum((y - log_mean) ** 2 for y in logs) / (number - 1)) if number > 1 else 0.0
    value, counted, citation = _counting(series, loads, log_mean, log_spread)
    return Evaluation(
        series=series,
        mean=mean,
        geometric_mean=exp(log_mean),
        deviation=spread,
        variation=spread / mean,
        log_deviation=log_spread,
        estimates=_estimates(series, loads),
        characteristic=value,
        counted=counted,
        citation=citation,
        enough=number >= ENOUGH,
        plausibility=min(mean / 4.0, min(loads) / 2.0),
        remarks=_remarks(series, loads),
    )


def _counting(
    series: PullSeries, loads: tuple[Newtons, ...], log_mean: float, log_spread: Ratio
) -> tuple[Newtons, str, Citation]:
    number = len(loads)
    if number >= ENOUGH:
        factor = tests_en14358.k_s(number)
        least = sqrt(log(1.0 + LEAST_VARIATION**2))
        words = f"EN 14358, log-normal, n = {number}, k_s = {factor:.2f}"
        if log_spread < least:
            words += f"; scatter raised to a variation of {LEAST_VARIATION:g} (the sample shows less)"
        return exp(log_mean - factor * max(log_spread, least)), words, cite("EN14358", "log-normal, k_s(n)")
    variation = series.variation_known or USUAL_VARIATION
    value = tests_en1990.characteristic_value(loads, variation_known=variation)
    how = "documented" if series.variation_known else "usual for a fastener in an unknown board"
    words = (
        f"EN 1990 Annex D, log-normal, variation {variation:g} taken as known ({how}), n = {number}; fewer than "
        f"{ENOUGH} pulls are not counted as a test"
    )
    return value, words, cite("EN1990", "Annex D, D7.2, Table D.1", "transcribed")


def _estimates(series: PullSeries, loads: tuple[Newtons, ...]) -> tuple[Estimate, ...]:
    variation, number = series.variation_known or USUAL_VARIATION, len(loads)
    annex = cite("EN1990", "Annex D, D7.2, Table D.1", "transcribed")
    found = []
    for log_normal, shape in ((False, "normal"), (True, "log-normal")):
        for kept, note in ((0.0, "V from the sample"), (variation, f"V = {variation:g} taken as known")):
            factor = tests_en1990.k_n(number, variation_known=kept > 0.0) if kept or number >= 3 else 0.0
            method = f"EN 1990, {shape}, {'V known' if kept else 'V unknown'}"
            compute = partial(tests_en1990.characteristic_value, loads, variation_known=kept, log_normal=log_normal)
            found.append(_tried(method, factor, annex, note, compute))
    factor = tests_en14358.k_s(number) if number >= 3 else 0.0
    timber = cite("EN14358", "k_s(n)")
    normal = partial(tests_en14358.characteristic_value_normal, loads)
    found.append(_tried("EN 14358, normal", factor, timber, "no floor on the scatter", normal))
    logged = partial(tests_en14358.characteristic_value, loads)
    found.append(_tried("EN 14358, log-normal", factor, timber, "deviation of ln x at least 0.05", logged))
    return tuple(found)


def _tried(method: str, factor: Ratio, citation: Citation, note: str, compute: Callable[[], float]) -> Estimate:
    try:
        value = compute()
    except OutsideScope as outside:
        return Estimate(method=method, value=0.0, factor=factor, citation=citation, note=f"does not apply: {outside}")
    return Estimate(method=method, value=value, factor=factor, citation=citation, note=note)


def _remarks(series: PullSeries, loads: tuple[Newtons, ...]) -> tuple[str, ...]:
    lines = list(_outliers(loads))
    bounds = sum(reading.failure == "not_reached" for reading in series.readings)
    if bounds:
        lines.append(f"{bounds} of {len(loads)} pulls stopped before anything gave way: counted as lower bounds.")
    silent = sum(reading.failure == "not_stated" for reading in series.readings)
    if silent:
        lines.append(f"The mode of failure of {silent} of {len(loads)} pulls was not recorded.")
    modes = sorted({r.failure for r in series.readings if r.failure not in ("not_reached", "not_stated")})
    if len(modes) > 1:
        lines.append(
            f"Different modes of failure ({', '.join(modes)}) stand in one series and were evaluated together."
        )
    wet = [r.moisture for r in series.readings if r.moisture > DRY]
    if any(r.moisture == 0.0 for r in series.readings):
        lines.append("Moisture was not recorded at every pull: a later, wetter skin may hold 25 to 40 per cent less.")
    elif not wet:
        lines.append("The skin was dry (12 per cent and less): k_mod of its service class must cover later moisture.")
    quick = sum(0.0 < r.time < QUICK for r in series.readings)
    if quick:
        lines.append(f"{quick} pulls reached their load in under {QUICK:g} s: quick pulls read high.")
    batches = {r.batch for r in series.readings if r.batch}
    if len(batches) > 1:
        lines.append(f"Readings from {len(batches)} sips were pooled.")
    if len(loads) < ENOUGH:
        lines.append(f"{len(loads)} of at least {ENOUGH} pulls: the value is shown, the design does not rest on it.")
    if series.specimen == "single_screw":
        value = max(loads) / (series.diameter * series.thread_length) / 1e6
        if value > 25.0:
            lines.append(f"The largest pull is {value:.0f} N/mm2 of d times thread: check unit, screw and board.")
    return tuple(lines)


def _outliers(loads: tuple[Newtons, ...]) -> list[str]:
    """Grubbs' test on the logarithms, both directions, 5 per cent; what lies far out is named and kept."""
    if len(loads) < 3:
        return []
    critical = critical_value(len(loads))
    apart = distances(tuple(log(load) for load in loads))
    worst = max(range(len(loads)), key=lambda i: abs(apart[i]))
    if abs(apart[worst]) <= critical:
        return []
    side = "below" if apart[worst] < 0.0 else "above"
    rest = tuple(load for i, load in enumerate(loads) if i != worst)
    without = ""
    if len(rest) >= 3:
        without = f"; without it EN 14358 would give {tests_en14358.characteristic_value(rest) / 1e3:.2f} kN"
    return [
        f"Reading {worst + 1} ({loads[worst] / 1e3:.2f} kN) lies {abs(apart[worst]):.2f} deviations {side} the mean "
        f"of the logarithms (Grubbs' test, 5 per cent, limit {critical:.2f}): find out why. It is kept{without}."
    ]


def f_ax_of(evaluation: Evaluation) -> Pascals:
    """Characteristic withdrawal parameter that a series of single screws proves.

    Raises:
        OutsideScope: not a series of single screws.
    """
    series = evaluation.series
    if series.specimen != "single_screw":
        raise OutsideScope("specimen", value=series.specimen, allowed="single_screw", clause="f_ax = F / (d l)")
    return evaluation.characteristic / (series.diameter * series.thread_length)


def proves(evaluation: Evaluation, required: Newtons) -> bool:
    """Whether a series shows a required characteristic resistance, with enough readings."""
    return evaluation.enough and evaluation.characteristic >= required * (1.0 - 1e-9)


PRACTICE: Citation = our_choice(
    "lower of mean / 4 and lowest / 2 of site pulls, contractors' practice, for plausibility"
)
