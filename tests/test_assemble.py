"""A brief becomes a section."""

from __future__ import annotations

from pathlib import Path

import pytest

from specgen.faults import BadInput
from specgen.library import Library
from specgen.loading import load_library
from specgen.section import label_for, numbered, open_questions
from specgen.standing import MOST_COLUMNS
from tests.support import SMALL_LIBRARY, section_of, texts_of, write_folder

COMPLETE = """
project_name: Mill
place: Here
issue: for-bid
issue_date: 2027-03-15
units_shown: inch-pound
slope: 1:12
metal: steel
coating: az55
sealed: yes
width: 16 in
tests: [ul-580]
visits: 2
schedule:
- {zone: field, spacing: 24 in}
"""


_NUMBER = "- {{id: project_number, ask: a, label: number, kind: text, why: w, source: s{}}}\n"


def test_a_complete_brief_leaves_nothing_open(small: Library, tmp_path: Path) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    assert open_questions(section) == ()
    texts = texts_of(section)
    assert texts["scope"] == "Panels of coated steel sheet on a roof of 1:12; see Article 2.1."
    assert texts["steel-sheet"] == "Sheet: ASTM A792/A792M, AZ55."
    assert "copper-sheet" not in texts
    assert "colored" not in texts


def test_an_unanswered_question_stands_open_and_is_never_guessed(
    small: Library, tmp_path: Path
) -> None:
    section = section_of("metal: steel\nsealed: yes\n", small, tmp_path)
    waiting = {item.question: item for item in open_questions(section)}
    heads = {"project_name", "place", "issue", "issue_date"}
    assert set(waiting) == heads | {"slope", "coating", "width", "tests", "visits", "schedule"}
    texts = texts_of(section)
    assert texts["steel-sheet"] == "Sheet: ASTM A792/A792M, (open: coating)."
    assert waiting["slope"].places == 3  # the summary, and two clauses of the sealants


def test_clauses_that_wait_on_one_question_share_one_open_decision(
    small: Library, tmp_path: Path
) -> None:
    section = section_of("sealed: yes\n", small, tmp_path)
    decisions = [p.decision for p in section.paragraphs() if p.decision is not None]
    sealants = [d for d in decisions if d.question == "slope"]
    assert [d.clauses for d in sealants] == [("seam-sealant", "sealing")]


def test_an_article_with_nothing_to_say_is_left_out_and_the_numbers_close_up(
    small: Library, tmp_path: Path
) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    assert [(a.number, a.title) for a in section.articles()] == [
        ("1.1", "SUMMARY"),
        ("1.2", "REFERENCED STANDARDS"),
        ("1.3", "SUBMITTALS"),
        ("2.1", "PANELS"),
        ("2.2", "SEALANTS"),
    ]


def test_paragraphs_stand_at_their_level_with_their_labels(small: Library, tmp_path: Path) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    summary = next(section.articles())
    numbers = {p.reason.clause: number for p, number in numbered(summary)}
    assert numbers == {
        "scope": "1.1.A",
        "related": "1.1.B",
        "related-sealants": "1.1.B.1",
        "related-detail": "1.1.B.1.a",
    }


def test_the_references_article_lists_what_is_cited_and_nothing_else(
    small: Library, tmp_path: Path
) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    article = next(a for a in section.articles() if a.id == "references")
    assert [section.plain(p.spans) for p in article.walk()] == [
        "ASTM International:",
        "ASTM A792/A792M, Steel Sheet.",
        "UL:",
        "UL 580, Uplift Tests.",
    ]


def test_submittals_come_from_the_clauses_that_cause_them(small: Library, tmp_path: Path) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    article = next(a for a in section.articles() if a.id == "submittals")
    assert [section.plain(p.spans) for p in article.walk()] == [
        "Product data: submit for the following.",
        "Sheet (Article 2.1).",
    ]


def test_every_paragraph_knows_the_answers_that_put_it_there(
    small: Library, tmp_path: Path
) -> None:
    section = section_of(COMPLETE, small, tmp_path)
    reasons = {p.reason.clause: p.reason for p in section.paragraphs()}
    assert reasons["steel-sheet"].answers == (("metal", "coated steel sheet"), ("coating", "AZ55"))
    assert reasons["seam-sealant"].answers == (("slope", "1:12"), ("sealed", "yes"))
    assert reasons["seam-sealant"].needs == ("sealing",)
    assert reasons["related"].answers == ()
    tabled = [reason.answers for reason in reasons.values() if "schedule" in dict(reason.answers)]
    assert tabled == [(("units_shown", "inch-pound"), ("schedule", "1 row"))]


