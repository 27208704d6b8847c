"""Which stainless steel the site asks for, under the slates and in the rain."""

from sitemodel.brief import Brief
from sitemodel.design.answer import SteelChoice
from sitemodel.standards.stainless_en1993_1_4 import required_steel

ORDER = ("A2", "A4", "beyond A4")


def steel_choices(brief: Brief) -> tuple[SteelChoice, ...]:
    """Screws and bolts hidden under the slates, and the hook arm that the rain washes, each by itself."""
    groups = (
        ("screws and bolts under the slates", False),
        ("hook arm and rail bolts in the rain", True),
    )
    choices = []
    for parts, washed in groups:
        needed = required_steel(brief.site.distance_to_sea, rain_washed=washed)
        stated = brief.kit.steel
        wanted = ORDER.index(needed.steel) if needed.steel in ORDER else len(ORDER) - 1
        passes = ORDER[wanted] != "beyond A4" and (stated == "by_site" or ORDER.index(stated) >= wanted)
        choices.append(
            SteelChoice(
                parts=parts,
                required=ORDER[wanted],
                stated="by site" if stated == "by_site" else stated,
                passes=passes,
                sentence=_sentence(parts, ORDER[wanted], stated, passes, brief.site.distance_to_sea),
                citation=needed.citation,
            )
        )
    return tuple(choices)


def _sentence(parts: str, required: str, stated: str, passes: bool, distance: float) -> str:
    far = f"{distance / 1000.0:g} km from the sea"
    if required == "beyond A4":
        return f"{parts}: {far} asks for more than A4 can do; ask a corrosion engineer for an alloy, or do not build"
    if not passes:
        return f"{parts}: the brief states {stated}, {far} asks for {required}"
    return f"{parts}: {required} ({far}; salted roads and industry not counted)"
