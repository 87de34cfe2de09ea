"""Uplift records, classes, ratings and clip loads against published figures.

Makers' pages are cited by their kind and not by their address.
"""

from __future__ import annotations

import pytest

from specgen.calculations.attachment import allowable_at_spacing, clip_spacing
from specgen.calculations.clip_load import RoofZone, clip_load_lb, spacing_by_clip_load
from specgen.calculations.coverage import Assembly, TestRecord
from specgen.calculations.uplift_ratings import (
    UL580_MOST_STATIC_PSF,
    fm_allowable_psf,
    fm_rating_to_ask,
    ul580_most_psf,
)
from specgen.calculations.uplift_series import credit

ROOF = Assembly(
    support="open framing",
    metal="metallic-coated steel",
    thickness_in=0.0239,
    width_in=16,
    seam="double-lock",
    clip="two-piece",
)


def _record(spacing_in: float, ultimate_psf: float, design_factor: float = 1.65) -> TestRecord:
    return TestRecord(
        test="ASTM E1592",
        support=ROOF.support,
        metal=ROOF.metal,
        thickness_in=ROOF.thickness_in,
        width_in=ROOF.width_in,
        seam=ROOF.seam,
        clip=ROOF.clip,
        spacing_in=spacing_in,
        ultimate_psf=ultimate_psf,
        design_factor=design_factor,
        report=f"page-{spacing_in:g}",
    )


# An architectural panel maker's page on ASTM E1592: ultimates of 82 psf at 5 ft and 157 psf at
# 2 ft 6 in over a factor of 1.65, and its table of allowable pressures, psf, by spacing, in.
MAKERS_RECORDS = [_record(60, 82), _record(30, 157)]
MAKERS_TABLE = {60: 50, 54: 59, 48: 68, 42: 77, 36: 86, 30: 95}


@pytest.mark.parametrize("spacing", MAKERS_TABLE)
def test_the_published_table_between_two_tested_spans_is_found_again(spacing: float) -> None:
    found = allowable_at_spacing(MAKERS_RECORDS, ROOF, spacing_in=spacing)
    assert found.allowable_psf == pytest.approx(MAKERS_TABLE[int(spacing)], abs=0.5)


@pytest.mark.parametrize("spacing", MAKERS_TABLE)
def test_the_published_table_read_backwards_gives_its_spacings(spacing: float) -> None:
    # half a psf of rounding in the table is 0.33 in of spacing (1.515 psf an inch)
    required = MAKERS_TABLE[int(spacing)] - 0.5
    (zone,) = clip_spacing([RoofZone("Field", required)], MAKERS_RECORDS, ROOF).zones
    assert zone.spacing_in == pytest.approx(spacing, abs=1)


def test_half_of_an_ultimate_of_120_psf_may_be_used() -> None:
    # a public page: fails at -120 psf, maximum design pressure -60 psf
    assert credit(_record(24, 120, design_factor=2)).allowable_psf == 60


def test_class_90_carries_52_and_a_half_psf_and_not_90() -> None:
    # iibec.org, July 2015: 105 psf in the last phase, factor 2
    assert ul580_most_psf(ul580_class=90) == 52.5


def test_the_highest_static_pressure_of_each_class_is_the_published_one() -> None:
    # code-authorities.ul.com, certifying roof deck constructions for wind resistance
    assert UL580_MOST_STATIC_PSF == {15: 23, 30: 45, 60: 75, 90: 105}


# UL 580 phases 4 and 5, psf above and below (from memory); their sum is the highest static
# pressure that the publisher of UL 580 gives.
PHASE_FIVE = {15: (14.6, 8.3), 30: (24.2, 20.8), 60: (40.4, 34.6), 90: (56.5, 48.5)}


@pytest.mark.parametrize("ul580_class", PHASE_FIVE)
def test_the_phases_of_a_class_add_up_to_its_highest_static_pressure(ul580_class: int) -> None:
    assert sum(PHASE_FIVE[ul580_class]) == pytest.approx(
        UL580_MOST_STATIC_PSF[ul580_class], abs=0.5
    )


@pytest.mark.parametrize(("rating", "allowable"), [(60, 30), (75, 37.5), (90, 45)])
def test_half_of_an_fm_rating_may_be_used(rating: int, allowable: float) -> None:
    # a public page (1-60, 1-75); 1-90 from memory
    assert fm_allowable_psf(rating_psf=rating) == allowable


def test_23_psf_needs_the_lowest_fm_rating() -> None:
    # a public page: 2 x 23 = 46 psf, so 1-60
    assert fm_rating_to_ask(required_allowable_psf=23) == 60


def test_the_load_of_one_clip_is_pressure_times_width_times_spacing() -> None:
    # worked by hand, not published: 52.5 psf x 16/12 ft x 2 ft = 140 lb (method: UFC 3-320-03A)
    assert clip_load_lb(pressure_psf=52.5, width_in=16, spacing_in=24) == pytest.approx(140)


def test_a_clip_of_200_lb_under_60_psf_goes_30_in_apart() -> None:
    # worked by hand, not published: 12 x 200/(60 x 16/12) = 30 in (method: UFC 3-320-03A)
    found = spacing_by_clip_load(RoofZone("Field", 60), width_in=16, allowable_clip_load_lb=200)
    assert found.widest_in == pytest.approx(30)
    assert found.spacing_in == 30
