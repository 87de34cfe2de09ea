"""Velocity pressure: how it behaves, and what it refuses."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.record import OutsideMethod
from specgen.calculations.wind_velocity import (
    VelocityPressure,
    exposure_coefficient,
    velocity_pressure,
)

editions = st.sampled_from(["7-10", "7-16", "7-22"])
exposures = st.sampled_from(["b", "c", "d"])
speeds, heights = st.floats(85, 220), st.floats(5, 60)
USUAL: dict[str, Any] = {
    "edition": "7-22",
    "speed_mph": 115.0,
    "exposure": "c",
    "mean_roof_height_ft": 30.0,
}


def velocity(**changed: Any) -> VelocityPressure:
    return velocity_pressure(**(USUAL | changed))


@given(editions, exposures, speeds, heights, st.floats(0, 100))
def test_more_wind_is_more_pressure_by_its_square(
    edition: str, exposure: str, speed: float, height: float, more: float
) -> None:
    faster = min(speed + more, 220)
    one, two = (
        velocity(edition=edition, exposure=exposure, speed_mph=v, mean_roof_height_ft=height)
        for v in (speed, faster)
    )
    assert two.qh_psf / one.qh_psf == pytest.approx((faster / speed) ** 2)


@given(editions, exposures, heights, heights, st.booleans())
def test_a_higher_roof_has_no_less_pressure(
    edition: str, exposure: str, one: float, two: float, floor: bool
) -> None:
    low, high = (
        velocity(edition=edition, exposure=exposure, mean_roof_height_ft=h, exposure_b_floor=floor)
        for h in sorted((one, two))
    )
    assert low.qh_psf <= high.qh_psf


@given(exposures, heights, heights)
def test_a_higher_roof_has_no_less_pressure_by_the_table(
    exposure: str, one: float, two: float
) -> None:
    low, high = (
        velocity(exposure=exposure, mean_roof_height_ft=h, kz_from="table").kz
        for h in sorted((one, two))
    )
    assert low <= high


@given(editions, heights)
def test_a_more_open_exposure_has_more_pressure(edition: str, height: float) -> None:
    b, c, d = (
        velocity(edition=edition, exposure=e, mean_roof_height_ft=height).qh_psf for e in "bcd"
    )
    assert b < c < d


@given(editions, exposures, st.floats(5, 15))
def test_below_15_ft_the_pressure_is_that_of_15_ft(
    edition: str, exposure: str, height: float
) -> None:
    low = velocity(edition=edition, exposure=exposure, mean_roof_height_ft=height)
    assert low.qh_psf == velocity(edition=edition, exposure=exposure, mean_roof_height_ft=15).qh_psf
    assert "below 15 ft" in low.steps[1].caution or height == 15


@given(exposures, heights)
def test_table_and_equation_of_7_22_lie_within_2_percent(exposure: str, height: float) -> None:
    table, equation = (
        exposure_coefficient(edition="7-22", exposure=exposure, height_ft=height, kz_from=way)
        for way in ("table", "equation")
    )
    assert table == pytest.approx(equation, rel=0.02)


@given(exposures, st.floats(15.0, 59.99))
def test_the_table_has_no_jumps(exposure: str, height: float) -> None:
    here, there = (
        exposure_coefficient(edition="7-22", exposure=exposure, height_ft=h, kz_from="table")
        for h in (height, height + 0.01)
    )
    assert abs(there - here) < 0.0002


def test_the_record_says_which_kz_was_used() -> None:
    assert "equation" in velocity().steps[2].caution
    assert "table" in velocity(kz_from="table").steps[2].formula


@given(st.floats(0, 12_000), st.floats(0, 12_000))
def test_higher_ground_has_thinner_air(one: float, two: float) -> None:
    low, high = (velocity(ground_elevation_ft=e).ke for e in sorted((one, two)))
    assert 1.0 >= low >= high > 0.6


def test_7_10_takes_no_account_of_elevation() -> None:
    high = velocity(edition="7-10", ground_elevation_ft=6000)
    assert high.qh_psf == velocity(edition="7-10").qh_psf
    assert "Ke" not in [step.symbol for step in high.steps]


@given(exposures, heights)
def test_kd_stands_in_the_velocity_pressure_of_7_16_and_not_of_7_22(
    exposure: str, height: float
) -> None:
    old, new = (
        velocity(edition=e, exposure=exposure, mean_roof_height_ft=height) for e in ("7-16", "7-22")
    )
    assert old.qh_psf == pytest.approx(0.00256 * old.kz * 0.85 * 115**2)
    assert new.qh_psf == pytest.approx(0.00256 * new.kz * 115**2)
    assert (old.kd_in_pressure, new.kd_in_pressure) == (1.0, 0.85)
    # 7-22 writes Kd after its qh, 7-16 before it.
    names = [[step.symbol for step in v.steps] for v in (old, new)]
    assert names[0].index("Kd") < names[0].index("qh")
    assert names[1].index("Kd") > names[1].index("qh")


@given(st.floats(1, 3))
def test_a_hill_multiplies_the_pressure(kzt: float) -> None:
    assert velocity(topographic_factor=kzt).qh_psf == pytest.approx(kzt * velocity().qh_psf)


@pytest.mark.parametrize("edition", ["7-16", "7-22"])
def test_the_floor_of_exposure_b_is_off_unless_asked_for(edition: str) -> None:
    off = velocity(edition=edition, exposure="b", mean_roof_height_ft=20)
    on = velocity(edition=edition, exposure="b", mean_roof_height_ft=20, exposure_b_floor=True)
    assert off.kz < 0.63
    assert (on.kz, on.floored, off.floored) == (0.70, True, False)
    assert "0.70" in off.steps[2].caution
    assert "7-10" in on.steps[2].caution


def test_7_10_always_keeps_the_floor_of_exposure_b() -> None:
    low = velocity(edition="7-10", exposure="b", mean_roof_height_ft=15)
    assert (low.kz, low.floored) == (0.70, True)
    assert "7-10" in low.steps[2].source


@given(st.sampled_from(["c", "d"]), heights)
def test_the_floor_leaves_other_exposures_alone(exposure: str, height: float) -> None:
    on, off = (
        velocity(exposure=exposure, mean_roof_height_ft=height, exposure_b_floor=f)
        for f in (True, False)
    )
    assert on.qh_psf == off.qh_psf


@pytest.mark.parametrize(
    ("name", "value", "says"),
    [
        ("speed_mph", 84.9, "basic wind speed is 84.9 mph; the limits are 85 to 220"),
        ("speed_mph", 221, "basic wind speed"),
        ("speed_mph", -115, "basic wind speed"),
        ("speed_mph", math.nan, "basic wind speed"),
        ("speed_mph", math.inf, "basic wind speed"),
        ("mean_roof_height_ft", 60.1, "mean roof height is 60.1 ft; the limits are 5 to 60"),
        ("mean_roof_height_ft", 0, "mean roof height"),
        ("mean_roof_height_ft", math.nan, "mean roof height"),
        ("topographic_factor", 0.9, "topographic factor is 0.9; the limits are 1 to 3"),
        ("topographic_factor", 3.1, "topographic factor"),
        ("ground_elevation_ft", -1, "ground elevation"),
        ("ground_elevation_ft", 12_001, "ground elevation"),
        ("exposure", "a", "exposure is 'a'; it is one of b, c, d"),
        ("exposure", "B", "exposure"),
        ("edition", "7-05", "wind standard edition is '7-05'; it is one of 7-10, 7-16, 7-22"),
        ("kz_from", "chart", "kz_from"),
    ],
)
def test_what_lies_outside_the_method_is_refused_by_name(
    name: str, value: object, says: str
) -> None:
    with pytest.raises(OutsideMethod, match=says):
        velocity(**{name: value})


@pytest.mark.parametrize("edition", ["7-10", "7-16"])
def test_the_table_is_that_of_7_22_alone(edition: str) -> None:
    with pytest.raises(OutsideMethod, match="held for 7-22 alone"):
        velocity(edition=edition, kz_from="table")
