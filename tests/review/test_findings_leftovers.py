"""What guide text and other jobs leave behind, and what only looks like it."""

from __future__ import annotations

import pytest

from specgen.review.leftovers import leftovers_found
from specgen.review.outline import Block, Outline
from tests.review.outlines import ids, words


def document(*texts: str, head: str = "") -> Outline:
    blocks = [
        Block(index, "paragraph", text, place=f"2.1.{chr(65 + index)}", level=1, part=2)
        for index, text in enumerate(texts)
    ]
    if head:
        blocks.append(Block(len(blocks), "page", head))
    return Outline("d.docx", "07 41 13", "METAL ROOF PANELS", tuple(blocks))


@pytest.mark.parametrize(
    ("text", "finding", "said"),
    [
        ("Width: [16 in] [18 in].", "choice-left", "[16 in] [18 in]"),
        ("Width: [16] in.", "choice-left", "[16]"),
        ("Provide [one] or [two] coats.", "choice-left", "[one] or [two]"),
        ("Warranty: ____ years.", "blank-left", "____"),
        ("Warranty: [ ] years.", "blank-left", "[ ]"),
        ("Warranty: ........ years.", "blank-left", "........"),
        ("Color: <insert color>.", "blank-left", "<insert color>"),
        ("Color: «color of panels».", "blank-left", "«color of panels»"),
        ("Color: TBD.", "undecided-left", "TBD."),
        ("Color: to be determined.", "undecided-left", "to be determined"),
        ("Thickness: XX gauge.", "undecided-left", "XX"),
        ("Slope: ??", "undecided-left", "??"),
        ("Note to specifier: keep one.", "writers-note-left", "Note to specifier: keep one."),
        ("Delete this paragraph if not used.", "writers-note-left", None),
        ("Select one of the colors below.", "writers-note-left", None),
        ("Insert project name here.", "writers-note-left", None),
    ],
)
def test_a_leftover_is_found_on_its_words(text: str, finding: str, said: str | None) -> None:
    read = document(text)
    found = list(leftovers_found(read))
    assert finding in ids(found)
    if said is not None:
        assert words(read, found[ids(found).index(finding)]) == said


@pytest.mark.parametrize(
    "text",
    [
        "Width: 16 in [406 mm] from seam to seam.",
        "Thickness: 24 gauge [0.6 mm], not less than 0.0239 in [0.607 mm].",
        "ASTM A90/A90M, Standard Test Method for Weight [Mass] of Coating on Iron and Steel.",
        "Keep the panels dry. Retain samples until the roof is accepted.",
        "Insert closures between panel and flashing.",
        "Remove the film from the panels. Choose no panel with a crease.",
        "Pressure difference < 1.57 psf and > 0.5 psf.",
        "Leave expansion joints … see the Drawings.",
        "Submit product data, to be determined by test.",
        "Copper of 20 oz - 24 oz.",
    ],
)
def test_what_only_looks_like_a_leftover_is_left_alone(text: str) -> None:
    assert list(leftovers_found(document(text))) == []


def test_another_projects_name_is_found_where_the_document_has_its_own() -> None:
    texts = ("Protect the floors of Ash Hollow Middle School.", "Store panels at the site.")
    read = document(*texts, head="Otter Bend Public Library, Project 12")
    (found,) = leftovers_found(read)
    assert found.finding.id == "other-project-named"
    assert words(read, found) == "Ash Hollow Middle School"
    assert list(leftovers_found(document(*texts))) == []


def test_a_brief_names_the_project_where_the_document_does_not() -> None:
    read = document("Protect the floors of Ash Hollow Middle School.")
    assert ids(list(leftovers_found(read, "Otter Bend Public Library"))) == ["other-project-named"]
    assert list(leftovers_found(read, "Ash Hollow Middle School Reroofing")) == []


def test_a_building_named_in_parts_is_still_the_same() -> None:
    read = document(
        "Protect the library while work goes on at the Otter Bend Library.",
        head="Otter Bend Public Library",
    )
    assert list(leftovers_found(read)) == []


def test_pages_headed_with_another_section_are_found_once() -> None:
    wrong = document("Panels.", head="07 61 00 - 3")
    right = document("Panels.", head="March 15, 2027    07 41 13 - 3")
    assert ids(list(leftovers_found(wrong))) == ["other-section-headed"]
    assert list(leftovers_found(right)) == []


def test_hidden_text_is_not_held_to_anything() -> None:
    read = document("Width: [16 in] [18 in].")
    hidden = Outline(
        read.name, read.number, read.title,
        tuple(Block(b.index, b.kind, b.text, hidden=True) for b in read.blocks),
    )  # fmt: skip
    assert list(leftovers_found(hidden)) == []
