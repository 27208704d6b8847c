"""Which stainless steel the site asks for, under the slates and in the rain."""

import math

from sitemodel.brief import Brief
from sitemodel.design.answer import SteelChoice
from sitemodel.site import Site
from sitemodel.standards.stainless_en1993_1_4 import RequiredSteel, required_steel

ORDER = ("A2", "A4", "beyond A4")
SCREWS, BOLTS, HOOK = 0, 1, 2
"""Places of the three groups among the choices."""
GROUPS = (
    ("screws under the slates", False),
    ("bolts of the block, under the slates", False),
    ("hook arm and rail bolts, washed by rain", True),
)


def steel_choices(brief: Brief) -> tuple[SteelChoice, ...]:
    """Screws and bolts hidden under the slates, and the hook arm that the rain washes, each by itself."""
    return tuple(_choice(brief, parts, washed) for parts, washed in GROUPS)


def _choice(brief: Brief, parts: str, washed: bool) -> SteelChoice:
    site, stated = brief.site, brief.kit.steel
    needed = required_steel(site.distance_to_sea, washed, site.distance_to_salted_road)
    wanted = ORDER.index(needed.steel)
    passes = needed.steel != "beyond A4" and (stated == "by_site" or ORDER.index(stated) >= wanted)
    return SteelChoice(
        parts=parts,
        required=needed.steel,
        stated="by site" if stated == "by_site" else stated,
        passes=passes,
        sentence=_sentence(parts, needed, stated, passes, site) + _where_sheltered(site, needed, washed=washed),
        citation=needed.citation,
    )


def _where_sheltered(site: Site, needed: RequiredSteel, *, washed: bool) -> str:
    """What a part that counts as washed would need where panels keep the rain off it."""
    sheltered = required_steel(site.distance_to_sea, False, site.distance_to_salted_road)
    if not washed or needed.steel == "beyond A4" or sheltered.steel == needed.steel:
        return ""
    return f"; where panels keep the rain off it, {sheltered.steel} (CRF {sheltered.factor}): take that one in doubt"


def _sentence(parts: str, needed: RequiredSteel, stated: str, passes: bool, site: Site) -> str:
    far = f"{site.distance_to_sea / 1000.0:g} km from the sea"
    road = site.distance_to_salted_road
    far += ", no salted road near" if math.isinf(road) else f" and {road:g} m from a salted road"
    reckoned = (
        f"CRF {needed.factor} = {needed.chlorides} chlorides + {needed.sulphur} sulphur dioxide (low, assumed) + "
        f"{needed.washing} washing, {needed.corrosion_class}"
    )
    if needed.steel == "beyond A4":
        return (
            f"{parts}: {far} asks for more than A4 can do ({reckoned}); ask a corrosion engineer for an alloy, "
            "or do not build"
        )
    if not passes:
        return f"{parts}: the brief states {stated}, {far} asks for {needed.steel} ({reckoned})"
    return f"{parts}: {needed.steel} ({far}; {reckoned}; industry and road tunnels not counted)"
