"""What a section does not cover, and products, installations and tests that stand alone."""

from __future__ import annotations

import pytest

from specgen.engine import Engine
from specgen.library import Library
from specgen.review.companions import COMPANIONS, companions_found, unbounded_tests
from specgen.review.kinds import KINDS
from specgen.review.needs import NEEDS
from specgen.review.outline import Outline
from specgen.review.shapes import Found
from tests.review.outlines import ids, outline, reviewed, words

SHORT = """
    PART 1 - GENERAL
    1.1 SUBMITTALS
    A. Shop drawings: layout of panels, clip spacing and edges.
    1.2 QUALITY ASSURANCE
    A. Installer: five years of experience with this seam.
    B. Store panels off the ground and dry.
    1.3 WARRANTY
    A. Installer's warranty against leaks: 2 years.
    PART 2 - PRODUCTS
    2.1 PERFORMANCE
    A. Wind uplift: resist the design pressures of the Drawings, by ASTM E1592.
    B. Thermal movement: panels move freely between 0 and 160 °F.
    2.2 PANELS
    A. Panels: metallic-coated steel, ASTM A792/A792M, AZ50, 24 gauge, 16 in wide, double-lock seams 2 in high.
    B. Finish: fluoropolymer coating, 70 percent PVDF, warranted by its maker for 20 years.
    C. Clips: two-piece, with screws into the steel purlins.
    D. Flashings: of the metal of the panels.
    E. Oil canning is not a cause for rejection.
    F. Water penetration: no leakage under ASTM E1646 at 6.24 psf.
    {products}
    PART 3 - EXECUTION
    3.1 INSTALLATION
    A. Examine the purlins. The lowest slope is {slope}.
    B. Set the panels with their fixed point at the ridge, clips at 24 in on center.
    C. Seam the panels with a powered seamer. Lay flashings over cleats.
    D. Sweep the roof clean each day.
    {work}
"""  # noqa: E501


def short(slope: str = "4:12", products: str = "", work: str = "") -> str:
    return SHORT.format(slope=slope, products=products, work=work)


def companions(text: str, library: Library) -> tuple[Outline, list[Found]]:
    read = outline(text)
    return read, list(companions_found(read, Engine(library, {})))


def missing(text: str, library: Library) -> set[str]:
    return {each for each in ids(reviewed(text, library)) if each.startswith("missing-")}


def test_every_need_and_companion_names_what_the_library_has(library: Library) -> None:
    topics = {question.topic for question in library.questions.values()}
    for need in NEEDS:
        assert need.topic in topics
        assert set(need.questions) <= set(library.questions), need.id
        assert set(need.clauses) <= set(library.clauses), need.id
        assert set(need.when) <= {*library.facts, *library.questions}, need.id
    for companion in COMPANIONS:
        assert companion.topic in topics
        assert {*companion.installs, *companion.describes} <= set(library.clauses), companion.name


def test_a_short_section_that_says_all_is_missing_nothing(library: Library) -> None:
    assert missing(short(), library) == set()


@pytest.mark.parametrize(
    ("line", "finding"),
    [
        ("A. Shop drawings: layout of panels, clip spacing and edges.", "missing-shop-drawings"),
        ("B. Store panels off the ground and dry.", "missing-storage"),
        ("A. Installer's warranty against leaks: 2 years.", "missing-installation-warranty"),
        ("B. Thermal movement: panels move freely between 0 and 160 °F.", "missing-thermal-movement"),  # noqa: E501
        ("D. Flashings: of the metal of the panels.", "missing-flashings"),
        ("E. Oil canning is not a cause for rejection.", "missing-oil-canning"),
        ("D. Sweep the roof clean each day.", "missing-protection"),
    ],
)  # fmt: skip
def test_what_is_taken_out_is_missed(line: str, finding: str, library: Library) -> None:
    assert finding not in missing(short(), library)
    assert finding in missing(short().replace(line, line[:3] + "Reserved."), library)


def test_a_low_slope_needs_what_a_steep_one_does_not(library: Library) -> None:
    low = missing(short("1:12"), library)
    assert {"missing-static-head-test", "missing-seam-sealant"} <= low
    assert not {"missing-static-head-test", "missing-seam-sealant"} & missing(short(), library)


def test_what_is_missing_comes_with_the_clause_that_would_fill_it(library: Library) -> None:
    found = {each.finding.id: each for each in reviewed(short("1:12"), library).found}
    head = found["missing-static-head-test"]
    assert head.fills == "static-head-test"
    assert head.fills_with.startswith("Standing water: no leakage through seams")
    assert "ASTM E2140" in head.fills_with


def test_a_heading_without_parts_is_not_told_what_it_lacks(library: Library) -> None:
    assert missing("1.1 SUMMARY\n    A. Panels and clips.", library) == set()


def test_a_product_that_nothing_installs_is_found_with_the_clause_that_would(
    library: Library,
) -> None:
    read, found = companions(short(products="G. Walkways: aluminum planks 24 in wide."), library)
    (walkways,) = found
    assert walkways.finding.id == "product-without-installation"
    assert words(read, walkways) == "Walkways"
    assert walkways.fills == "install-walkways"
    installed = short(
        products="G. Walkways: aluminum planks.", work="E. Clamp walkways to the seams."
    )
    assert companions(installed, library)[1] == []


def test_an_installation_of_nothing_is_found(library: Library) -> None:
    _, found = companions(short(work="E. Snow rails: clamp them to the seams, level."), library)
    assert ids(found) == []
    _, found = companions(short(work="E. Install snow rails on each seam, level."), library)
    assert ids(found) == ["installation-without-product"]


@pytest.mark.parametrize(
    "product", ["G. Gutters: by others.", "G. No walkways are part of this work."]
)
def test_what_is_not_in_this_work_needs_no_installation(product: str, library: Library) -> None:
    assert companions(short(products=product), library)[1] == []


@pytest.mark.parametrize(
    ("text", "finds"),
    [
        ("G. Test air leakage under ASTM E1680.", ["test-without-criterion"]),
        ("G. Air leakage: 0.06 cfm/sq ft under ASTM E1680.", []),
        ("G. Rain: no leakage under ASTM E1646.", []),
        ("G. Uplift: Class 90 under UL 580.", []),
        ("G. Air leakage: ASTM E1680, as follows.\n    1. Rate: 0.06 cfm/sq ft at 1.57 psf.", []),
        ("G. Gloss: by ASTM D523.", []),
    ],
)
def test_a_test_without_figure_class_or_outcome_is_found(
    text: str, finds: list[str], library: Library
) -> None:
    read = outline(short(products=text))
    assert ids(list(unbounded_tests(read, Engine(library, {})))) == finds


def test_the_table_of_findings_names_each_once_with_its_reason() -> None:
    assert all(name == kind.id for name, kind in KINDS.items())
    assert all(kind.because and kind.source and kind.do for kind in KINDS.values())
    assert {kind.kind for kind in KINDS.values()} == {
        "conflict", "omission", "ambiguity", "caution",
    }  # fmt: skip
