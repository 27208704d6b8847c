"""Where two values of a brief must agree: order, room, and what a declaration must name."""

from collections.abc import Iterator

from service.intake.sections import ReadSections
from service.schemas.build_up import BuildUpInput
from service.schemas.equipment import HookInput, PanelInput, RailInput
from service.schemas.fixing import FixingInput
from service.schemas.layout import LayoutInput
from service.schemas.national import NationalChoicesInput
from service.schemas.roof import RoofInput
from service.schemas.section import Section
from service.schemas.site import SiteInput
from sitemodel.errors import InputError
from sitemodel.fixings import f_ax_standing
from sitemodel.fixings.hook import FOOT_PAST_BOLT
from sitemodel.fixings.hook_arm import CLEAR_OF_SLATE


def disagreements(sections: ReadSections) -> tuple[InputError, ...]:
    """Every disagreement within and between the sections that could be read."""
    return tuple(_all(sections))


def millimetres(value: float) -> str:
    """A length as people read it."""
    return f"{value * 1e3:.6g} mm"


def _all(sections: ReadSections) -> Iterator[InputError]:
    if isinstance(sections.site, SiteInput):
        yield from _site(sections.site, sections.national_choices)
    if sections.build_up:
        yield from _sip(sections.build_up)
        yield from _slate(sections.build_up)
    if sections.panel:
        yield from _panel(sections.panel)
    if sections.rail:
        yield from declared_whole(sections.rail, "rail", ("design_moment", "bending_stiffness"))
        yield from _offered_rails(sections.rail)
    if sections.hook:
        yield from _hook(sections.hook)
    if sections.fixing:
        yield from _withdrawal(sections.fixing)
        yield from _block(sections.fixing)
        yield from _screws(sections.fixing)
        yield from _bolts(sections.fixing)
    if sections.fixing and sections.hook:
        yield from _foot_on_block(sections.fixing, sections.hook)
    if sections.fixing and sections.build_up:
        yield from _screws_in_batten(sections.fixing, sections.build_up)
        yield from _screw_tips(sections.fixing, sections.build_up)
        if sections.roof is None or not _counter_battens_drawn(sections.roof):
            yield from _block_in_bay(sections.fixing, sections.build_up)
    if sections.layout:
        yield from _objective(sections.layout)
    if sections.hook and sections.build_up:
        yield from _hook_over_gap(sections.hook, sections.build_up)


def _not_over(where: str, value: float, limit: float, name: str) -> Iterator[InputError]:
    """A length that must not exceed another."""
    if value > limit + 1e-9:
        yield InputError(where, given=millimetres(value), allowed=f"at most {millimetres(limit)}, {name}")


def _objective(layout: LayoutInput) -> Iterator[InputError]:
    """What a place must earn counts only where rows are laid for their yield."""
    if layout.objective == "most_yield":
        return
    for name in ("least_panel_yield", "yield_per_uplift"):
        if getattr(layout, name) > 0.0:
            allowed = (
                f"0, or the objective most_yield, because with {layout.objective} a place counts whatever it earns"
            )
            yield InputError(f"layout.{name}", given=f"{getattr(layout, name):g}", allowed=allowed)


def declared_whole(section: Section, where: str, needed: tuple[str, ...]) -> Iterator[InputError]:
    """What is declared or tested names its document, and every value that the word covers."""
    source, reference = getattr(section, "source", ""), getattr(section, "reference", None)
    if source not in {"declared", "tested"}:
        return
    if reference is None:
        allowed = f"the document and place, or the test report, because {where}.source is {source}"
        yield InputError(f"{where}.reference", given="nothing", allowed=allowed)
    for name in needed:
        if name not in section.model_fields_set:
            allowed = f"a value, because {where}.source is {source} and would otherwise cover an assumed one"
            yield InputError(f"{where}.{name}", given="nothing", allowed=allowed)


