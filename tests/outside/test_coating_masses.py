"""The coating classes of steel sheet against the coating tables of their standards.

The masses are totals of both sides, transcribed from copies of ASTM A792/A792M (AZ classes) and
ASTM A653/A653M (G classes); the copies were read on catalog or repost pages.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import pytest

from specgen.library import Library
from specgen.units import read
from specgen.values import Choice


@dataclass(frozen=True)
class Coating:
    """A row of a coating table: least mass, triple-spot and single-spot, inch-pound and SI."""

    designation: str
    metric: str
    standard: str
    ounces: tuple[float, float]
    grams: tuple[int, int]

    @property
    def choice(self) -> str:
        return self.designation.lower()


COATINGS = [
    # ASTM A792/A792M, coating weight [mass] requirements
    Coating("AZ50", "AZM150", "ASTM A792/A792M", (0.50, 0.43), (150, 130)),
    Coating("AZ55", "AZM165", "ASTM A792/A792M", (0.55, 0.50), (165, 150)),
    Coating("AZ60", "AZM180", "ASTM A792/A792M", (0.60, 0.52), (180, 155)),
    # ASTM A653/A653M, weight [mass] of coating requirements
    Coating("G90", "Z275", "ASTM A653/A653M", (0.90, 0.80), (275, 235)),
]
BY_DESIGNATION = {coating.designation: coating for coating in COATINGS}
IDS = [coating.designation for coating in COATINGS]

DESIGNATION = re.compile(r"\b(?:AZ|G)\d{2}\b")
METRIC = re.compile(r"\b(?:AZM|Z)\d{3}\b")
OUNCES = re.compile(r"(\d*\.\d+)\s*oz\b")
GRAMS = re.compile(r"(\d{3})\s*g\b")
STANDARD = re.compile(r"ASTM A\d+/A\d+M")


def _choice(library: Library, coating: Coating) -> Choice:
    choices = {choice.id: choice for choice in library.questions["steel_coating"].choices}
    return choices[coating.choice]


def test_the_coatings_offered_are_those_of_the_tables(library: Library) -> None:
    offered = {choice.id for choice in library.questions["steel_coating"].choices}
    assert offered == {coating.choice for coating in COATINGS}


@pytest.mark.parametrize("coating", COATINGS, ids=IDS)
def test_a_clause_prints_the_designation_of_the_coating_and_no_other(
    library: Library, coating: Coating
) -> None:
    choice = _choice(library, coating)
    assert set(DESIGNATION.findall(choice.text)) == {coating.designation}
    assert set(DESIGNATION.findall(choice.label)) <= {coating.designation}


@pytest.mark.parametrize("coating", COATINGS, ids=IDS)
def test_a_metric_designation_is_the_twin_of_the_one_beside_it(
    library: Library, coating: Coating
) -> None:
    choice = _choice(library, coating)
    assert set(METRIC.findall(f"{choice.text} {choice.label}")) <= {coating.metric}
    named = {coating.designation, *DESIGNATION.findall(choice.means)}
    twins = {BY_DESIGNATION[other].metric for other in named}
    assert set(METRIC.findall(choice.means)) <= twins


@pytest.mark.parametrize("coating", COATINGS, ids=IDS)
def test_a_mass_named_beside_a_coating_is_in_its_table(library: Library, coating: Coating) -> None:
    choice = _choice(library, coating)
    for words in (choice.text, choice.label, choice.means):
        rows = [coating, *(BY_DESIGNATION[other] for other in DESIGNATION.findall(words))]
        ounces = {mass for row in rows for mass in row.ounces}
        grams = {mass for row in rows for mass in row.grams}
        assert {float(found) for found in OUNCES.findall(words)} <= ounces, words
        assert {int(found) for found in GRAMS.findall(words)} <= grams, words


@pytest.mark.parametrize("coating", COATINGS, ids=IDS)
def test_a_standard_named_beside_a_coating_is_the_one_that_has_it(
    library: Library, coating: Coating
) -> None:
    choice = _choice(library, coating)
    assert coating.standard in library.standards
    assert set(STANDARD.findall(f"{choice.text} {choice.label} {choice.means}")) <= {
        coating.standard
    }


@pytest.mark.parametrize("coating", COATINGS, ids=IDS)
def test_the_number_in_a_designation_is_its_mass_in_either_system(coating: Coating) -> None:
    assert int(coating.designation[-2:]) / 100 == coating.ounces[0]
    assert int(coating.metric[-3:]) == coating.grams[0]


@pytest.mark.parametrize("coating", COATINGS, ids=IDS)
def test_the_two_systems_of_a_coating_agree_within_the_rounding_of_the_tables(
    coating: Coating,
) -> None:
    mass = read(f"{coating.ounces[0]} oz/sq ft", "coating mass")
    assert mass.to("g/sq m") == pytest.approx(coating.grams[0], rel=0.02)
