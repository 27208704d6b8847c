"""Where long rails are parted: no other way is cheaper."""

from itertools import chain, combinations, pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from sitemodel.rails.breaks import best_breaks

FAST = settings(max_examples=50, deadline=None, derandomize=True)


@st.composite
def rows(draw: st.DrawFn) -> tuple[int, int, dict[tuple[int, int], tuple[int, int]]]:
    """Panels, the longest piece, and what every piece costs: rails that nothing holds, and anchors."""
    count, longest = draw(st.integers(1, 8)), draw(st.integers(1, 8))
    costs = {
        (first, last): (int(draw(st.integers(0, 9)) == 0), draw(st.integers(2, 12)))
        for first in range(count)
        for last in range(first + 1, count + 1)
    }
    return count, longest, costs


@FAST
@given(rows())
def test_no_way_to_part_a_run_is_cheaper(row: tuple[int, int, dict[tuple[int, int], tuple[int, int]]]) -> None:
    count, longest, costs = row
    found = best_breaks(count, lambda a, b: b - a <= longest, lambda a, b: costs[a, b])

    def key(cuts: tuple[int, ...]) -> tuple[int, ...]:
        pieces = list(pairwise((0, *cuts, count)))
        own = [costs[piece] for piece in pieces]
        return sum(c[0] for c in own), sum(c[1] for c in own), len(pieces), sum((b - a) ** 2 for a, b in pieces)

    ways = chain.from_iterable(combinations(range(1, count), k) for k in range(count))
    legal = [way for way in ways if all(b - a <= longest for a, b in pairwise((0, *way, count)))]
    assert found in legal
    assert key(found) == min(key(way) for way in legal)


@FAST
@given(rows(), st.integers(0, 5))
def test_a_bound_changes_nothing_but_what_is_asked(
    row: tuple[int, int, dict[tuple[int, int], tuple[int, int]]], slack: int
) -> None:
    count, longest, costs = row
    asked = []

    def cost(a: int, b: int) -> tuple[int, int]:
        asked.append((a, b))
        return costs[a, b]

    every = best_breaks(count, lambda a, b: b - a <= longest, lambda a, b: costs[a, b])
    assert every == best_breaks(count, lambda a, b: b - a <= longest, cost, lambda a, b: (0, costs[a, b][1] - slack))
    assert len(asked) == len(set(asked)) <= len(costs)


def test_where_no_way_is_short_enough_there_is_none() -> None:
    assert best_breaks(3, lambda a, b: False, lambda a, b: (1,)) == ()
