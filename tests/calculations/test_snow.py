"""Flat roof snow load: how it behaves."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.record import OutsideMethod
from specgen.calculations.snow import flat_roof_snow

grounds = st.floats(0, 300)
NAN = float("nan")


@given(grounds, st.floats(0.7, 1.2), st.floats(0.8, 1.3), st.floats(0.8, 1.2))
def test_the_flat_roof_load_is_seven_tenths_of_the_ground_load_times_its_factors(
    ground: float, ce: float, ct: float, importance: float
) -> None:
    result = flat_roof_snow(
        ground_snow_psf=ground,
        exposure_factor=ce,
        thermal_factor=ct,
        importance_factor=importance,
    )
    assert result.flat_psf == pytest.approx(0.7 * ground * ce * ct * importance)
    assert result.allowable_psf == result.flat_psf


@given(grounds, st.floats(0, 100))
def test_more_snow_on_the_ground_is_no_less_on_the_roof(ground: float, more: float) -> None:
    assert (
        flat_roof_snow(ground_snow_psf=ground + more).flat_psf
        >= flat_roof_snow(ground_snow_psf=ground).flat_psf
    )


@given(grounds)
def test_a_strength_level_load_of_7_22_comes_down_to_allowable_level(ground: float) -> None:
    result = flat_roof_snow(ground_snow_psf=ground, edition="asce-7-22")
    assert result.allowable_psf == pytest.approx(0.7 * result.flat_psf)
    assert result.minimum_psf is None


@pytest.mark.parametrize("edition", ["asce-7-16", "asce-7-22"])
def test_the_ground_load_is_marked_with_the_level_that_7_22_puts_it_at(edition: str) -> None:
    result = flat_roof_snow(ground_snow_psf=30, edition=edition)  # type: ignore[arg-type]
    ground = next(step for step in result.steps if step.symbol == "pg")
    assert "strength level" in ground.caution


def test_the_slope_factor_is_left_to_the_engineer() -> None:
    step = next(s for s in flat_roof_snow(ground_snow_psf=30).steps if s.symbol == "pf")
    assert "engineer" in step.caution
    assert "Cs" in step.caution


@given(grounds, st.floats(0.8, 1.2))
def test_a_low_slope_roof_has_a_minimum_that_stops_growing_at_20_psf(
    ground: float, importance: float
) -> None:
    result = flat_roof_snow(ground_snow_psf=ground, importance_factor=importance, slope_in_12=1)
    assert result.minimum_psf == pytest.approx(importance * min(ground, 20))


def test_the_minimum_ends_at_15_degrees() -> None:
    fifteen = 12 * math.tan(math.radians(15))
    below = flat_roof_snow(ground_snow_psf=30, slope_in_12=fifteen - 0.001)
    above = flat_roof_snow(ground_snow_psf=30, slope_in_12=fifteen + 0.001)
    assert (below.minimum_psf, above.minimum_psf) == (20, 0)


def test_without_a_slope_no_minimum_is_stated() -> None:
    assert flat_roof_snow(ground_snow_psf=30).minimum_psf is None


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("ground_snow_psf", -1.0),
        ("ground_snow_psf", 501.0),
        ("ground_snow_psf", NAN),
        ("exposure_factor", 0.6),
        ("thermal_factor", 1.5),
        ("importance_factor", 1.3),
        ("importance_factor", NAN),
        ("slope_in_12", -1.0),
    ],
)
def test_a_factor_outside_the_tables_is_refused_by_name(name: str, value: float) -> None:
    figures = {"ground_snow_psf": 30.0, name: value}
    with pytest.raises(OutsideMethod, match=name):
        flat_roof_snow(**figures)  # type: ignore[arg-type]


def test_an_importance_factor_on_a_load_of_7_22_is_refused() -> None:
    with pytest.raises(OutsideMethod, match="importance_factor"):
        flat_roof_snow(ground_snow_psf=30, importance_factor=1.1, edition="asce-7-22")


def test_an_unknown_edition_is_refused() -> None:
    with pytest.raises(OutsideMethod, match="asce-7-16"):
        flat_roof_snow(ground_snow_psf=30, edition="asce-7-10")  # type: ignore[arg-type]
