"""Thermal movement against published worked examples and coefficients.

Makers' pages are cited by their kind and not by their address.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from specgen.calculations.expansion import (
    DECKS,
    METALS,
    free_movement_in,
    restrained_stress_psi,
    rule_of_thumb_in,
)
from specgen.calculations.thermal import Temperatures, movement

CONSTRUCTION_CANADA = "constructioncanada.net, controlling thermal movement in metal panel roofs"
COPPER_MANUAL = "roofonline.com, historic copper roofing and flashings manual, page 60"
SEAMER_PAGE = "seaming-machine maker's resource page"
MILL_PAGE = "titanium-zinc gutter example, 0.022 mm per m and K"
SHEET_TABLE = "sheet table of an Australian panel maker"


@dataclass(frozen=True)
class Example:
    """A published movement: length in, coefficient per degF, change in deltaF, answer in."""

    name: str
    source: str
    length_in: float
    per_degf: float
    change_degf: float
    published_in: float
    within_in: float


EXAMPLES = [
    # An arithmetic check only: the difference printed does not follow from its temperatures, for
    # which see the test of framing below.
    Example("40 ft of steel on framing", CONSTRUCTION_CANADA,
            480, 8.04e-5 / 12, 98.1, 0.3155, 0.0001),
    # The coefficient was worked back from this answer (pure zinc), so the next one alone tests it.
    Example("10 ft of zinc, 40 to 140 F", SEAMER_PAGE, 120, 17.4e-6, 100, 0.209, 0.0005),
    Example("20 in width of zinc", SEAMER_PAGE, 20, 17.4e-6, 100, 0.0348, 0.0001),
    Example("8 m zinc gutter in summer", MILL_PAGE,
            8000 / 25.4, METALS["zinc"].per_degf, 65 * 1.8, 11.44 / 25.4, 0.025 / 25.4),
    Example("8 m zinc gutter in winter", MILL_PAGE,
            8000 / 25.4, METALS["zinc"].per_degf, -35 * 1.8, -6.16 / 25.4, 0.015 / 25.4),
    Example("1 in of copper, 60 to 0 F", COPPER_MANUAL, 1, 9.5e-6, -60, -0.00057, 1e-8),
    Example("10 ft at one millionth", "roofonline.com, thermal expansion of building materials",
            120, 1e-6, 100, 0.012, 1e-9),
    # Its range is not printed; over 160 F the figure is plausible, and that is all this shows.
    Example("24 ft of steel", "a public page, weak", 288, 6.5e-6, 160, 0.3, 0.005),
    # The printed answer is in a picture; 0.56 in is its own figures worked out.
    Example("80 ft of steel", "panel supplier's blog", 960, 6.5e-6, 90, 0.5616, 0.0005),
]  # fmt: skip

# Printed by the source and wrong: (name, printed in, right in, reason).
MISPRINTS_IN = [
    (
        "100 ft of aluminum over 100 F, panel maker's page",
        1.56,
        free_movement_in(length_in=1200, per_degf=12.8e-6, change_degf=100),
        "its own coefficient 12.8e-6 gives 1.536; 1.56 is that of 13.0e-6",
    ),
]

LENGTHS_M = (10, 20, 30, 50, 75, 100)
RANGES_K = (10, 30, 50)
STEEL_TABLE_MM = (
    (1.20, 3.60, 6.00),
    (2.40, 7.20, 12.00),
    (3.60, 10.80, 18.00),
    (6.00, 18.00, 30.00),
    (9.00, 24.00, 45.00),
    (12.00, 36.00, 80.00),
)
STAINLESS_TABLE_MM = ((1.70, 5.10, 8.50), (3.40, 10.20, 17.00))
# (length m, range K): what 12.0e-6 x length x range gives where the table prints another.
STEEL_TABLE_MISPRINTS_MM = {(75, 30): 27.00, (100, 50): 60.00}


def _mm(length_m: float, per_degc: float, change_k: float) -> float:
    inches = free_movement_in(
        length_in=length_m * 1000 / 25.4, per_degf=per_degc / 1.8, change_degf=change_k * 1.8
    )
    return inches * 25.4


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda one: one.name)
def test_a_published_movement_is_found_again(example: Example) -> None:
    found = free_movement_in(
        length_in=example.length_in, per_degf=example.per_degf, change_degf=example.change_degf
    )
    assert found == pytest.approx(example.published_in, abs=example.within_in)


@pytest.mark.parametrize(
    ("length", "change", "printed"),
    [
        (length, change, printed)
        for length, row in zip(LENGTHS_M, STEEL_TABLE_MM, strict=True)
        for change, printed in zip(RANGES_K, row, strict=True)
    ],
)
def test_the_sheet_table_of_steel_is_found_again_but_for_its_two_misprints(
    length: float, change: float, printed: float
) -> None:
    right = STEEL_TABLE_MISPRINTS_MM.get((int(length), int(change)), printed)
    assert (right != printed) == ((length, change) in STEEL_TABLE_MISPRINTS_MM)
    assert _mm(length, 12.0e-6, change) == pytest.approx(right, abs=0.005), SHEET_TABLE


@pytest.mark.parametrize(
    ("length", "change", "printed"),
    [
        (length, change, printed)
        for length, row in zip(LENGTHS_M[:2], STAINLESS_TABLE_MM, strict=True)
        for change, printed in zip(RANGES_K, row, strict=True)
    ],
)
def test_the_sheet_table_of_stainless_is_found_again(
    length: float, change: float, printed: float
) -> None:
    assert _mm(length, 17.0e-6, change) == pytest.approx(printed, abs=0.005), SHEET_TABLE


@pytest.mark.parametrize(("name", "printed", "right", "reason"), MISPRINTS_IN)
def test_a_known_misprint_is_not_copied(
    name: str, printed: float, right: float, reason: str
) -> None:
    assert right == pytest.approx(1.536), reason
    assert abs(right - printed) > 0.02, name


def test_the_aluminum_misprint_is_the_answer_of_the_coefficient_used_here() -> None:
    found = free_movement_in(length_in=1200, per_degf=METALS["aluminum"].per_degf, change_degf=100)
    assert found == pytest.approx(1.56)


def test_coefficient_per_foot_of_steel_is_the_published_one() -> None:
    # constructioncanada.net: 0.0000804 in per ft and degF
    per_foot = free_movement_in(length_in=12, per_degf=6.7e-6, change_degf=1)
    assert per_foot == pytest.approx(0.0000804, abs=1e-9)


def test_stress_in_a_restrained_copper_strip_is_the_published_one() -> None:
    # the copper manual, page 60: E 18,300,000 psi, 9.5e-6, 60 to 0 F: 10,431 psi
    found = restrained_stress_psi(elastic_modulus_psi=18.3e6, per_degf=9.5e-6, change_degf=-60)
    assert found == pytest.approx(-10_431, abs=0.5)


def test_on_conditioned_framing_the_difference_is_between_panel_and_frame() -> None:
    # constructioncanada.net: 40 ft of steel; panel -26.5 to 160 F, frame 72 F in winter and 77 F in
    # summer. Its text prints 98.1 F for what its temperatures make 98.5 F, hence 0.3155 for 0.317.
    seasons = Temperatures(
        low_degf=-26.5,
        high_degf=160,
        install_degf=72,
        deck_at_low_degf=72,
        deck_at_high_degf=77,
    )
    found = movement(
        metal="coated-steel",
        deck="open-framing",
        length_ft=40,
        temperatures=seasons,
        fixed_point="ridge",
    )
    (eave,) = found.ends
    assert eave.contraction_in == pytest.approx(0.3168, abs=0.0001)
    assert eave.expansion_in == pytest.approx(6.7e-6 * 480 * 83, abs=0.0001)


# in per 10 ft and 100 F, and the fraction the trade uses (fractions from memory)
RULES_OF_THUMB = {
    "coated-steel": (0.080, 5 / 64),
    "aluminum": (0.156, 5 / 32),
    "copper": (0.118, 1 / 8),
    "zinc": (0.146, 5 / 32),
    "type-304": (0.115, 1 / 8),
    "type-316": (0.107, 7 / 64),
}


@pytest.mark.parametrize("metal", RULES_OF_THUMB)
def test_the_rule_of_thumb_of_a_metal_is_near_the_fraction_in_use(metal: str) -> None:
    inches, fraction = RULES_OF_THUMB[metal]
    assert rule_of_thumb_in(metal) == pytest.approx(inches, abs=0.0006)
    assert abs(rule_of_thumb_in(metal) - fraction) < 1 / 64


# per degC beside the per degF used: constructioncanada.net; alloy sheets (23 to 24); Copper
# Development Association (9.8 per degF); rolling mill (22.0); from memory (17.3 and 16.0)
PER_DEGC = {
    "coated-steel": 12.0e-6,
    "aluminum": 23.4e-6,
    "copper": 17.6e-6,
    "zinc": 22.0e-6,
    "type-304": 17.3e-6,
    "type-316": 16.0e-6,
}


@pytest.mark.parametrize("metal", PER_DEGC)
def test_a_coefficient_is_the_published_one_in_either_system(metal: str) -> None:
    assert METALS[metal].per_degc == pytest.approx(PER_DEGC[metal], rel=0.006)


def test_the_coefficients_of_panel_and_steel_support_are_the_same() -> None:
    for deck in ("steel-deck", "steel-deck-insulated", "open-framing"):
        assert DECKS[deck].per_degf == METALS["coated-steel"].per_degf
