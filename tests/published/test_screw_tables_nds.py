"""NDS 2018, rows of Tables 12.2B and 12.3.3 recalled from memory, not checked against the document."""

import pytest

from sitemodel.standards import timber_nds as nds
from tests.published.conftest import Printed

SIZES = {6: 0.138, 7: 0.151, 8: 0.164, 9: 0.177, 10: 0.190, 12: 0.216, 14: 0.242, 16: 0.268, 18: 0.294, 20: 0.320}


@pytest.mark.parametrize(
    ("gravity", "row"),
    [
        (0.55, {6: "119", 8: "141", 10: "164", 12: "186", 14: "209"}),
        (0.50, {6: "98", 7: "108", 8: "117", 9: "126", 12: "154", 16: "191", 18: "209", 20: "228"}),
    ],
)
@pytest.mark.published("NDS2018", "Table 12.2B, wood screws in withdrawal (from memory)")
def test_wood_screws(printed: Printed, gravity: float, row: dict[int, str]) -> None:
    for size, value in row.items():
        ours = nds.wood_screw_withdrawal(gravity, SIZES[size] * nds.INCH) / nds.POUND * nds.INCH
        printed(f"W, No. {size}, G {gravity}, lb/in", value, ours)


@pytest.mark.published("NDS2018", "Table 12.3.3, dowel bearing below a quarter inch (from memory)")
def test_dowel_bearing(printed: Printed) -> None:
    rows = {0.55: "5550", 0.46: "4000", 0.43: "3500", 0.42: "3350", 0.37: "2650", 0.36: "2550", 0.35: "2400"}
    for gravity, value in rows.items():
        printed(f"F_e, G {gravity}, psi", value, nds.bearing_strength(gravity) / nds.PSI)
