"""Air leakage of a roof: how it behaves."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.air import air_leakage, rate_at_pressure
from specgen.calculations.record import OutsideMethod

NAN = float("nan")
rates = st.floats(0, 10)


@given(rates, st.floats(1, 1e6))
def test_the_air_of_a_roof_is_its_rate_times_its_area(rate: float, area: float) -> None:
    leak = air_leakage(rate_cfm_sqft=rate, area_sqft=area, pressure_psf=1.57)
    assert leak.total_cfm == pytest.approx(rate * area)


@given(rates, st.floats(1, 1e6))
def test_metric_rate_and_metric_area_give_the_metric_total(rate: float, area: float) -> None:
    leak = air_leakage(rate_cfm_sqft=rate, area_sqft=area, pressure_psf=1.57)
    assert leak.total_l_s == pytest.approx(leak.rate_l_s_sqm * area * 0.3048**2)


@given(st.floats(0.001, 1), st.floats(0.5, 15), st.floats(0.5, 15))
def test_a_rate_taken_to_another_pressure_and_back_is_the_same(
    rate: float, first: float, second: float
) -> None:
    there = rate_at_pressure(rate_cfm_sqft=rate, at_psf=first, wanted_psf=second)
    back = rate_at_pressure(rate_cfm_sqft=there, at_psf=second, wanted_psf=first)
    assert back == pytest.approx(rate)
    assert (there >= rate) == (second >= first) or there == pytest.approx(rate)


def test_twice_the_pressure_drives_about_half_as_much_air_again() -> None:
    more = rate_at_pressure(rate_cfm_sqft=0.06, at_psf=1.57, wanted_psf=3.14)
    assert more / 0.06 == pytest.approx(1.5, abs=0.1)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("rate_cfm_sqft", -0.1),
        ("rate_cfm_sqft", NAN),
        ("area_sqft", 0.0),
        ("area_sqft", NAN),
        ("pressure_psf", 0.0),
    ],
)
def test_a_leakage_that_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    figures = {"rate_cfm_sqft": 0.06, "area_sqft": 10_000.0, "pressure_psf": 1.57, name: value}
    with pytest.raises(OutsideMethod, match=name):
        air_leakage(**figures)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("rate_cfm_sqft", NAN),
        ("at_psf", 0.0),
        ("wanted_psf", 101.0),
        ("exponent", 0.4),
        ("exponent", 1.1),
    ],
)
def test_a_comparison_that_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    figures = {"rate_cfm_sqft": 0.06, "at_psf": 1.57, "wanted_psf": 6.24, name: value}
    with pytest.raises(OutsideMethod, match=name):
        rate_at_pressure(**figures)
