"""R of insulation and the energy codes' minimums against published figures and a units library."""

from __future__ import annotations

import pint
import pytest

from specgen.calculations.energy_code import BuildingCode, code_minimum_r
from specgen.calculations.insulation import (
    EPS_PER_IN,
    Layer,
    layer_r,
    resistance,
    rsi,
    thickness_for_r,
)
from specgen.units import RSI_PER_R

UREG: pint.UnitRegistry[float] = pint.UnitRegistry()

# inches, long-term R of polyisocyanurate (two public tables; ASTM C1289)
POLYISO = [
    (1.0, 5.6),
    (1.5, 8.6),
    (2.0, 11.4),
    (2.2, 12.6),
    (2.5, 14.4),
    (2.6, 15.0),
    (3.0, 17.4),
    (3.5, 20.5),
    (4.0, 23.6),
]
# R, inches of each of two layers of polyisocyanurate that reach it (a public page)
TWO_LAYERS = [(20, 1.8), (25, 2.2), (30, 2.6), (35, 3.1)]
# R per inch: lowest and highest that public pages give
PER_INCH = [("xps", 4.5, 5.0), ("eps", 3.6, 4.4), ("mineral-wool", 3.7, 4.3)]
# R, RSI to 0.01 (equivalents printed side by side in Canadian codes, from memory)
METRIC = [(10, 1.76), (20, 3.52), (30, 5.28), (40, 7.04)]

# climate zone -> R above deck, continuous. IECC 2018 and 2021 Table C402.1.3 (public files and
# memory); 2024 from memory; ASHRAE 90.1-2019 nonresidential (a public file)
IECC_2018 = {"1": 20, "2": 25, "3": 25, "4": 30, "5": 30, "6": 30, "7": 35, "8": 35}
IECC_2021 = {"0": 25, "1": 25, "2": 25, "3": 25, "4": 30, "5": 30, "6": 30, "7": 35, "8": 35}
ASHRAE_2019 = {"0": 25, "1": 20, "2": 25, "3": 25, "4": 30, "5": 30, "6": 30, "7": 35, "8": 35}
# climate zone -> R of the blankets of the metal building row (a public file)
METAL_BUILDING = {"1": 19, "2": 19, "3": 19, "4": 19, "5": 19, "6": 25, "7": 30, "8": 30}

BY_EDITION: list[tuple[BuildingCode, str, int]] = [
    *(("ibc-2018", zone, r) for zone, r in IECC_2018.items()),
    *(("ibc-2021", zone, r) for zone, r in IECC_2021.items()),
    *(("ibc-2024", zone, r) for zone, r in IECC_2021.items()),
    ("fbc-2023", "2", 25),  # zone 2A, a public file
]


@pytest.mark.parametrize(("inches", "published"), POLYISO)
def test_polyisocyanurate_has_its_published_long_term_r(inches: float, published: float) -> None:
    assert layer_r(Layer("polyiso", inches)) == pytest.approx(published)


@pytest.mark.parametrize(("required", "inches"), TWO_LAYERS)
def test_two_layers_reach_an_r_at_the_published_thickness(required: int, inches: float) -> None:
    found = thickness_for_r(kind="polyiso", required_r=required, layers=2)
    assert found.layer_in == inches


def test_polyisocyanurate_at_2_inches_is_the_5_7_an_inch_of_2014() -> None:
    """5.7 an inch replaced 6.0 in 2014 (a roofing trade magazine)."""
    assert layer_r(Layer("polyiso", 2)) / 2 == pytest.approx(5.7)


@pytest.mark.parametrize(("kind", "low", "high"), PER_INCH)
def test_other_boards_lie_within_the_published_range(kind: str, low: float, high: float) -> None:
    assert low <= layer_r(Layer(kind, 1)) <= high  # type: ignore[arg-type]


def test_every_type_of_eps_lies_within_the_published_range() -> None:
    """3.6 to 4.2 an inch (a public file)."""
    assert all(3.6 <= r <= 4.2 for r in EPS_PER_IN.values())


def test_metric_r_is_that_of_a_units_library() -> None:
    unit = UREG.Quantity(1, "hour * foot ** 2 * delta_degree_Fahrenheit / Btu")
    assert unit.to("meter ** 2 * kelvin / watt").magnitude == pytest.approx(RSI_PER_R, rel=1e-6)


@pytest.mark.parametrize(("r", "metric"), METRIC)
def test_an_r_is_printed_beside_its_metric_equivalent(r: int, metric: float) -> None:
    assert round(rsi(r), 2) == metric


def test_two_layers_of_2_6_inches_give_r_30() -> None:
    assert resistance([Layer("polyiso", 2.6), Layer("polyiso", 2.6)]).r == pytest.approx(30)


@pytest.mark.parametrize(("code", "zone", "published"), BY_EDITION)
def test_the_least_r_above_a_deck_is_that_of_its_table(
    code: BuildingCode, zone: str, published: int
) -> None:
    assert code_minimum_r(code=code, climate_zone=zone).r == published


def test_zone_1_of_2018_asks_r_25_of_group_r() -> None:
    assert code_minimum_r(code="ibc-2018", climate_zone="1", group_r=True).r == 25


@pytest.mark.parametrize("zone", ASHRAE_2019)
def test_the_2021_table_is_never_below_the_other_energy_standard(zone: str) -> None:
    """They differ in zone 1 alone, where ASHRAE 90.1-2019 asks R-20."""
    found = code_minimum_r(code="ibc-2021", climate_zone=zone).r
    assert found - ASHRAE_2019[zone] == (5 if zone == "1" else 0)


@pytest.mark.parametrize("zone", METAL_BUILDING)
def test_the_metal_building_row_names_its_published_blankets(zone: str) -> None:
    row = code_minimum_r(code="ibc-2021", climate_zone=zone, open_framing=True).metal_building
    assert f"R-{METAL_BUILDING[zone]} over the purlins" in row
    assert "R-11" in row
