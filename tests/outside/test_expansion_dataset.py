"""Thermal expansion and density against an open data set of the elements, where it is installed.

The data set comes with pymatgen (extra ``dataset``) and holds the pure elements near room
temperature. Roofing metals are alloys, so agreement is asked only to the tolerance that stands
beside each metal with its reason.
"""

from __future__ import annotations

import pytest

from specgen.calculations.expansion import METALS
from specgen.calculations.weight import DENSITY, Metal

core = pytest.importorskip("pymatgen.core", reason="pymatgen (extra 'dataset') is not installed")

# metal, element, largest relative difference of expansion, why they differ at all
EXPANSION = [
    # carbon and manganese change it little; tables give 6.5 to 6.7 millionths per degF
    ("coated-steel", "Fe", 0.04),
    # manganese and magnesium, 1 to 2 percent of the alloy; 23.2 to 23.9 per degC by alloy
    ("aluminum", "Al", 0.04),
    # the trade's figure is a mean up to 572 degF, 4 percent above that of roof temperatures
    ("copper", "Cu", 0.08),
]
# metal, element, largest relative difference of density: alloys, and three printed figures
DENSITIES: list[tuple[Metal, str, float]] = [
    ("coated-steel", "Fe", 0.01),
    ("aluminum", "Al", 0.02),
    ("zinc", "Zn", 0.01),
    ("copper", "Cu", 0.01),
]
KG_PER_CU_M_PER_LB_PER_CU_IN = 0.45359237 / 0.0254**3


def per_kelvin(element: str) -> float:
    """Linear thermal expansion of an element in 1/K, as the data set gives it."""
    return float(core.Element(element).coefficient_of_linear_thermal_expansion)


@pytest.mark.parametrize(("metal", "element", "tolerance"), EXPANSION)
def test_a_roofing_metal_expands_about_as_its_element_does(
    metal: str, element: str, tolerance: float
) -> None:
    ours = METALS[metal].per_degc
    assert ours == pytest.approx(per_kelvin(element), rel=tolerance)


@pytest.mark.parametrize(("metal", "element", "tolerance"), EXPANSION)
def test_no_coefficient_understates_the_movement_of_its_element(
    metal: str, element: str, tolerance: float
) -> None:
    assert METALS[metal].per_degc >= per_kelvin(element)


def test_rolled_zinc_expands_about_a_quarter_less_than_the_element() -> None:
    """A documented disagreement.

    The crystal of zinc is hexagonal and expands several times as far along its axis as across it.
    The element's figure, about 30 millionths per K, is a mean over all directions; rolling lays the
    axes across the sheet, so that titanium-zinc takes 22 along the rolling direction, which is the
    length of a panel.
    """
    ratio = METALS["zinc"].per_degc / per_kelvin("Zn")
    assert ratio == pytest.approx(0.73, abs=0.03)


def test_the_elements_rank_as_the_roofing_metals_do_but_for_zinc_and_aluminum() -> None:
    metals = ["coated-steel", "copper", "aluminum"]
    assert sorted(metals, key=lambda name: METALS[name].per_degf) == metals
    assert per_kelvin("Fe") < per_kelvin("Cu") < per_kelvin("Al") < per_kelvin("Zn")


@pytest.mark.parametrize(("metal", "element", "tolerance"), DENSITIES)
def test_a_roofing_metal_is_about_as_dense_as_its_element(
    metal: Metal, element: str, tolerance: float
) -> None:
    metric = DENSITY[metal][0] * KG_PER_CU_M_PER_LB_PER_CU_IN
    assert metric == pytest.approx(float(core.Element(element).density_of_solid), rel=tolerance)
