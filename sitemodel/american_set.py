"""AmericanSet: the American set of standards as one frozen value, never mixed with a European one."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.sources import Citation
from sitemodel.units import Metres, Ratio

DesignFormat = Literal["ASD", "LRFD"]
ExposureCategory = Literal["B", "C", "D"]
RiskCategory = Literal["I", "II", "III", "IV"]
EDITIONS = ("ASCE/SEI 7-16", "NDS 2018")
"""The editions that the set is made of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AmericanSet:
    """What an American design chooses.

    ``citations`` names for each field where its value comes from; the report prints them.
    """

    design_format: DesignFormat
    exposure: ExposureCategory
    risk_category: RiskCategory
    topographic_factor: Ratio
    """K_zt as stated; a terrain profile may ask for more."""
    directionality: Ratio
    """K_d."""
    altitude: Metres
    """Of the ground for K_e; 0 where it was not stated, which is the safe side."""
    snow_exposure_factor: Ratio
    snow_thermal_factor: Ratio
    citations: tuple[tuple[str, Citation], ...]

    @property
    def name(self) -> str:
        """What the set is called in reports and files."""
        return f"american, {self.design_format}, {', '.join(EDITIONS)}"

    @property
    def force_level(self) -> str:
        """The level at which forces on anchors are printed."""
        if self.design_format == "ASD":
            return (
                "forces on anchors are at allowable-stress level (ASD, ASCE/SEI 7-16, 2.4.1), "
                "wind pressures at strength level"
            )
        return "forces on anchors and wind pressures are at strength level (LRFD, ASCE/SEI 7-16, 2.3.1)"

    def citation_of(self, field: str) -> Citation:
        """The citation of one field."""
        return dict(self.citations)[field]
