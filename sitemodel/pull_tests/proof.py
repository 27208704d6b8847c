"""Proof tests: how hard, how many, how long; what passes, and what a failure asks for.

The rule was written for anchors in concrete and masonry and is used here by analogy only. A proof test checks the
installation; it gives no characteristic value.
"""

from dataclasses import dataclass
from math import ceil, isfinite

from sitemodel.errors import InputError
from sitemodel.sources import Citation, cite
from sitemodel.units import Newtons, Ratio

FEW: tuple[Ratio, Ratio, int] = (0.025, 1.5, 3)
"""Share of the anchors, factor on the characteristic action, least number."""
MANY: tuple[Ratio, Ratio, int] = (0.05, 1.25, 6)
HOLD = 30.0
"""Seconds."""
LARGEST_DROP: Ratio = 0.10
"""Of the load while it is held."""
BOND_SHARE: Ratio = 0.8
"""A proof load stays below this share of the design load of the bond (project choice), to do no harm."""
RULE: Citation = cite("BS8539-REPORTED", "Annex B.3: sample, factor, hold, what a failure asks for", "transcribed")


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofRule:
    """What to do on this roof."""

    load: Newtons
    number: int
    factor: Ratio
    hold: float
    largest_drop: Ratio
    citation: Citation
    remarks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofReading:
    """One anchor pulled and held."""

    anchor: str
    load: Newtons
    hold: float
    drop: Ratio
    """Of the load while it was held."""
    moved: bool
    """Whether anything was seen to move or crack."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofAnswer:
    """Passed, or what is to be done next."""

    passed: tuple[str, ...]
    failed: tuple[str, ...]
    verdict: str
    """accepted, test_more, or test_all."""
    more: int
    """How many anchors are still to be tested."""
    sentence: str


def proof_rule(action: Newtons, anchors: int, *, many: bool = False, bond_design: Newtons = 0.0) -> ProofRule:
    """Load, number and pass rule for a roof.

    Args:
        action: characteristic action on the anchor, out of the roof.
        anchors: on the roof (or in one area of it).
        many: the larger sample at the lower load.
        bond_design: design load of the anchor's bond; 0 where not known.

    Raises:
        InputError: no action, no anchors.
    """
    if not (isfinite(action) and action > 0.0):
        raise InputError("proof.action", given=f"{action:g} N", allowed="a force above 0 N")
    if anchors < 1:
        raise InputError("proof.anchors", given=anchors, allowed="one anchor and more")
    share, factor, least = MANY if many else FEW
    remarks = ["It checks the installation and gives no characteristic value; written for concrete and masonry."]
    load = factor * action
    if bond_design > 0.0 and load > BOND_SHARE * bond_design:
        remarks.append(
            f"The proof load of {load / 1e3:.2f} kN would pass {BOND_SHARE:g} of the bond's design load "
            f"({bond_design / 1e3:.2f} kN) and may harm the panel: pull to failure at a spare place instead."
        )
    return ProofRule(
        load=load,
        number=min(anchors, max(least, ceil(share * anchors - 1e-9))),
        factor=factor,
        hold=HOLD,
        largest_drop=LARGEST_DROP,
        citation=RULE,
        remarks=tuple(remarks),
    )


def evaluate_proof(rule: ProofRule, readings: tuple[ProofReading, ...], anchors: int) -> ProofAnswer:
    """Which anchors pass, and whether the roof is accepted.

    One failure doubles the sample (5 per cent and at least six); more than one: every anchor is tested and the
    fixing specified anew.

    Raises:
        InputError: a load, hold or drop that cannot be.
    """
    for number, reading in enumerate(readings):
        if not (isfinite(reading.load) and 0.0 < reading.load <= 50e3):
            given = f"{reading.load:g} N"
            raise InputError(f"proof.readings[{number}].load", given=given, allowed="above 0, up to 50 kN")
        if not (0.0 <= reading.hold <= 3600.0 and 0.0 <= reading.drop <= 1.0):
            given = f"{reading.hold:g} s, {reading.drop:g}"
            raise InputError(f"proof.readings[{number}]", given=given, allowed="hold 0 to 3600 s, drop 0 to 1")
    passed = tuple(r.anchor for r in readings if _passes(rule, r))
    failed = tuple(r.anchor for r in readings if not _passes(rule, r))
    if len(failed) > 1:
        more, verdict = max(anchors - len(readings), 0), "test_all"
        sentence = f"{len(failed)} anchors failed: test every anchor and specify the fixing anew."
        return ProofAnswer(passed=passed, failed=failed, verdict=verdict, more=more, sentence=sentence)
    share, _, least = MANY
    wanted = min(anchors, max(least, ceil(share * anchors - 1e-9))) if failed else rule.number
    more = max(wanted - len(readings), 0)
    if more:
        reason = "one anchor failed, the sample is doubled" if failed else "the sample is not complete"
        return ProofAnswer(
            passed=passed, failed=failed, verdict="test_more", more=more, sentence=f"{more} more to test: {reason}."
        )
    mend = " The failed anchor is taken out and set again elsewhere." if failed else ""
    sentence = f"{len(passed)} of {len(readings)} anchors held {rule.load / 1e3:.2f} kN for {rule.hold:g} s.{mend}"
    return ProofAnswer(passed=passed, failed=failed, verdict="accepted", more=0, sentence=sentence)


def _passes(rule: ProofRule, reading: ProofReading) -> bool:
    return (
        reading.load >= rule.load * (1.0 - 1e-9)
        and reading.hold >= rule.hold
        and reading.drop <= rule.largest_drop + 1e-12
        and not reading.moved
    )
