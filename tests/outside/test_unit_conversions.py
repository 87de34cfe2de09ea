"""Every unit that specgen knows against the units library pint, an independent implementation."""

from __future__ import annotations

import math

import pint
import pytest

from specgen.units import DIMENSIONS, read

UREG: pint.UnitRegistry[float] = pint.UnitRegistry()

# dimension -> unit as specgen writes it -> the same unit in pint's words. The first unit of each
# dimension is the one that the others are factors of.
SAME = {
    "length": {
        "in": "inch",
        "ft": "foot",
        "mi": "mile",
        "mm": "millimeter",
        "cm": "centimeter",
        "m": "meter",
        "km": "kilometer",
    },
    "thickness": {
        "in": "inch",
        "mil": "thou",
        "mm": "millimeter",
        "um": "micrometer",
    },
    "pressure": {
        "psf": "force_pound / foot ** 2",
        "psi": "force_pound / inch ** 2",
        "Pa": "pascal",
        "kPa": "kilopascal",
    },
    "speed": {"mph": "mile / hour", "m/s": "meter / second", "km/h": "kilometer / hour"},
    "temperature difference": {
        "deltaF": "delta_degree_Fahrenheit",
        "deltaC": "delta_degree_Celsius",
    },
    "leakage": {
        "cfm/sq ft": "foot ** 3 / minute / foot ** 2",
        "L/s per sq m": "liter / second / meter ** 2",
    },
    "area": {"sq ft": "foot ** 2", "sq m": "meter ** 2"},
    "force": {"lbf": "force_pound", "N": "newton", "kN": "kilonewton"},
    "line load": {
        "lbf/ft": "force_pound / foot",
        "N/m": "newton / meter",
        "kN/m": "kilonewton / meter",
    },
    "torque": {"in-lbf": "inch * force_pound", "N-m": "newton * meter"},
    "coating mass": {"oz/sq ft": "ounce / foot ** 2", "g/sq m": "gram / meter ** 2"},
    # A perm is a grain per hour, square foot and inch of mercury at 0 degC (ASTM E96/E96M).
    "permeance": {
        "perm": "grain / hour / foot ** 2 / inch_Hg",
        "ng/Pa-s-sq m": "nanogram / pascal / second / meter ** 2",
    },
    "density": {"lb/cu ft": "pound / foot ** 3", "kg/cu m": "kilogram / meter ** 3"},
}
# Not factors of one another: tested on their own below.
BY_THEMSELVES = {"slope", "temperature"}

PAIRS = [(dimension, unit) for dimension, units in SAME.items() for unit in units]
AMOUNT = 7.5
# Kept to the figures in which the trade's tables print them; every other factor is exact.
ROUNDED = {"permeance": 2e-5, "coating mass": 1e-7}


def _ratio(unit: str, base: str) -> float:
    """How many of one unit, in pint's words, make the other."""
    return float(UREG.Quantity(1.0, unit).to(UREG.Unit(base)).magnitude)


def test_every_dimension_and_every_unit_of_it_is_checked() -> None:
    known = {name: set(d.units) for name, d in DIMENSIONS.items() if name not in BY_THEMSELVES}
    assert known == {name: set(units) for name, units in SAME.items()}


@pytest.mark.parametrize(("dimension", "unit"), PAIRS)
def test_a_unit_is_read_at_the_size_that_pint_gives_it(dimension: str, unit: str) -> None:
    words = SAME[dimension]
    expected = AMOUNT * _ratio(words[unit], words[next(iter(words))])
    tolerance = ROUNDED.get(dimension, 1e-9)
    assert read(f"{AMOUNT} {unit}", dimension).magnitude == pytest.approx(expected, rel=tolerance)


@pytest.mark.parametrize(("dimension", "unit"), PAIRS)
def test_a_quantity_given_back_in_the_unit_it_was_typed_in_is_the_same_figure(
    dimension: str, unit: str
) -> None:
    assert read(f"{AMOUNT} {unit}", dimension).to(unit) == pytest.approx(AMOUNT, rel=1e-12)


@pytest.mark.parametrize("celsius", [-40.0, -20.0, 0.0, 37.0, 82.0, 121.0])
def test_a_temperature_converts_as_pint_converts_it(celsius: float) -> None:
    expected = UREG.Quantity(celsius, "degree_Celsius").to("degree_Fahrenheit").magnitude
    temperature = read(f"{celsius} degC", "temperature")
    assert temperature.to("degF") == pytest.approx(expected)
    assert temperature.to("degC") == pytest.approx(celsius)
    assert read(f"{expected} degF", "temperature").to("degC") == pytest.approx(celsius)


@pytest.mark.parametrize(
    ("text", "rise"),
    [
        ("1/4:12", 0.25),
        ("2-1/2:12", 2.5),
        ("3 in 12", 3.0),
        ("25 percent", 3.0),  # a rise of a quarter of the run
        ("100 %", 12.0),
        ("45 deg", 12.0),
        ("30 deg", 12 * math.tan(math.pi / 6)),
    ],
)
def test_a_slope_is_the_rise_in_twelve_however_it_is_typed(text: str, rise: float) -> None:
    assert read(text, "slope").to(":12") == pytest.approx(rise)


@pytest.mark.parametrize(
    ("text", "dimension", "unit", "printed"),
    [
        # Pairs printed side by side in codes and test methods.
        ("1.57 psf", "pressure", "Pa", 75),  # ASTM E1680
        ("2.86 psf", "pressure", "Pa", 137),  # ASTM E1646
        ("6.24 psf", "pressure", "Pa", 299),  # ASTM E1646
        ("12.0 psf", "pressure", "Pa", 575),  # ASTM E1646
        ("6 in", "length", "mm", 152),  # ASTM E2140
        ("40 mil", "thickness", "um", 1016),  # ASTM D1970/D1970M
        ("240 degF", "temperature", "degC", 116),  # common practice
    ],
)
def test_a_figure_converts_to_the_one_printed_beside_it_in_the_trade(
    text: str, dimension: str, unit: str, printed: float
) -> None:
    assert read(text, dimension).to(unit) == pytest.approx(printed, abs=0.5)
