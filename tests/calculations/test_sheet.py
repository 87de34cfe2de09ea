"""Strip width, strips from a coil and panels across a plane: how they behave."""

from __future__ import annotations

import math
from typing import get_args

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from specgen.calculations.record import OutsideMethod
from specgen.calculations.sheet import (
    FOLD_ALLOWANCE_IN,
    SeamKind,
    panels_across,
    strip_width,
    strips_from_coil,
)

kinds = st.sampled_from(get_args(SeamKind))
coverages = st.floats(6, 36)
heights = st.floats(0.5, 4)
NAN = float("nan")


def test_every_kind_of_seam_has_an_allowance_for_its_folds() -> None:
    assert set(FOLD_ALLOWANCE_IN) == set(get_args(SeamKind))


@given(coverages, kinds, heights)
def test_a_strip_is_the_coverage_and_the_take_up(
    coverage: float, kind: SeamKind, height: float
) -> None:
    strip = strip_width(coverage_in=coverage, seam_kind=kind, seam_height_in=height)
    assert strip.strip_in == coverage + strip.take_up_in


@given(coverages, kinds, heights, st.floats(0, 2))
def test_a_higher_seam_takes_up_twice_the_difference(
    coverage: float, kind: SeamKind, height: float, more: float
) -> None:
    assume(height + more <= 4)
    low = strip_width(coverage_in=coverage, seam_kind=kind, seam_height_in=height)
    high = strip_width(coverage_in=coverage, seam_kind=kind, seam_height_in=height + more)
    assert high.take_up_in - low.take_up_in == pytest.approx(2 * more, abs=1e-9)


@given(coverages, heights)
def test_a_single_lock_seam_takes_the_strip_of_a_double_lock(
    coverage: float, height: float
) -> None:
    single = strip_width(coverage_in=coverage, seam_kind="single-lock", seam_height_in=height)
    double = strip_width(coverage_in=coverage, seam_kind="double-lock", seam_height_in=height)
    assert single.strip_in == double.strip_in


@given(coverages, heights)
def test_a_snap_lock_seam_takes_less_than_a_double_lock(coverage: float, height: float) -> None:
    snap = strip_width(coverage_in=coverage, seam_kind="snap-lock", seam_height_in=height)
    double = strip_width(coverage_in=coverage, seam_kind="double-lock", seam_height_in=height)
    assert snap.strip_in < double.strip_in


@given(coverages, kinds, heights, st.floats(0, 16))
def test_the_profiles_own_take_up_replaces_the_model(
    coverage: float, kind: SeamKind, height: float, take_up: float
) -> None:
    strip = strip_width(
        coverage_in=coverage, seam_kind=kind, seam_height_in=height, take_up_in=take_up
    )
    assert strip.take_up_in == take_up
    assert "as given" in next(step.label for step in strip.steps if step.symbol == "u")


def test_the_models_take_up_carries_the_caution_that_the_manufacturers_governs() -> None:
    strip = strip_width(coverage_in=16, seam_kind="snap-lock", seam_height_in=1.5)
    step = next(step for step in strip.steps if step.symbol == "u")
    assert "manufacturer" in step.caution
    assert step.source == "common practice"


@given(coverages, heights, st.floats(0.5, 6))
def test_a_batten_is_taken_off_its_pan_and_put_on_its_cap(
    coverage: float, height: float, batten: float
) -> None:
    strip = strip_width(
        coverage_in=coverage, seam_kind="batten", seam_height_in=height, batten_width_in=batten
    )
    bare = coverage + 2 * height + FOLD_ALLOWANCE_IN["batten"]
    assert strip.strip_in == pytest.approx(bare - batten)
    assert strip.strip_in + strip.cap_strip_in == pytest.approx(bare + 2)


@given(coverages, heights, st.floats(0.5, 6), st.sampled_from(["snap-lock", "double-lock"]))
def test_only_a_batten_seam_has_a_cap_and_feels_the_batten(
    coverage: float, height: float, batten: float, kind: SeamKind
) -> None:
    plain = strip_width(coverage_in=coverage, seam_kind=kind, seam_height_in=height)
    other = strip_width(
        coverage_in=coverage, seam_kind=kind, seam_height_in=height, batten_width_in=batten
    )
    assert plain == other
    assert plain.cap_strip_in == 0


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("coverage_in", 5.9),
        ("coverage_in", 37.0),
        ("coverage_in", -16.0),
        ("coverage_in", NAN),
        ("seam_height_in", 0.0),
        ("seam_height_in", 4.1),
        ("seam_height_in", NAN),
        ("take_up_in", -0.1),
        ("take_up_in", math.inf),
        ("batten_width_in", 0.0),
    ],
)
def test_a_strip_of_no_known_panel_is_refused_by_name(name: str, value: float) -> None:
    given_figures = {"coverage_in": 16.0, "seam_height_in": 1.5, name: value}
    with pytest.raises(OutsideMethod, match=name):
        strip_width(seam_kind="double-lock", **given_figures)


def test_an_unknown_kind_of_seam_is_refused_with_the_known_ones() -> None:
    with pytest.raises(OutsideMethod, match="double-lock"):
        strip_width(coverage_in=16, seam_kind="triple", seam_height_in=1)  # type: ignore[arg-type]


