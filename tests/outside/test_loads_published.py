"""Downslope and snow loads against published figures."""

from __future__ import annotations

import pytest

from specgen.calculations.loads import downslope_load, snow_retention_load
from specgen.calculations.snow import flat_roof_snow

# A public page on snow retention: 6:12, 35 psf of roof snow, 40 ft from eave to ridge, seams at 18
# in; sine 0.447; inputs and method are printed, 35 x 0.447 x 40 x 1.5 computed from them.
SLOPE, SNOW, RUN, SEAMS = 6.0, 35.0, 40.0, 18.0
SINE = 0.447
PER_SEAM_LB = 939.0
# ratio of the strict to the usual form at 6:12, cos(26.565 deg)
STRICT_OF_USUAL = 0.8944
# Importance factor of snow by risk category (ASCE/SEI 7-16 Table 1.5-2) and the flat roof load
# that Eq. 7.3-1 gives with it for 30 psf on the ground and other factors at 1
IMPORTANCE = [("I", 0.8, 16.8), ("II", 1.0, 21.0), ("III", 1.1, 23.1), ("IV", 1.2, 25.2)]


def test_snow_on_a_row_is_taken_by_the_sine_that_the_page_prints() -> None:
    held = snow_retention_load(
        slope_in_12=SLOPE, run_above_ft=RUN, coverage_in=SEAMS, snow_psf=SNOW
    )
    assert held.angle_deg == pytest.approx(26.565, abs=0.001)
    assert held.per_foot_lb / (SNOW * RUN) == pytest.approx(SINE, abs=0.0005)
    assert held.per_clamp_lb == pytest.approx(PER_SEAM_LB, abs=0.5)


def test_the_snow_of_the_page_pulls_over_600_lb_on_a_foot_of_eave() -> None:
    held = snow_retention_load(
        slope_in_12=SLOPE, run_above_ft=RUN, coverage_in=SEAMS, snow_psf=SNOW
    )
    assert 600 < held.per_foot_lb < 650


def test_a_fixed_point_carries_the_drag_of_the_page_and_the_panel_besides() -> None:
    bare = downslope_load(
        slope_in_12=SLOPE, panel_length_ft=RUN, coverage_in=SEAMS, dead_psf=0, snow_psf=SNOW
    )
    assert bare.per_panel_lb == pytest.approx(PER_SEAM_LB, abs=0.5)
    assert bare.strict_per_panel_lb / bare.per_panel_lb == pytest.approx(
        STRICT_OF_USUAL, abs=0.0001
    )


@pytest.mark.parametrize(("category", "importance", "flat"), IMPORTANCE)
def test_the_flat_roof_load_goes_with_the_risk_category(
    category: str, importance: float, flat: float
) -> None:
    found = flat_roof_snow(ground_snow_psf=30, importance_factor=importance)
    assert found.flat_psf == pytest.approx(flat), category
