"""What the report says of the anchors of one plane, and of the slates that come out for them."""

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.design import PlaneDesign
from sitemodel.fixings.method import LimitCheck
from sitemodel.report.blocks import Block, Bullets, Facts, Paragraph, Table
from sitemodel.report.verdict import ABOVE_ONE
from sitemodel.report.wording import (
    BASES,
    NONE,
    VERDICTS,
    clause,
    counted,
    decimal,
    kn,
    mm,
    n_per_mm2,
    significant,
    test_kn,
    utilisation,
)

STATES = {"ultimate": "strength", "characteristic": "characteristic", "quasi_permanent": "quasi permanent"}
"""What each limit state is called, the same on both bases: strength is ultimate, or allowable stress under ASD."""


def _level(design: PlaneDesign) -> str:
    """At which level forces are printed."""
    american = any(item.citation.source == "ASCE7-16" for item in design.combinations)
    return "at the level of the American format, see the summary" if american else "ultimate design forces"


def governing_anchor(design: PlaneDesign) -> AnchorPoint | None:
    """The anchor with the greatest utilisation; a failing one before any other."""
    rank = {"fails": 2, "holds_if_tested": 1, "holds": 0}
    return max(design.anchors, key=lambda anchor: (rank[anchor.check.verdict], anchor.check.utilisation), default=None)


def anchors(design: PlaneDesign) -> tuple[Block, ...]:
    """Every anchor: where it stands, what it carries, whether it holds."""
    if not design.anchors:
        return (Paragraph(text="No anchor stands on this plane.", strong=True),)
    places = Table(
        caption="Where the anchors stand: x and y of the block's centre, mm",
        head=(
            "anchor", "rail", "course", "bay", "x", "y", "rail x", "rail y", "to counter-batten",
            "to sip joint",
            "slates out",
        ),
        rows=tuple(
            (
                anchor.id, anchor.rail, str(anchor.seat.course), str(anchor.seat.bay), mm(anchor.seat.x),
                mm(anchor.seat.y), mm(anchor.rail_x), mm(anchor.rail_y), mm(anchor.seat.margin_to_batten),
                mm(anchor.seat.surroundings.joint_distance), str(anchor.strip.count),
            )
            for anchor in design.anchors
        ),
    )  # fmt: skip
    holding = Table(
        caption=f"What they carry ({_level(design)}, kN) and whether they hold",
        head=(
            "anchor", "up", "down", "along", "governing check", "combination", "utilisation", "verdict",
            "required f_ax, N/mm²", "pull a screw, kN", "pull an anchor, kN",
        ),
        rows=tuple(_holding(anchor) for anchor in design.anchors),
    )  # fmt: skip
    tolerance = "Distances to counter-battens are as nominal or surveyed, before tolerance."
    tested = any(
        anchor.check.verdict == "holds_if_tested" and anchor.check.utilisation > 1.0 for anchor in design.anchors
    )
    explained = (Paragraph(text=ABOVE_ONE, strong=True),) if tested else ()
    return (*explained, holding, places, Paragraph(text=tolerance))


def _holding(anchor: AnchorPoint) -> tuple[str, ...]:
    check = anchor.check
    ultimate = [forces for forces in anchor.forces if forces.limit_state == "ultimate"]
    return (
        anchor.id,
        kn(max((0.0, *(forces.normal for forces in ultimate)))),
        kn(max((0.0, *(-forces.normal for forces in ultimate)))),
        kn(max((0.0, *(forces.down_slope for forces in ultimate)))),
        check.governing.name,
        check.governing.combination.replace("_", " "),
        utilisation(check.utilisation),
        VERDICTS[check.verdict],
        n_per_mm2(check.required_f_ax),
        test_kn(check.pull_test_screw),
        test_kn(check.pull_test_anchor),
    )