def test_a_table_is_printed_with_the_units_shown(small: Library, tmp_path: Path) -> None:
    section = section_of(COMPLETE.replace("inch-pound", "si"), small, tmp_path)
    tables = [table for p in section.paragraphs() for table in p.tables]
    assert [(t.head, t.rows) for t in tables] == [(("Zone", "Spacing"), (("field", "610 mm"),))]


def test_a_clause_that_prints_what_is_not_asked_is_a_fault_of_the_library(tmp_path: Path) -> None:
    bad = {"part-2-products/bad.yaml": "- {id: bad, at: panels, text: '{{ coating }}', why: w}\n"}
    library = load_library(write_folder(tmp_path / "lib", {**SMALL_LIBRARY, **bad}))
    with pytest.raises(BadInput, match=r"bad.yaml, line 1: bad: it prints coating"):
        section_of("metal: copper\n", library, tmp_path)


def test_a_reference_to_an_article_that_says_nothing_is_a_fault_of_the_library(
    tmp_path: Path,
) -> None:
    bad = {
        "section.yaml": SMALL_LIBRARY["section.yaml"].replace(
            "- {id: panels,", "- {id: mock-ups, title: MOCK-UPS}\n  - {id: panels,"
        ),
        "part-2-products/bad.yaml": (
            "- {id: bad, at: panels, text: \"See {{ ref('mock-ups') }}.\", why: w}\n"
        ),
    }
    library = load_library(write_folder(tmp_path / "lib", {**SMALL_LIBRARY, **bad}))
    with pytest.raises(BadInput, match=r"bad.yaml, line 1: bad: it refers to the article mock-ups"):
        section_of("metal: copper\n", library, tmp_path)


@pytest.mark.parametrize(
    ("more", "brief", "head"),
    [
        ("", "project_name: Mill\n", "Mill"),
        (_NUMBER.format(", optional: yes"), "project_name: Mill\n", "Mill"),
        (_NUMBER.format(""), "project_name: Mill\nproject_number: 7\n", "Mill, 7"),
        (_NUMBER.format(""), "project_name: Mill\n", "(Mill, open: number)"),
        (_NUMBER.format(""), "project_number: 7\n", "(open: project name)"),
    ],
)
def test_the_head_of_a_page_names_the_project_and_its_number(
    tmp_path: Path, more: str, brief: str, head: str
) -> None:
    library = load_library(
        write_folder(tmp_path / "lib", {**SMALL_LIBRARY, "questions/more.yaml": more or "# none\n"})
    )
    section = section_of(brief, library, tmp_path)
    assert section.plain_span(section.project) == head


def test_a_head_that_is_rightly_left_out_is_empty(small_folder: Path, tmp_path: Path) -> None:
    place = "- {id: place, ask: a, label: l, kind: text, optional: yes, why: w, source: s}\n"
    office = write_folder(tmp_path / "office", {"questions/a.yaml": place})
    section = section_of("metal: steel\n", load_library(small_folder, [office]), tmp_path)
    assert section.plain_span(section.place) == ""


def test_labels_run_past_z_as_word_processors_count() -> None:
    assert [label_for(1, i) for i in (0, 25, 26, 52)] == ["A.", "Z.", "AA.", "AAA."]
    assert [label_for(level, 1) for level in (2, 3, 4)] == ["2.", "b.", "2)"]


def test_a_table_too_wide_for_the_page_lies_on_its_side_in_pieces(
    library: Library, tmp_path: Path
) -> None:
    columns = library.questions["test_records"].columns
    assert len(columns) > MOST_COLUMNS
    row = {
        "text": "x",
        "thickness": "24 ga",
        "length": "16 in",
        "pressure": "90 psf",
        "number": "2",
    }
    cells = ", ".join(f"{column.id}: {row[column.kind]}" for column in columns)
    text = "test_records:\n" + f"- {{{cells}}}\n" * 5
    section = section_of(text, library, tmp_path)
    (tables,) = [p.tables for p in section.paragraphs() if p.tables]
    assert [table.head for table in tables] == [
        ("Record", "No. 1", "No. 2", "No. 3", "No. 4"),
        ("Record", "No. 5"),
    ]
    assert [line[0] for line in tables[0].rows] == [column.label for column in columns]