def _offered_rails(rail: RailInput) -> Iterator[InputError]:
    """Rails told apart by name, their cost stated for all or for none."""
    names = [rail.name or "", *(offered.name for offered in rail.alternatives)]
    costs = [rail.cost_per_metre, *(offered.cost_per_metre for offered in rail.alternatives)]
    for number, offered in enumerate(rail.alternatives):
        where = f"rail.alternatives[{number}]"
        yield from declared_whole(offered, where, ())
        if offered.name in names[: number + 1]:
            yield InputError(f"{where}.name", given=offered.name, allowed="a name of its own")
        if (offered.cost_per_metre is None) != (costs[0] is None):
            given = "nothing" if offered.cost_per_metre is None else f"{offered.cost_per_metre:g}"
            yield InputError(f"{where}.cost_per_metre", given=given, allowed="a cost for every rail or for none")
    if rail.alternatives and not rail.name:
        yield InputError("rail.name", given="nothing", allowed="a name, because other rails are offered beside it")


def _site(site: SiteInput, choices: NationalChoicesInput | None) -> Iterator[InputError]:
    if choices and choices.base == "united_kingdom" and site.altitude is None:
        allowed = "the height of the site above sea level, because these national choices raise the wind with it"
        yield InputError("site.altitude", given="nothing", allowed=allowed)
    building = site.building
    if building.eaves_height is not None and building.ridge_height is not None:
        where = "site.building.eaves_height"
        if building.eaves_height >= building.ridge_height:
            given = f"{building.eaves_height:g} m"
            yield InputError(where, given=given, allowed=f"less than the ridge height {building.ridge_height:g} m")


def _sip(build_up: BuildUpInput) -> Iterator[InputError]:
    core, batten = build_up.sip.core, build_up.counter_batten
    if core.modulus_upper < core.modulus:
        given = f"{core.modulus_upper / 1e6:g} MPa"
        allowed = f"at least build_up.sip.core.modulus, {core.modulus / 1e6:g} MPa"
        yield InputError("build_up.sip.core.modulus_upper", given=given, allowed=allowed)
    for name in ("tensile_strength", "compressive_strength", "shear_strength"):
        yield from declared_whole(getattr(core, name), f"build_up.sip.core.{name}", ())
    if batten.spacing < batten.width + 0.05:
        allowed = f"at least {millimetres(batten.width + 0.05)}, so that a bay is left between counter-battens"
        yield InputError("build_up.counter_batten.spacing", given=millimetres(batten.spacing), allowed=allowed)


def _slate(build_up: BuildUpInput) -> Iterator[InputError]:
    slate = build_up.slate
    if slate.coursing != "regular":
        allowed = (
            "regular: in random-width or diminishing slating no joint follows from another, so that which slates "
            "come out cannot be planned; strip by eye and mark each slate"
        )
        yield InputError("build_up.slate.coursing", given=slate.coursing, allowed=allowed)
    yield from _not_over("build_up.slate.width", slate.width, slate.length, "the length of the slate")
    yield from _not_over("build_up.slate.head_lap", slate.head_lap, slate.length / 2, "half the length of the slate")
    yield from _not_over(
        "build_up.slate.nail_inset", slate.nail_inset, slate.width / 2 - 0.01, "so that two nails stand apart"
    )


def _panel(panel: PanelInput) -> Iterator[InputError]:
    yield from _not_over("panel.width", panel.width, panel.length, "the length, which is the long side")
    if panel.clamp_from > panel.clamp_to:
        allowed = f"at least panel.clamp_from, {panel.clamp_from:g}"
        yield InputError("panel.clamp_to", given=f"{panel.clamp_to:g}", allowed=allowed)
    yield from declared_whole(panel, "panel", ("clamp_from", "clamp_to"))


