"""Exposure and K_zt by direction in the report of an American design whose ground was read from a map."""

from sitemodel.american_loads import DirectionPressure, pressures_by_direction
from sitemodel.report.blocks import Block, Bullets, Table
from sitemodel.report.wording import decimal, kpa
from sitemodel.site import Site

HEAD = ("wind from, °", "exposure", "K_z", "K_zt", "q_h, kN/m²", "why this exposure", "why this K_zt")


def direction_blocks(site: Site) -> tuple[Block, ...]:
    """The table of directions, the conditions of each feature, and what an engineer must look at."""
    found = pressures_by_direction(site, site.american) if site.american is not None else ()
    if not found or site.american is None:
        return ()
    table = Table(
        caption="Wind by direction: the largest q_h counts for every zone (ASCE/SEI 7-16, 26.7.4.3)",
        head=HEAD,
        rows=tuple(_row(item) for item in found),
    )
    flags = site.american.ground.flags
    return (table, *_conditions(found), *((Bullets(items=flags),) if flags else ()))


def _row(item: DirectionPressure) -> tuple[str, ...]:
    sector = item.sector
    return (
        f"{sector.direction:g}", sector.exposure, decimal(item.coefficient, 3), decimal(item.topographic, 2),
        kpa(item.pressure), sector.rule, sector.topographic_reason,
    )  # fmt: skip


def _conditions(found: tuple[DirectionPressure, ...]) -> tuple[Block, ...]:
    features = [(item.sector.direction, feature) for item in found for feature in item.sector.features]
    if not features:
        return ()
    words = "; ".join(f"{c.key} {c.asks}" for c in features[0][1].conditions)
    rows = tuple(
        (
            f"{direction:g}",
            *(f"{c.found} ({c.limit})" if c.holds else f"NO: {c.found} ({c.limit})" for c in feature.conditions),
            f"yes, {decimal(feature.factor_if_all_held, 2)}" if feature.counts else "NO, 1.00",
        )
        for direction, feature in features
    )
    head = ("wind from, °", *(c.key for c in features[0][1].conditions), "all hold, K_zt")
    caption = f"Conditions of ASCE/SEI 7-16, 26.8.1 (from memory), on the ground of the map: {words}"
    return (Table(caption=caption, head=head, rows=rows),)
