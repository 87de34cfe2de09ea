"""Length of a screw through insulation: how it behaves."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specgen.calculations.fastener import fastener_length
from specgen.calculations.record import OutsideMethod

NAN = float("nan")
boards = st.floats(0, 20)


@given(boards, st.floats(0, 4), st.floats(0.25, 6), st.floats(0, 4), st.floats(0, 3))
def test_a_screw_is_the_next_half_inch_above_what_it_passes(
    insulation: float, deck: float, penetration: float, cover: float, clip: float
) -> None:
    found = fastener_length(
        insulation_in=insulation,
        deck_in=deck,
        penetration_in=penetration,
        cover_board_in=cover,
        clip_in=clip,
    )
    assert found.needed_in == pytest.approx(insulation + deck + penetration + cover + clip)
    assert found.needed_in - 1e-6 <= found.length_in < found.needed_in + 0.5
    assert (found.length_in * 2).is_integer()


@given(boards, st.floats(0, 10))
def test_thicker_insulation_takes_no_shorter_screw(insulation: float, more: float) -> None:
    short = fastener_length(insulation_in=insulation, deck_in=0.03, penetration_in=0.75)
    long = fastener_length(insulation_in=insulation + more, deck_in=0.03, penetration_in=0.75)
    assert long.length_in >= short.length_in


def test_a_sum_in_tenths_that_is_a_whole_half_inch_is_not_raised() -> None:
    found = fastener_length(
        insulation_in=2.6 + 2.6, cover_board_in=0.5, deck_in=0.1 + 0.2, penetration_in=1
    )
    assert found.length_in == 7.0


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("insulation_in", -0.1),
        ("insulation_in", 31.0),
        ("insulation_in", NAN),
        ("deck_in", 5.0),
        ("penetration_in", 0.0),
        ("penetration_in", NAN),
        ("cover_board_in", -1.0),
        ("clip_in", 4.0),
    ],
)
def test_a_layer_that_cannot_be_is_refused_by_name(name: str, value: float) -> None:
    figures = {"insulation_in": 5.2, "deck_in": 0.03, "penetration_in": 0.75, name: value}
    with pytest.raises(OutsideMethod, match=name):
        fastener_length(**figures)
