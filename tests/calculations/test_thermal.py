"""Thermal movement of panels: how it behaves."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.expansion import (
    DECKS,
    METALS,
    coefficient,
    free_movement_in,
    restrained_stress_psi,
    rule_of_thumb_in,
)
from specgen.calculations.record import OutsideMethod
from specgen.calculations.thermal import Movement, Temperatures, movement, movement_by_length

NAN = float("nan")
YEAR = Temperatures(low_degf=-20, high_degf=160, install_degf=60)
ROOF: dict[str, Any] = {
    "metal": "coated-steel",
    "deck": "open-framing",
    "length_ft": 100.0,
    "temperatures": YEAR,
    "fixed_point": "ridge",
}


def _movement(**changes: Any) -> Movement:
    return movement(**{**ROOF, **changes})


def test_expansion_and_contraction_are_each_from_the_temperature_at_installation() -> None:
    (eave,) = _movement().ends
    assert eave.expansion_in == pytest.approx(6.7e-6 * 1200 * 100)
    assert eave.contraction_in == pytest.approx(6.7e-6 * 1200 * 80)
    assert eave.gap_in == pytest.approx(eave.expansion_in + 0.25)


def test_a_support_that_warms_with_the_sheet_takes_its_part_off() -> None:
    both = replace(YEAR, deck_at_low_degf=10, deck_at_high_degf=110)
    (eave,) = _movement(temperatures=both, deck="wood-deck").ends
    assert eave.expansion_in == pytest.approx(1200 * (6.7e-6 * 100 - 1.7e-6 * 50))
    assert eave.contraction_in == pytest.approx(1200 * (6.7e-6 * 80 - 1.7e-6 * 50))


def test_framing_heated_after_it_was_built_adds_to_the_winter_movement() -> None:
    heated = replace(YEAR, deck_at_low_degf=72, deck_at_high_degf=77)
    (eave,) = _movement(temperatures=heated).ends
    assert eave.contraction_in == pytest.approx(6.7e-6 * 1200 * (80 + 12))


def test_a_support_has_a_temperature_of_its_own_when_the_panel_is_laid() -> None:
    warm = replace(YEAR, deck_at_low_degf=70, deck_at_high_degf=70, deck_install_degf=70)
    assert _movement(temperatures=warm).ends == _movement().ends


@given(st.floats(-60, 59), st.floats(61, 200))
def test_a_sheet_that_moves_as_its_support_does_not_move_on_it(low: float, high: float) -> None:
    same = Temperatures(low, high, 60, deck_at_low_degf=low, deck_at_high_degf=high)
    found = _movement(temperatures=same)
    assert found.clip_travel_in == pytest.approx(0, abs=1e-9)
    assert found.one_piece_serves


def test_a_support_that_moves_more_than_the_sheet_pushes_it_the_other_way() -> None:
    hot = Temperatures(50, 100, 60, deck_at_low_degf=60, deck_at_high_degf=180)
    (eave,) = _movement(temperatures=hot).ends
    assert eave.expansion_in == 0
    assert eave.contraction_in == pytest.approx(6.7e-6 * 1200 * (120 - 40))


def test_fixed_at_midpoint_each_end_moves_half_as_far() -> None:
    (whole,) = _movement().ends
    halves = _movement(fixed_point="midpoint").ends
    assert [one.end for one in halves] == ["eave", "ridge"]
    for one in halves:
        assert one.distance_ft == 50
        assert one.expansion_in == pytest.approx(whole.expansion_in / 2)
        assert one.contraction_in == pytest.approx(whole.contraction_in / 2)


def test_the_free_end_is_the_one_that_is_not_fixed() -> None:
    assert [one.end for one in _movement(fixed_point="ridge").ends] == ["eave"]
    assert [one.end for one in _movement(fixed_point="eave").ends] == ["ridge"]


def test_the_farthest_clip_travels_by_its_own_distance() -> None:
    found = _movement(farthest_clip_from_end_ft=1)
    assert found.farthest_clip_ft == 99
    assert found.clip_outward_in == pytest.approx(6.7e-6 * 12 * 99 * 100)
    assert found.clip_inward_in == pytest.approx(6.7e-6 * 12 * 99 * 80)
    assert found.clip_travel_in == found.clip_outward_in


def test_one_piece_clips_serve_while_the_whole_movement_is_within_their_play() -> None:
    # 7/16 in / (6.7e-6 x 12 x 180) = 30.23 ft; common practice has one-piece clips to about 30 ft
    found = _movement()
    assert not found.one_piece_serves
    assert found.one_piece_most_ft == pytest.approx(30.2308, abs=1e-3)
    assert _movement(length_ft=30.2).one_piece_serves
    assert not _movement(length_ft=30.3).one_piece_serves
    assert _movement(length_ft=30.3, play_in=1 / 2).one_piece_serves
    assert any("common practice" in step.source for step in found.steps if step.symbol == "P")


def test_the_rows_of_a_chart_are_the_movements_of_those_lengths() -> None:
    rows = movement_by_length(
        [0, 50, 100], metal="coated-steel", deck="open-framing", temperatures=YEAR
    )
    assert [row.length_ft for row in rows] == [0, 50, 100]
    assert rows[0].total_in == 0
    (eave,) = _movement().ends
    assert (rows[2].expansion_in, rows[2].contraction_in) == (
        eave.expansion_in,
        eave.contraction_in,
    )
    assert rows[2].total_in == eave.expansion_in + eave.contraction_in


@given(st.sampled_from(sorted(METALS)), st.sampled_from(sorted(DECKS)), st.floats(1, 500))
def test_movement_goes_straight_with_length(metal: str, deck: str, length: float) -> None:
    whole = _movement(metal=metal, deck=deck, length_ft=length)
    double = _movement(metal=metal, deck=deck, length_ft=2 * length)
    assert double.clip_travel_in == pytest.approx(2 * whole.clip_travel_in)


@given(st.floats(-100, 59), st.floats(61, 298), st.floats(0, 1))
def test_a_wider_range_never_moves_less(low: float, high: float, more: float) -> None:
    one = _movement(temperatures=Temperatures(low, high, 60))
    other = _movement(temperatures=Temperatures(low, high + more, 60))
    assert other.ends[0].expansion_in >= one.ends[0].expansion_in
    assert other.ends[0].contraction_in == one.ends[0].contraction_in


@given(st.floats(-20, 160))
def test_the_whole_movement_does_not_depend_on_the_day_of_installation(day: float) -> None:
    (end,) = _movement(temperatures=replace(YEAR, install_degf=day)).ends
    assert end.expansion_in + end.contraction_in == pytest.approx(6.7e-6 * 1200 * 180)


def test_stainless_of_an_undecided_type_moves_as_the_type_that_moves_more() -> None:
    assert METALS["stainless"] == METALS["type-304"]
    assert METALS["type-304"].per_degf > METALS["type-316"].per_degf


@pytest.mark.parametrize("material", [*METALS.values(), *DECKS.values()])
def test_every_coefficient_says_where_it_stands_and_how_far_it_is_trusted(material: Any) -> None:
    assert material.source
    assert material.trust in ("high", "medium", "low")
    assert material.per_degc == pytest.approx(1.8 * material.per_degf)


def test_each_line_of_a_movement_can_be_checked() -> None:
    found = _movement()
    values = {step.symbol: step.value for step in found.steps}
    assert values["g"] == found.ends[0].gap_in
    assert values["m_h"] == found.ends[0].expansion_in
    assert values["m_c"] == -found.ends[0].contraction_in
    assert values["t"] == found.clip_travel_in
    assert all(step.worked for step in found.steps if step.formula)
    assert any("stay at its temperature" in step.caution for step in found.steps)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("length_ft", 0),
        ("length_ft", -40),
        ("length_ft", NAN),
        ("length_ft", 1e6),
        ("allowance_in", -0.1),
        ("play_in", NAN),
        ("play_in", 2),
        ("farthest_clip_from_end_ft", 101),
        ("fixed_point", "both ends"),
        ("metal", "lead"),
        ("deck", "straw"),
    ],
)
def test_a_senseless_input_is_refused_by_its_name(name: str, value: Any) -> None:
    with pytest.raises(OutsideMethod, match=name):
        _movement(**{name: value})


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"low_degf": 160}, "high_degf"),
        ({"high_degf": 400}, "high_degf"),
        ({"low_degf": NAN}, "low_degf"),
        ({"install_degf": 170}, "install_degf"),
        ({"install_degf": NAN}, "install_degf"),
        ({"deck_at_low_degf": 70}, "deck_at_high_degf"),
        ({"deck_at_low_degf": 70, "deck_at_high_degf": NAN}, "deck_at_high_degf"),
        ({"deck_install_degf": 1000}, "deck_install_degf"),
    ],
)
def test_senseless_temperatures_are_refused_by_name(changes: dict[str, float], name: str) -> None:
    with pytest.raises(OutsideMethod, match=name):
        replace(YEAR, **changes)


def test_senseless_arguments_of_the_plain_formulas_are_refused() -> None:
    with pytest.raises(OutsideMethod, match="length_in"):
        free_movement_in(length_in=-1, per_degf=6.7e-6, change_degf=100)
    with pytest.raises(OutsideMethod, match="per_degf"):
        free_movement_in(length_in=1, per_degf=0, change_degf=100)
    with pytest.raises(OutsideMethod, match="change_degf"):
        free_movement_in(length_in=1, per_degf=6.7e-6, change_degf=NAN)
    with pytest.raises(OutsideMethod, match="elastic_modulus_psi"):
        restrained_stress_psi(elastic_modulus_psi=0, per_degf=6.7e-6, change_degf=1)
    with pytest.raises(OutsideMethod, match="metal is lead"):
        rule_of_thumb_in("lead")


def test_a_material_is_known_whatever_the_case_of_its_id() -> None:
    assert coefficient(" Copper ", METALS).name == "copper"
