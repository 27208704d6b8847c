"""What readings of pull tests proved, and where to pull."""

from sitemodel.buildup import BuildUp, sip_joint_positions
from sitemodel.design import Design, PlaneDesign
from sitemodel.pull_tests import Candidate, Evaluation, f_ax_of, proof_rule, sample_plan
from sitemodel.report.blocks import Block, Bullets, Paragraph, Table
from sitemodel.report.wording import decimal, kn, lowered, test_kn


def readings(design: Design) -> tuple[Block, ...]:
    """Every series that the brief holds, and what it proves."""
    found = design.brief.pull_tests
    if not found:
        return ()
    rows = tuple(_row(evaluation) for evaluation in found)
    head = ("series", "specimen", "pulls", "mean, kN", "variation", "characteristic, kN", "f_ax, N/mm²", "counts",
            "by")  # fmt: skip
    ways = tuple(
        (e.series.name, way.method, kn(way.value) if way.value > 0.0 else "none", decimal(way.factor, 2),
         way.citation.text(), way.note)
        for e in found
        for way in e.estimates
    )  # fmt: skip
    remarks = tuple(f"{e.series.name}: {line}" for e in found for line in e.remarks)
    return (
        Paragraph(text="Readings handed in with the brief; every one is counted."),
        Table(caption="What the readings prove", head=head, rows=rows),
        *((Bullets(items=remarks),) if remarks else ()),
        Table(
            caption="The same readings by every method",
            head=("series", "method", "characteristic, kN", "factor", "source", "note"),
            rows=ways,
        ),
    )


def _row(found: Evaluation) -> tuple[str, ...]:
    series = found.series
    f_ax = lowered(f_ax_of(found) / 1e6, 2) if series.specimen == "single_screw" else "–"
    return (
        series.name, series.specimen.replace("_", " "), str(len(series.readings)), kn(found.mean),
        decimal(found.variation, 2), lowered(found.characteristic / 1e3, 2), f_ax,
        "as tested" if found.enough else "no: fewer than five", found.counted,
    )  # fmt: skip


def where_to_pull(design: Design) -> tuple[Block, ...]:
    """The sample plan and the proof test of the whole roof."""
    candidates = tuple(candidate for plane in design.planes for candidate in _candidates(plane, design.brief.build_up))
    if not candidates:
        return ()
    plan = sample_plan(candidates)
    blocks: list[Block] = [
        Table(
            caption="Where to pull single screws, beside the anchor named",
            head=("anchor", "plane", "why there"),
            rows=tuple((pick.anchor, pick.plane, pick.why) for pick in plan.picks),
        ),
        Bullets(items=plan.sentences),
    ]
    action = max(candidate.uplift for candidate in candidates)
    if action > 0.0:
        rule = proof_rule(action, len(candidates))
        blocks.append(
            Paragraph(
                text=f"Proof test after installation: {rule.number} of {len(candidates)} anchors to "
                f"{test_kn(rule.load)} kN ({rule.factor:g} times the characteristic uplift), held {rule.hold:g} s with "
                f"a drop of load of {rule.largest_drop * 100:g} per cent at most; one failure: six and 5 per cent; "
                f"more: all, and specify anew ({rule.citation.text()}). {rule.remarks[0]}"
            )
        )
    return tuple(blocks)


def _candidates(plane: PlaneDesign, build_up: BuildUp) -> tuple[Candidate, ...]:
    joints = sorted(line.bounds[0] for line in sip_joint_positions(plane.plane, build_up))
    return tuple(
        Candidate(
            id=anchor.id,
            plane=plane.plane.id,
            utilisation=anchor.check.utilisation,
            sip=sum(joint < anchor.seat.x for joint in joints) + 1 if joints else 0,
            x=anchor.seat.x,
            y=anchor.seat.y,
            edge_distance=anchor.seat.surroundings.edge_distance,
            uplift=max((f.normal for f in anchor.forces if f.limit_state == "characteristic"), default=0.0),
        )
        for anchor in plane.anchors
    )