def _hook(hook: HookInput) -> Iterator[InputError]:
    if hook.reach_max < hook.reach_min:
        allowed = f"at least hook.reach_min, {millimetres(hook.reach_min)}"
        yield InputError("hook.reach_max", given=millimetres(hook.reach_max), allowed=allowed)
    if (hook.bolt_rows == 2) != (hook.bolt_row_distance > 0.0):
        allowed = "more than 0 mm with two bolt rows" if hook.bolt_rows == 2 else "0 mm with one bolt row"
        yield InputError("hook.bolt_row_distance", given=millimetres(hook.bolt_row_distance), allowed=allowed)
    yield from _not_over(
        "hook.bolt_row_distance", hook.bolt_row_distance, hook.foot_length - 0.01, "within the foot plate"
    )
    yield from declared_whole(hook, "hook", ("resistance_up", "resistance_down", "resistance_along"))


def _withdrawal(fixing: FixingInput) -> Iterator[InputError]:
    f_ax = fixing.f_ax
    if f_ax is None:
        return
    if f_ax.source == "target" and f_ax.value < 4e6 * (1 - 1e-12):
        allowed = "4 N/mm2 to 12 N/mm2 for a target; a lower resistance is stated as tested or declared"
        yield InputError("fixing.f_ax.value", given=f"{f_ax.value / 1e6:g} N/mm2", allowed=allowed)
    for sentence in f_ax_standing(f_ax.value, f_ax.source):
        refusal, _, words = sentence.partition(": ")
        if refusal == "refused":
            given, _, allowed = words.partition("; ")
            shown = given.removeprefix("f_ax ")
            yield InputError("fixing.f_ax.value", given=shown, allowed=allowed or "4 N/mm2 to 12 N/mm2")
    yield from declared_whole(f_ax, "fixing.f_ax", ())


def _block(fixing: FixingInput) -> Iterator[InputError]:
    needed = ("density", "bending_strength", "bearing_strength", "head_pull_through")
    yield from declared_whole(fixing.block, "fixing.block", needed)


def _screws(fixing: FixingInput) -> Iterator[InputError]:
    screws, block = fixing.screws, fixing.block
    yield from _not_over(
        "fixing.screws.root_diameter", screws.root_diameter, screws.diameter - 1e-4, "below the outer thread"
    )
    yield from _not_over("fixing.screws.diameter", screws.diameter, screws.head_diameter, "the head")
    yield from _not_over("fixing.screws.pilot_diameter", screws.pilot_diameter, screws.diameter, "the outer thread")
    yield from _not_over("fixing.screws.tip_length", screws.tip_length, screws.block_length, "the screw")
    for number, place in enumerate(screws.places):
        where = f"fixing.screws.places[{number}]"
        reach_x, reach_y = block.width / 2 - screws.diameter, block.height / 2 - screws.diameter
        yield from _not_over(f"{where}.x", abs(place.x), reach_x, "inside the block, either way")
        yield from _not_over(f"{where}.y", abs(place.y), reach_y, "inside the block, either way")
        for other in screws.places[:number]:
            if max(abs(place.x - other.x), abs(place.y - other.y)) < screws.diameter:
                given = "a screw in the place of another"
                yield InputError(where, given=given, allowed="places at least one diameter apart")
                break
    yield from declared_whole(screws, "fixing.screws", ("steel_strength", "head_pull_through"))


def _bolts(fixing: FixingInput) -> Iterator[InputError]:
    bolts = fixing.bolts
    yield from _not_over("fixing.bolts.diameter", bolts.diameter, bolts.hole_diameter, "the hole")
    yield from _not_over("fixing.bolts.hole_diameter", bolts.hole_diameter, bolts.head_diameter - 0.001, "the head")
    shank = 0.7853981633974483 * bolts.diameter**2
    if bolts.stress_area > shank:
        given, allowed = f"{bolts.stress_area * 1e6:.4g} mm2", f"at most {shank * 1e6:.4g} mm2, the shank"
        yield InputError("fixing.bolts.stress_area", given=given, allowed=allowed)


