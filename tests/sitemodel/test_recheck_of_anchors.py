"""The recheck of final rails: as the fixing answers when it is asked for every force on yielding anchors."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from service.intake import read_brief
from sitemodel.anchors.capacity import FixingSet
from sitemodel.anchors.recheck import HEIGHT_TOLERANCE, SPRING
from sitemodel.design import design_roof
from sitemodel.fixings.methods import utilisations
from sitemodel.rails.recheck import from_offsets, on_springs, support_stiffness

SITE = Path(__file__).parents[2] / "demo_sites" / "tested_roof"


def test_every_rail_is_rechecked_on_springs_and_out_of_line_as_if_every_force_were_asked() -> None:
    document = json.loads((SITE / "brief.json").read_text(encoding="utf-8"))
    document["layout"]["max_panels"] = 6
    brief = read_brief(document, folder=SITE)
    (plane,) = design_roof(brief).planes
    fixing = FixingSet(
        build_up=brief.build_up, hook=brief.hook, kit=brief.kit, choices=brief.site.standards, curable=False
    )
    assert plane.rails
    for rail in plane.rails:
        stiffness = support_stiffness(tuple(a.rail_x for a in rail.anchors), brief.rail.bending_stiffness)
        rigid = np.array([[f.normal for f in anchor.forces] for anchor in rail.anchors])
        soft = on_springs(rigid, stiffness, SPRING)
        change = from_offsets(stiffness, HEIGHT_TOLERANCE, SPRING)
        for extra, ours in ((0.0 * change, rail.recheck.on_springs), (change, rail.recheck.out_of_line)):
            asked = tuple(
                (
                    anchor.seat.eccentricity,
                    anchor.seat.surroundings,
                    tuple(
                        replace(force, normal=float(soft[i, case]) + sign * float(extra[i]))
                        for case, force in enumerate(anchor.forces)
                        for sign in (1.0, -1.0)
                    ),
                )
                for i, anchor in enumerate(rail.anchors)
            )
            every = utilisations(fixing.build_up, fixing.hook, fixing.kit, fixing.choices, asked, curable=False)
            assert ours == pytest.approx(max(every), rel=1e-9)
        assert rail.recheck.rigid == pytest.approx(max(a.check.utilisation for a in rail.anchors))
        assert rail.recheck.out_of_line <= rail.recheck.out_of_line_rigid + 1e-9
