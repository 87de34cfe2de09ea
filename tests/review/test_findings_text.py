"""Vague words, figures that differ, references and numbers."""

from __future__ import annotations

import pytest

from specgen.library import Library
from specgen.review.references_found import numbers_found, references_found
from specgen.review.wording_found import other_figures, vague_words
from tests.review.outlines import ids, outline, words

SECTION = """
    PART 1 - GENERAL
    1.1 SUMMARY
    A. Panels.
    1.2 SUBMITTALS
    A. Samples, 12 in long, of each finish. {one}
    PART 2 - PRODUCTS
    2.1 PANELS
    A. Panels: steel.
    {more}
    2.2 CLIPS
    A. Clips: two-piece.
    B. Fasteners: screws.
    1. Two in each clip.
    PART 3 - EXECUTION
    3.1 INSTALLATION
    A. Set the panels. {three}
    3.2 CLEANING
    A. Sweep the roof each day.
"""


def section(one: str = "", three: str = "", more: str = "B. Seams: double-lock.") -> str:
    return SECTION.format(one=one, three=three, more=more)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Shim as required.", "as required"),
        ("Fasten properly.", "properly"),
        ("Work is workmanlike.", "workmanlike"),
        ("Use this sealant or equal.", "or equal"),
        ("Clean to the satisfaction of the Architect.", "to the satisfaction of"),
    ],
)
def test_words_that_nobody_can_measure_are_found(text: str, said: str, library: Library) -> None:
    read = outline(section(three=text))
    (found,) = vague_words(read, library)
    assert words(read, found) == said


@pytest.mark.parametrize(
    "text",
    [
        "Shim as required by the manufacturer's instructions.",
        "Primer suitable for use at 40 °F.",
        "Fasten with two screws.",
    ],
)
def test_words_that_are_measured_after_all_are_left_alone(text: str, library: Library) -> None:
    assert list(vague_words(outline(section(three=text)), library)) == []


@pytest.mark.parametrize(
    "reference", ["Article 2.7", "Article 2.07", "Paragraph 2.2.D", "Articles 2.1 and 2.9"]
)
def test_a_reference_that_leads_nowhere_is_found(reference: str) -> None:
    read = outline(section(three=f"Set clips by {reference}."))
    assert ids(list(references_found(read))) == ["reference-broken"]


@pytest.mark.parametrize(
    "reference",
    [
        "Article 2.2", "Article 2.02", "Paragraph 2.2.B.1", "Articles 2.1 and 3.2",
        "Article 5.1 of the General Conditions", "IBC Section 1504.3", "Section 07 92 00",
        "a pressure of 2.86 psf", "ASCE/SEI 7-16, Section 30.3",
    ],
)  # fmt: skip
def test_a_reference_that_leads_somewhere_or_elsewhere_is_left_alone(reference: str) -> None:
    assert list(references_found(outline(section(three=f"Set clips by {reference}.")))) == []


def test_a_hole_in_the_numbers_and_a_number_used_twice_are_found() -> None:
    whole = outline(section())
    holed = outline(section(more="C. Seams: double-lock."))
    twice = outline(section().replace("2.2 CLIPS", "2.1 CLIPS"))
    assert list(numbers_found(whole)) == []
    (hole,) = numbers_found(holed)
    assert (hole.finding.id, hole.finding.place) == ("number-skipped", "2.1.C")
    assert "number-repeated" in ids(list(numbers_found(twice)))


def test_a_requirement_said_again_with_another_figure_is_a_conflict() -> None:
    read = outline(
        section(
            one="",
            more="B. Cleats of flashings: 12 in apart, two screws in each.",
            three="\n    B. Cleats of flashings: 18 in apart, two screws in each.",
        )
    )
    (found,) = other_figures(read)
    assert (found.finding.kind, found.finding.place) == ("conflict", "3.1.B")
    assert "2.1.B" in found.finding.says


def test_a_list_of_like_paragraphs_is_no_contradiction() -> None:
    zones = "\n".join(f"    {n}. Zone {n}: {20 + n} psf uplift, 16 psf down." for n in (1, 2, 3))
    read = outline(section(more=f"B. Wind:\n{zones}"))
    assert list(other_figures(read)) == []
