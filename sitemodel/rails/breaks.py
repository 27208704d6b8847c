"""Where a long row's rails are parted: the cheapest of all ways to cut a run into pieces that are short enough."""

from collections.abc import Callable


def best_breaks(
    count: int, allowed: Callable[[int, int], bool], cost: Callable[[int, int], tuple[int, ...]]
) -> tuple[int, ...]:
    r"""Places at which a run of so many panels is cut, by a programme over its gaps; exact.

    .. math:: h_0 = 0, \quad h_p = \min_{q < p} \left( h_q + K(q, p) \right)

    Costs are added place by place and compared from their first number on; then fewer pieces, then more equal ones.

    Args:
        count: panels in the run.
        allowed: whether panels q to before p may lie on one pair of rails.
        cost: of such a piece: whole numbers, the most important one first.

    Returns:
        The first panel of every piece but the first; empty also where no way is allowed.

    Example:
        >>> best_breaks(5, lambda q, p: p - q <= 3, lambda q, p: ({1: 2, 2: 4, 3: 5}[p - q],))
        (2,)
        >>> best_breaks(4, lambda q, p: p - q <= 2, lambda q, p: (3,))
        (2,)
    """
    best: list[tuple[tuple[int, ...], tuple[int, ...]] | None] = [((), ())]
    for last in range(1, count + 1):
        ways = []
        for first in range(last):
            before = best[first]
            if before is None or not allowed(first, last):
                continue
            own = (*cost(first, last), 1, (last - first) ** 2)
            added = tuple(a + b for a, b in zip(before[0], own, strict=True)) if before[0] else own
            ways.append((added, (*before[1], first)))
        best.append(min(ways, default=None))
    found = best[count]
    return () if found is None else found[1][1:]
