"""What the statements of a document come to: answers, contradictions, a brief of what is stated."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.brief import read_brief
from specgen.domain import typed
from specgen.library import Library
from specgen.review.brief_of import partial_brief
from specgen.review.contradictions import contradictions
from specgen.review.outline import Block, Outline
from specgen.review.shapes import Found
from specgen.review.understanding import same, understand
from specgen.units import read


def document(*paragraphs: tuple[str, str]) -> Outline:
    """A document of (article, paragraph) pairs, each with a place."""
    blocks = tuple(
        Block(index, "paragraph", text, place=f"2.{index + 1}.A", level=1, part=2, article=article)
        for index, (article, text) in enumerate(paragraphs)
    )
    return Outline("sent.docx", "07 41 13", "ROOF", blocks)


def contradicted(library: Library, *paragraphs: tuple[str, str]) -> tuple[Found, ...]:
    outline = document(*paragraphs)
    return contradictions(understand(outline, library), outline, library)


def test_two_terms_of_one_warranty_are_told_once_with_both_places(library: Library) -> None:
    (found,) = contradicted(
        library,
        ("WARRANTY", "Finish: the manufacturer warrants the coating for 30 years."),
        ("FINISHES", "Coating with a warranty of 20 years on the finish."),
    )
    assert found.finding.id == "stated-twice"
    assert found.finding.kind == "conflict"
    assert "30 years in 2.1.A" in found.finding.says
    assert "20 years in 2.2.A" in found.finding.says
    assert found.at is not None
    assert found.at.block == 1
    assert found.finding.settle == (
        {"finish_warranty_years": "30"},
        {"finish_warranty_years": "20"},
    )


def test_a_zone_with_two_spacings_is_told(library: Library) -> None:
    (found,) = contradicted(
        library,
        ("ATTACHMENT", "Space clips 24 inches on center in field."),
        ("INSTALLATION", "Space clips 36 inches on center in field."),
    )
    assert "24 in in 2.1.A and 36 in in 2.2.A" in found.finding.says


SPARED = [
    (("PANELS", "Coverage width: 16 in."), ("PANELS", "Panel width: 406 mm.")),
    (("PANELS", "Thickness: 24 gauge."), ("PANELS", "Thickness: 0.024 in of steel.")),
    (("TESTS", "ASTM E1646 at 12 psf, no water penetration."),
     ("FIELD TESTS", "Field water test by hose to AAMA 501.2 at a pressure of 30 psi.")),
    (("PANELS", "Canopy panels: thickness 0.032 in of aluminum."),
     ("PANELS", "Roof panels: thickness 0.040 in of aluminum.")),
    (("PANELS", "Steel panels: thickness 24 gauge."),
     ("PANELS", "Aluminum panels: thickness 0.040 in.")),
    (("DESIGN", "Minimum slope: 1:12."), ("DESIGN", "Roof slope 3:12.")),
    (("PANELS", "Thickness: 24 gauge of steel."),
     ("PANELS", "Where panels are longer than 60 ft: thickness 22 gauge of steel.")),
    (("WARRANTY", "Weathertightness warranty by the manufacturer: 20 years."),
     ("WARRANTY", "Workmanship warranty by the installer: 2 years.")),
    (("CLIPS", "Clips: two-piece, sliding."), ("CLIPS", "Fixed clips at the ridge: one-piece.")),
]  # fmt: skip


@pytest.mark.parametrize("pair", SPARED, ids=[f"{a[1][:30]} / {b[1][:30]}" for a, b in SPARED])
def test_what_may_rightly_differ_is_no_contradiction(
    library: Library, pair: tuple[tuple[str, str], tuple[str, str]]
) -> None:
    assert [each.finding.says for each in contradicted(library, *pair)] == []


def test_what_is_said_more_surely_and_more_often_is_the_answer(library: Library) -> None:
    outline = document(
        ("PANELS", "Seams folded and closed 180 degrees."),
        ("PANELS", "Single-lock seams."),
        ("SEAMING", "Single-lock seams are closed on the day that panels are set."),
    )
    understanding = understand(outline, library)
    assert typed(understanding.answers["seam"]) == "single-lock"
    assert understanding.given_by["seam"].at.block == 1


def test_an_answer_to_what_is_not_asked_of_this_roof_is_left_out(library: Library) -> None:
    clips = ("CLIPS", "Clips: one-piece, of stainless steel, with 1 in of travel each way.")
    understanding = understand(document(clips), library)
    assert "clip_travel" in {statement.question for statement in understanding.statements}
    assert "clip_travel" not in understanding.answers


def test_tests_named_apart_are_answered_together(library: Library) -> None:
    outline = document(("TESTS", "UL 580, Class 90."), ("TESTS", "Uplift under ASTM E1592."))
    answer = understand(outline, library).answers["uplift_tests"]
    assert typed(answer) == "[astm-e1592, ul-580]"


def test_rows_of_a_table_are_read_with_the_units_of_its_head(library: Library) -> None:
    rows = ("Roof zone\tUplift (psf)\tDownward (psf)", "Zone 1\t-29\t16", "Zone 2\t-41\t16")
    blocks = tuple(Block(i, "row", text, part=2, article="WIND") for i, text in enumerate(rows))
    answer = understand(Outline("", "", "", blocks), library).answers["zone_pressures"]
    assert isinstance(answer, tuple)
    assert [tuple(typed(cell) for cell in row) for row in answer if isinstance(row, tuple)] == [
        ("Zone 1", "29 psf", "16 psf"),
        ("Zone 2", "41 psf", "16 psf"),
    ]


def test_a_table_in_which_two_columns_could_be_meant_is_not_guessed(library: Library) -> None:
    rows = ("Zone\tUplift, allowable\tUplift, strength\tDownward", "1\t10 psf\t17 psf\t9 psf")
    blocks = tuple(Block(i, "row", text, part=2, article="WIND") for i, text in enumerate(rows))
    assert "zone_pressures" not in understand(Outline("", "", "", blocks), library).answers


def test_figures_are_the_same_as_far_as_rounding_between_units_goes() -> None:
    assert same(read("16 in", "length"), read("406 mm", "length"))
    assert same(read("1 in", "length"), read("25 mm", "length"))
    assert not same(read("16 in", "length"), read("16.5 in", "length"))
    assert not same(read("24 ga", "thickness"), read("22 ga", "thickness"))


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("Laps of 6 in, 8 in, 12 in and 2 ft; 25 psf; 110 mph.", "inch-pound"),
        ("Laps of 150 mm, 200 mm, 300 mm and 0.6 m; 1.2 kPa; 49 m/s.", "si"),
        ("Laps of 6 in (152 mm), 8 in (203 mm), 12 in (305 mm).", "both"),
        ("Laps of 6 in, 8 in, 12 in, 150 mm, 200 mm and 300 mm.", None),
        ("Laps of 6 in.", None),
    ],
)
def test_the_units_of_a_document_are_told_by_its_figures(
    library: Library, text: str, units: str | None
) -> None:
    answer = understand(document(("LAPS", text)), library).answers.get("units_shown")
    assert (typed(answer) if answer is not None else None) == units


def test_the_brief_of_a_document_is_read_back_as_what_it_states(
    library: Library, tmp_path: Path
) -> None:
    outline = document(
        ("PANELS", "Aluminum panels, thickness 0.040 in, coverage 16 in, double-lock seams."),
        ("TESTS", "UL 580, Class 90, and UL 1897."),
        ("WARRANTY", "Finish: 30 years against chalking and fading."),
        ("PANELS", "Seam height: 9 inches."),
    )
    understanding = understand(outline, library)
    text = partial_brief(understanding, outline, library)
    path = tmp_path / "brief.yaml"
    path.write_text(text, encoding="utf-8")
    assert dict(read_brief(path, library).answers) == dict(understanding.answers)
    assert "# 2.1.A: coverage 16 in\npanel_width: 16 in\n" in text
    assert "# Stated, and not taken:\n# seam_height is 9 in" in text
