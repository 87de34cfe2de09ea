"""Least R of the energy codes: how it behaves."""

from __future__ import annotations

from typing import get_args

import pytest

from specgen.calculations.energy_code import BuildingCode, code_minimum_r
from specgen.calculations.record import OutsideMethod

ZONES = {
    "ibc-2018": "12345678",
    "ibc-2021": "012345678",
    "ibc-2024": "012345678",
    "irc-2021": "012345678",
    "fbc-2023": "12",
}
PAIRS = [(code, zone) for code, zones in ZONES.items() for zone in zones]


def test_every_code_is_tried_here() -> None:
    assert set(ZONES) == set(get_args(BuildingCode))


@pytest.mark.parametrize("code", ZONES)
def test_a_colder_zone_asks_no_less(code: BuildingCode) -> None:
    asked = [code_minimum_r(code=code, climate_zone=zone).r for zone in ZONES[code]]
    assert asked == sorted(asked)


@pytest.mark.parametrize("zone", "12345678")
def test_a_later_edition_asks_no_less(zone: str) -> None:
    editions: tuple[BuildingCode, ...] = ("ibc-2018", "ibc-2021", "ibc-2024")
    asked = [code_minimum_r(code=code, climate_zone=zone).r for code in editions]
    assert asked == sorted(asked)


def test_group_r_counts_in_zone_1_of_2018_alone() -> None:
    for code, zone in PAIRS:
        plain = code_minimum_r(code=code, climate_zone=zone)  # type: ignore[arg-type]
        dwelling = code_minimum_r(code=code, climate_zone=zone, group_r=True)  # type: ignore[arg-type]
        assert (plain.r != dwelling.r) == ((code, zone) == ("ibc-2018", "1"))


@pytest.mark.parametrize(("code", "zone"), PAIRS)
def test_a_figure_that_was_held_against_nothing_says_so(code: BuildingCode, zone: str) -> None:
    minimum = code_minimum_r(code=code, climate_zone=zone)
    assert minimum.confirmed == ("from memory" not in minimum.steps[0].source)


@pytest.mark.parametrize(("code", "zone"), PAIRS)
def test_open_framing_is_warned_of_the_metal_building_row(code: BuildingCode, zone: str) -> None:
    over_deck = code_minimum_r(code=code, climate_zone=zone)
    framing = code_minimum_r(code=code, climate_zone=zone, open_framing=True)
    assert framing.r == over_deck.r
    assert "metal building" not in over_deck.steps[0].caution
    assert ("metal building" in framing.steps[0].caution) == (code != "irc-2021")


@pytest.mark.parametrize("zone", ZONES["irc-2021"])
def test_the_ceiling_row_of_a_house_has_the_u_factor_beside_it(zone: str) -> None:
    minimum = code_minimum_r(code="irc-2021", climate_zone=zone)
    assert minimum.u_factor is not None
    assert minimum.r_by_u_factor is not None
    assert minimum.r_by_u_factor == pytest.approx(1 / minimum.u_factor)
    assert minimum.r_by_u_factor < minimum.r


@pytest.mark.parametrize("code", ["ibc-2018", "ibc-2021", "ibc-2024", "fbc-2023"])
def test_a_row_above_the_deck_needs_no_u_factor(code: BuildingCode) -> None:
    minimum = code_minimum_r(code=code, climate_zone="2")
    assert minimum.u_factor is None
    assert minimum.r_by_u_factor is None


@pytest.mark.parametrize(
    ("code", "zone"),
    [("ibc-2018", "0"), ("ibc-2021", "9"), ("ibc-2021", ""), ("fbc-2023", "3"), ("irc-2021", "4A")],
)
def test_a_zone_that_the_table_does_not_have_is_refused(code: BuildingCode, zone: str) -> None:
    with pytest.raises(OutsideMethod, match="climate_zone"):
        code_minimum_r(code=code, climate_zone=zone)


def test_an_unknown_code_is_refused_with_the_known_ones() -> None:
    with pytest.raises(OutsideMethod, match="ibc-2021"):
        code_minimum_r(code="ibc-2006", climate_zone="4")  # type: ignore[arg-type]
