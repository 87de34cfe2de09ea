"""Zone pressures: how they behave, what they refuse, and that the record bears them out."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.record import OutsideMethod, Step
from specgen.calculations.wind import WindResult, internal_coefficient, zone_pressures
from specgen.calculations.wind_area import panel_area

USUAL: dict[str, Any] = {
    "edition": "7-22",
    "speed_mph": 115.0,
    "exposure": "c",
    "enclosure": "enclosed",
    "roof_shape": "gable",
    "roof_angle_deg": 15.0,
    "mean_roof_height_ft": 25.0,
    "building_length_ft": 120.0,
    "building_width_ft": 60.0,
    "effective_area_sqft": 10.0,
}
cases = st.fixed_dictionaries(
    {
        "edition": st.sampled_from(["7-16", "7-22"]),
        "speed_mph": st.floats(85, 220),
        "exposure": st.sampled_from(["b", "c", "d"]),
        "enclosure": st.sampled_from(["enclosed", "partially-open", "partially-enclosed"]),
        "roof_shape": st.sampled_from(["gable", "hip", "single-slope"]),
        "roof_angle_deg": st.floats(0, 27),
        "mean_roof_height_ft": st.floats(5, 60),
        "building_length_ft": st.floats(20, 600),
        "building_width_ft": st.floats(20, 600),
        "effective_area_sqft": st.floats(0.1, 2000),
        "ground_elevation_ft": st.floats(0, 12_000),
        "topographic_factor": st.floats(1, 3),
    }
)


def pressures(**changed: Any) -> WindResult:
    return zone_pressures(**(USUAL | changed))


@given(cases)
def test_strength_is_the_net_pressure_or_the_minimum_and_allowable_is_six_tenths(
    case: dict[str, Any],
) -> None:
    result = zone_pressures(**case)
    for zone in result.zones:
        q, inside = result.design_q_psf, result.gcpi
        assert zone.net_up_psf == pytest.approx(q * (inside - zone.gcp_up))
        assert zone.net_down_psf == pytest.approx(q * (zone.gcp_down + inside))
        assert zone.strength_up_psf == max(16.0, zone.net_up_psf)
        assert zone.strength_down_psf == max(16.0, zone.net_down_psf)
        assert zone.allowable_up_psf == pytest.approx(0.6 * zone.strength_up_psf)
        assert zone.allowable_down_psf == pytest.approx(0.6 * zone.strength_down_psf)
        assert zone.allowable_up_psf >= 9.6
        assert zone.gcp_up < 0 < zone.gcp_down


@given(cases, st.floats(1, 100))
def test_a_larger_area_has_no_greater_pressure(case: dict[str, Any], times: float) -> None:
    small = zone_pressures(**case)
    area = min(case["effective_area_sqft"] * times, 10_000)
    large = zone_pressures(**case | {"effective_area_sqft": area})
    for one, two in zip(small.zones, large.zones, strict=True):
        assert one.net_up_psf >= two.net_up_psf - 1e-9
        assert one.net_down_psf >= two.net_down_psf - 1e-9


@given(cases)
def test_pressure_has_no_jump_over_area(case: dict[str, Any]) -> None:
    near = case | {"effective_area_sqft": case["effective_area_sqft"] * 1.00001}
    one, two = zone_pressures(**case), zone_pressures(**near)
    for here, there in zip(one.zones, two.zones, strict=True):
        assert here.strength_up_psf == pytest.approx(there.strength_up_psf, rel=1e-4)


@given(cases)
def test_an_opening_that_dominates_raises_both_pressures(case: dict[str, Any]) -> None:
    shut, opened = (
        zone_pressures(**case | {"enclosure": e}) for e in ("enclosed", "partially-enclosed")
    )
    for one, two in zip(shut.zones, opened.zones, strict=True):
        assert two.net_up_psf - one.net_up_psf == pytest.approx(0.37 * shut.design_q_psf)
        assert two.net_down_psf - one.net_down_psf == pytest.approx(0.37 * shut.design_q_psf)


@given(cases)
def test_a_partially_open_building_is_loaded_as_an_enclosed_one(case: dict[str, Any]) -> None:
    one, two = (zone_pressures(**case | {"enclosure": e}) for e in ("enclosed", "partially-open"))
    assert one.zones == two.zones


@given(cases)
def test_moving_kd_from_one_edition_to_the_next_leaves_the_pressure(case: dict[str, Any]) -> None:
    # The curves of roofs to 7 degrees are one in both editions; only Kz tells them apart.
    flat = case | {"roof_shape": "gable", "roof_angle_deg": 5.0}
    old, new = (zone_pressures(**flat | {"edition": e}) for e in ("7-16", "7-22"))
    for one, two in zip(old.zones, new.zones, strict=True):
        assert one.net_up_psf / old.velocity.kz == pytest.approx(two.net_up_psf / new.velocity.kz)


def test_a_light_wind_is_designed_for_the_minimum() -> None:
    zone = pressures(speed_mph=85, exposure="b", effective_area_sqft=500).zone("1")
    assert zone.net_down_psf < 16
    assert zone.strength_down_psf == 16.0
    assert zone.allowable_down_psf == pytest.approx(9.6)
    steps = pressures(speed_mph=85, exposure="b", effective_area_sqft=500).zone_steps("1")
    assert any(step.caution == "the minimum governs" for step in steps)


def test_the_worst_zone_is_the_one_written_out() -> None:
    result = pressures()
    assert result.worst.zone == "3"
    symbols = [step.symbol for step in result.steps]
    assert "GCp,3" in symbols
    assert "GCp,1" not in symbols
    assert symbols[0] == "V"
    assert symbols[-1] == "pa,down"


def read_back(worked: str) -> float:
    """What a worked line comes to when a reader types it into a calculator."""
    text = worked.replace(" x ", " * ").replace("^", "**").replace("log10", "math.log10")
    text = text.replace("e**", "math.e**")
    value = eval(text, {"math": math, "max": max, "min": min})
    return float(value)


@given(cases)
def test_every_worked_line_comes_to_its_value(case: dict[str, Any]) -> None:
    result = zone_pressures(**case)
    every = [*result.common_steps, *result.edge.steps]
    every += [step for zone in result.zones for step in result.zone_steps(zone.zone)]
    for step in every:
        assert step.formula == "" or step.worked
        assert step.symbol
        assert step.label
        if step.worked:
            assert step.source
            assert read_back(step.worked) == pytest.approx(step.value, rel=2e-3, abs=1e-3), step


def test_the_worked_lines_of_an_overhang_come_to_their_values() -> None:
    for angle in (5.0, 15.0, 36.0):
        for shape in ("gable", "hip"):
            result = pressures(
                surface="overhang",
                roof_shape=shape,
                roof_angle_deg=angle,
                effective_area_sqft=30.0,
            )
            for step in result.steps:
                if step.worked:
                    assert read_back(step.worked) == pytest.approx(step.value, rel=1e-3), step
            assert any("Overhang" in text for text in result.cautions)


def test_an_overhang_is_lifted_more_than_its_roof() -> None:
    roof, over = (pressures(surface=s) for s in ("roof", "overhang"))
    for one, two in zip(roof.zones, over.zones, strict=True):
        assert two.net_up_psf > one.net_up_psf


@pytest.mark.parametrize(
    ("changed", "grade", "word"),
    [
        ({"roof_shape": "hip", "roof_angle_deg": 25.0}, "X", "conflict"),
        ({"edition": "7-16", "roof_angle_deg": 25.0}, "C", "one secondary reading"),
        ({"edition": "7-16", "roof_shape": "hip"}, "C", "least horizontal dimension"),
    ],
)
def test_a_coefficient_less_well_known_cautions_at_its_zone_and_overall(
    changed: dict[str, Any], grade: str, word: str
) -> None:
    result = pressures(**changed)
    assert {zone.grade for zone in result.zones} == {grade}
    assert all(word in zone.caution for zone in result.zones)
    assert any(word in text for text in result.cautions)


def test_a_coefficient_well_known_has_no_caution_of_its_own() -> None:
    assert {zone.caution for zone in pressures().zones} == {""}
    assert any("licensed design professional" in text for text in pressures().cautions)


def test_low_slope_says_that_no_parapet_is_counted() -> None:
    assert any("parapet" in text for text in pressures(roof_angle_deg=2.0).cautions)
    assert not any("parapet" in text for text in pressures().cautions)


def test_7_22_says_that_tornadoes_are_not_covered() -> None:
    assert any("Tornado" in text for text in pressures().cautions)
    assert not any("Tornado" in text for text in pressures(edition="7-16").cautions)


def test_an_open_building_is_refused_with_the_reason() -> None:
    with pytest.raises(OutsideMethod, match="open buildings net coefficients of their own"):
        pressures(enclosure="open")


def test_7_10_has_no_partially_open_buildings() -> None:
    with pytest.raises(OutsideMethod, match="partially-open"):
        internal_coefficient("7-10", "partially-open")


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"speed_mph": 60}, "basic wind speed is 60 mph; the limits are 85 to 220"),
        ({"mean_roof_height_ft": 75}, "mean roof height is 75 ft"),
        ({"ground_elevation_ft": 20_000}, "ground elevation"),
        ({"topographic_factor": 0.5}, "topographic factor"),
        ({"building_length_ft": 3}, "building length"),
        ({"building_width_ft": math.inf}, "building width"),
        ({"roof_angle_deg": 50}, "roof angle"),
        ({"effective_area_sqft": math.nan}, "effective wind area"),
        ({"enclosure": "roofless"}, "enclosure"),
        ({"exposure": "e"}, "exposure"),
        ({"edition": "asce-7-22"}, "edition"),
        ({"roof_shape": "mansard"}, "roof shape"),
        ({"surface": "wall"}, "surface"),
    ],
)
def test_what_lies_outside_the_method_is_refused_by_name(
    changed: dict[str, Any], says: str
) -> None:
    with pytest.raises(OutsideMethod, match=says):
        pressures(**changed)


def test_a_zone_that_the_roof_has_not_is_refused() -> None:
    with pytest.raises(OutsideMethod, match="zone is '2e'; it is one of 1, 2, 3"):
        pressures().zone("2e")


@given(st.floats(0.25, 100), st.floats(0.25, 10))
def test_the_area_of_a_panel_is_span_times_width_or_a_third_of_the_span(
    span: float, width: float
) -> None:
    found = panel_area(span_ft=span, width_ft=width)
    assert found.area_sqft == pytest.approx(max(span * width, span * span / 3))
    last: Step = found.steps[-1]
    assert read_back(last.worked) == pytest.approx(last.value, rel=1e-3)


def test_the_area_of_a_panel_of_16_inches_on_clips_3_feet_apart() -> None:
    # 3 ft x 16/12 ft = 4 sq ft; on purlins 5 ft apart the width is 5/3 ft: 8.33 sq ft
    assert panel_area(span_ft=3, width_ft=16 / 12).area_sqft == pytest.approx(4.0)
    assert panel_area(span_ft=5, width_ft=16 / 12).area_sqft == pytest.approx(25 / 3)


@pytest.mark.parametrize(
    ("span", "width", "says"),
    [
        (0, 1, "span of panel"),
        (-3, 1, "span of panel"),
        (math.nan, 1, "span of panel"),
        (101, 1, "span of panel"),
        (3, 0, "width of panel"),
        (3, 16, "width of panel is 16 ft; the limits are 0.25 to 10"),
    ],
)
def test_a_panel_out_of_proportion_is_refused(span: float, width: float, says: str) -> None:
    with pytest.raises(OutsideMethod, match=says):
        panel_area(span_ft=span, width_ft=width)