def _foot_on_block(fixing: FixingInput, hook: HookInput) -> Iterator[InputError]:
    block = fixing.block
    yield from _not_over("hook.foot_length", hook.foot_length, block.height, "the height of the block")
    room = block.width - 2 * fixing.bolts.hole_diameter
    yield from _not_over("hook.bolt_spacing", hook.bolt_spacing, room, "inside the width of the block")
    across = hook.bolt_spacing / 2 + FOOT_PAST_BOLT * fixing.bolts.diameter
    for number, place in enumerate(fixing.screws.places):
        if abs(place.x) < across - 1e-9 and abs(place.y) < hook.foot_length / 2 - 1e-9:
            given = f"{millimetres(place.x)}, {millimetres(place.y)}"
            allowed = f"beside the foot plate, which covers {millimetres(across)} across and "
            allowed += f"{millimetres(hook.foot_length / 2)} up and down the slope from the middle of the block"
            yield InputError(f"fixing.screws.places[{number}]", given=given, allowed=allowed)


def _screws_in_batten(fixing: FixingInput, build_up: BuildUpInput) -> Iterator[InputError]:
    half = build_up.batten.width / 2 - fixing.screws.diameter / 2
    for number, place in enumerate(fixing.screws.places):
        if place.through_batten:
            where = f"fixing.screws.places[{number}].y"
            yield from _not_over(where, abs(place.y), half, "inside the batten, either way")


def _hook_over_gap(hook: HookInput, build_up: BuildUpInput) -> Iterator[InputError]:
    gap = build_up.counter_batten.thickness if build_up.block_gap is None else build_up.block_gap
    if hook.height < gap:
        allowed = f"at least {millimetres(gap)}, the top of the block above the skin"
        yield InputError("hook.height", given=millimetres(hook.height), allowed=allowed)
        return
    clear = CLEAR_OF_SLATE if hook.clearance is None else hook.clearance
    over = gap + build_up.batten.thickness + 3 * build_up.slate.thickness + clear
    if hook.height < over - 1e-9:
        allowed = f"at least {millimetres(over)}: gap, batten, three slates and the clearance of the arm over them"
        yield InputError("hook.height", given=millimetres(hook.height), allowed=allowed)


def _screw_tips(fixing: FixingInput, build_up: BuildUpInput) -> Iterator[InputError]:
    """No tip reaches the inner skin: room side of the vapour line, and no foam below to stand clear in."""
    gap = build_up.counter_batten.thickness if build_up.block_gap is None else build_up.block_gap
    above = gap if fixing.block.thickness is None else fixing.block.thickness
    stack = above + build_up.sip.outer_skin.thickness + build_up.sip.core.thickness
    kinds = {place.through_batten for place in fixing.screws.places}
    words = "where the inner skin begins; the tip stands in the foam"
    if True in kinds:
        limit = stack + build_up.batten.thickness
        yield from _below("fixing.screws.batten_length", fixing.screws.batten_length, limit, words)
    if False in kinds:
        yield from _below("fixing.screws.block_length", fixing.screws.block_length, stack, words)


def _below(where: str, value: float, limit: float, name: str) -> Iterator[InputError]:
    """A length that must stay short of another."""
    if value >= limit - 1e-9:
        yield InputError(where, given=millimetres(value), allowed=f"less than {millimetres(limit)}, {name}")


def _counter_battens_drawn(roof: RoofInput) -> bool:
    """Whether lines on the roof stand in place of the nominal spacing."""
    return any(feature.properties.role == "counter_batten" for feature in roof.features)


def _block_in_bay(fixing: FixingInput, build_up: BuildUpInput) -> Iterator[InputError]:
    """The block stands between two counter-battens wherever within their tolerance they are."""
    battens = build_up.counter_batten
    room = max(battens.spacing - battens.width - 2.0 * battens.position_tolerance, 0.0)
    name = "the bay between counter-battens less their position tolerance on both sides"
    yield from _not_over("fixing.block.width", fixing.block.width, room, name)
