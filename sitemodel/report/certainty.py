"""What the report says of how few the anchors are, what if they yield, and where to probe first."""

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.design import PlaneDesign
from sitemodel.report.blocks import Block, Bullets, Paragraph, Table
from sitemodel.report.wording import NONE, decimal, mm, utilisation
from sitemodel.units import Metres

PROBED = 8
"""So many anchors are listed to be probed first."""


def certainty(design: PlaneDesign) -> tuple[Block, ...]:
    """The proof of every rail, and the rails on other supports."""
    if not design.rails:
        return (Paragraph(text="No rail on this plane."),)
    proof = Table(
        caption="Fewest anchors under each rail, and what is proved",
        head=("rail", "anchors", "no fewer than", "slates, sum over its anchors", "with what else they disturb",
        "no less than", "worst use", "no lower than", "status"),
        rows=tuple(
            (
                rail.run.id, str(rail.proof.found), str(rail.proof.lower),
                str(sum(anchor.strip.count for anchor in rail.anchors)), decimal(rail.proof.disturbance, 2),
                decimal(rail.proof.disturbance_lower, 2),
                utilisation(rail.proof.utilisation), utilisation(rail.proof.utilisation_lower), rail.proof.status,
            )
            for rail in design.rails
        ),
    )  # fmt: skip
    words = Bullets(items=tuple(f"{rail.run.id}: {rail.proof.sentence}." for rail in design.rails))
    explained = Paragraph(
        text="Proved optimal: no arrangement of fewer anchors on the tabulated seats holds, with the resistance named "
        "below; proved none: no arrangement holds at all. Seats are robust, clear of the counter-battens wherever "
        "these stand within their tolerance, unless it is said below. Open: the number needed lies between the "
        "bounds. Slates are "
        "counted with what else they disturb, in slates: a ripped nail a quarter, a slate that does not get both nails "
        "back a half, a slate-and-a-half or cut slate one more. That sum is the lowest at that number of anchors, and "
        "the worst use the lowest at both, as far as their bounds "
        "tell; 0 is no bound."
    )
    return (explained, proof, words, *_recheck(design))


def _recheck(design: PlaneDesign) -> tuple[Block, ...]:
    held = tuple(rail for rail in design.rails if len(rail.anchors) > 1)
    if not held:
        return ()
    spring, tolerance = held[0].recheck.spring, held[0].recheck.tolerance
    table = Table(
        caption="Largest use of an anchor, resistances as they stand",
        head=("rail", "rigid, in line", "yielding, in line", "yielding, out of line", "rigid, out of line"),
        rows=tuple(
            (
                rail.run.id, utilisation(rail.recheck.rigid), utilisation(rail.recheck.on_springs),
                utilisation(rail.recheck.out_of_line), utilisation(rail.recheck.out_of_line_rigid),
            )
            for rail in held
        ),
    )  # fmt: skip
    text = (
        f"Recheck: the same rails on anchors that yield a millimetre under {spring / 1e6:.2g} kN, and with every "
        f"anchor up to {tolerance * 1e3:g} mm too high or too low, the worst for each. Both numbers are choices of "
        "this project; neither changes the verdict. The last column is an upper bound, large where two anchors stand "
        "close together: level such a rail with shims before it is tightened, or slack it off and tighten it again."
    )
    return (Paragraph(text=text), table)


def probes(design: PlaneDesign, tolerance: Metres) -> tuple[Block, ...]:
    """Margins to the counter-battens: the tightest first."""
    if not design.anchors:
        return (Paragraph(text="No anchor stands on this plane."),)
    first = sorted(design.anchors, key=lambda anchor: (anchor.seat.margin_to_batten, anchor.id))[:PROBED]
    table = Table(
        caption="Probe here first: the anchors with the least room",
        head=(
            "anchor", "rail", "bay", "x, mm", "room left, mm", "room right, mm", "least beyond the tolerance, mm",
            "robust",
        ),
        rows=tuple(_probe(anchor, tolerance) for anchor in first),
    )  # fmt: skip
    loose = sum(not anchor.seat.robust for anchor in design.anchors)
    fits = (
        "every block fits its bay wherever they do"
        if not loose
        else f"{loose} of {len(design.anchors)} blocks fit only where they are drawn (not robust): survey these first"
    )
    text = (
        f"Counter-battens may stand {mm(tolerance)} mm to either side of where they are drawn; {fits}. "
        "Anchors with little left beyond that are opened first: one wrong bay shows there. "
        "Measured lines entered in the brief replace the drawn ones, and the anchors are placed again."
    )
    return (Paragraph(text=text), table)


def _probe(anchor: AnchorPoint, tolerance: Metres) -> tuple[str, ...]:
    spare = anchor.seat.margin_to_batten - tolerance
    return (
        anchor.id, anchor.rail or NONE, str(anchor.seat.bay), mm(anchor.seat.x), mm(anchor.seat.margin_left),
        mm(anchor.seat.margin_right), mm(spare), "yes" if anchor.seat.robust else "no",
    )  # fmt: skip
