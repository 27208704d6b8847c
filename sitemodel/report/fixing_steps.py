"""The fixing in steps, method by method: what is done between the last slate out and the first one back."""

from jinja2 import Environment
from markupsafe import Markup

from sitemodel.brief import Brief
from sitemodel.fixings import AnchorKit, MethodName, SpreaderBlockKit, method_of
from sitemodel.fixings.hook_arm import CLEAR_OF_SLATE
from sitemodel.slates.trim import ARM_PLAY, TAIL_CLEAR
from sitemodel.units import Metres
from sitemodel.works import AnchorWork

TITLES: dict[MethodName, str] = {
    "spreader_block": "block screwed to the outer skin",
    "through_bolt": "block bolted through the sip",
    "expansion_anchor": "block on anchors that open under the outer skin",
}
"""What each method is called on the roof."""
PAST_SKIN: Metres = 0.005
"""How far a drill may come out under the outer skin where it must not go on: project choice, no source."""


def fixing_steps(environment: Environment, brief: Brief, anchor: AnchorWork, kit: AnchorKit) -> Markup:
    """Every step at one anchor as a numbered list."""
    screws = kit.places if isinstance(kit, SpreaderBlockKit) else ()
    through = sum(place.through_batten for place in screws)
    text = environment.get_template("fixing_steps.html").render(
        method=method_of(kit),
        kit=kit,
        sip=brief.build_up.sip,
        anchor=anchor,
        through=through,
        beside=len(screws) - through,
        stop=round(kit.thickness + brief.build_up.sip.outer_skin.thickness + PAST_SKIN, 4),
        clear=max(brief.hook.arm_clearance, CLEAR_OF_SLATE),
        tail_clear=TAIL_CLEAR,
        slit_width=brief.hook.arm_width + 2.0 * ARM_PLAY,
    )
    return Markup(text)  # noqa: S704
