"""One failure mode over all cases, and its worst case for each anchor."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from sitemodel.buildup import Basis
from sitemodel.fixings.cases import Cases, Floats
from sitemodel.fixings.method import LimitCheck
from sitemodel.sources import Citation

Unit = Literal["N", "Pa", "N m", "m", "-"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mode:
    """Demand and resistance of one failure mode in every case; a case it does not apply to has demand 0."""

    key: str
    name: str
    demand: Floats
    resistance: Floats
    curable: Floats
    """Resistance that a test may plausibly show; equal to ``resistance`` where no test helps."""
    unit: Unit
    basis: Basis
    citation: Citation
    in_scope: bool
    note: str

    @property
    def utilisation(self) -> Floats:
        """Demand over resistance."""
        return _share(self.demand, self.resistance)

    @property
    def curable_utilisation(self) -> Floats:
        """Demand over the resistance that a test may show."""
        return _share(self.demand, self.curable)


def _share(demand: Floats, resistance: Floats) -> Floats:
    """Demand over resistance; infinite where something is asked of nothing."""
    nothing = np.where(demand > 0.0, np.inf, 0.0)
    return np.asarray(np.divide(demand, resistance, out=nothing, where=resistance > 0.0), dtype=np.float64)


def mode(
    key: str,
    name: str,
    demand: Floats,
    resistance: Floats | float,
    unit: Unit,
    basis: Basis,
    citation: Citation,
    note: str,
    *,
    curable: Floats | float | None = None,
    in_scope: bool = True,
) -> Mode:
    """A failure mode; a resistance that does not change from case to case may be one number."""
    held = np.broadcast_to(np.asarray(resistance, dtype=np.float64), demand.shape)
    shown = held if curable is None else np.broadcast_to(np.asarray(curable, dtype=np.float64), demand.shape)
    return Mode(
        key=key,
        name=name,
        demand=demand,
        resistance=held,
        curable=np.maximum(shown, held),
        unit=unit,
        basis=basis,
        citation=citation,
        in_scope=in_scope,
        note=note,
    )


def worst_of_each_anchor(cases: Cases, values: Floats) -> Floats:
    """The largest value among the cases of each anchor."""
    return np.asarray(np.maximum.reduceat(values, cases.starts), dtype=np.float64)


def limit_checks(cases: Cases, found: Mode) -> tuple[LimitCheck, ...]:
    """The worst case of one mode for each anchor."""
    utilisation = found.utilisation
    ends = np.append(cases.starts[1:], cases.count)
    checks = []
    for start, end in zip(cases.starts.tolist(), ends.tolist(), strict=True):
        row = start + int(np.argmax(utilisation[start:end]))
        checks.append(
            LimitCheck(
                mode=found.key,
                name=found.name,
                demand=float(found.demand[row]),
                resistance=float(found.resistance[row]),
                unit=found.unit,
                utilisation=float(utilisation[row]),
                combination=cases.combinations[row],
                basis=found.basis,
                citation=found.citation,
                in_scope=found.in_scope,
                note=found.note,
            )
        )
    return tuple(checks)
