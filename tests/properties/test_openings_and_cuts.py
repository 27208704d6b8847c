"""What holds for every plane of slates, every cut and every opening."""

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from sitemodel.buildup import Nailing
from sitemodel.slates import join_plans, laid_slate, make_bond, slates_over, strip_plan
from sitemodel.slates.flashing import cover_of, flashing_piece, head_lap_of
from sitemodel.slates.holding import arm_over, holdings
from sitemodel.slates.laid_plane import lay_plane
from sitemodel.slates.strip import nail_places
from sitemodel.slates.trim import ArmExit, exit_course, least_reach, trims
from tests.sitemodel.slated_roof import build_up, plane, slate, wide_bond

SIZES = st.sampled_from([(0.500, 0.250, 0.090), (0.600, 0.300, 0.100), (0.400, 0.200, 0.075), (0.300, 0.200, 0.060)])
NAILINGS: st.SearchStrategy[Nailing] = st.sampled_from(["centre", "head"])
EXITS: st.SearchStrategy[ArmExit] = st.sampled_from(["own_course", "course_above"])
OUTLINES = st.sampled_from(
    [
        box(0.0, 0.0, 7.3, 3.1),
        Polygon([(0.0, 0.0), (9.0, 0.0), (6.0, 4.0), (3.0, 4.0)]),
        Polygon([(2.0, 0.0), (5.0, 0.0), (8.0, 3.5), (0.0, 3.5)]),
        Polygon([(0.0, 0.0), (9.0, 0.0), (9.0, 4.0), (5.0, 4.0), (5.0, 2.2), (0.0, 2.2)]),
    ]
)
FAST = settings(max_examples=40, deadline=None, derandomize=True)


