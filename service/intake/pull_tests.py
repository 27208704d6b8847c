"""Series of pulls from what the brief states, evaluated."""

from service.schemas.pull_tests import PullSeriesInput, ReadingInput
from sitemodel.errors import InputError
from sitemodel.fixings.evidence import PLAUSIBLE_F_AX
from sitemodel.pull_tests import Evaluation, PullSeries, Reading, evaluate, f_ax_of
from sitemodel.sources import Assumption, cite
from sitemodel.units import Metres, Pascals


def read_pull_tests(
    stated: tuple[PullSeriesInput, ...], diameter: Metres, thickness: Metres, where: str = "pull_tests"
) -> tuple[Evaluation, ...]:
    """Every series, evaluated.

    Args:
        stated: the series.
        diameter: of the screws, where a series does not say.
        thickness: of the outer skin, where a series does not say how much thread is in it; 0 where not known.
        where: name of the list, for messages.

    Raises:
        InputError: readings that cannot be.
    """
    return tuple(
        evaluate(read_series(series, f"{where}[{number}]", diameter, thickness)) for number, series in enumerate(stated)
    )


def read_series(stated: PullSeriesInput, name: str, diameter: Metres, thickness: Metres) -> PullSeries:
    """One series; a screw whose size is not known is asked for."""
    screw = stated.specimen == "single_screw"
    thread = stated.thread_length if stated.thread_length is not None else thickness
    across = stated.diameter if stated.diameter is not None else diameter
    if not screw and (stated.diameter is not None or stated.thread_length is not None):
        given = "diameter" if stated.diameter is not None else "thread_length"
        raise InputError(
            f"{name}.{given}", given="a size of a screw", allowed="nothing, unless single screws are pulled"
        )
    if screw and thread > thickness > 0.0:
        given = f"{thread * 1e3:g} mm"
        allowed = f"at most {thickness * 1e3:g} mm, the outer skin: foam holds no thread"
        raise InputError(f"{name}.thread_length", given=given, allowed=allowed)
    return PullSeries(
        name=name,
        specimen=stated.specimen,
        readings=tuple(_reading(reading) for reading in stated.readings),
        diameter=across if screw else 0.0,
        thread_length=thread if screw else 0.0,
        variation_known=stated.variation_known or 0.0,
    )


def _reading(stated: ReadingInput) -> Reading:
    return Reading(
        load=stated.load,
        time=stated.time or 0.0,
        displacement=stated.displacement or 0.0,
        failure=stated.failure,
        moisture=stated.moisture or 0.0,
        place=stated.place or "",
        batch=stated.batch or "",
    )


def tested_f_ax(evaluations: tuple[Evaluation, ...]) -> tuple[Pascals, str]:
    """The withdrawal parameter that the single-screw series prove together, and in words how; 0 where none does.

    Of several series the lowest counts; a value above what such a screw is known to hold is cut to that.
    """
    proven = [(f_ax_of(e), e) for e in evaluations if e.series.specimen == "single_screw" and e.enough]
    if not proven:
        return 0.0, ""
    value, found = min(proven, key=lambda pair: pair[0])
    words = f"tested: {found.series.name}, {len(found.series.readings)} pulls on this roof, {found.counted}"
    if value > PLAUSIBLE_F_AX:
        return PLAUSIBLE_F_AX, f"{words}; cut from {value / 1e6:.1f} to {PLAUSIBLE_F_AX / 1e6:g} N/mm2"
    return value, words


def tested_toggle(evaluations: tuple[Evaluation, ...]) -> tuple[float, str]:
    """The characteristic pull of one expansion anchor that was proven, and how; 0 where none was."""
    proven = [e for e in evaluations if e.series.specimen == "toggle" and e.enough]
    if not proven:
        return 0.0, ""
    found = min(proven, key=lambda e: e.characteristic)
    return found.characteristic, f"{found.series.name}, {len(found.series.readings)} pulls, {found.counted}"


def noticed_pulls(evaluations: tuple[Evaluation, ...]) -> tuple[Assumption, ...]:
    """One line for each series: what it counts as."""
    return tuple(
        Assumption(
            about=e.series.name,
            sentence=f"{e.counted}. {' '.join(e.remarks)}".strip(),
            value=f"{e.characteristic / 1e3:.2f} kN characteristic, {len(e.series.readings)} readings",
            citation=cite("BRIEF", e.series.name),
        )
        for e in evaluations
    )
