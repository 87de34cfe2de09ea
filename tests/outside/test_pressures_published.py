"""Pressures and leakage against published pairs of figures and a units library."""

from __future__ import annotations

import pint
import pytest

from specgen.calculations.air import air_leakage
from specgen.calculations.pressures import (
    equivalents,
    psf_from_mph,
    psf_from_pa,
    static_head,
    water_penetration_pressure,
    water_test_preloads,
)

UREG: pint.UnitRegistry[float] = pint.UnitRegistry()

# psf and Pa as test standards print them side by side (ASTM E1680 and E1646, from memory; UL 1897
# step, a laboratory's page; window methods)
PRINTED_PAIRS = [(1.57, 75), (2.86, 137), (6.24, 299), (12.0, 575), (15.0, 720)]
# psf and the wind it is said to equal in the window and roof trades
SAID_WINDS = [(1.57, 25), (6.24, 50)]
# psf, mph to the nearest whole, by 0.00256 V squared
VELOCITY = [(2.86, 33), (6.24, 49), (12.0, 68), (25.6, 100)]
# cfm/sq ft and L/s per sq m to 0.01 (ASTM E1680 and E2357 criteria)
RATES = [(0.06, 0.30), (0.04, 0.20)]
# downward design pressure, test pressure (ASTM E1646 default, from memory: a fifth, 2.86 to 12)
E1646 = [(10, 2.86), (14.3, 2.86), (20, 4.0), (31.2, 6.24), (60, 12.0), (90, 12.0)]
# kg/cu m of air times a half: N/sq m of (m/s) squared (ASCE/SEI 7 Eq. 26.10-1.SI)
SI_VELOCITY = 0.613


@pytest.mark.parametrize(("psf", "pascals"), PRINTED_PAIRS)
def test_a_test_pressure_is_the_pascals_printed_beside_it(psf: float, pascals: int) -> None:
    """Within half a percent, the rounding of the printed figures."""
    assert equivalents(pressure_psf=psf).pa == pytest.approx(pascals, rel=0.005)
    assert psf_from_pa(pascals) == pytest.approx(psf, rel=0.005)


@pytest.mark.parametrize("psf", [1.0, 6.24, 45.0])
def test_pascals_are_those_of_a_units_library(psf: float) -> None:
    quantity = UREG.Quantity(psf, "force_pound / foot ** 2")
    assert equivalents(pressure_psf=psf).pa == pytest.approx(quantity.to("pascal").magnitude)


@pytest.mark.parametrize(("unit", "inches"), [("inch_H2O_60F", 1.0), ("centimeter_H2O", 1 / 2.54)])
def test_a_head_of_water_is_that_of_a_units_library(unit: str, inches: float) -> None:
    """Within 0.1 percent: 62.4 lb/cu ft is water at about 50 degF, the units are 60 and 39 degF."""
    head = UREG.Quantity(1, unit).to("force_pound / foot ** 2").magnitude
    assert static_head(head_in=inches).psf == pytest.approx(head, rel=0.001)


def test_6_24_psf_is_an_inch_and_a_fifth_of_water() -> None:
    assert equivalents(pressure_psf=6.24).inches_of_water == pytest.approx(1.2)


def test_the_usual_static_head_of_6_inches_is_about_31_psf() -> None:
    assert static_head(head_in=6).psf == pytest.approx(31.2)


@pytest.mark.parametrize(("psf", "mph"), VELOCITY)
def test_a_wind_presses_by_the_velocity_pressure_of_the_load_standard(psf: float, mph: int) -> None:
    assert round(equivalents(pressure_psf=psf).mph) == mph


@pytest.mark.parametrize(("psf", "mph"), SAID_WINDS)
def test_the_trades_round_winds_differ_by_less_than_3_percent(psf: float, mph: int) -> None:
    """A documented disagreement: 1.57 psf for 25 mph and 6.24 for 50 come from 0.0025 V squared."""
    assert 0.0025 * mph**2 == pytest.approx(psf, rel=0.005)
    assert psf_from_mph(mph) == pytest.approx(psf, rel=0.03)


@pytest.mark.parametrize("speed", [10.0, 25.0, 50.0])
def test_velocity_pressure_agrees_with_the_metric_equation(speed: float) -> None:
    """Within 0.1 percent, the rounding of 0.613."""
    psf = psf_from_mph(speed * 3600 / 1609.344)
    assert equivalents(pressure_psf=psf).pa == pytest.approx(SI_VELOCITY * speed**2, rel=0.001)


@pytest.mark.parametrize(("rate", "metric"), RATES)
def test_a_leakage_rate_is_the_metric_one_printed_beside_it(rate: float, metric: float) -> None:
    leak = air_leakage(rate_cfm_sqft=rate, area_sqft=100, pressure_psf=1.57)
    assert round(leak.rate_l_s_sqm, 2) == metric


def test_the_air_of_a_roof_is_that_of_a_units_library() -> None:
    leak = air_leakage(rate_cfm_sqft=0.06, area_sqft=25_000, pressure_psf=6.24)
    total = UREG.Quantity(0.06 * 25_000, "foot ** 3 / minute").to("liter / second").magnitude
    assert leak.total_l_s == pytest.approx(total)


@pytest.mark.parametrize(("design", "test"), E1646)
def test_the_water_test_takes_a_fifth_between_its_floor_and_its_cap(
    design: float, test: float
) -> None:
    assert water_penetration_pressure(design_positive_psf=design).psf == pytest.approx(test)


def test_preloads_are_those_of_the_laboratorys_page() -> None:
    """The greater of 75 percent of 20 psf live load and 50 percent of 16 psf wind; 50 of 60 up."""
    loads = water_test_preloads(design_positive_psf=16, design_uplift_psf=60, live_load_psf=20)
    assert (loads.positive_psf, loads.negative_psf) == (15, 30)