def anchor_in_full(anchor: AnchorPoint) -> tuple[Block, ...]:
    """Every check of one anchor."""
    seat, check = anchor.seat, anchor.check
    pairs = (
        ("Anchor", anchor.id),
        ("Verdict", f"{VERDICTS[check.verdict]}, utilisation {utilisation(check.utilisation)}"),
        ("Method", check.method.replace("_", " ")),
        ("Block centre", f"x {mm(seat.x)} mm, y {mm(seat.y)} mm; course {seat.course}, bay {seat.bay}"),
        ("Hook reaches down-slope", f"{mm(seat.eccentricity)} mm from block centre to load line"),
        ("Nearest sip joint, nearest edge", _nearest(anchor)),
    )
    forces = Table(
        caption="Forces at the hook, kN (out of the roof positive)",
        head=("combination", "limit state", "duration", "normal", "down the slope"),
        rows=tuple(
            (
                item.combination.replace("_", " "), STATES[item.limit_state], item.duration,
                kn(item.normal), kn(item.down_slope),
            )
            for item in anchor.forces
        ),
    )  # fmt: skip
    checks = Table(
        caption="Every check, worst combination",
        head=("mode", "check", "demand", "resistance", "unit", "utilisation", "combination", "clause", "basis", "note"),
        rows=tuple(_check(item) for item in sorted(check.checks, key=lambda item: -item.utilisation)),
    )
    conditions = (Paragraph(text="True only if, on site:"), Bullets(items=check.conditions))
    return (Facts(pairs=pairs), checks, forces, *(conditions if check.conditions else ()))


def _nearest(anchor: AnchorPoint) -> str:
    around = anchor.seat.surroundings
    return f"{mm(around.joint_distance)} mm, {mm(around.edge_distance)} mm from the nearest screw"


def _check(check: LimitCheck) -> tuple[str, ...]:
    units = {"N": ("kN", 1e3), "Pa": ("N/mm²", 1e6), "N m": ("kN m", 1e3), "m": ("mm", 1e-3), "-": ("", 1.0)}
    unit, divisor = units[check.unit]
    return (
        check.mode,
        check.name,
        significant(check.demand / divisor),
        significant(check.resistance / divisor),
        unit,
        utilisation(check.utilisation),
        check.combination.replace("_", " "),
        clause(check),
        BASES[check.basis],
        check.note,
    )


def slates(design: PlaneDesign) -> tuple[Block, ...]:
    """Slates that come out, and how each goes back."""
    if not design.slates:
        return (Paragraph(text="No slate is touched."),)
    states = dict.fromkeys(("renailed", "hooked", "trimmed", "lifted"), 0)
    for slate in design.slates:
        states[slate.state] += 1
    told = ", ".join(f"{number} {state}" for state, number in states.items() if number)
    rows = tuple(
        (anchor.id, str(anchor.strip.count), ", ".join(f"{slate.tag} {slate.state}" for slate in anchor.strip.slates))
        for anchor in design.anchors
    )
    head = ("for anchor", "out", "in this order, and how each goes back")
    origin = "The bond's origin is assumed: tags and counts may shift by a slate once the joints are seen."
    flag = (Paragraph(text=origin, strong=True),) if design.bond.origin_assumed else ()
    return (
        Paragraph(text=f"{counted(len(design.slates), 'slate')} come out: {told}."),
        *flag,
        Table(caption="Slates by anchor", head=head, rows=rows),
        Paragraph(text="Two anchors may share a slate; each slate by itself, with its nails and place: slates.csv."),
    )


def build_up(design: PlaneDesign) -> tuple[Block, ...]:
    """Checks of the build-up itself."""
    rows = tuple(
        (
            check.name, check.found, check.required, "met" if check.passes else "NOT MET", check.sentence,
            check.clause or NONE,
        )
        for check in design.build_up_checks
    )  # fmt: skip
    head = ("check", "found", "required", "", "what it means", "clause")
    return (Table(caption="Build-up checks", head=head, rows=rows),)


def plane_share(design: PlaneDesign) -> str:
    """One line on the anchors of a plane, by verdict."""
    counts = dict.fromkeys(VERDICTS, 0)
    for anchor in design.anchors:
        counts[anchor.check.verdict] += 1
    return ", ".join(f"{decimal(number, 0)} {VERDICTS[name]}" for name, number in counts.items() if number)
