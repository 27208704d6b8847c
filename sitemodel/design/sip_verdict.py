"""What the sip as a whole allows the verdict to be, what it asks for, and what is said of it."""

from math import ceil

from sitemodel.design.sip_spans import NOT_AMERICAN
from sitemodel.fixings import Verdict
from sitemodel.sip_panel import PanelLimit, SpanCheck
from sitemodel.units import Pascals, Ratio

CORE_MAY_SHOW: Ratio = 2.0
"""An assumed shear strength of the core may be declared up to this times as high (FOAM-SHEETS, 160 kPa)."""

STATE_SUPPORTS = (
    "the sip fails on the supports that were assumed: state what carries it (role support: ridge beam, purlins, "
    "walls), or give it supports"
)


def sip_standing(checks: tuple[SpanCheck, ...], notes: tuple[str, ...]) -> Verdict:
    """What the sip as a whole allows the verdict to be.

    ``fails``: faces or core give way with the array, on assumed supports by any amount, on drawn ones by more than a
    declaration of the core could mend. ``holds_if_tested``: they hold, but supports or the strength of the core are
    assumed. Deflection is told among the findings and changes no verdict: its creep factors are those of another
    product, and its limit is the panel maker's to state.
    """
    if NOT_AMERICAN in notes:
        return "holds_if_tested"
    loaded = [check for check in checks if check.with_array]
    worst: Verdict = "holds"
    for check in loaded:
        for limit in _strengths(check):
            if _fails(check, limit):
                return "fails"
            if not limit.passes or (limit.key == "core" and limit.basis == "assumed"):
                worst = "holds_if_tested"
        if check.span.assumed:
            worst = "holds_if_tested"
    return "holds_if_tested" if notes and loaded else worst


def _strengths(check: SpanCheck) -> tuple[PanelLimit, ...]:
    return tuple(limit for limit in check.limits if limit.key != "deflection")


def _fails(check: SpanCheck, limit: PanelLimit) -> bool:
    """Nothing but other supports, or another sip, would mend it."""
    mends = limit.basis == "assumed" and limit.utilisation <= CORE_MAY_SHOW and not check.span.assumed
    return not limit.passes and not mends


def failing_limits(checks: tuple[SpanCheck, ...]) -> tuple[tuple[SpanCheck, PanelLimit], ...]:
    """The checks that make the verdict ``fails``, the worst first."""
    found = [(c, limit) for c in checks if c.with_array for limit in _strengths(c) if _fails(c, limit)]
    return tuple(sorted(found, key=lambda pair: -pair[1].utilisation))


def sip_fails_on_assumed(checks: tuple[SpanCheck, ...]) -> bool:
    """Whether the sip fails where nobody said what carries it."""
    return any(check.span.assumed for check, _ in failing_limits(checks))


def needed_core_strength(checks: tuple[SpanCheck, ...], shear_strength: Pascals) -> Pascals:
    """The shear strength that the core must be shown to have; 0 where it is declared."""
    wanted = [
        limit.utilisation * shear_strength
        for check in checks
        if check.with_array
        for limit in check.limits
        if limit.key == "core" and limit.basis == "assumed"
    ]
    return max(wanted, default=0.0)


def sip_asks(checks: tuple[SpanCheck, ...], shear_strength: Pascals) -> tuple[str, ...]:
    """What must be stated or declared before the sip as a whole is no longer in doubt."""
    asked = []
    if any(check.with_array and check.span.assumed for check in checks):
        asked.append("the supports of the sip must be stated")
    needed = needed_core_strength(checks, shear_strength)
    if needed > 0.0:
        asked.append(f"the shear strength of the sip's core must be declared, {ceil(needed / 1e3 - 1e-6)} kPa at least")
    return tuple(asked)


def _up(value: Ratio) -> Ratio:
    """A utilisation to two digits, rounded up."""
    return ceil(value * 100.0 - 1e-6) / 100.0


def sip_findings(checks: tuple[SpanCheck, ...], notes: tuple[str, ...]) -> tuple[str, ...]:
    """What the designer must know of the sip as a whole, each in one sentence."""
    told = [STATE_SUPPORTS] if sip_fails_on_assumed(checks) else []
    told += [f"sip: {note}" for note in notes]
    today = {check.span: check for check in checks if not check.with_array}
    for check in checks:
        if check.with_array:
            before = today[check.span]
            told += [_told(check, limit, before.limit(limit.key)) for limit in check.limits if not limit.passes]
    return tuple(told)


def _told(check: SpanCheck, limit: PanelLimit, before: PanelLimit) -> str:
    span = check.span
    word = "FAILS: " if limit.key != "deflection" and _fails(check, limit) else ""
    guess = " on supports that are only assumed" if span.assumed else ""
    cause = "already before the array" if before.utilisation > 1.0 else "only with the array"
    return (
        f"sip: {word}{limit.name} of the {span.kind} from {span.lower:.2f} to {span.upper:.2f} m up the slope "
        f"reaches {_up(limit.utilisation):.2f} of what is allowed with the array, {_up(before.utilisation):.2f} "
        f"without ({cause}){guess}"
    )
