"""How wide the roof zones are: the edge width a, and each zone's place and widths."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.calculations.record import OutsideMethod, Step, within
from specgen.calculations.wind_coefficients import roof_figure
from specgen.calculations.wind_layouts import LAYOUTS, Layout
from specgen.calculations.wind_velocity import HEIGHT_LIMITS_FT

# Six feet is twice the least edge width of 3 ft: below it a roof is all corner.
PLAN_LIMITS_FT = (6.0, 2000.0)
_LOW_SLOPE_DEG, _LARGE_PLAN_FT = 7.0, 300.0


@dataclass(frozen=True, slots=True)
class EdgeWidth:
    """The edge width a in ft; ``least_ft`` is the least horizontal dimension it was made from."""

    a_ft: float
    least_ft: float
    height_ft: float
    capped: bool

    @property
    def steps(self) -> tuple[Step, ...]:
        """The edge width, worked."""
        least, h = self.least_ft, self.height_ft
        formula = "max(min(0.1 B, 0.4 h), 0.04 B, 3)"
        worked = f"max(min(0.1 x {least:g}, 0.4 x {h:g}), 0.04 x {least:g}, 3)"
        if self.capped:
            formula, worked = f"min({formula}, 0.8 h)", f"min({worked}, 0.8 x {h:g})"
        source = "ASCE 7 Figures 30.3-2A to 2G, notation"
        return (
            Step("B", "least horizontal dimension", least, "ft"),
            Step("a", "edge width", self.a_ft, "ft", formula, worked, source),
        )


@dataclass(frozen=True, slots=True)
class ZoneWidth:
    """How wide a zone is drawn: ``place`` in words, widths in ft, in plan, from the edge.

    ``width_ft`` is None for the zone that takes the rest. ``length_ft`` is the other side of a
    corner, None for a strip that runs the whole edge. ``formula`` is in a or h.
    """

    zone: str
    place: str
    width_ft: float | None
    length_ft: float | None
    formula: str


def edge_width(
    *,
    building_length_ft: float,
    building_width_ft: float,
    mean_roof_height_ft: float,
    roof_angle_deg: float,
) -> EdgeWidth:
    """The edge width a of ASCE 7 chapter 30, in ft.

    a = the smaller of 0.1 B and 0.4 h, but not less than 0.04 B or 3 ft; B the least horizontal
    dimension. For roofs to 7 degrees and B over 300 ft, a need not exceed 0.8 h. Raises
    OutsideMethod for a plan beyond 6 to 2000 ft, a height beyond 5 to 60 ft, an angle beyond 0 to
    45 degrees. Source: ASCE 7-16 and 7-22 Figures 30.3-1 and 30.3-2A, notation and exception.
    """
    length = within("building length", building_length_ft, *PLAN_LIMITS_FT, "ft")
    width = within("building width", building_width_ft, *PLAN_LIMITS_FT, "ft")
    height = within("mean roof height", mean_roof_height_ft, *HEIGHT_LIMITS_FT, "ft")
    angle = within("roof angle", roof_angle_deg, 0.0, 45.0, "degrees")
    least = min(length, width)
    a = max(min(0.1 * least, 0.4 * height), 0.04 * least, 3.0)
    capped = round(angle, 6) <= _LOW_SLOPE_DEG and least > _LARGE_PLAN_FT and a > 0.8 * height
    return EdgeWidth(0.8 * height if capped else a, least, height, capped)


def roof_layout(edition: str, roof_shape: str, roof_angle_deg: float) -> Layout:
    """The zone layout of a roof, with its grade and caution (wind_layouts).

    Raises OutsideMethod for a roof no figure is held for, and for ASCE 7-10, whose zone plans are
    not held.
    """
    figure = roof_figure(edition, roof_shape, roof_angle_deg)
    if not figure.layout:
        raise OutsideMethod(
            f"wind standard edition is {edition}; its zone plans are not held, those of 7-16 and "
            "7-22 are"
        )
    return LAYOUTS[figure.layout]


def zone_widths(
    *,
    edition: str,
    roof_shape: str,
    roof_angle_deg: float,
    building_length_ft: float,
    building_width_ft: float,
    mean_roof_height_ft: float,
) -> tuple[ZoneWidth, ...]:
    """Every zone of a roof with its place and plan widths, the zone that keeps the ground first.

    A zone stands more than once where it has several places. Errors as edge_width and roof_layout.
    Source: the figures of ASCE 7-16 and 7-22 chapter 30; Layout.grade says how well known.
    """
    layout = roof_layout(edition, roof_shape, roof_angle_deg)
    unit = layout_unit(
        layout, building_length_ft, building_width_ft, mean_roof_height_ft, roof_angle_deg
    )
    found = []
    for rule in layout.rules:
        sides = sorted(size for _, size in rule.near)
        names = [f"{size:g} {layout.unit}".removeprefix("1 ") for size in sides]
        width, length = sides[0] * unit, sides[1] * unit if len(sides) > 1 else None
        found.append(ZoneWidth(rule.zone, rule.place, width, length, " x ".join(names)))
    rest = ZoneWidth(layout.rest, layout.rest_place, None, None, "")
    return (*found, rest)


def layout_unit(layout: Layout, length: float, width: float, height: float, angle: float) -> float:
    """The width in ft that the rules of a layout multiply: h or a; errors as edge_width."""
    a = edge_width(
        building_length_ft=length,
        building_width_ft=width,
        mean_roof_height_ft=height,
        roof_angle_deg=angle,
    )
    return height if layout.unit == "h" else a.a_ft
