"""Pressures of the water tests, and one pressure in its many units: how they behave."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.pressures import (
    equivalents,
    psf_from_inches_of_water,
    psf_from_mph,
    psf_from_pa,
    static_head,
    water_penetration_pressure,
    water_test_preloads,
)
from specgen.calculations.record import OutsideMethod

pressures = st.floats(0, 200)
NAN = float("nan")


@given(pressures)
def test_each_unit_leads_back_to_the_pressure(psf: float) -> None:
    same = equivalents(pressure_psf=psf)
    assert psf_from_pa(same.pa) == pytest.approx(psf, abs=1e-12)
    assert psf_from_inches_of_water(same.inches_of_water) == pytest.approx(psf, abs=1e-12)
    assert psf_from_mph(same.mph) == pytest.approx(psf, abs=1e-12)
    assert same.meters_per_second == pytest.approx(same.mph * 0.44704)


@given(pressures, st.floats(0, 100))
def test_a_higher_pressure_is_higher_in_every_unit(psf: float, more: float) -> None:
    low, high = equivalents(pressure_psf=psf), equivalents(pressure_psf=psf + more)
    assert high.pa >= low.pa
    assert high.inches_of_water >= low.inches_of_water
    assert high.mph >= low.mph


def test_twice_the_wind_presses_four_times_as_hard() -> None:
    assert psf_from_mph(100) == pytest.approx(4 * psf_from_mph(50))


@given(st.floats(0, 36))
def test_a_head_presses_with_the_weight_of_its_water(head: float) -> None:
    standing = static_head(head_in=head)
    assert standing.psf == pytest.approx(62.4 * head / 12)
    assert standing.inches_of_water == head


@given(st.floats(0, 500), st.floats(0, 100))
def test_a_higher_design_pressure_tests_no_lower(design: float, more: float) -> None:
    low = water_penetration_pressure(design_positive_psf=design)
    high = water_penetration_pressure(design_positive_psf=min(500, design + more))
    assert high.psf >= low.psf


@given(st.floats(0, 500))
def test_the_water_pressure_stays_between_its_floor_and_its_cap(design: float) -> None:
    result = water_penetration_pressure(design_positive_psf=design)
    assert 2.86 <= result.psf <= 12
    expected = {"floor": 2.86, "cap": 12.0, "fraction": 0.2 * design}
    assert result.psf == expected[result.governs]


@pytest.mark.parametrize(("design", "pressure"), [(14.3, 2.86), (60.0, 12.0)])
def test_floor_and_cap_are_met_without_a_jump(design: float, pressure: float) -> None:
    for near in (design - 1e-6, design, design + 1e-6):
        found = water_penetration_pressure(design_positive_psf=near)
        assert found.psf == pytest.approx(pressure, abs=1e-6)


def test_the_default_is_marked_as_recalled_and_the_level_is_asked_for() -> None:
    steps = water_penetration_pressure(design_positive_psf=30).steps
    assert "from memory" in steps[1].source
    assert "level" in steps[0].caution


@given(st.floats(0, 500), st.floats(0, 500), st.floats(0, 200))
def test_preloads_are_parts_of_live_load_and_wind(down: float, up: float, live: float) -> None:
    loads = water_test_preloads(design_positive_psf=down, design_uplift_psf=up, live_load_psf=live)
    assert loads.positive_psf == max(0.75 * live, 0.5 * down)
    assert loads.negative_psf == 0.5 * up


@pytest.mark.parametrize("bad", [-1.0, NAN, math.inf, 1e6])
def test_a_pressure_that_cannot_be_is_refused_by_name(bad: float) -> None:
    with pytest.raises(OutsideMethod, match="pressure_psf"):
        equivalents(pressure_psf=bad)
    with pytest.raises(OutsideMethod, match="pressure_pa"):
        psf_from_pa(bad)
    with pytest.raises(OutsideMethod, match="inches_of_water"):
        psf_from_inches_of_water(bad)
    with pytest.raises(OutsideMethod, match="speed_mph"):
        psf_from_mph(bad)
    with pytest.raises(OutsideMethod, match="head_in"):
        static_head(head_in=bad)
    with pytest.raises(OutsideMethod, match="design_positive_psf"):
        water_penetration_pressure(design_positive_psf=bad)
    with pytest.raises(OutsideMethod, match="design_positive_psf"):
        water_test_preloads(design_positive_psf=bad, design_uplift_psf=30, live_load_psf=20)
    with pytest.raises(OutsideMethod, match="design_uplift_psf"):
        water_test_preloads(design_positive_psf=30, design_uplift_psf=bad, live_load_psf=20)
    with pytest.raises(OutsideMethod, match="live_load_psf"):
        water_test_preloads(design_positive_psf=30, design_uplift_psf=30, live_load_psf=bad)
