"""Uplift tests by name, classes and ratings: how they behave."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.record import OutsideMethod
from specgen.calculations.uplift_ratings import (
    fm_allowable_psf,
    fm_rating_named,
    fm_rating_to_ask,
    named_tests,
    ul580_class_held,
    ul580_most_psf,
)


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("UL 580", ("UL 580",)),
        ("ul580 class 90", ("UL 580",)),
        ("UL 580 / UL 1897", ("UL 1897", "UL 580")),
        ("ASTM E 1592-05(2017)", ("ASTM E1592",)),
        ("TAS 125-03", ("TAS 125",)),
        ("FM 1-90", ("FM 4471",)),
        ("ANSI/FM 4474", ("FM 4474",)),
        ("ASTM E1646", ()),
        ("UL 5800", ()),
        ("", ()),
    ],
)
def test_the_tests_that_a_text_names_are_found(text: str, named: tuple[str, ...]) -> None:
    assert named_tests(text) == named


def test_the_rating_in_a_text_is_found() -> None:
    assert fm_rating_named("FM 4471, 1-105") == 105
    assert fm_rating_named("FM 4471") is None
    assert fm_rating_named("1-90") is None


def test_a_figure_on_a_ul580_record_stands_for_the_class_it_reaches() -> None:
    assert [ul580_class_held(psf) for psf in (90, 105, 104, 75, 60, 10)] == [
        90,
        90,
        60,
        60,
        60,
        None,
    ]


@given(st.floats(0.1, 490))
def test_the_rating_to_ask_for_carries_the_pressure(required: float) -> None:
    rating = fm_rating_to_ask(required_allowable_psf=required)
    assert fm_allowable_psf(rating_psf=rating) >= required * (1 - 1e-9)
    assert rating == 60 or fm_allowable_psf(rating_psf=rating - 15) < required


def test_a_figure_between_two_ratings_counts_for_the_lower() -> None:
    assert fm_allowable_psf(rating_psf=100) == 45


def test_the_factor_of_a_rating_is_two_and_no_less() -> None:
    assert fm_allowable_psf(rating_psf=90, design_factor=1.67) == 45
    assert fm_allowable_psf(rating_psf=90, design_factor=3) == 30


def test_what_is_no_class_or_no_rating_is_refused() -> None:
    with pytest.raises(OutsideMethod, match="ul580_class is 120"):
        ul580_most_psf(ul580_class=120)
    with pytest.raises(OutsideMethod, match="rating_psf"):
        fm_allowable_psf(rating_psf=float("nan"))
    with pytest.raises(OutsideMethod, match="design_factor"):
        ul580_most_psf(ul580_class=90, design_factor=0)
