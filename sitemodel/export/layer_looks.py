"""How each layer is drawn on opening the GeoPackage: shapes, hatches and words first, colour second."""

from sitemodel.export.styles import LayerStyle, Look, Writing

NEAR = 18
"""1 in so much: nearer than that a slate is large enough for its tag; further off only its number is written."""
FAR = 90
"""Further off nothing is written on slates and anchors."""
ON_THE_MARGIN = (
    "CASE WHEN num_points($geometry) = 5 THEN make_point("
    "0.425 * (x(point_n($geometry, 1)) + x(point_n($geometry, 4))) + 0.075 * (x(point_n($geometry, 2)) + "
    "x(point_n($geometry, 3))), 0.425 * (y(point_n($geometry, 1)) + y(point_n($geometry, 4))) + 0.075 * "
    "(y(point_n($geometry, 2)) + y(point_n($geometry, 3)))) ELSE point_on_surface($geometry) END"
)
"""On what shows of a slate, a seventh of its length up; a whole slate begins at the right end of its tail."""


def _marker(value: str, shape: str, colour: str) -> Look:
    options = (("name", shape), ("color", colour), ("outline_color", "0,0,0,255"), ("size", "3"))
    return Look(value=value, options=options)


def _line(colour: str, width: str, pattern: str = "solid") -> tuple[Look, ...]:
    options = (("line_color", colour), ("line_width", width), ("line_style", pattern))
    return (Look(value="", options=options),)


def _fill(value: str, pattern: str, colour: str, width: str = "0.26") -> Look:
    options = (
        ("style", pattern), ("color", colour), ("outline_color", "60,60,60,255"), ("outline_width", width),
    )  # fmt: skip
    return Look(value=value, options=options)


_SECTOR_SHADES: tuple[tuple[str, str], ...] = (
    ("0", "150,150,150,150"), ("I", "175,175,175,150"), ("II", "200,200,200,150"), ("III", "225,225,225,150"),
    ("IV", "250,250,250,150"), ("D", "150,150,150,150"), ("C", "200,200,200,150"), ("B", "240,240,240,150"),
)  # fmt: skip
"""The smoother the ground the darker."""
_SECTOR_WORDS = (
    """round("direction_deg") || '°, ' || "category" || '\\n' || """
    """format_number("peak_velocity_pressure_pa" / 1000, 2) || ' kN/m²'"""
)

_ZONE_LOOKS: dict[str, tuple[str, str]] = {
    "corner": ("diagonal_x", "120,120,120,160"),
    "verge": ("f_diagonal", "120,120,120,160"),
    "strip": ("b_diagonal", "120,120,120,160"),
    "ridge": ("vertical", "120,120,120,160"),
    "side": ("horizontal", "120,120,120,160"),
    "field": ("no", "0,0,0,0"),
}
_ZONE_KINDS: tuple[tuple[str, str], ...] = (
    ("F", "corner"), ("F_up", "corner"), ("F_low", "corner"), ("G", "verge"), ("H", "field"), ("I", "field"),
    ("J", "strip"), ("K", "ridge"), ("L", "corner"), ("M", "side"), ("N", "field"),
    ("1", "field"), ("2e", "verge"), ("2n", "verge"), ("2r", "ridge"), ("3", "corner"), ("3e", "corner"),
    ("3r", "corner"),
)  # fmt: skip
"""Every zone of both sets of standards, and how it is hatched."""

STYLES: tuple[LayerStyle, ...] = (
    LayerStyle(
        layer="roof_planes",
        attribute="",
        kind="fill",
        description="Outlined",
        looks=(_fill("", "no", "0,0,0,0", "0.8"),),
        writings=(Writing(expression='"id"', nearest=FAR, size=9),),
    ),
    LayerStyle(
        layer="wind_sectors",
        attribute="category",
        kind="fill",
        description="Shaded by terrain, with bearing, category and peak pressure; the sector that governs in bold",
        looks=tuple(_fill(category, "solid", shade, "0.18") for category, shade in _SECTOR_SHADES),
        writings=(
            Writing(expression=f'CASE WHEN NOT "governs" THEN {_SECTOR_WORDS} END'),
            Writing(expression=f'CASE WHEN "governs" THEN {_SECTOR_WORDS} END', size=9.0, bold=True),
        ),
    ),
    LayerStyle(
        layer="wind_zones",
        attribute="zone",
        kind="fill",
        description="The envelope, hatched by the letter of the zone that governs uplift",
        label="zone",
        only=("direction", "envelope"),
        looks=tuple(_fill(letter, *_ZONE_LOOKS[kind]) for letter, kind in _ZONE_KINDS),
    ),
    LayerStyle(
        layer="sip_joints",
        attribute="",
        kind="line",
        description="Dots and dashes",
        looks=_line("0,0,0,255", "0.4", "dash dot"),
    ),
    LayerStyle(
        layer="counter_battens",
        attribute="",
        kind="line",
        description="Dashes",
        looks=_line("90,90,90,255", "0.4", "dash"),
    ),
    LayerStyle(
        layer="battens",
        attribute="",
        kind="line",
        description="Thin lines",
        looks=_line("150,150,150,255", "0.2"),
    ),
    LayerStyle(
        layer="slates",
        attribute="state",
        kind="fill",
        description="Hatched by what happens to the slate, higher courses over lower ones, with order, tag and state",
        looks=(
            _fill("lifted", "no", "0,0,0,0"),
            _fill("renailed", "solid", "225,225,225,255", "0.4"),
            _fill("trimmed", "b_diagonal", "40,40,40,255", "0.7"),
            _fill("hooked", "dense6", "90,90,90,255", "0.4"),
        ),
        writings=(
            Writing(expression='"order" || \'\n\' || "tag" || \'\n\' || "state"', farthest=NEAR, size=8, bold=True),
            Writing(expression='"order"', nearest=NEAR, farthest=FAR, size=6, bold=True),
        ),
        written_at=ON_THE_MARGIN,
        rising="course",
        backed=True,
    ),
    LayerStyle(
        layer="obstructions",
        attribute="",
        kind="fill",
        description="Crossed",
        looks=(_fill("", "cross", "60,60,60,255", "0.6"),),
    ),
    LayerStyle(
        layer="panels",
        attribute="orientation",
        kind="fill",
        description="Outlined; slates show through",
        looks=(
            _fill("portrait", "no", "0,0,0,0", "0.9"),
            _fill("landscape", "no", "0,0,0,0", "0.9"),
        ),
    ),
    LayerStyle(
        layer="rails",
        attribute="",
        kind="line",
        description="Thick lines",
        looks=_line("0,0,0,255", "0.7"),
    ),
    LayerStyle(
        layer="anchors",
        attribute="verdict",
        kind="marker",
        description="A shape for each verdict; near by its name",
        looks=(
            _marker("holds", "circle", "0,0,0,255"),
            _marker("holds_if_tested", "diamond", "255,255,255,255"),
            _marker("fails", "cross_fill", "200,30,30,255"),
        ),
        writings=(Writing(expression='"id"', farthest=NEAR, size=8),),
    ),
)
