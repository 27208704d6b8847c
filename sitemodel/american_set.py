"""AmericanSet: the American set of standards as one frozen value, never mixed with a European one."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.sources import Citation
from sitemodel.units import Degrees, Metres, Ratio

DesignFormat = Literal["ASD", "LRFD"]
ExposureCategory = Literal["B", "C", "D"]
RiskCategory = Literal["I", "II", "III", "IV"]
TopographicShape = Literal["ridge", "escarpment", "hill"]
EDITIONS = ("ASCE/SEI 7-16", "NDS 2018")
"""The editions that the set is made of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TopographicCondition:
    """One condition of ASCE/SEI 7-16, 26.8.1, on one feature."""

    key: str
    asks: str
    limit: str
    found: str
    holds: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TopographicFeature:
    """A ridge, escarpment or hill fitted to the ground along one wind direction (Figure 26.8-1)."""

    shape: TopographicShape
    height: Metres
    """H."""
    half_length: Metres
    """L_h, upwind from the crest to half the height."""
    distance: Metres
    """x of the site from the crest, negative upwind."""
    ray: Degrees
    """The direction of the profile it was fitted to."""
    conditions: tuple[TopographicCondition, ...]
    factor_if_all_held: Ratio
    """K_zt of the figure, whatever the conditions say."""

    @property
    def counts(self) -> bool:
        """Whether every condition holds."""
        return all(condition.holds for condition in self.conditions)


@dataclass(frozen=True, slots=True, kw_only=True)
class AmericanSector:
    """One of twelve wind directions as read from a map."""

    direction: Degrees
    exposure: ExposureCategory
    rule: str
    """Why this exposure, in words."""
    topographic_factor: Ratio
    """K_zt; 1 where a condition is broken."""
    topographic_reason: str
    features: tuple[TopographicFeature, ...]
    """The feature looked at; empty where the ground counts as flat."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AmericanGround:
    """The twelve directions clockwise from north, and what an engineer must look at."""

    sectors: tuple[AmericanSector, ...]
    flags: tuple[str, ...]


NO_MAP = AmericanGround(sectors=(), flags=())
"""Exposure and topography as stated, nothing read from a map."""


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
    ground: AmericanGround = NO_MAP

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
