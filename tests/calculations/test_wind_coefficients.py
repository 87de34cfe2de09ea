"""Roof coefficients: how the curves run, where figures meet, what is refused."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.record import OutsideMethod
from specgen.calculations.wind_coefficients import Coefficients, roof_coefficients, roof_figure
from specgen.calculations.wind_curves import FIGURES, WALL_POSITIVE, Curve, Figure, curve

areas = st.floats(0.1, 10_000)
figures = st.sampled_from(sorted(FIGURES.values(), key=lambda f: (f.edition, f.roof)))
USUAL: dict[str, Any] = {
    "edition": "7-22",
    "roof_shape": "gable",
    "roof_angle_deg": 15.0,
    "effective_area_sqft": 10.0,
}


def coefficients(**changed: Any) -> Coefficients:
    return roof_coefficients(**(USUAL | changed))


def all_curves(figure: Figure) -> list[tuple[str, Curve]]:
    return [*figure.zones, *(figure.overhang or ())]


@given(figures, areas, areas)
def test_a_larger_area_has_no_greater_coefficient(figure: Figure, one: float, two: float) -> None:
    small, large = sorted((one, two))
    for _zone, own in all_curves(figure):
        assert own.at(small) <= own.at(large) <= 0
    assert figure.positive.at(small) >= figure.positive.at(large) >= 0
    assert WALL_POSITIVE.at(small) >= WALL_POSITIVE.at(large) > 0


@given(figures, areas)
def test_a_curve_is_flat_outside_its_break_points_and_has_no_jump(
    figure: Figure, area: float
) -> None:
    for _zone, own in all_curves(figure):
        (first, start), (last, end) = own.points[0], own.points[-1]
        assert own.at(first) == start == own.at(first / 2)
        assert own.at(last) == pytest.approx(end, abs=1e-12)
        assert own.at(last * 2) == end
        assert own.at(area * 1.0001) == pytest.approx(own.at(area), abs=0.001)


def test_between_break_points_the_curve_is_straight_over_the_logarithm_of_area() -> None:
    own = curve("10 -2.0, 1000 -1.0")
    assert own.at(100) == pytest.approx(-1.5)
    assert own.at(31.6227766) == pytest.approx(-1.75)
    assert own.segment(100) == ((10.0, -2.0), (1000.0, -1.0))
    assert own.segment(5) is None


@given(figures, areas)
def test_a_higher_zone_is_no_less_loaded(figure: Figure, area: float) -> None:
    by_number: dict[str, list[float]] = {"1": [], "2": [], "3": []}
    for zone, own in figure.zones:
        by_number[zone[0]].append(own.at(area))
    assert min(by_number["2"]) <= min(by_number["1"])
    # Under 7-16 the ridge and hips of a low hip roof (2r) are loaded more than its corners.
    if area <= 10 and figure.roof != "hip 7-20 low":
        assert min(by_number["3"]) <= min(by_number["2"])


def test_every_figure_says_how_it_is_known() -> None:
    for figure in FIGURES.values():
        assert figure.grade in ("A", "B", "C", "X")
        assert figure.basis
        assert figure.grade != "X" or "conflict" in figure.note
        assert all(a < b for _, own in all_curves(figure) for (a, _g), (b, _h) in
                   zip(own.points, own.points[1:], strict=False))  # fmt: skip


# edition, shape, angle, figure number
BANDS = [
    ("7-10", "gable", 7, "30.4-2A"),
    ("7-10", "hip", 7.1, "30.4-2B"),
    ("7-10", "gable", 27, "30.4-2B"),
    ("7-10", "gable", 27.1, "30.4-2C"),
    ("7-16", "gable", 0, "30.3-2A"),
    ("7-16", "hip", 7, "30.3-2A"),
    ("7-16", "gable", 7.1, "30.3-2B"),
    ("7-16", "gable", 20, "30.3-2B"),
    ("7-16", "gable", 20.1, "30.3-2C"),
    ("7-16", "gable", 27, "30.3-2C"),
    ("7-16", "gable", 45, "30.3-2D"),
    ("7-16", "hip", 20, "30.3-2E"),
    ("7-16", "hip", 27, "30.3-2G"),
    ("7-16", "single-slope", 3, "30.3-2A"),
    ("7-16", "single-slope", 3.1, "30.3-5A"),
    ("7-22", "single-slope", 10, "30.3-5A"),
    ("7-22", "single-slope", 10.1, "30.3-5B"),
    ("7-22", "single-slope", 30, "30.3-5B"),
    ("7-22", "hip", 20, "30.3-2E"),
    ("7-22", "hip", 20.1, "30.3-2F"),
    ("7-22", "gable", 20.1, "30.3-2C"),
    ("7-22", "gable", 27.1, "30.3-2D"),
]


@pytest.mark.parametrize(("edition", "shape", "angle", "number"), BANDS)
def test_each_roof_falls_under_its_figure_the_limit_belonging_to_the_lower(
    edition: str, shape: str, angle: float, number: str
) -> None:
    assert roof_figure(edition, shape, angle).number == number


def test_the_figures_jump_where_they_meet_as_the_standard_does() -> None:
    at_7, above = (dict(coefficients(roof_angle_deg=a).negative)["1"] for a in (7.0, 7.001))
    assert (at_7, above) == (-1.7, -2.0)


def test_noise_in_the_last_digits_of_an_angle_does_not_change_the_figure() -> None:
    noisy = math.degrees(math.atan(math.tan(math.radians(27)) * 12 / 12)) + 1e-13
    assert roof_figure("7-16", "gable", noisy).number == "30.3-2C"
    assert roof_figure("7-22", "gable", 45 + 0.0).number == "30.3-2D"


@given(st.floats(27, 44.99), areas)
def test_hip_roofs_of_7_22_run_without_a_jump_from_27_to_45_degrees(
    angle: float, area: float
) -> None:
    here, there = (
        coefficients(roof_shape="hip", roof_angle_deg=a, effective_area_sqft=area)
        for a in (angle, angle + 0.01)
    )
    for (zone, one), (same, two) in zip(here.negative, there.negative, strict=True):
        assert zone == same
        assert one == pytest.approx(two, abs=0.001)
    assert there.positive == pytest.approx(here.positive, abs=0.001)


def test_hip_roofs_of_7_22_at_36_degrees_lie_halfway() -> None:
    halfway = coefficients(roof_shape="hip", roof_angle_deg=36)
    assert dict(halfway.negative) == pytest.approx({"1": -1.45, "2": -1.9, "3": -2.2})
    steep = coefficients(roof_shape="hip", roof_angle_deg=45)
    assert dict(steep.negative) == pytest.approx({"1": -1.5, "2": -1.8, "3": -2.4})


@given(st.floats(0, 2))
def test_hip_roofs_of_7_16_run_from_low_to_high_without_a_jump(ratio: float) -> None:
    here, there = (
        coefficients(edition="7-16", roof_shape="hip", height_to_width=r)
        for r in (ratio, ratio + 0.001)
    )
    for (_, one), (_, two) in zip(here.negative, there.negative, strict=True):
        assert two <= one <= two + 0.004


def test_hip_roofs_of_7_16_at_h_over_b_of_0_65_lie_halfway() -> None:
    found = coefficients(edition="7-16", roof_shape="hip", height_to_width=0.65)
    assert dict(found.negative) == pytest.approx({"1": -1.55, "2e": -2.2, "2r": -2.4, "3": -2.2})
    assert found.grade == "C"
    assert "least horizontal dimension" in found.caution


def test_hip_roofs_of_7_16_ask_for_h_over_b() -> None:
    with pytest.raises(OutsideMethod, match="height_to_width"):
        coefficients(edition="7-16", roof_shape="hip")


@given(areas)
def test_an_overhang_of_7_22_above_7_degrees_adds_the_wall(area: float) -> None:
    roof, over = (coefficients(effective_area_sqft=area, surface=s) for s in ("roof", "overhang"))
    for (_, inner), (_, outer) in zip(roof.negative, over.negative, strict=True):
        assert inner - outer == pytest.approx(WALL_POSITIVE.at(area))
        assert 0.7 <= inner - outer <= 1.0


def test_an_overhang_of_low_slope_has_curves_of_its_own() -> None:
    over = coefficients(roof_angle_deg=5, effective_area_sqft=500, surface="overhang")
    assert dict(over.negative) == pytest.approx({"1": -1.0, "1'": -1.0, "2": -1.1, "3": -1.1})
    assert over.grade == "B"


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"edition": "7-16"}, "exchange the values of zones 3e and 3r"),
        ({"edition": "7-16", "roof_angle_deg": 25}, "no overhang coefficients"),
        ({"edition": "7-16", "roof_shape": "hip", "height_to_width": 0.4}, "no overhang"),
        ({"edition": "7-10"}, "no overhang coefficients"),
        ({"roof_shape": "single-slope"}, "no overhang coefficients"),
    ],
)
def test_an_overhang_without_a_certain_coefficient_is_refused(
    changed: dict[str, Any], says: str
) -> None:
    with pytest.raises(OutsideMethod, match=says):
        coefficients(surface="overhang", **changed)


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"roof_angle_deg": 45.1}, "roof angle is 45.1 degrees; the limits are 0 to 45"),
        ({"roof_angle_deg": -1}, "roof angle"),
        ({"roof_angle_deg": math.nan}, "roof angle"),
        ({"roof_shape": "single-slope", "roof_angle_deg": 30.1}, "single slope is 30.1 degrees"),
        ({"edition": "7-16", "roof_shape": "hip", "roof_angle_deg": 28}, "30.3-2H and 2I"),
        ({"edition": "7-10", "roof_shape": "hip", "roof_angle_deg": 28}, "the limits are 0 to 27"),
        ({"edition": "7-10", "roof_shape": "single-slope"}, "gable and hip roofs alone"),
        ({"roof_shape": "dome"}, "roof shape is 'dome'"),
        ({"edition": "7-28"}, "edition"),
        ({"surface": "soffit"}, "surface"),
        ({"effective_area_sqft": 0}, "effective wind area is 0 sq ft"),
        ({"effective_area_sqft": -10}, "effective wind area"),
        ({"effective_area_sqft": math.nan}, "effective wind area"),
        ({"effective_area_sqft": 10_001}, "effective wind area"),
        ({"edition": "7-16", "roof_shape": "hip", "height_to_width": -1}, "least dimension"),
        ({"edition": "7-16", "roof_shape": "hip", "height_to_width": math.nan}, "least dimension"),
    ],
)
def test_what_no_figure_covers_is_refused_by_name(changed: dict[str, Any], says: str) -> None:
    with pytest.raises(OutsideMethod, match=says):
        coefficients(**changed)


@pytest.mark.parametrize("angle", [25, 36])
def test_a_reading_in_conflict_says_so_beside_its_value(angle: float) -> None:
    found = coefficients(roof_shape="hip", roof_angle_deg=angle)
    assert found.grade == "X"
    assert "conflict" in found.caution
    assert any("conflict" in step.caution for step in found.zone_steps("2"))


@pytest.mark.parametrize("edition", ["7-16", "7-22"])
def test_a_figure_of_grade_a_or_b_has_no_caution(edition: str) -> None:
    found = coefficients(edition=edition)
    assert (found.grade in "AB", found.caution) == (True, "")
