"""SpanCheck: strength of faces and core, wrinkling, deflection with creep, of one span in every combination."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.buildup import Basis, Sip
from sitemodel.national import NationalChoices
from sitemodel.sip_panel.loads import CaseLoad
from sitemodel.sip_panel.sandwich import Sandwich, sandwich_of, wrinkling_stress
from sitemodel.sip_panel.spans import Span
from sitemodel.sip_panel.strip_beam import Response, response
from sitemodel.sources import Citation, cite, our_choice
from sitemodel.standards.panels_en12369_1 import osb_properties
from sitemodel.standards.timber_en1995_1_1 import k_def, k_mod
from sitemodel.units import Metres, Pascals, Ratio

CREEP_PERMANENT: Ratio = 7.0
"""Of the core in shear, 100 000 h, of a standard for metal-faced panels (2.4 for snow there); not proved for OSB
faces. It is taken on all of the quasi-permanent load, snow included."""
SPAN_LIMIT: Ratio = 250.0
CANTILEVER_LIMIT: Ratio = 125.0
SUSTAINED_SHARE: Ratio = 0.3
"""Of the core's shear strength under permanent load: a choice of this project."""
CREEP: Citation = cite("EN14509", "Annex E, creep of rigid plastic foam", "from memory")
LIMIT: Citation = our_choice("final deflection of L/250, cantilevers L/125, where the panel's maker states none")
THEORY = "thick-face sandwich beam"
LastingDurations = ("permanent", "long", "medium")


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelLimit:
    """One check of one span."""

    key: Literal["face", "wrinkling", "core", "deflection"]
    name: str
    demand: float
    resistance: float
    unit: Literal["Pa", "m"]
    combination: str
    basis: Basis
    citation: Citation
    note: str

    @property
    def utilisation(self) -> Ratio:
        """Demand over resistance."""
        return self.demand / self.resistance

    @property
    def passes(self) -> bool:
        """Whether demand stays within resistance."""
        return self.utilisation <= 1.0 + 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class SpanCheck:
    """One span, with or without the array."""

    span: Span
    with_array: bool
    limits: tuple[PanelLimit, ...]
    shear_share: Ratio
    """Of core shear in the deflection of the governing combination, without creep."""

    @property
    def strength(self) -> Ratio:
        """Largest utilisation of faces and core."""
        return max(limit.utilisation for limit in self.limits if limit.key != "deflection")

    @property
    def deflection(self) -> Ratio:
        """Final deflection over its limit."""
        return max(limit.utilisation for limit in self.limits if limit.key == "deflection")

    def limit(self, key: str) -> PanelLimit:
        """The check of one kind."""
        return next(limit for limit in self.limits if limit.key == key)


def check_span(
    sip: Sip, service_class: int, choices: NationalChoices, span: Span, cases: tuple[CaseLoad, ...], *, with_array: bool
) -> SpanCheck:
    """Check one span of a strip of one metre in every combination.

    Args:
        sip: skins and core.
        service_class: of the skins.
        choices: factors.
        span: where.
        cases: every combination: ultimate for strength, characteristic and quasi-permanent for deflection.
        with_array: whether the cases hold the array, for the record.
    """
    section = sandwich_of(sip)
    found = [(case, response(section, span, case)) for case in cases]
    ultimate = [(case, answer) for case, answer in found if case.limit_state == "ultimate"]
    deflection, share = _deflection(sip, service_class, span, found)
    limits = (
        _faces(sip, service_class, choices, section, ultimate),
        _wrinkling(sip, choices, section, ultimate),
        _core(sip, choices, section, ultimate),
        deflection,
    )
    return SpanCheck(span=span, with_array=with_array, limits=limits, shear_share=share)


Found = list[tuple[CaseLoad, Response]]


