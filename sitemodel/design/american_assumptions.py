"""The simplifications of an American design, each on the safe side, each with its source."""

from sitemodel.american_set import AmericanSet
from sitemodel.sources import Assumption, Citation, cite, our_choice


def _line(about: str, sentence: str, value: str, citation: Citation) -> Assumption:
    return Assumption(about=about, sentence=sentence, value=value, citation=citation)


AMERICAN_ROOF: tuple[Assumption, ...] = (
    _line(
        "wind",
        "Panels parallel to the roof: p = q_h (GC_p) gamma_E gamma_a. gamma_a counts only for panels that keep every "
        "condition of the clause; it never lowers the pressure onto the roof.",
        "ASCE/SEI 7-16, 29.4.4",
        cite("ASCE7-16", "29.4.4 (29.4-7)", "transcribed"),
    ),
    _line(
        "wind",
        "Every coefficient is read at 2 square feet, the smallest area of the figures, for panels, clamps, rails and "
        "anchors alike; each panel takes the worst zone that it touches.",
        "2 ft2",
        our_choice("smallest effective wind area of the figures"),
    ),
    _line(
        "wind",
        "Net pressure is nowhere taken below 16 psf, up or down.",
        "0.77 kN/m2",
        cite("ASCE7-16", "30.2.2", "from memory"),
    ),
    _line(
        "snow",
        "Panels obstruct sliding: the slope factor is that of a surface that is not slippery. Unbalanced snow of the "
        "leeward slope lies all over the slope. Drifts at chimneys and higher roofs, rain on snow and sliding snow are "
        "not computed.",
        "not slippery",
        our_choice("C_s of all other surfaces; unbalanced snow on the whole slope"),
    ),
    _line(
        "loads",
        "Roof live load, earthquake and ice are not combined; an engineer adds them where the building code asks.",
        "D, S, W",
        our_choice("loads that act on panels through anchors"),
    ),
    _line(
        "anchors",
        "Where the NDS has no value a characteristic strength is divided by a stated factor: 2.1 boards, 3.35 screws "
        "and heads of bolts in wood, 2.0 hook and bolts, 3.0 screw steel, bond and foam in tension, 2.5 foam in "
        "compression; under LRFD by that factor over 1.5, screws and boards times K_F phi lambda.",
        "safety factors of this project",
        our_choice("safety factors of the American format"),
    ),
)


def american_assumptions(chosen: AmericanSet) -> tuple[Assumption, ...]:
    """What the model assumes for every roof on the American basis."""
    level = _line("standards", f"{chosen.name}: {chosen.force_level}.", chosen.design_format,
                  chosen.citation_of("design_format"))  # fmt: skip
    return (level, *AMERICAN_ROOF)
