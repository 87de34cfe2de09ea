"""Resistance of insulation and thickness for a resistance: how they behave."""

from __future__ import annotations

import math
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.insulation import (
    EPS_PER_IN,
    POLYISO_LTTR,
    EpsType,
    InsulationKind,
    Layer,
    layer_r,
    resistance,
    rsi,
    thickness_for_r,
)
from specgen.calculations.record import OutsideMethod

kinds = st.sampled_from(get_args(InsulationKind))
thicknesses = st.floats(1, 4)
NAN = float("nan")


@pytest.mark.parametrize("kind", get_args(InsulationKind))
@pytest.mark.parametrize("end", [1.0, 4.0])
def test_every_kind_has_an_r_at_one_and_four_inches(kind: InsulationKind, end: float) -> None:
    assert layer_r(Layer(kind, end)) > 0


def test_every_type_of_eps_has_an_r_per_inch() -> None:
    assert set(EPS_PER_IN) == set(get_args(EpsType))


@given(kinds, thicknesses, st.floats(0, 3))
def test_a_thicker_layer_resists_no_less(
    kind: InsulationKind, thickness: float, more: float
) -> None:
    thicker = min(4.0, thickness + more)
    assert layer_r(Layer(kind, thicker)) >= layer_r(Layer(kind, thickness)) - 1e-12


@pytest.mark.parametrize("inches", list(POLYISO_LTTR))
def test_the_interpolation_passes_through_its_table_without_a_jump(inches: float) -> None:
    assert layer_r(Layer("polyiso", inches)) == pytest.approx(POLYISO_LTTR[inches])
    for near in (inches - 1e-7, inches + 1e-7):
        if 1 <= near <= 4:
            assert layer_r(Layer("polyiso", near)) == pytest.approx(POLYISO_LTTR[inches], abs=1e-5)


@given(st.lists(st.builds(Layer, kinds, thicknesses), min_size=1, max_size=10))
def test_layers_add_up_in_whatever_order_they_lie(layers: list[Layer]) -> None:
    result = resistance(layers)
    assert result.r == pytest.approx(sum(layer_r(layer) for layer in layers))
    assert result.r == pytest.approx(resistance(layers[::-1]).r)
    assert result.rsi == pytest.approx(rsi(result.r))
    assert result.winter_r <= result.r + 1e-9


def test_only_polyisocyanurate_has_less_in_winter() -> None:
    assert resistance([Layer("polyiso", 2)]).winter_r == 10
    board = resistance([Layer("xps", 2)])
    assert board.winter_r == board.r
    assert not any(step.symbol == "R_w" for step in board.steps)


@given(
    st.sampled_from(["polyiso", "xps", "eps", "mineral-wool"]),
    st.floats(1, 60),
    st.integers(1, 4),
)
def test_the_thickness_found_reaches_the_r_and_a_tenth_less_does_not(
    kind: InsulationKind, required: float, layers: int
) -> None:
    try:
        found = thickness_for_r(kind=kind, required_r=required, layers=layers)
    except OutsideMethod as refused:
        assert "required_r" in str(refused)
        return
    assert found.r >= required - 1e-9
    assert found.total_in == pytest.approx(found.layer_in * layers)
    assert found.layer_in * 10 == pytest.approx(round(found.layer_in * 10))
    thinner = round(found.layer_in - 0.1, 6)
    if thinner >= 1:
        assert layers * layer_r(Layer(kind, thinner)) < required


@given(st.floats(1, 40), st.floats(0, 7))
def test_a_larger_r_takes_no_thinner_board(required: float, more: float) -> None:
    thin = thickness_for_r(kind="polyiso", required_r=required)
    thick = thickness_for_r(kind="polyiso", required_r=required + more)
    assert thick.total_in >= thin.total_in


def test_a_layer_thicker_than_is_made_is_refused_with_what_the_layers_reach() -> None:
    with pytest.raises(OutsideMethod, match=r"required_r is 30 in 1 layers; the limit is 23\.6"):
        thickness_for_r(kind="polyiso", required_r=30, layers=1)


@pytest.mark.parametrize(
    ("layer", "named"),
    [
        (Layer("polyiso", 0.9), "thickness_in"),
        (Layer("polyiso", 4.1), "thickness_in"),
        (Layer("xps", NAN), "thickness_in"),
        (Layer("eps", -1), "thickness_in"),
        (Layer("eps", 2, "III"), "eps_type"),  # type: ignore[arg-type]
        (Layer("straw", 2), "kind"),  # type: ignore[arg-type]
    ],
)
def test_a_layer_that_is_not_made_is_refused_by_name(layer: Layer, named: str) -> None:
    with pytest.raises(OutsideMethod, match=named):
        resistance([layer])


def test_no_layer_has_no_resistance_to_state() -> None:
    with pytest.raises(OutsideMethod, match="layers"):
        resistance([])


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("required_r", 0.0),
        ("required_r", NAN),
        ("required_r", math.inf),
        ("layers", 0),
        ("layers", 1.5),
        ("kind", "straw"),
    ],
)
def test_a_requirement_that_cannot_be_is_refused_by_name(name: str, value: object) -> None:
    figures = {"kind": "xps", "required_r": 20.0, name: value}
    with pytest.raises(OutsideMethod, match=name):
        thickness_for_r(**figures)  # type: ignore[arg-type]


def test_a_metric_resistance_below_zero_is_refused() -> None:
    with pytest.raises(OutsideMethod, match="r is -1"):
        rsi(-1)
