"""Do the screws and the block fit the build-up: lengths, tips, gap, edge distances, spacing, batten."""

from math import hypot

from sitemodel.buildup import BuildUp, BuildUpCheck
from sitemodel.fixings.kit import Screw, SpreaderBlockKit
from sitemodel.units import Metres

GAP_TOLERANCE: Metres = 1e-3
EDGE_DIAMETERS = 4.0
SPACING_DIAMETERS = 7.0
LENGTH_CLAUSE = "OURS, thread through the whole skin and the tip clear below it [project choice, no source]"
EDGE_CLAUSE = "OURS, 4 d all round in cross-laminated plywood; EN1995-1-1, Table 8.6 has 4 d and 10 d for timber"
SPACING_CLAUSE = "EN1995-1-1, Table 8.6, 7 d [transcribed]"
GAP_CLAUSE = "OURS, block as thick as the gap between skin and batten [project choice, no source]"


def screw_checks(build_up: BuildUp, kit: SpreaderBlockKit) -> tuple[BuildUpCheck, ...]:
    """Every check of the kit against the build-up, in a fixed order."""
    above = kit.thickness
    checks = [_gap(build_up, kit)]
    kinds = {place.through_batten for place in kit.places}
    if True in kinds:
        checks.append(_length("batten screw", kit.batten_screw, above + build_up.batten.thickness, build_up))
    if False in kinds:
        checks.append(_length("block screw", kit.block_screw, above, build_up))
    checks += [_edges(kit), _spacing(kit), _under_batten(build_up, kit)]
    return tuple(checks)


def _millimetres(length: Metres) -> str:
    return f"{length * 1e3:.1f} mm"


def _gap(build_up: BuildUp, kit: SpreaderBlockKit) -> BuildUpCheck:
    off = kit.thickness - build_up.block_gap
    return BuildUpCheck(
        name="block thickness",
        found=_millimetres(kit.thickness),
        required=f"{_millimetres(build_up.block_gap)} (within 1 mm)",
        passes=abs(off) <= GAP_TOLERANCE + 1e-9,
        sentence="The block fills the gap between the outer skin and the underside of the slate batten.",
        clause=GAP_CLAUSE,
    )


def _length(name: str, screw: Screw, above: Metres, build_up: BuildUp) -> BuildUpCheck:
    sip = build_up.sip
    least = above + sip.outer_skin.thickness + screw.tip_length
    most = above + sip.outer_skin.thickness + sip.core.thickness
    return BuildUpCheck(
        name=f"{name} length",
        found=_millimetres(screw.length),
        required=f"{_millimetres(least)} and more, below {_millimetres(most)}",
        passes=least - 1e-9 <= screw.length < most - 1e-9,
        sentence=f"The {name} brings full thread through the outer skin, its tip stands clear in the foam and never "
        "reaches the inner skin.",
        clause=LENGTH_CLAUSE,
    )


def _edges(kit: SpreaderBlockKit) -> BuildUpCheck:
    margins = [min(kit.width / 2 - abs(place.x), kit.height / 2 - abs(place.y)) for place in kit.places]
    diameter = max(kit.batten_screw.diameter, kit.block_screw.diameter)
    least = EDGE_DIAMETERS * diameter
    return BuildUpCheck(
        name="screw edge distance",
        found=_millimetres(min(margins)),
        required=f"{_millimetres(least)} (4 d)",
        passes=min(margins) >= least - 1e-9,
        sentence="Every screw stands inside the block, 4 d from each of its edges.",
        clause=EDGE_CLAUSE,
    )


def _spacing(kit: SpreaderBlockKit) -> BuildUpCheck:
    places = kit.places
    gaps = [hypot(a.x - b.x, a.y - b.y) for i, a in enumerate(places) for b in places[:i]]
    least = SPACING_DIAMETERS * max(kit.batten_screw.diameter, kit.block_screw.diameter)
    nearest = min(gaps, default=least)
    return BuildUpCheck(
        name="screw spacing",
        found=_millimetres(nearest),
        required=f"{_millimetres(least)} (7 d)",
        passes=nearest >= least - 1e-9,
        sentence="No two screws stand closer than 7 d.",
        clause=SPACING_CLAUSE,
    )


def _under_batten(build_up: BuildUp, kit: SpreaderBlockKit) -> BuildUpCheck:
    """Heads of batten screws on the batten, heads of block screws beside it."""
    half = build_up.batten.width / 2.0
    on = [half - abs(p.y) - kit.batten_screw.head_diameter / 2 for p in kit.places if p.through_batten]
    beside = [abs(p.y) - half - kit.block_screw.head_diameter / 2 for p in kit.places if not p.through_batten]
    tightest = min(on + beside, default=0.0)
    return BuildUpCheck(
        name="screw heads and batten",
        found=f"{_millimetres(tightest)} at the tightest",
        required="0 mm and more",
        passes=tightest >= -1e-9,
        sentence="Heads of the screws through the batten sit wholly on it, heads of the others wholly beside it.",
        clause="OURS, batten centred on the block [project choice, no source]",
    )
