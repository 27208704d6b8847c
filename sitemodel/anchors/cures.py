"""What would cure a failing check, in words a designer can act on."""

CURES: tuple[tuple[str, str], ...] = (
    ("a1", "a hook whose declared resistance is higher, or more anchors where seats allow"),
    ("a2", "larger or more bolts"),
    ("a3", "a larger washer under the bolt head, or a block with declared higher bearing and pull-through values"),
    ("a4", "two bolt rows further apart up the slope, a longer foot plate, or a hook with a shorter reach"),
    ("a5", "a thicker or wider block, with battens and gap to match"),
    ("a6", "screws with larger heads"),
    ("a7", "stronger screws"),
    ("a8", "pull tests that show a higher f_ax, a block longer up the slope, more screws, or a shorter hook reach"),
    ("a9", "a thicker skin, or screws set further apart"),
    ("a10", "a thicker skin, or a block longer up the slope"),
    ("a11", "a documented bond strength of the panel, a block longer up the slope, or a shorter hook reach"),
    ("a12s", "a block longer up the slope, or a stronger foam class"),
    ("a12", "a block longer up the slope, a stronger foam class, or fewer panels in the snow's way"),
    ("a13", "more screws, a higher tested f_ax, or more anchors to share the down-slope force"),
    ("a1d", "a stiffer hook, a hook with more clearance over the slate, or more anchors"),
    ("b0", "access to the room side, or another method"),
    ("b1", "larger or more bolts"),
    ("b2", "a larger inner plate"),
    ("b2b", "a larger inner plate"),
    ("b2p", "a thicker inner plate"),
    ("b3", "a larger inner plate, a second bolt up the slope, or a shorter hook reach"),
    ("b3s", "a larger inner plate, or fewer panels in the snow's way"),
    ("b3o", "a block longer up the slope, or a shorter hook reach"),
    ("b3os", "a block longer up the slope, or fewer panels in the snow's way"),
    ("b4", "less clamp force, a larger inner plate, or a spacer sleeve between the skins"),
    ("b5", "larger or more bolts, or more anchors to share the down-slope force"),
    ("c1", "pulls on this skin that show more, more anchors in the group, or another method"),
    ("c2", "wings that span further, or a thicker skin"),
    ("c2b", "wings that span further, or a thicker skin"),
    ("c2t", "a documented bond strength of the panel, or wings further apart"),
    ("c3", "larger or more bolts"),
    ("c4", "larger or more bolts, or more anchors to share the down-slope force"),
    ("a15", "a seat further from the sip joint or edge"),
)
OTHERWISE = (
    "more seats (a narrower block, a smaller counter-batten tolerance after a survey), or fewer panels on the row"
)


def cure_for(mode: str) -> str:
    """The cure of one failure mode; with the general one behind it.

    Example:
        >>> cure_for("a1").startswith("a hook whose declared resistance")
        True
    """
    own = dict(CURES).get(mode, "")
    return f"{own}; or {OTHERWISE}" if own else OTHERWISE