def _faces(sip: Sip, service_class: int, choices: NationalChoices, section: Sandwich, found: Found) -> PanelLimit:
    """The weaker of tension and compression in either face, whichever way the moment turns."""
    limits = []
    for case, answer in found:
        for skin, stress in zip((sip.outer_skin, sip.inner_skin), section.face_stress(answer.moment), strict=True):
            board = osb_properties(skin.board, skin.thickness)
            strong = skin.strong_axis_up
            strength = min(
                board.tension_strong if strong else board.tension_weak,
                board.compression_strong if strong else board.compression_weak,
            )
            held = strength * k_mod(skin.board, service_class, case.duration) / choices.gamma_m_panel
            limits.append(
                _limit("face", "faces in tension and compression", stress, held, case, "tabulated",
                       cite("EN12369-1", "tension and compression in the plane", "transcribed"),
                       f"{THEORY}: M / (b d t), the weaker of both strengths")
            )  # fmt: skip
    return max(limits, key=lambda limit: limit.utilisation)


def _wrinkling(sip: Sip, choices: NationalChoices, section: Sandwich, found: Found) -> PanelLimit:
    modulus = min(section.outer_modulus, section.inner_modulus)
    held = wrinkling_stress(modulus, section.core_modulus, section.core_shear_modulus) / choices.gamma_m_foam
    case, answer = max(found, key=lambda pair: max(section.face_stress(pair[1].moment)))
    return _limit(
        "wrinkling", "face wrinkling into the core", max(section.face_stress(answer.moment)), held, case,
        "assumed" if sip.core.shear_basis == "assumed" else "tabulated",
        cite("SANDWICH-BOOKS", "0.5 (E_f E_c G_c)^(1/3)", "from memory"), "over the factor of foam",
    )  # fmt: skip


def _core(sip: Sip, choices: NationalChoices, section: Sandwich, found: Found) -> PanelLimit:
    limits = []
    for case, answer in found:
        share = SUSTAINED_SHARE if case.duration in LastingDurations else 1.0
        held = share * sip.core.shear_strength / choices.gamma_m_foam
        limits.append(
            _limit("core", "core in shear", section.core_shear(answer.shear), held, case, sip.core.shear_basis,
                   cite("SANDWICH-BOOKS", "V / (b d)", "from memory"),
                   "0.3 of the strength under permanent, long and medium loads; a quarter more shear where the sip "
                   "runs on over a support")
        )  # fmt: skip
    return max(limits, key=lambda limit: limit.utilisation)


def _deflection(sip: Sip, service_class: int, span: Span, found: Found) -> tuple[PanelLimit, Ratio]:
    """Characteristic deflection at once, and what creep adds to the lasting part of it."""
    lasting = [pair for pair in found if pair[0].limit_state == "quasi_permanent"]
    at_once = [pair for pair in found if pair[0].limit_state == "characteristic"]
    board = max(k_def(sip.outer_skin.board, service_class), k_def(sip.inner_skin.board, service_class))
    crept: Metres = 0.0
    for _, answer in lasting:
        crept = board * answer.bending_deflection + CREEP_PERMANENT * answer.shear_deflection
    final = [(case, answer, _added(answer.deflection, crept)) for case, answer in at_once or lasting]
    case, answer, most = max(final, key=lambda row: abs(row[2]))
    allowed = span.length / (SPAN_LIMIT if span.kind == "span" else CANTILEVER_LIMIT)
    whole = abs(answer.bending_deflection) + abs(answer.shear_deflection)
    share = abs(answer.shear_deflection) / whole if whole > 0.0 else 0.0
    limit = _limit(
        "deflection", "final deflection", abs(most), allowed, case, "assumed", LIMIT,
        f"bending {answer.bending_deflection * 1e3:.1f} mm, core shear {answer.shear_deflection * 1e3:.1f} mm at once; "
        f"creep {crept * 1e3:.1f} mm (k_def {board:g} on bending, {CREEP_PERMANENT:g} on core shear; {CREEP.text()})",
    )  # fmt: skip
    return limit, share


def _added(at_once: Metres, crept: Metres) -> Metres:
    """Creep counts where it adds to what the load does; it never relieves."""
    return at_once + crept if at_once * crept > 0.0 else at_once


def _limit(
    key: Literal["face", "wrinkling", "core", "deflection"], name: str, demand: float, resistance: Pascals,
    case: CaseLoad, basis: Basis, citation: Citation, note: str,
) -> PanelLimit:  # fmt: skip
    return PanelLimit(
        key=key,
        name=name,
        demand=demand,
        resistance=resistance,
        unit="m" if key == "deflection" else "Pa",
        combination=case.combination,
        basis=basis,
        citation=citation,
        note=note,
    )