@FAST
@given(OUTLINES, SIZES, st.floats(0.0, 0.3), st.floats(0.0, 0.010))
def test_slates_tile_the_plane_and_overlap_only_where_they_lap(
    outline: Polygon, size: tuple[float, float, float], origin: float, joint: float
) -> None:
    layers = build_up(slate(*size))
    layers = type(layers)(
        **{name: getattr(layers, name) for name in layers.__slots__ if name != "slate"},
        slate=type(layers.slate)(
            **{name: getattr(layers.slate, name) for name in layers.slate.__slots__ if name != "joint"}, joint=joint
        ),
    )
    bond = make_bond(plane(outline), layers, origin, origin_assumed=False)
    laid = lay_plane(bond)
    shown = laid.exposed()
    areas = shapely.area(shown)
    # Nothing shows twice: what shows, joined, is as large as the pieces together.
    assert abs(shapely.area(shapely.union_all(shown)) - areas.sum()) < 1e-6
    # All of the plane shows but for the joints, of which a course has one a slate.
    gaps = joint * bond.gauge * len(areas)
    assert outline.area - gaps * 1.6 - 1e-6 <= areas.sum() <= outline.area + 1e-6
    # In a course slates never overlap; two courses up the next one laps by the head lap.
    for course in (1, len(bond.courses) // 2):
        rows = laid.course == course
        order = laid.left[rows].argsort()
        assert (laid.left[rows][order][1:] >= laid.right[rows][order][:-1] - 1e-9).all() or rows.sum() < 2
    assert abs(bond.courses[0].tail_y + layers.slate.length - bond.courses[2].tail_y - head_lap_of(bond)) < 1e-9


@FAST
@given(SIZES, NAILINGS, EXITS, st.integers(3, 16), st.floats(-3, 3), st.floats(0.02, 0.08))
def test_every_cut_stays_covered_and_is_in_a_slate_that_is_out(
    size: tuple[float, float, float], nailing: Nailing, arm_exit: ArmExit, course: int, x: float, arm: float
) -> None:
    bond = wide_bond(slate(*size, nailing=nailing))
    layers = build_up(bond.slate)
    cuts = trims(bond, layers, course, x, arm, arm_exit)
    piece = flashing_piece(bond, course, x, arm, arm_exit, cuts)
    plan = strip_plan(bond, layers, course, x, 0.2, arm, arm_exit=arm_exit)
    out = {(s.course, s.column): s for s in plan.slates}
    for cut in cuts:
        assert cover_of(cut, piece, bond.slate.head_lap) in ("head lap", "flashing")
        assert out[cut.course, cut.column].state == "trimmed"
        laid = laid_slate(bond, cut.course, cut.column)
        assert laid.left - 1e-9 <= cut.left < cut.right <= laid.right + 1e-9
        assert laid.tail_y < cut.low < cut.high <= laid.head_y + 1e-9
    assert sum(s.state == "trimmed" for s in plan.slates) == len(cuts)


@FAST
@given(SIZES, NAILINGS, st.lists(st.tuples(st.integers(2, 18), st.floats(0.3, 4.0)), min_size=1, max_size=8))
def test_the_reverse_is_a_legal_order_to_lay_and_nails_promised_can_be_driven(
    size: tuple[float, float, float], nailing: Nailing, spots: list[tuple[int, float]]
) -> None:
    layers = build_up(slate(*size, nailing=nailing))
    bond = wide_bond(layers.slate)
    plans = tuple((f"A{i}", strip_plan(bond, layers, c, x, 0.2, 0.04)) for i, (c, x) in enumerate(spots))
    for opening in join_plans(bond, plans):
        still_out = {(s.course, s.column) for s in opening.slates}
        for back in opening.relay:
            laid = laid_slate(bond, back.course, back.column)
            over = slates_over(bond, laid)
            own = {(o.course, o.column) for o in over} & {(s.course, s.column) for s in opening.slates}
            assert own <= still_out, "nothing of the opening lies over a slate when it goes back"
            places = zip(nail_places(bond, laid), (back.ripped_left, back.ripped_right), strict=True)
            for nail, ripped in places:
                covered = any(
                    o.left - 0.0025 < nail < o.right + 0.0025 and o.tail_y < laid.nail_y < o.head_y
                    for o in over
                    if (o.course, o.column) not in still_out
                )
                assert covered == ripped
            still_out.discard((back.course, back.column))


@FAST
@given(SIZES, NAILINGS, EXITS, st.integers(3, 16), st.floats(-3, 3), st.floats(0.02, 0.08))
def test_no_hook_stands_in_an_arm(
    size: tuple[float, float, float], nailing: Nailing, arm_exit: ArmExit, course: int, x: float, width: float
) -> None:
    bond = wide_bond(slate(*size, nailing=nailing))
    plan = strip_plan(bond, build_up(bond.slate), course, x, 0.2, width, arm_exit=arm_exit)
    arm = arm_over(bond, course, x, width, arm_exit)
    outlines = {touched.tag: touched.outline.bounds for touched in plan.slates}
    for touched, held in zip(plan.slates, holdings(bond, plan.slates, 35.0, (arm,)), strict=True):
        left, low, right, high = outlines[held.tag]
        if held.device == "hook" and touched.course == arm.under:
            assert abs(held.x - arm.x) >= arm.half
        if held.device == "bib":
            assert touched.course == arm.under
            assert left < held.x < right
            assert low < held.y < high, "the nail goes through the slate"
            assert any(abs(held.y - line.batten_y) < 1e-9 for line in bond.courses), "into a batten"


@FAST
@given(SIZES, NAILINGS, EXITS, st.integers(3, 16))
def test_nothing_stands_up_through_a_whole_slate(
    size: tuple[float, float, float], nailing: Nailing, arm_exit: ArmExit, course: int
) -> None:
    """A straight arm at its least reach is clear of every slate that lies whole over it, and under no other."""
    bond = wide_bond(slate(*size, nailing=nailing))
    stands = bond.courses[course - 1].batten_y - least_reach(bond, arm_exit, 0.0)
    under = exit_course(bond, course, arm_exit)
    tails = [line.tail_y for line in bond.courses]
    assert stands <= tails[under - 1] - 0.010 + 1e-9
    assert all(tail > stands for tail in tails[under - 1 :])
    if arm_exit == "course_above":
        assert tails[under] >= bond.courses[course - 1].batten_y - 1e-9, "no tail is nearer below the block"
