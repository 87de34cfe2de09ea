"""Weight of panels and the length a truck takes: how they behave."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.expansion import METALS
from specgen.calculations.record import OutsideMethod
from specgen.calculations.weight import (
    DENSITY,
    Metal,
    PanelWeight,
    panel_transport,
    panel_weight,
)

metals = st.sampled_from(get_args(Metal))
NAN = float("nan")


def weigh(
    metal: Metal = "coated-steel",
    thickness: float = 0.0239,
    strip: float = 20.0,
    length: float = 30.0,
    **more: float,
) -> PanelWeight:
    return panel_weight(
        metal=metal,
        thickness_in=thickness,
        coverage_in=16,
        strip_in=strip,
        length_ft=length,
        **more,
    )


def test_every_metal_that_expands_has_a_density() -> None:
    assert set(DENSITY) == set(get_args(Metal)) == set(METALS)


@given(metals, st.floats(0.01, 0.1), st.floats(16, 30), st.floats(1, 200))
def test_a_panel_weighs_its_strip(
    metal: Metal, thickness: float, strip: float, length: float
) -> None:
    result = weigh(metal, thickness, strip, length)
    volume = thickness * strip * length * 12
    assert result.panel_lb == pytest.approx(volume * DENSITY[metal][0])
    assert result.panel_lb == pytest.approx(result.per_foot_lb * length)


@given(metals, st.floats(0.01, 0.1), st.floats(16, 30))
def test_the_roof_weighs_more_than_the_flat_sheet_by_the_strip_over_the_coverage(
    metal: Metal, thickness: float, strip: float
) -> None:
    result = weigh(metal, thickness, strip)
    assert result.roof_psf == pytest.approx(result.sheet_psf * strip / 16)


@given(st.floats(0.01, 0.1), st.floats(0, 0.1))
def test_a_thicker_sheet_weighs_no_less(thickness: float, more: float) -> None:
    assert weigh(thickness=thickness + more).roof_psf >= weigh(thickness=thickness).roof_psf


def test_a_metallic_coating_adds_its_own_weight_of_the_sheet() -> None:
    added = weigh(coating_oz_per_sqft=0.5).sheet_psf - weigh().sheet_psf
    assert added == pytest.approx(0.5 / 16)


def test_bare_steel_is_told_what_the_coating_would_add_and_copper_is_not() -> None:
    assert any("AZ50" in step.caution for step in weigh().steps)
    assert not any("AZ50" in step.caution for step in weigh("copper").steps)


def test_a_batten_cap_is_weighed_with_the_pan() -> None:
    with_cap = weigh(strip=18, cap_strip_in=3.5)
    assert with_cap.roof_psf == pytest.approx(weigh(strip=21.5).roof_psf)


def test_a_density_of_ones_own_replaces_the_metals() -> None:
    assert weigh(density_lb_per_cuin=0.2).sheet_psf == pytest.approx(144 * 0.2 * 0.0239)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("thickness_in", 0.0),
        ("thickness_in", 0.5),
        ("thickness_in", NAN),
        ("coverage_in", 3.0),
        ("strip_in", 2.0),
        ("strip_in", NAN),
        ("length_ft", 0.0),
        ("length_ft", 501.0),
        ("cap_strip_in", -1.0),
        ("coating_oz_per_sqft", -0.5),
        ("density_lb_per_cuin", 2.83),
    ],
)
def test_a_panel_that_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    figures = {
        "thickness_in": 0.0239,
        "coverage_in": 16.0,
        "strip_in": 20.0,
        "length_ft": 30.0,
        name: value,
    }
    with pytest.raises(OutsideMethod, match=name):
        panel_weight(metal="coated-steel", **figures)


def test_an_unknown_metal_is_refused_with_the_known_ones() -> None:
    with pytest.raises(OutsideMethod, match="coated-steel"):
        weigh("lead")  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("length", "shipping", "whole"),
    [
        (45.0, "ordinary truck", True),
        (45.1, "ask the carrier", True),
        (50.0, "ask the carrier", True),
        (50.1, "too long for a truck", False),
    ],
)
def test_a_panel_is_held_against_what_a_truck_takes(
    length: float, shipping: str, whole: bool
) -> None:
    result = panel_transport(length_ft=length)
    assert (result.shipping, result.in_one_piece, result.longest_ft) == (shipping, whole, 50)


@given(st.floats(0.5, 500))
def test_a_panel_formed_at_the_site_is_in_one_piece_whatever_its_length(length: float) -> None:
    result = panel_transport(length_ft=length, site_formed=True)
    assert result.in_one_piece
    assert result.longest_ft is None


def test_limits_of_ones_own_replace_the_usual_ones() -> None:
    result = panel_transport(length_ft=58, ordinary_ft=55, longest_ft=60)
    assert result.shipping == "ask the carrier"


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("length_ft", 0.0),
        ("length_ft", NAN),
        ("ordinary_ft", 51.0),
        ("longest_ft", 5.0),
        ("longest_ft", NAN),
    ],
)
def test_a_length_or_limit_that_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    figures = {"length_ft": 40.0, name: value}
    with pytest.raises(OutsideMethod, match=name):
        panel_transport(**figures)  # type: ignore[arg-type]
