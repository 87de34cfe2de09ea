"""Effective wind area: how much roof a panel, or the clip that holds it, answers for."""

from __future__ import annotations

from dataclasses import dataclass

from specgen.calculations.record import Step, within

OWN_AREA = (
    "The effective wind area of one clip or fastener is not more than the area that it holds "
    "(ASCE 7 section 26.2)."
)


@dataclass(frozen=True, slots=True)
class PanelArea:
    """Effective wind area of a panel: ``area_sqft`` = ``span_ft`` x ``effective_width_ft``."""

    span_ft: float
    width_ft: float
    effective_width_ft: float
    area_sqft: float

    @property
    def steps(self) -> tuple[Step, ...]:
        """The area, worked."""
        span, width = self.span_ft, self.width_ft
        return (
            Step("L", "span of panel", span, "ft"),
            Step("b", "width of panel", width, "ft"),
            Step(
                "A",
                "effective wind area of panel",
                self.area_sqft,
                "sq ft",
                "L x max(b, L/3)",
                f"{span:.5g} x max({width:.5g}, {span:.5g}/3)",
                "ASCE 7 section 26.2, effective wind area",
                OWN_AREA,
            ),
        )


def panel_area(*, span_ft: float, width_ft: float) -> PanelArea:
    """Effective wind area of a panel in sq ft: span x max(width, span / 3).

    Span is clip or support spacing along the panel, 0.25 to 100 ft; width the coverage, 0.25 to
    10 ft; OutsideMethod beyond. Source: ASCE 7 section 26.2, effective wind area.
    """
    span = within("span of panel", span_ft, 0.25, 100.0, "ft")
    width = within("width of panel", width_ft, 0.25, 10.0, "ft")
    effective = max(width, span / 3)
    return PanelArea(span, width, effective, span * effective)
