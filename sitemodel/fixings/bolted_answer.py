"""From failure modes to the answer for each anchor, for the methods that hold by bolts."""

from collections.abc import Callable

import numpy as np

from sitemodel.fixings.cases import Cases
from sitemodel.fixings.limit import Mode, limit_checks, worst_of_each_anchor
from sitemodel.fixings.method import FixingCheck, LimitCheck, MethodName
from sitemodel.fixings.verdict import HOLDS, beyond_any_test, verdict_of
from sitemodel.units import Newtons, Ratio


def fixing_checks(
    method: MethodName,
    cases: Cases,
    modes: tuple[Mode, ...],
    conditions: tuple[str, ...],
    tests: Callable[[int, tuple[LimitCheck, ...]], tuple[Newtons, Newtons, tuple[str, ...]]],
) -> tuple[FixingCheck, ...]:
    """One answer an anchor.

    Args:
        method: by name.
        cases: of all anchors.
        modes: every failure mode.
        conditions: that hold for every anchor.
        tests: for an anchor and its checks the pull on one bolt, the pull on the whole anchor, and the sentences.
    """
    by_mode = [limit_checks(cases, found) for found in modes]
    tested = np.stack([worst_of_each_anchor(cases, found.curable_utilisation) for found in modes])
    answers = []
    for index in range(len(cases.starts)):
        checks = tuple(found[index] for found in by_mode)
        once_tested = tuple(tested[:, index].tolist())
        single, whole, sentences = tests(index, checks)
        answers.append(
            FixingCheck(
                method=method,
                checks=checks,
                governing=max(checks, key=lambda check: round(check.utilisation, 9)),
                verdict=verdict_of(checks, once_tested),
                beyond_test=tuple(c for c, u in zip(checks, once_tested, strict=True) if u > HOLDS),
                required_f_ax=0.0,
                pull_test_screw=single,
                pull_test_anchor=whole,
                conditions=conditions + beyond_any_test(checks, once_tested) + sentences,
            )
        )
    return tuple(answers)


def governing_utilisations(cases: Cases, modes: tuple[Mode, ...], *, curable: bool) -> tuple[Ratio, ...]:
    """The governing utilisation of each anchor, on what is known or on what tests may show."""
    values = [found.curable_utilisation if curable else found.utilisation for found in modes]
    return tuple(worst_of_each_anchor(cases, np.max(np.stack(values), axis=0)).tolist())
