"""The twelve months of yield as bars."""

from markupsafe import Markup

from sitemodel.report.blocks import Drawing
from sitemodel.report.wording import decimal
from sitemodel.sun.energy import EnergyYield

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
BAR_HEIGHT = 120.0
STEP = 46.0


def yield_chart(energy: EnergyYield) -> Drawing:
    """Kilowatt hours a kilowatt peak in each month, the figure over its bar."""
    largest = max((*energy.monthly_kwh_per_kw, 1.0))
    bars = []
    for place, (month, value) in enumerate(zip(MONTHS, energy.monthly_kwh_per_kw, strict=True)):
        height = BAR_HEIGHT * max(value, 0.0) / largest
        left, foot = 8.0 + place * STEP, 26.0 + BAR_HEIGHT
        bars.append(
            f'<rect x="{left:g}" y="{foot - height:.1f}" width="34" height="{height:.1f}" fill="#777"/>'
            f'<text x="{left + 17:g}" y="{foot - height - 6:.1f}" font-size="14">{decimal(value, 0)}</text>'
            f'<text x="{left + 17:g}" y="{foot + 17:g}" font-size="14">{month}</text>'
        )
    svg = (
        f'<svg class="chart" viewBox="0 0 {8 + 12 * STEP:g} {BAR_HEIGHT + 50:g}" role="img" '
        f'aria-label="Yield by month">{"".join(bars)}</svg>'
    )
    return Drawing(svg=Markup(svg), caption="Yield by month, kWh a kW of panels", wide=False)  # noqa: S704
