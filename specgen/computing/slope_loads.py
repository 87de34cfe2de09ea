"""Loads along the slope on the fixed point and on snow retention."""

from __future__ import annotations

from specgen.calculations.loads import downslope_load, snow_retention_load
from specgen.calculations.record import Step
from specgen.calculations.snow import flat_roof_snow
from specgen.computing.inputs import Inputs, quantity
from specgen.computing.registry import Outcome


def compute(inputs: Inputs) -> Outcome:
    """Fixed-point load of one panel and load on retention for each foot of eave."""
    slope = inputs.figure("lowest_slope", ":12")
    run = inputs.figure("panel_run", "ft")
    coverage = inputs.figure("panel_width", "in")
    snow, snow_steps, cautions = _roof_snow(inputs, slope)
    fixed = downslope_load(
        slope_in_12=slope,
        panel_length_ft=run,
        coverage_in=coverage,
        dead_psf=inputs.figure("panel_weight", "psf"),
        snow_psf=snow,
    )
    retained = snow_retention_load(
        slope_in_12=slope, run_above_ft=run, coverage_in=coverage, snow_psf=snow
    )
    return Outcome(
        values={
            "roof_snow": quantity(snow, "pressure", "psf", 1),
            "fixed_point_load": quantity(fixed.per_panel_lb, "force", "lbf", 0),
            "snow_retention_load": quantity(retained.per_foot_lb, "line load", "lbf/ft", 0),
        },
        steps=(*snow_steps, *fixed.steps, *retained.steps),
        cautions=cautions,
    )


def _roof_snow(inputs: Inputs, slope: float) -> tuple[float, tuple[Step, ...], tuple[str, ...]]:
    """The engineer's roof snow load, or one computed with every factor but 0.7 taken as 1."""
    given = inputs.optional("roof_snow_load", "psf")
    if given is not None:
        step = Step("S", "roof snow load given", given, "psf", source="the structural engineer")
        return given, (step,), ()
    edition = inputs.choice("wind_standard")
    snow = flat_roof_snow(
        ground_snow_psf=inputs.figure("ground_snow", "psf"),
        edition="asce-7-22" if edition == "asce-7-22" else "asce-7-16",
        slope_in_12=slope,
    )
    caution = (
        "The roof snow load is computed from the ground snow load with exposure, thermal and "
        "importance factors of 1.0; answer roof_snow_load with the structural engineer's."
    )
    return max(snow.allowable_psf, snow.minimum_psf or 0.0), snow.steps, (caution,)
