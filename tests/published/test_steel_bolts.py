"""Bolts: a bolt-tension value of an open library's test suite, and strength classes from a public fastener table."""

import pytest

from sitemodel.standards.fasteners_iso3506 import tensile_strength
from sitemodel.standards.steel_en1993_1_8 import bolt_tension
from tests.published.conftest import Printed


@pytest.mark.published("XC-TESTS", "connection_design/test_bolt_tension_01.py, M20 10.9")
def test_bolt_tension(printed: Printed) -> None:
    printed("F_t,Rd, kN", "176.4", bolt_tension(1000e6, 245e-6, 1.25) / 1e3)


@pytest.mark.published("METRIC-FASTENERS", "stainless property classes")
def test_stainless_classes(printed: Printed) -> None:
    for mark, value in (("A2-50", "500"), ("A2-70", "700"), ("A4-80", "800")):
        printed(f"R_m {mark}, N/mm2", value, tensile_strength(mark) / 1e6)