@given(st.floats(4, 60), st.floats(4, 80), st.floats(0, 4))
def test_strips_and_waste_make_up_the_coil(strip: float, coil: float, trim: float) -> None:
    assume(coil >= strip + trim)
    cut = strips_from_coil(strip_in=strip, coil_width_in=coil, edge_trim_in=trim)
    assert cut.strips >= 1
    assert cut.used_in + cut.waste_in == pytest.approx(coil, abs=1e-3)
    assert trim - 1e-3 <= cut.waste_in < strip + trim
    assert cut.waste_percent == pytest.approx(100 * cut.waste_in / coil)


@given(st.floats(4, 30), st.floats(30, 80), st.floats(0, 10))
def test_a_wider_coil_gives_no_fewer_strips(strip: float, coil: float, more: float) -> None:
    assume(coil + more <= 80)
    narrow = strips_from_coil(strip_in=strip, coil_width_in=coil)
    wide = strips_from_coil(strip_in=strip, coil_width_in=coil + more)
    assert wide.strips >= narrow.strips


@given(st.integers(1, 6), st.integers(100, 1300))
def test_a_coil_of_a_whole_number_of_metric_strips_gives_them_all(
    count: int, millimeters: int
) -> None:
    strip = millimeters / 25.4
    assume(strip >= 4 and strip <= 60 and strip * count <= 80)
    coil = count * millimeters * (1 / 25.4)
    assert strips_from_coil(strip_in=strip, coil_width_in=coil).strips == count


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("strip_in", 0.0),
        ("strip_in", NAN),
        ("coil_width_in", 19.9),
        ("coil_width_in", 81.0),
        ("coil_width_in", NAN),
        ("edge_trim_in", -1.0),
    ],
)
def test_a_coil_that_no_strip_comes_from_is_refused_by_name(name: str, value: float) -> None:
    given_figures = {"strip_in": 20.0, "coil_width_in": 48.0, name: value}
    with pytest.raises(OutsideMethod, match=name):
        strips_from_coil(**given_figures)


@given(st.floats(1, 2000), coverages)
def test_end_panels_are_equal_and_cover_from_half_a_panel_to_a_whole(
    width: float, coverage: float
) -> None:
    assume(width * 12 >= coverage)
    layout = panels_across(plane_width_ft=width, coverage_in=coverage)
    assert coverage / 2 - 1e-3 <= layout.end_panel_in <= coverage + 1e-3


@given(st.floats(3, 2000), coverages)
def test_the_panels_make_up_the_plane(width: float, coverage: float) -> None:
    layout = panels_across(plane_width_ft=width, coverage_in=coverage)
    ends = layout.panels - layout.full_panels
    assert ends in (0, 2)
    covered = layout.full_panels * coverage + ends * layout.end_panel_in
    assert covered == pytest.approx(width * 12, abs=coverage * 2e-6)


@given(st.floats(3, 200), coverages)
def test_no_balanced_layout_has_fewer_panels(width: float, coverage: float) -> None:
    layout = panels_across(plane_width_ft=width, coverage_in=coverage)
    for fewer in range(2, layout.panels):
        assert (width * 12 - (fewer - 2) * coverage) / 2 > coverage


@given(st.floats(3, 1000), st.floats(0, 100), coverages)
def test_a_wider_plane_takes_no_fewer_panels(width: float, more: float, coverage: float) -> None:
    narrow = panels_across(plane_width_ft=width, coverage_in=coverage)
    wide = panels_across(plane_width_ft=width + more, coverage_in=coverage)
    assert wide.panels >= narrow.panels


@given(st.integers(1, 500), st.integers(12, 60))
def test_a_whole_number_of_panels_needs_no_cut_one(count: int, halves: int) -> None:
    coverage = halves / 2
    layout = panels_across(plane_width_ft=count * coverage / 12, coverage_in=coverage)
    assert (layout.panels, layout.full_panels, layout.end_panel_in) == (count, count, coverage)


def test_a_hair_beyond_a_whole_number_of_panels_both_ends_fall_to_half() -> None:
    even = panels_across(plane_width_ft=40, coverage_in=16)
    beyond = panels_across(plane_width_ft=40.01, coverage_in=16)
    assert (even.panels, even.end_panel_in) == (30, 16)
    assert beyond.panels == 31
    assert beyond.end_panel_in == pytest.approx(8.06)


def test_a_plane_of_less_than_a_panel_is_one_panel_cut_to_it() -> None:
    layout = panels_across(plane_width_ft=1, coverage_in=16)
    assert (layout.panels, layout.full_panels, layout.end_panel_in) == (1, 0, 12)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("plane_width_ft", 0.6),
        ("plane_width_ft", -5.0),
        ("plane_width_ft", NAN),
        ("plane_width_ft", math.inf),
        ("coverage_in", 0.0),
        ("coverage_in", NAN),
    ],
)
def test_a_plane_that_no_panel_fits_is_refused_by_name(name: str, value: float) -> None:
    given_figures = {"plane_width_ft": 40.0, "coverage_in": 16.0, name: value}
    with pytest.raises(OutsideMethod, match=name):
        panels_across(**given_figures)


def test_each_line_that_has_a_formula_has_its_figures_put_in() -> None:
    results = (
        strip_width(coverage_in=16, seam_kind="batten", seam_height_in=1.5),
        strips_from_coil(strip_in=20, coil_width_in=48),
        panels_across(plane_width_ft=41, coverage_in=16),
        panels_across(plane_width_ft=1, coverage_in=16),
        panels_across(plane_width_ft=40, coverage_in=16),
    )
    for result in results:
        for step in result.steps:
            assert bool(step.formula) == bool(step.worked)
