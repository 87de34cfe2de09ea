"""Strip width and weight of panels against published and customary figures."""

from __future__ import annotations

import pytest

from specgen.calculations.sheet import SeamKind, strip_width, strips_from_coil
from specgen.calculations.weight import DENSITY, Metal, panel_weight

# coverage, seam height, strip, coil, strips from it (common practice: the figure that the model of
# take-up is set by)
ONE_COIL = (18.75, 2.0, 24.3125, 48.625, 2)
# sheet width, coverage of a pan with a finished double-lock seam 1 in high, folded by hand in
# copper (tables of the copper trade, from memory): 3-1/4 in of take-up
HAND_FOLDED = [(20.0, 16.75), (22.0, 18.75), (24.0, 20.75)]
# oz/sq ft and the inches that it is (copper association: 0.322 lb/cu in)
COPPER = [(16, 0.0216), (20, 0.0270)]
# millimeters, kg/sq m, psf (EN 988 sizes at 7,180 kg/cu m)
ZINC = [(0.70, 5.0, 1.03), (0.80, 5.7, 1.18), (1.00, 7.2, 1.47)]
# gauge thickness in inches and oz/sq ft (15 U.S.C. 206)
STEEL = [(0.0179, 12), (0.0239, 16), (0.0299, 20), (0.0359, 24)]
# kg/cu m (public pages; zinc and stainless from memory)
METRIC_DENSITY: dict[Metal, float] = {
    "coated-steel": 7850,
    "aluminum": 2730,
    "zinc": 7180,
    "copper": 8910,
    "stainless": 8000,
    "type-304": 8000,
    "type-316": 8000,
}
KG_PER_LB, CM_PER_IN = 0.45359237, 2.54


def sheet_psf(metal: Metal, thickness_in: float) -> float:
    return panel_weight(
        metal=metal, thickness_in=thickness_in, coverage_in=16, strip_in=20, length_ft=30
    ).sheet_psf


def test_two_strips_of_the_customary_double_lock_panel_come_from_one_coil() -> None:
    coverage, height, strip, coil, strips = ONE_COIL
    found = strip_width(coverage_in=coverage, seam_kind="double-lock", seam_height_in=height)
    assert found.take_up_in == 5.5625
    assert found.strip_in == strip
    cut = strips_from_coil(strip_in=found.strip_in, coil_width_in=coil)
    assert (cut.strips, cut.waste_in) == (strips, 0)


@pytest.mark.parametrize(("sheet", "coverage"), HAND_FOLDED)
def test_the_model_asks_a_little_more_than_a_seam_folded_by_hand(
    sheet: float, coverage: float
) -> None:
    """A documented disagreement of 5/16 in: folds made by hand are narrower than rolled ones.

    The model's slope stands: two legs, whatever the folds.
    """
    found = strip_width(coverage_in=coverage, seam_kind="double-lock", seam_height_in=1)
    assert found.strip_in - sheet == pytest.approx(0.3125)


@pytest.mark.parametrize("kind", ["snap-lock", "single-lock"])
def test_two_legs_of_a_usual_seam_use_up_some_4_inches_of_coil(kind: SeamKind) -> None:
    """Common practice, for seams of 1-1/2 in; profiles differ by 1/2 in and more."""
    found = strip_width(coverage_in=16, seam_kind=kind, seam_height_in=1.5)
    assert found.take_up_in == pytest.approx(4, abs=0.6)


@pytest.mark.parametrize("metal", METRIC_DENSITY)
def test_a_density_is_the_published_metric_one(metal: Metal) -> None:
    """Within 0.5 percent, the rounding of a density to three figures in either system."""
    metric = DENSITY[metal][0] * KG_PER_LB / (CM_PER_IN / 100) ** 3
    assert metric == pytest.approx(METRIC_DENSITY[metal], rel=0.005)


@pytest.mark.parametrize(("ounces", "inches"), COPPER)
def test_copper_weighs_the_ounces_that_it_is_sold_by(ounces: int, inches: float) -> None:
    """Within 0.3 percent: the thickness is printed to 0.0001 in."""
    assert sheet_psf("copper", inches) == pytest.approx(ounces / 16, rel=0.003)


@pytest.mark.parametrize(("millimeters", "kg_per_sqm", "psf"), ZINC)
def test_zinc_weighs_what_its_sheets_are_listed_at(
    millimeters: float, kg_per_sqm: float, psf: float
) -> None:
    """Within 1 percent: densities of 7,140 to 7,200 kg/cu m are in use, figures are rounded."""
    found = sheet_psf("zinc", millimeters / 25.4)
    assert found == pytest.approx(psf, rel=0.01)
    assert found * 4.882428 == pytest.approx(kg_per_sqm, rel=0.01)


@pytest.mark.parametrize(("inches", "ounces"), STEEL)
def test_steel_weighs_2_to_3_percent_less_than_its_gauge_weight(inches: float, ounces: int) -> None:
    """A documented disagreement: the gauge counts 41.82 lb/sq ft an inch, over-thick edges of old
    sheets included, where the metal itself weighs 40.8."""
    assert sheet_psf("coated-steel", inches) / (ounces / 16) == pytest.approx(0.9765, abs=0.003)
