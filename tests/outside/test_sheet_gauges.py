"""Sheet thickness against the published gauge tables.

Steel: a gauge of the Manufacturers' Standard Gauge is a weight (the ounces per square foot of
15 U.S.C. 206), turned into a thickness at 41.82 lb per square foot per inch. Copper: sold by
weight; density 0.322 lb/cu in (Copper Development Association). Aluminum and zinc: a decimal.
"""

from __future__ import annotations

import pytest

from specgen.units import STEEL_GAUGE, UnitError, thickness

POUNDS_PER_SQ_FT_PER_INCH = 41.82

# gauge, oz/sq ft (15 U.S.C. 206), inches as the tables print it (Manufacturers' Standard Gauge
# for sheet steel; 20 to 26 read in two public tables, the others from memory)
STEEL = [
    (16, 40, 0.0598),
    (18, 32, 0.0478),
    (20, 24, 0.0359),
    (22, 20, 0.0299),
    (24, 16, 0.0239),
    (26, 12, 0.0179),
    (28, 10, 0.0149),
]
# gauge, inches of the galvanized sheet gauge, whose figure counts the zinc (a public table)
GALVANIZED = [(20, 0.0396), (22, 0.0336), (24, 0.0276), (26, 0.0217)]
# gauge, inches of the Brown and Sharpe gauge of aluminum (a public table)
BROWN_AND_SHARPE = [(20, 0.0320), (22, 0.0253), (24, 0.0201), (26, 0.0159)]
# oz/sq ft, inches (nominal thickness of sheet copper, Copper Development Association tables)
COPPER = [(16, 0.0216), (20, 0.0270)]
COPPER_POUNDS_PER_CU_IN = 0.322
# inches, millimeters to 0.01 (an inch is 25.4 mm by definition, NIST SP 811)
ALUMINUM = [("0.032 in", 0.81), ("0.040 in", 1.02), ("0.050 in", 1.27), ("0.063 in", 1.60)]
# millimeters of rolled zinc (EN 988), inches to 0.0001
ZINC = [("0.70 mm", 0.0276), ("0.80 mm", 0.0315), ("1.00 mm", 0.0394)]


@pytest.mark.parametrize(("gauge", "ounces", "printed"), STEEL)
def test_a_steel_gauge_is_its_weight_over_the_weight_of_an_inch(
    gauge: int, ounces: int, printed: float
) -> None:
    computed = ounces / 16 / POUNDS_PER_SQ_FT_PER_INCH
    assert thickness(f"{gauge} ga").to("in") == pytest.approx(computed, abs=0.00005)
    assert thickness(f"{gauge} ga").to("in") == pytest.approx(printed, abs=1e-9)


def test_every_gauge_that_can_be_typed_stands_in_the_published_table() -> None:
    assert set(STEEL_GAUGE) == {gauge for gauge, _, _ in STEEL}


@pytest.mark.parametrize(("gauge", "other"), GALVANIZED + BROWN_AND_SHARPE)
def test_a_steel_gauge_is_not_read_from_the_galvanized_or_the_aluminum_table(
    gauge: int, other: float
) -> None:
    steel = thickness(f"{gauge} ga").to("in")
    assert abs(other - steel) / steel > 0.1


@pytest.mark.parametrize(("gauge", "heavier"), [(26, 24), (24, 22), (22, 20), (20, 18)])
def test_a_lower_gauge_number_is_a_thicker_sheet(gauge: int, heavier: int) -> None:
    assert thickness(f"{heavier} ga").to("in") > thickness(f"{gauge} ga").to("in")


@pytest.mark.parametrize(("ounces", "printed"), COPPER)
def test_a_weight_of_copper_is_its_thickness_at_the_density_of_copper(
    ounces: int, printed: float
) -> None:
    computed = ounces / 16 / 144 / COPPER_POUNDS_PER_CU_IN
    assert thickness(f"{ounces} oz").to("in") == pytest.approx(computed, rel=1e-9)
    assert thickness(f"{ounces} oz").to("in") == pytest.approx(printed, abs=0.00005)


@pytest.mark.parametrize(("decimal", "millimeters"), ALUMINUM)
def test_an_aluminum_decimal_converts_to_its_millimeters(decimal: str, millimeters: float) -> None:
    assert round(thickness(decimal).to("mm"), 2) == millimeters


@pytest.mark.parametrize(("millimeters", "decimal"), ZINC)
def test_a_zinc_thickness_in_millimeters_converts_to_its_decimal(
    millimeters: str, decimal: float
) -> None:
    assert round(thickness(millimeters).to("in"), 4) == decimal


@pytest.mark.parametrize("text", ["23 ga", "0 ga", "24.5 ga"])
def test_a_gauge_outside_the_table_is_refused(text: str) -> None:
    with pytest.raises(UnitError, match="gauge"):
        thickness(text)
