"""Weight of the panels, per square foot of roof and each, and the length that a truck takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from specgen.calculations.record import OutsideMethod, Step, within

Metal = Literal["coated-steel", "aluminum", "zinc", "copper", "stainless", "type-304", "type-316"]
Shipping = Literal["site-formed", "ordinary truck", "ask the carrier", "too long for a truck"]

_STAINLESS = (0.289, "8,000 kg/cu m, from memory")
# lb per cubic inch and where the figure stands
DENSITY: dict[Metal, tuple[float, str]] = {
    "coated-steel": (0.2836, "490 lb/cu ft (7,850 kg/cu m), usual in structural steel design"),
    "aluminum": (0.099, "alloy 3003, published data sheets; 3004 and 3105 are 1 percent lighter"),
    "zinc": (0.259, "7,180 kg/cu m, from memory; 7,140 to 7,200 are in use"),
    "copper": (0.322, "Copper Development Association"),
    "stainless": _STAINLESS,
    "type-304": _STAINLESS,
    "type-316": _STAINLESS,
}
ORDINARY_TRUCK_FT = 45.0
LONGEST_ON_TRUCK_FT = 50.0


@dataclass(frozen=True, slots=True)
class PanelWeight:
    """Weight of formed panels.

    ``sheet_psf`` is the flat sheet in lb per sq ft of sheet; ``roof_psf`` the panels in lb per
    sq ft of the roof they cover, on the slope; ``per_foot_lb`` one panel per foot of its length;
    ``panel_lb`` one panel of the length given.
    """

    sheet_psf: float
    roof_psf: float
    per_foot_lb: float
    panel_lb: float
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class PanelTransport:
    """Whether a panel of ``length_ft`` reaches the site in one piece, and how.

    ``shipping`` is the verdict; ``in_one_piece`` is False only for one too long for a truck.
    ``longest_ft`` is the limit in feet that it was held against, None for panels formed at the
    site.
    """

    length_ft: float
    shipping: Shipping
    in_one_piece: bool
    longest_ft: float | None
    steps: tuple[Step, ...]


def panel_weight(
    *,
    metal: Metal,
    thickness_in: float,
    coverage_in: float,
    strip_in: float,
    length_ft: float,
    cap_strip_in: float = 0.0,
    coating_oz_per_sqft: float = 0.0,
    density_lb_per_cuin: float | None = None,
) -> PanelWeight:
    """Weight of roof panels: w = (144 d t + m / 16) x (s + s_cap) / c, in lb per sq ft of roof.

    d is the density in lb/cu in, t the thickness in inches, m the metallic coating on both sides
    together in oz/sq ft (0.50 for AZ50), s the strip and s_cap the batten cap's strip, c the
    coverage, in inches; ``length_ft`` is the length of the panel. ``density_lb_per_cuin`` replaces
    the metal's own. Clips, fasteners and paint are not counted.

    Raises OutsideMethod for an unknown metal, a thickness outside 0.005 to 0.25 in, a coverage
    outside 6 to 36 in, a strip narrower than half the coverage or wider than 60 in, a length
    outside 0.5 to 500 ft, a cap outside 0 to 20 in, a coating outside 0 to 5 oz/sq ft or a density
    outside 0.05 to 0.5 lb/cu in. Source: geometry; densities at the table.
    """
    if metal not in DENSITY:
        raise OutsideMethod(f"metal is {metal!r}; known are {', '.join(DENSITY)}")
    density, source = DENSITY[metal]
    if density_lb_per_cuin is not None:
        density = within("density_lb_per_cuin", density_lb_per_cuin, 0.05, 0.5, "lb/cu in")
        source = ""
    thickness = within("thickness_in", thickness_in, 0.005, 0.25, "in")
    coverage = within("coverage_in", coverage_in, 6, 36, "in")
    strip = within("strip_in", strip_in, coverage / 2, 60, "in")
    length = within("length_ft", length_ft, 0.5, 500, "ft")
    cap = within("cap_strip_in", cap_strip_in, 0, 20, "in")
    coating = within("coating_oz_per_sqft", coating_oz_per_sqft, 0, 5, "oz/sq ft")
    sheet = 144 * density * thickness + coating / 16
    roof = sheet * (strip + cap) / coverage
    per_foot = roof * coverage / 12
    panel = per_foot * length
    bare_steel = metal == "coated-steel" and coating == 0
    steps = (
        Step("d", "density of the metal", density, "lb/cu in", source=source),
        Step("t", "thickness of the sheet", thickness, "in"),
        Step(
            "m",
            "metallic coating, both sides together",
            coating,
            "oz/sq ft",
            caution="AZ50 adds 0.03 psf and G90 0.06 psf where the thickness is of the base metal."
            if bare_steel
            else "",
        ),
        Step("s", "strip width", strip, "in"),
        Step("s_cap", "strip width of the batten cap", cap, "in"),
        Step("c", "coverage width", coverage, "in"),
        Step("L", "length of the panel", length, "ft"),
        Step(
            "w_sheet",
            "weight of the sheet",
            sheet,
            "psf",
            "w_sheet = 144 d t + m / 16",
            f"w_sheet = 144 x {density:g} x {thickness:g} + {coating:g} / 16",
        ),
        Step(
            "w",
            "weight of the panels on the roof",
            roof,
            "psf",
            "w = w_sheet (s + s_cap) / c",
            f"w = {sheet:g} x ({strip:g} + {cap:g}) / {coverage:g}",
            caution="Clips, fasteners, underlayment, insulation and boards come on top.",
        ),
        Step(
            "G",
            "weight of one panel",
            panel,
            "lb",
            "G = w c L / 12",
            f"G = {roof:g} x {coverage:g} x {length:g} / 12",
        ),
    )
    return PanelWeight(sheet, roof, per_foot, panel, steps)


def panel_transport(
    *,
    length_ft: float,
    site_formed: bool = False,
    ordinary_ft: float = ORDINARY_TRUCK_FT,
    longest_ft: float = LONGEST_ON_TRUCK_FT,
) -> PanelTransport:
    """How a panel of ``length_ft`` feet gets to the roof in one piece.

    Up to ``ordinary_ft`` it goes by ordinary truck; up to ``longest_ft`` the carrier is asked;
    beyond that it is formed at the site, travels under a permit, or is lapped end to end.

    Raises OutsideMethod for a length outside 0.5 to 500 ft or limits outside 10 to 200 ft or out
    of order. Source: common practice; states and carriers set their own limits.
    """
    length = within("length_ft", length_ft, 0.5, 500, "ft")
    longest = within("longest_ft", longest_ft, 10, 200, "ft")
    ordinary = within("ordinary_ft", ordinary_ft, 10, longest, "ft")
    shipping: Shipping
    if site_formed:
        shipping = "site-formed"
    elif length <= ordinary:
        shipping = "ordinary truck"
    elif length <= longest:
        shipping = "ask the carrier"
    else:
        shipping = "too long for a truck"
    steps: list[Step] = [Step("L", "longest panel", length, "ft")]
    if site_formed:
        caution = "Formed at the site: the coil is trucked; see that a panel of this length can be "
        caution += "carried, lifted and turned there."
        steps[0] = Step("L", "longest panel", length, "ft", caution=caution)
    else:
        steps.append(
            Step("L_max", "longest by ordinary truck", ordinary, "ft", source="common practice")
        )
        steps.append(
            Step(
                "L_limit",
                "longest without a permit",
                longest,
                "ft",
                source="common practice",
                caution="States and carriers set their own limits, and so does the last corner "
                "before the site.",
            )
        )
    return PanelTransport(
        length,
        shipping,
        shipping != "too long for a truck",
        None if site_formed else longest,
        tuple(steps),
    )
