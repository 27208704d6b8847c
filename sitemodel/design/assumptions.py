"""The simplifications that the model itself makes, each on the safe side, each with its source."""

from sitemodel.anchors.recheck import HEIGHT_TOLERANCE, SPRING
from sitemodel.brief import Brief
from sitemodel.design.american_assumptions import american_assumptions
from sitemodel.sources import Assumption, Citation, cite, common_practice, our_choice
from sitemodel.wind.relief import WindRelief


def _line(about: str, sentence: str, value: str, citation: Citation) -> Assumption:
    return Assumption(about=about, sentence=sentence, value=value, citation=citation)


EVERY_ROOF: tuple[Assumption, ...] = (
    _line(
        "wind",
        "Each half of a panel takes its zones by area in each of four wind directions; beside hips, valleys and "
        "slanted edges it takes the worst edge zone whole.",
        "zones by area",
        our_choice("zones by area on each half of a panel, small-area coefficients"),
    ),
    _line(
        "wind",
        "Uplift at exposed array edges is raised by up to 1.2; not a Eurocode rule.",
        "smallest area, factor 1.2 where exposed",
        cite("ASCE7-16", "29.4.4, gamma_E gamma_a at 10 ft2", "transcribed"),
    ),
    _line(
        "wind",
        "Hills, cliffs, tall neighbours and the change of terrain with direction are computed only from a map in "
        "site.terrain; without one, a site on a hill or cliff needs a higher velocity from an engineer.",
        "c_o = 1 without a map",
        cite("EN1991-1-4", "4.3.3", "from memory"),
    ),
    _line(
        "snow",
        "Panels hold the snow back: the shape coefficient on panels is never below 0.8. Drifts above obstructions and "
        "beside higher neighbours are computed by rules for nearly flat roofs; drifts in valleys, snow sliding off a "
        "higher roof and drifts on the bare slope are not.",
        "0.8 at least",
        cite("EN1991-1-3", "5.3.3 (2)", "from memory"),
    ),
    _line(
        "rails",
        "Each rail is a continuous beam on rigid anchors; load enters at the clamps. The two rails share a row's "
        "normal load by the lever rule and its down-slope load equally.",
        "exact reactions",
        our_choice("rigid supports; rechecked on springs"),
    ),
    _line(
        "anchors",
        "The fewest anchors that hold are placed, with a proof among the seats tabulated; where a proof stays open the "
        "bounds are told.",
        "proved or bounded",
        our_choice("labels on prefixes of the continuous beam; limits from the fixing's own check"),
    ),
    _line(
        "anchors",
        "Blocks stand where they fit wherever the counter-battens lie within their tolerance, as long as such seats "
        "hold a rail; all rails of a plane are asked at one level of resistance; rows are slid within half a bay where "
        "that saves anchors.",
        "robust seats, one level, slides",
        our_choice(
            "a block that may not fit is not worth an anchor saved; where one rail needs tests all count on them"
        ),
    ),
    _line(
        "rails",
        "The final rails are rechecked on anchors that yield like springs and on anchors out of line; both are told, "
        "neither changes the verdict.",
        f"{SPRING / 1e3:.0f} N/mm; {HEIGHT_TOLERANCE * 1e3:g} mm up or down",
        our_choice("no stiffness of such anchors is published; a levelling tolerance that a crew can keep"),
    ),
    _line(
        "anchors",
        "The slate batten is never counted as a load path: uplift goes block, screws, outer skin.",
        "batten counts zero",
        common_practice("installers do not fix into battens"),
    ),
)
"""What the model assumes for every roof alike."""


BARE_ROOF = _line(
    "wind",
    "External pressure of the bare roof zone acts on the panels, small-area coefficient, no reduction for air "
    "pressure under the panels; no Eurocode clause gives a net coefficient for this arrangement.",
    "bare roof envelope",
    our_choice("the safe reading of EN 1991-1-4; an Austrian annex caps panels at the same value"),
)
ON_THE_SIP = _line(
    "wind",
    "The sip carries the worst zone of its plane over the whole of it, the air of the room from below, and beyond the "
    "wall the pressure of that wall from below; where panels stand the suction above is handed over by their anchors.",
    "each from the worst direction",
    our_choice("EN 1991-1-4, 5.2 (3), 7.2.1 (3) and 7.2.9, the external pressure counted once"),
)


def _wind_basis(brief: Brief) -> tuple[Assumption, ...]:
    """The basis of the wind on panels, by its name."""
    cited = tuple(
        _line(
            "wind",
            f"External pressure of the bare roof zone acts on the panels, small-area coefficient; its uplift is "
            f"{_cited(record)} where a panel keeps every limit of the record, accepted by "
            f"{record.accepted_by}. No Eurocode clause gives this.",
            record.basis.replace("_", " "),
            record.citation,
        )
        for record in brief.relief
    )
    return (*(cited or (BARE_ROOF,)), ON_THE_SIP)


def _cited(record: WindRelief) -> str:
    if not record.net:
        return f"multiplied by {record.ratio:g}"
    return f"that of the cited net coefficients of zones {', '.join(record.zones)} (pressure the larger of both)"


def model_assumptions(brief: Brief) -> tuple[Assumption, ...]:
    """What the model assumes for the roof of a brief."""
    sip = _line(
        "sip",
        "The sip as a whole is a strip of one metre, cut over its supports: bending, core shear, wrinkling and "
        "deflection with creep, today and with the array; anchors count over an effective width. What carries the "
        "supports is not checked.",
        f"{len(brief.planes)} plane(s), covering, sip and lining by assumed weights",
        cite("SANDWICH-BOOKS", "thick-face sandwich beam", "from memory"),
    )
    chosen = brief.site.american
    if chosen is None:
        return (*_wind_basis(brief), *EVERY_ROOF, sip)
    common = tuple(line for line in EVERY_ROOF if line.about not in ("wind", "snow"))
    return (*american_assumptions(chosen), *common, sip)
