"""Downslope load at the fixed point and on snow retention: how they behave."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.loads import downslope_load, snow_retention_load
from specgen.calculations.record import OutsideMethod

slopes = st.floats(0, 48)
lengths = st.floats(0.5, 500)
coverages = st.floats(6, 36)
deads = st.floats(0, 50)
snows = st.floats(0, 500)
NAN = float("nan")


@given(slopes, lengths, coverages, deads, snows)
def test_the_strict_load_is_the_vertical_load_resolved_along_the_slope(
    slope: float, length: float, coverage: float, dead: float, snow: float
) -> None:
    """Weight on the true area of slope and of plan, times rise over slope length."""
    load = downslope_load(
        slope_in_12=slope,
        panel_length_ft=length,
        coverage_in=coverage,
        dead_psf=dead,
        snow_psf=snow,
    )
    hypotenuse = math.hypot(slope, 12)
    plan = length * 12 / hypotenuse
    vertical = (dead * length + snow * plan) * coverage / 12
    assert load.strict_per_panel_lb == pytest.approx(vertical * slope / hypotenuse, abs=1e-9)


@given(slopes, lengths, coverages, deads, snows)
def test_the_usual_form_is_never_below_the_strict_one(
    slope: float, length: float, coverage: float, dead: float, snow: float
) -> None:
    load = downslope_load(
        slope_in_12=slope,
        panel_length_ft=length,
        coverage_in=coverage,
        dead_psf=dead,
        snow_psf=snow,
    )
    assert load.per_foot_lb >= load.strict_per_foot_lb
    assert load.per_panel_lb >= load.strict_per_panel_lb


@given(slopes, lengths, coverages, deads, snows)
def test_a_panel_takes_its_width_of_the_load_on_a_foot(
    slope: float, length: float, coverage: float, dead: float, snow: float
) -> None:
    load = downslope_load(
        slope_in_12=slope,
        panel_length_ft=length,
        coverage_in=coverage,
        dead_psf=dead,
        snow_psf=snow,
    )
    assert load.per_panel_lb == pytest.approx(load.per_foot_lb * coverage / 12)


@given(slopes, st.floats(0, 10), deads, snows)
def test_the_usual_form_grows_with_slope(
    slope: float, more: float, dead: float, snow: float
) -> None:
    def at(rise: float) -> float:
        return downslope_load(
            slope_in_12=min(rise, 48),
            panel_length_ft=40,
            coverage_in=16,
            dead_psf=dead,
            snow_psf=snow,
        ).per_foot_lb

    assert at(slope + more) >= at(slope) - 1e-9


@given(slopes)
def test_the_strict_snow_load_is_largest_at_12_in_12(slope: float) -> None:
    def at(rise: float) -> float:
        return downslope_load(
            slope_in_12=rise, panel_length_ft=40, coverage_in=16, dead_psf=0, snow_psf=30
        ).strict_per_foot_lb

    assert at(slope) <= at(12) + 1e-9


def test_nothing_slides_on_a_level_roof() -> None:
    load = downslope_load(
        slope_in_12=0, panel_length_ft=40, coverage_in=16, dead_psf=1, snow_psf=30
    )
    assert load.per_panel_lb == 0
    assert load.strict_per_panel_lb == 0


@given(slopes, lengths, snows, st.floats(1, 3))
def test_the_load_goes_with_the_length_of_the_panel(
    slope: float, length: float, snow: float, times: float
) -> None:
    def of(feet: float) -> float:
        return downslope_load(
            slope_in_12=slope, panel_length_ft=feet, coverage_in=16, dead_psf=1, snow_psf=snow
        ).per_panel_lb

    assert of(length) / length == pytest.approx(
        of(min(500, length * times)) / min(500, length * times)
    )


def test_the_record_names_the_form_and_says_that_friction_is_not_counted() -> None:
    load = downslope_load(
        slope_in_12=6, panel_length_ft=40, coverage_in=18, dead_psf=1.2, snow_psf=35
    )
    usual = next(step for step in load.steps if step.symbol == "F")
    assert "usual form" in usual.label
    assert "Friction is not counted" in usual.caution
    assert any("strict form" in step.label for step in load.steps)
    assert "horizontal projection" in next(s for s in load.steps if s.symbol == "S").label


@given(slopes, lengths, coverages, snows)
def test_retention_takes_the_snow_that_the_fixed_point_would(
    slope: float, length: float, coverage: float, snow: float
) -> None:
    fixed = downslope_load(
        slope_in_12=slope, panel_length_ft=length, coverage_in=coverage, dead_psf=0, snow_psf=snow
    )
    held = snow_retention_load(
        slope_in_12=slope, run_above_ft=length, coverage_in=coverage, snow_psf=snow
    )
    assert held.per_foot_lb == pytest.approx(fixed.per_foot_lb)
    assert held.strict_per_foot_lb == pytest.approx(fixed.strict_per_foot_lb)
    assert held.per_clamp_lb == pytest.approx(fixed.per_panel_lb)


@given(slopes, lengths, coverages, snows, st.integers(1, 50))
def test_rows_share_the_snow_and_clamps_a_row(
    slope: float, length: float, coverage: float, snow: float, rows: int
) -> None:
    held = snow_retention_load(
        slope_in_12=slope, run_above_ft=length, coverage_in=coverage, snow_psf=snow, rows=rows
    )
    assert held.per_row_foot_lb * rows == pytest.approx(held.per_foot_lb)
    assert held.per_clamp_lb * rows * 12 / coverage == pytest.approx(held.per_foot_lb)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("slope_in_12", -1.0),
        ("slope_in_12", 49.0),
        ("slope_in_12", NAN),
        ("panel_length_ft", 0.0),
        ("panel_length_ft", math.inf),
        ("coverage_in", 0.0),
        ("dead_psf", -0.1),
        ("dead_psf", 51.0),
        ("snow_psf", -1.0),
        ("snow_psf", NAN),
    ],
)
def test_a_load_that_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    figures = {
        "slope_in_12": 6.0,
        "panel_length_ft": 40.0,
        "coverage_in": 18.0,
        "dead_psf": 1.0,
        "snow_psf": 35.0,
        name: value,
    }
    with pytest.raises(OutsideMethod, match=name):
        downslope_load(**figures)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("slope_in_12", NAN),
        ("run_above_ft", 0.0),
        ("coverage_in", 40.0),
        ("snow_psf", -1.0),
        ("rows", 0),
        ("rows", 1.5),
        ("rows", 51),
    ],
)
def test_retention_that_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    figures = {
        "slope_in_12": 6.0,
        "run_above_ft": 40.0,
        "coverage_in": 18.0,
        "snow_psf": 35.0,
        name: value,
    }
    with pytest.raises(OutsideMethod, match=name):
        snow_retention_load(**figures)  # type: ignore[arg-type]
