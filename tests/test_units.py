"""Reading quantities as people type them and showing them as the trade prints them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.showing import show, show_resistance, show_thickness
from specgen.units import DIMENSIONS, System, UnitError, read, read_any, read_number, thickness


@pytest.mark.parametrize(
    ("typed", "dimension", "magnitude"),
    [
        ("16 in", "length", 16),
        ("18-3/4 in", "length", 18.75),
        ("18 3/4 in", "length", 18.75),
        ('16"', "length", 16),
        ("40 ft", "length", 480),
        ("1,200 ft", "length", 14400),
        ("5'-6\"", "length", 66),
        ("12 ft 6-1/2 in", "length", 150.5),
        ("400 mm", "length", 400 / 25.4),
        ("2 mi", "length", 126720),
        ("0", "length", 0),
        ("1:12", "slope", 1),
        ("1/2:12", "slope", 0.5),
        ("1-1/2 in 12", "slope", 1.5),
        ("25 percent", "slope", 3),
        ("45 deg", "slope", 12),
        ("45 psf", "pressure", 45),
        ("-1/2 psf", "pressure", -0.5),
        ("-3-1/2 psf", "pressure", -3.5),
        ("45 lb/sq ft", "pressure", 45),
        ("1 psi", "pressure", 144),
        ("24 ga", "thickness", 0.0239),
        ("24 gauge", "thickness", 0.0239),
        ("0.032 in", "thickness", 0.032),
        ("40 mils", "thickness", 0.040),
        ("100 °C", "temperature", 212),
        ("-20 degF", "temperature", -20),
        ("0.06 cfm/sq ft", "leakage", 0.06),
    ],
)
def test_a_quantity_is_read_as_people_type_it(typed: str, dimension: str, magnitude: float) -> None:
    assert read(typed, dimension).magnitude == pytest.approx(magnitude)


@pytest.mark.parametrize(
    ("typed", "dimension", "says"),
    [
        ("16", "length", "has no unit"),
        ("sixteen", "length", "does not begin with a number"),
        ("", "length", "an empty text"),
        (".", "length", "does not begin with a number"),
        ("16 psf", "length", "is not a length"),
        ("16 in", "pressure", "is not a pressure"),
        ("-3 ft", "length", "is negative"),
        ("1/0 in", "length", "divides by zero"),
        ("3/0:12", "slope", "divides by zero"),
        ("95 deg", "slope", "is not a slope"),
        ("99 ga", "thickness", "is not a sheet gauge"),
        ("9" * 400 + " ft", "length", "out of all proportion"),
        ("9" * 400 + "/1 in", "length", "out of all proportion"),
        ("9" * 5000 + "/" + "9" * 5000 + " in", "length", "out of all proportion"),
        ("1-1/" + "0" * 5000 + " in", "length", "divides by zero"),
        ("16 in in", "length", "is not a length"),
    ],
)
def test_what_is_no_quantity_is_refused_with_a_reason(
    typed: str, dimension: str, says: str
) -> None:
    with pytest.raises(UnitError, match=says):
        read(typed, dimension)


@pytest.mark.parametrize(
    ("typed", "both"),
    [
        ("16 in", "16 in (406 mm)"),
        ("18-3/4 in", "18-3/4 in (476 mm)"),
        ("0.5 in", "1/2 in (13 mm)"),
        ("0.3 in", "0.3 in (8 mm)"),
        ("1/16 in", "1/16 in (1.6 mm)"),
        ("400 mm", "15-3/4 in (400 mm)"),
        ("40 ft", "40 ft (12.2 m)"),
        ("12 m", "39.4 ft (12 m)"),
        ("250 ft", "250 ft (76 m)"),
        ("2 mi", "2 mi (3.2 km)"),
        ("1/2:12", "1/2:12 (4.2 percent)"),
        ("24 ga", "24 gauge (0.0239 in, 0.61 mm)"),
        ("0.032 in", "0.032 in (0.81 mm)"),
        ("0.8 mm", "0.0315 in (0.80 mm)"),
        ("16 oz", "16 oz per sq ft (0.0216 in, 0.55 mm)"),
        ("0.9 mil", "0.9 mil (23 µm)"),
        ("40 mil", "40 mil (1 mm)"),
        ("45 psf", "45 psf (2.15 kPa)"),
        ("2.86 psf", "2.86 psf (137 Pa)"),
        ("6.24 psf", "6.24 psf (299 Pa)"),
        ("25 psi", "25 psi (172 kPa)"),
        ("115 mph", "115 mph (51 m/s)"),
        ("240 degF", "240 °F (116 °C)"),
        ("100 deltaF", "100 °F (56 °C)"),
        ("0.06 cfm/sq ft", "0.06 cfm/sq ft (0.30 L/s per sq m)"),
        ("150 lbf", "150 lbf (667 N)"),
        ("0.50 oz/sq ft", "0.50 oz/sq ft (153 g/sq m)"),
    ],
)
def test_a_quantity_is_shown_with_the_conversion_the_trade_prints(typed: str, both: str) -> None:
    quantity = thickness(typed) if typed.endswith(" mm") and "0.8" in typed else read_any(typed)
    if typed == "0.032 in":
        quantity = thickness(typed)
    assert show(quantity, "both") == both


def test_a_gauge_is_shown_as_a_decimal_where_the_metal_has_no_gauge() -> None:
    assert show_thickness(thickness("24 ga"), "inch-pound") == "0.0239 in"


def test_each_system_shows_its_own_units_alone() -> None:
    assert show(read("16 in", "length"), "inch-pound") == "16 in"
    assert show(read("16 in", "length"), "si") == "406 mm"


@given(st.fractions(min_value=0, max_value=500, max_denominator=16))
def test_a_shown_length_in_sixteenths_reads_back_as_itself(inches: object) -> None:
    value = float(inches)  # type: ignore[arg-type]
    quantity = read(f"{value!r} in", "length")
    again = read(show(quantity, "inch-pound"), "length")
    assert again.magnitude == pytest.approx(value, abs=1 / 32)


@given(st.text(max_size=30), st.sampled_from(sorted(DIMENSIONS)))
def test_no_text_breaks_the_reader(text: str, dimension: str) -> None:
    try:
        quantity = read(text, dimension)
    except UnitError as error:
        assert str(error)
    else:
        assert show(quantity, "both")


@given(st.text(max_size=30))
def test_no_text_breaks_the_reading_of_a_plain_number(text: str) -> None:
    try:
        assert abs(read_number(text)) <= 1e9
    except UnitError as error:
        assert str(error)


@pytest.mark.parametrize(
    ("system", "shown"),
    [("inch-pound", "R-30"), ("both", "R-30 (RSI-5.28)"), ("si", "RSI-5.28 (R-30)")],
)
def test_a_resistance_keeps_its_r_in_every_system(system: System, shown: str) -> None:
    # 30 x 0.1761102, NIST SP 811
    assert show_resistance(30.0, system) == shown
