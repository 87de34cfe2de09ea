"""Standards that a document names: recognized as written, and held against the register."""

from __future__ import annotations

import pytest

from specgen.library import Library
from specgen.review.designations import register_of
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found
from specgen.review.standards_named import named_standards, standards_found
from specgen.scope import Scope
from tests.review.outlines import ids, outline, words

LISTED = """
    PART 1 - GENERAL
    1.1 REFERENCES
    A. ASTM A653/A653M, Standard Specification for Steel Sheet, Zinc-Coated (Galvanized) or Zinc-Iron Alloy-Coated (Galvannealed) by the Hot-Dip Process.
    B. ASTM C920, Standard Specification for Elastomeric Joint Sealants.
    C. ASTM E1646, {title}.
    D. UL 580, Tests for Uplift Resistance of Roof Assemblies.
    1.2 SUBMITTALS
    A. Product data.
    PART 2 - PRODUCTS
    2.1 PANELS
    A. Clips: steel, ASTM A 653, G90.
    B. Sealant: ASTM C920.
    C. Uplift: Class 90 under UL 580.
    D. Water: no leakage under ASTM E1646-95 at 6.24 psf.
    {more}
    PART 3 - EXECUTION
    3.1 INSTALLATION
    A. Set the panels.
"""  # noqa: E501
WATER = (
    "Standard Test Method for Water Penetration of Exterior Metal Roof Panel Systems by Uniform"
    " Static Air Pressure Difference"
)
AIR = "Standard Test Method for Rate of Air Leakage Through Exterior Metal Roof Panel Systems"


def document(title: str = WATER, more: str = "") -> Outline:
    return outline(LISTED.format(title=title, more=more))


def found_in(read: Outline, library: Library) -> list[Found]:
    return list(standards_found(read, Scope(library, {}), named_standards(read, library)))


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("ASTM A 653/A 653M and ASTM A653", ["ASTM A653/A653M", "ASTM A653/A653M"]),
        ("ASTM A653/A653M-20a", ["ASTM A653/A653M"]),
        ("ASTM A653, G90, or ASTM A792, AZ50", ["ASTM A653/A653M", "ASTM A792/A792M"]),
        ("ASTM E283 and E331", ["ASTM E283/E283M", "ASTM E331"]),
        ("ASTM G151 with G152, G153 or G154", ["ASTM G151", "ASTM G152", "ASTM G153", "ASTM G154"]),
        ("ASTM Specification E 1592", ["ASTM E1592"]),
        ("ASCE 7-10, ASCE/SEI 7-16", ["ASCE 7-10", "ASCE/SEI 7-16"]),
        ("UL-580 or FM Approvals 4471", ["UL 580", "FM 4471"]),
        ("FM Global Data Sheet 1-28", ["FM Data Sheet 1-28"]),
        ("FGIA/AAMA 2605-17", ["AAMA 2605"]),
        ("SMACNA Architectural Sheet Metal Manual", ["SMACNA ASMM"]),
        ("ANSI/SPRI/FM 4435/ES-1", ["ANSI/SPRI/FM 4435/ES-1"]),
        ("federal specification TT-S-00230C", ["TT-S-00230C"]),
        ("the 2021 International Building Code", ["IBC"]),
        ("drawing A501, Grade E2 and detail B12", []),
        ("UL 1715", ["UL 1715"]),
    ],
)
def test_a_designation_is_recognized_as_people_write_it(
    text: str, names: list[str], library: Library
) -> None:
    block = Block(0, "paragraph", text)
    assert [each.id for each in register_of(library).named_in(block)] == names


def test_every_designation_of_the_register_is_recognized_as_itself(library: Library) -> None:
    register = register_of(library)
    missed = {
        name
        for name in library.standards
        if name not in [n.id for n in register.named_in(Block(0, "paragraph", f"Under {name}:"))]
    }
    assert missed == set()


def test_a_clean_list_raises_nothing(library: Library) -> None:
    assert found_in(document(), library) == []


def test_another_standards_title_is_found_and_named(library: Library) -> None:
    (found,) = found_in(document(AIR), library)
    assert found.finding.id == "standard-mistitled"
    assert "ASTM E1680" in found.finding.says


@pytest.mark.parametrize(
    "title",
    [
        "Water Penetration of Exterior Metal Roof Panel Systems",
        "Test Method for Water Penetration of Metal Roof Panels",
        "uplift of panels over framing, in the manufacturer's laboratory",
    ],
)
def test_a_shortened_title_or_a_description_is_not_a_wrong_one(
    title: str, library: Library
) -> None:
    assert found_in(document(title), library) == []


def test_no_title_of_the_register_is_taken_for_anothers(library: Library) -> None:
    lines = "\n".join(
        f"    {index}. {name}, {standard.title}."
        for index, (name, standard) in enumerate(library.standards.items(), 1)
    )
    read = outline(f"""
    PART 1 - GENERAL
    1.1 REFERENCES
    A. Standards:
{lines}
    """)
    assert "standard-mistitled" not in ids(found_in(read, library))


def test_a_withdrawn_standard_is_found_with_what_took_its_place(library: Library) -> None:
    read = document(more="E. Coating: ASTM A525.")
    found = {each.finding.id: each for each in found_in(read, library)}
    assert set(found) == {"standard-withdrawn", "standard-not-listed"}
    assert "ASTM A924/A924M" in found["standard-withdrawn"].finding.says
    assert words(read, found["standard-withdrawn"]) == "ASTM A525"


def test_an_edition_that_codes_still_adopt_is_left_alone_until_the_code_is_known(
    library: Library,
) -> None:
    old = document(more="E. Wind: ASCE 7-10.")
    adopted = document(more="E. Wind: ASCE/SEI 7-16.")
    assert "standard-superseded" in ids(found_in(old, library))
    assert "standard-superseded" not in ids(found_in(adopted, library))


def test_a_method_for_walls_is_found_on_the_roof_and_not_on_its_skylights(
    library: Library,
) -> None:
    roof = document(more="E. Air leakage of panels: 0.06 cfm/sq ft under ASTM E283 at 1.57 psf.")
    skylight = document(more="E. Skylights: air leakage under ASTM E283.")
    assert "standard-not-for-roofs" in ids(found_in(roof, library))
    assert "standard-not-for-roofs" not in ids(found_in(skylight, library))


def test_what_is_cited_and_not_listed_or_listed_and_not_cited_is_found(library: Library) -> None:
    read = document(more="E. Gloss: ASTM D523.")
    assert ids(found_in(read, library)) == ["standard-not-listed"]
    fewer = outline(
        LISTED.format(title=WATER, more="").replace("C. Uplift: Class 90 under UL 580.\n", "\n")
    )
    (found,) = found_in(fewer, library)
    assert found.finding.id == "standard-not-cited"
    assert words(fewer, found) == "UL 580"


def test_a_document_without_a_list_is_not_held_to_one(library: Library) -> None:
    read = outline("""
    PART 2 - PRODUCTS
    2.1 PANELS
    A. Sealant: ASTM C920. Gloss: ASTM D523. Clips: ASTM A653.
    """)
    assert found_in(read, library) == []
