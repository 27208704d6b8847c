"""What the report says of a design beside an earlier one."""

import math

from sitemodel.design import DesignChanges
from sitemodel.report.blocks import Block, Paragraph, Table
from sitemodel.report.wording import NONE, mm

SHOWN = {"stays": "stays", "moved": "moved", "vanished": "vanished", "new": "new"}


def changes(found: DesignChanges) -> tuple[Block, ...]:
    """Every anchor that does not stay where it was, or whose earlier place is blocked."""
    rows = tuple(
        (
            change.earlier_id or NONE, change.id or NONE, change.rail, SHOWN[change.what], _place(change.earlier_x),
            _place(change.x), _place(change.x - change.earlier_x), _place(change.room),
        )
        for change in found.anchors
        if change.what != "stays" or change.room < 0.0
    )  # fmt: skip
    head = (
        "anchor before", "anchor now", "rail", "", "x before, mm", "x now, mm", "moved by, mm",
        "room at the earlier place, mm",
    )  # fmt: skip
    told = Paragraph(text=found.sentence, strong=True)
    if not rows:
        return (told,)
    explained = Paragraph(
        text="Room is from the block's edge to the nearest counter-batten as it now stands; less than 0: the block "
        "would stand on it. Anchors are numbered anew in every design: mark out by the new numbers only."
    )
    return (told, explained, Table(caption="Anchors that changed", head=head, rows=rows))


def _place(value: float) -> str:
    return NONE if math.isnan(value) else mm(value)
