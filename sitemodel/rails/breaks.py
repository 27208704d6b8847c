"""Where a long row's rails are parted: the cheapest of all ways to cut a run into pieces that are short enough."""

from collections.abc import Callable
from itertools import pairwise

Cost = tuple[int, ...]
CostOf = Callable[[int, int], Cost]


def best_breaks(
    count: int, allowed: Callable[[int, int], bool], cost: CostOf, least: CostOf | None = None
) -> tuple[int, ...]:
    r"""Places at which a run of so many panels is cut, by a programme over its gaps; exact.

    .. math:: h_0 = 0, \quad h_p = \min_{q < p} \left( h_q + K(q, p) \right)

    Costs are added place by place and compared from their first number on; then fewer pieces, then more equal ones.
    Where a bound is given, pieces count at their bound until the best way rests on them: a way that is beaten at its
    bounds is beaten, so that the answer is the same and most pieces are never asked for.

    Args:
        count: panels in the run.
        allowed: whether panels q to before p may lie on one pair of rails.
        cost: of such a piece: whole numbers, the most important one first.
        least: of such a piece, never more than its cost; without it every piece is asked for.

    Returns:
        The first panel of every piece but the first; empty also where no way is allowed.

    Example:
        >>> best_breaks(5, lambda q, p: p - q <= 3, lambda q, p: ({1: 2, 2: 4, 3: 5}[p - q],))
        (2,)
        >>> best_breaks(4, lambda q, p: p - q <= 2, lambda q, p: (3,))
        (2,)
    """
    pieces = [(q, p) for p in range(1, count + 1) for q in range(p) if allowed(q, p)]
    known = {piece: (least or cost)(*piece) for piece in pieces}
    asked = set() if least else set(pieces)
    while True:
        starts = _cheapest_way(count, known)
        rests_on = [piece for piece in pairwise((*starts, count)) if piece not in asked]
        if not rests_on or not starts:
            return starts[1:]
        for piece in rests_on:
            known[piece] = cost(*piece)
        asked |= set(rests_on)


def _cheapest_way(count: int, known: dict[tuple[int, int], Cost]) -> tuple[int, ...]:
    """The first panels of the pieces of the cheapest way; empty where there is none."""
    ways: dict[int, list[tuple[int, Cost]]] = {}
    for (first, last), own in known.items():
        ways.setdefault(last, []).append((first, (*own, 1, (last - first) ** 2)))
    best: dict[int, tuple[Cost, tuple[int, ...]]] = {0: ((), ())}
    for last in range(1, count + 1):
        found = [
            (_sum(best[first][0], own), (*best[first][1], first)) for first, own in ways.get(last, ()) if first in best
        ]
        if found:
            best[last] = min(found)
    return best[count][1] if count in best else ()


def _sum(so_far: Cost, own: Cost) -> Cost:
    return tuple(a + b for a, b in zip(so_far, own, strict=True)) if so_far else own
