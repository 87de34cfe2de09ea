"""Every line with figures put in gives its own value: a reader with a calculator finds the same."""

from __future__ import annotations

import math

import pytest

from specgen.calculations.air import air_leakage
from specgen.calculations.energy_code import code_minimum_r
from specgen.calculations.fastener import fastener_length
from specgen.calculations.insulation import Layer, resistance, thickness_for_r
from specgen.calculations.loads import downslope_load, snow_retention_load
from specgen.calculations.pressures import (
    equivalents,
    static_head,
    water_penetration_pressure,
    water_test_preloads,
)
from specgen.calculations.record import Step
from specgen.calculations.sheet import panels_across, strip_width, strips_from_coil
from specgen.calculations.snow import flat_roof_snow
from specgen.calculations.weight import panel_weight

# what a pocket calculator in degrees has
CALCULATOR = {
    "atan": lambda x: math.degrees(math.atan(x)),
    "ceil": math.ceil,
    "floor": math.floor,
    "max": max,
    "min": min,
    "sqrt": math.sqrt,
}

RECORDS: dict[str, tuple[Step, ...]] = {
    "strip": strip_width(coverage_in=18.75, seam_kind="double-lock", seam_height_in=2).steps,
    "strip of a batten seam": strip_width(
        coverage_in=20, seam_kind="batten", seam_height_in=1.5
    ).steps,
    "strip as given": strip_width(
        coverage_in=16, seam_kind="snap-lock", seam_height_in=1.75, take_up_in=4.5
    ).steps,
    "coil": strips_from_coil(strip_in=20.25, coil_width_in=48, edge_trim_in=0.5).steps,
    "layout": panels_across(plane_width_ft=83.37, coverage_in=16).steps,
    "layout of whole panels": panels_across(plane_width_ft=40, coverage_in=16).steps,
    "layout of one panel": panels_across(plane_width_ft=1, coverage_in=16).steps,
    "weight": panel_weight(
        metal="coated-steel",
        thickness_in=0.0239,
        coverage_in=16,
        strip_in=20.5625,
        length_ft=37.25,
        coating_oz_per_sqft=0.5,
    ).steps,
    "snow": flat_roof_snow(ground_snow_psf=47, importance_factor=1.1, slope_in_12=1).steps,
    "snow of 7-22": flat_roof_snow(ground_snow_psf=47, edition="asce-7-22").steps,
    "downslope": downslope_load(
        slope_in_12=4.5, panel_length_ft=37.25, coverage_in=16, dead_psf=1.3, snow_psf=33
    ).steps,
    "retention": snow_retention_load(
        slope_in_12=4.5, run_above_ft=37.25, coverage_in=16, snow_psf=33, rows=3
    ).steps,
    "resistance": resistance(
        [Layer("polyiso", 2.35), Layer("xps", 1.5), Layer("eps", 2, "IX")]
    ).steps,
    "thickness": thickness_for_r(kind="mineral-wool", required_r=33, layers=3).steps,
    "fastener": fastener_length(
        insulation_in=5.2, cover_board_in=0.625, deck_in=0.0299, penetration_in=0.75, clip_in=0.1
    ).steps,
    "code": code_minimum_r(code="irc-2021", climate_zone="5").steps,
    "pressure": equivalents(pressure_psf=6.24).steps,
    "head": static_head(head_in=5.5).steps,
    "water": water_penetration_pressure(design_positive_psf=22.5).steps,
    "preloads": water_test_preloads(
        design_positive_psf=22.5, design_uplift_psf=63.7, live_load_psf=20
    ).steps,
    "air": air_leakage(rate_cfm_sqft=0.06, area_sqft=12_345, pressure_psf=1.57).steps,
}
# A comparison, and a reading from a table, are no sums.
NOT_SUMS = {("thickness", "t1"), ("resistance", "R1")}
LINES = [
    pytest.param(step, id=f"{name}: {step.symbol}")
    for name, steps in RECORDS.items()
    for step in steps
    if step.formula and (name, step.symbol) not in NOT_SUMS
]


@pytest.mark.parametrize("step", LINES)
def test_the_figures_put_in_give_the_value(step: Step) -> None:
    """Within 0.02 percent: figures are written to six places, sines and cosines to four."""
    left, figures = step.worked.split(" = ", 1)
    assert left == step.formula.split(" = ", 1)[0]
    found = eval(figures.replace(" x ", " * "), {"__builtins__": {}}, CALCULATOR)
    assert found == pytest.approx(step.value, rel=2e-4)


@pytest.mark.parametrize("name", RECORDS)
def test_every_line_has_a_symbol_and_a_label_and_a_finite_value(name: str) -> None:
    for step in RECORDS[name]:
        assert step.symbol
        assert step.label
        assert math.isfinite(step.value)


@pytest.mark.parametrize("name", RECORDS)
def test_every_symbol_stands_for_one_thing(name: str) -> None:
    symbols = [step.symbol for step in RECORDS[name]]
    assert len(symbols) == len(set(symbols))
