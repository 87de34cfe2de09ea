"""Parts, articles, levels and places from lines that other offices number and set their own way."""

from __future__ import annotations

import pytest

from specgen.review.headings import section_number, section_of
from specgen.review.labels import split_label
from specgen.review.outline import Outline
from tests.review.packages import outline, paragraph, row, style, styled, table


def typed(*lines: str) -> Outline:
    """The outline of a DOCX whose paragraphs are typed, without styles or lists."""
    return outline("".join(map(paragraph, lines)))


def places(found: Outline) -> list[tuple[str, str]]:
    return [(block.kind, block.place) for block in found.blocks]


HEADS = ("SECTION 07 41 13", "PART 1 - GENERAL", "1.1 SCOPE")


# ------------------------------------------------------------------------------------- numbers


@pytest.mark.parametrize(
    ("line", "number", "rest"),
    [
        ("PART 1 - GENERAL", "PART 1", "GENERAL"), ("PART 2  PRODUCTS", "PART 2", "PRODUCTS"),
        ("Part 3: Execution", "PART 3", "Execution"), ("PART ONE – GENERAL", "PART ONE", "GENERAL"),
        ("PART II PRODUCTS", "PART II", "PRODUCTS"), ("PART-3 EXECUTION", "PART 3", "EXECUTION"),
        ("1.1\tSUMMARY", "1.1", "SUMMARY"), ("1.01 SUMMARY", "1.01", "SUMMARY"),
        ("2.03.  PANELS", "2.03", "PANELS"), ("1.1 - SUMMARY", "1.1", "SUMMARY"),
        ("ARTICLE 1.1 SUMMARY", "1.1", "SUMMARY"), ("2.1.3 Clips", "2.1.3", "Clips"),
        ("2.1.A Clips", "2.1.A", "Clips"), ("2.1.A.1. Clips", "2.1.A.1", "Clips"),
        ("A. Panels", "A.", "Panels"), ("A)\tPanels", "A)", "Panels"),
        ("AA. Panels", "AA.", "Panels"),
        ("1. Panels", "1.", "Panels"), ("12) Panels", "12)", "Panels"),
        ("(1) Panels", "(1)", "Panels"),
        ("a. panels", "a.", "panels"), ("a) panels", "a)", "panels"),
        ("(a) panels", "(a)", "panels"),
        ("iv. panels", "iv.", "panels"), ("(ii) panels", "(ii)", "panels"),
        (".1 Panels", ".1", "Panels"),
        ("A\tPanels", "A", "Panels"), ("3\tPanels", "3", "Panels"), ("• panels", "•", "panels"),
        ("-  panels", "-", "panels"), ("o\tpanels", "o", "panels"),
    ],
)  # fmt: skip
def test_a_typed_number_is_told_from_its_text(line: str, number: str, rest: str) -> None:
    label, text = split_label(line)
    assert label is not None
    assert (label.shown, text) == (number, rest)


@pytest.mark.parametrize(
    "line",
    [
        "0.032 inch aluminum", "1.5 in. thick", "1.5\" clips", "2.0 mm sheet", "24 ga steel",
        "1/2 in. screws", "Part 2 of this section covers what the roofer supplies and sets.",
        "in. of water", "ft. of ridge", "e.g. zinc", "Aluminum", "2027", "o panels", "10 percent",
        "1.5 times the load", "ASTM E1592", "",
    ],
)  # fmt: skip
def test_a_figure_or_a_word_is_no_number(line: str) -> None:
    assert split_label(line) == (None, line)


@pytest.mark.parametrize(
    ("line", "number", "title"),
    [
        ("SECTION 07 41 13.16", "07 41 13.16", ""),
        ("SECTION 07 41 13.16 - STANDING SEAM ROOF", "07 41 13.16", "STANDING SEAM ROOF"),
        ("Section 074113: Metal Roof Panels", "07 41 13", "Metal Roof Panels"),
        ("SECTION 07411", "07411", ""), ("SECTION 07411 – METAL ROOF", "07411", "METAL ROOF"),
        ("SECTION NO. 07-41-13 METAL ROOF", "07 41 13", "METAL ROOF"),
        ("SECTION 07411316 METAL ROOF", "07 41 13.16", "METAL ROOF"),
        ("SECTION 07 41 13.00 20 METAL ROOF", "07 41 13.00 20", "METAL ROOF"),
        ("SECTION 07 41 13 20", "", ""),
    ],
)  # fmt: skip
def test_the_line_that_heads_a_section_gives_its_number_and_title(
    line: str, number: str, title: str
) -> None:
    assert (section_of(line) or ("", "")) == (number, title)


def test_a_reference_to_another_section_heads_nothing() -> None:
    assert section_of("Section 07 62 00: flashings shall comply with it.") is None
    assert section_of("See Section 07 62 00") is None
    assert section_number("07.41.13.16") == "07 41 13.16"


# -------------------------------------------------------------------------------------- titles


def test_the_title_may_stand_on_the_next_line_or_on_two() -> None:
    found = typed("SECTION 074113", "STANDING SEAM", "PART 1 GENERAL")
    assert (found.number, found.title) == ("07 41 13", "STANDING SEAM")
    found = typed("SECTION 074113", "ROOF PANELS AND", "WALL PANELS", "PART 1 GENERAL")
    assert found.title == "ROOF PANELS AND WALL PANELS"


def test_a_number_without_the_word_section_is_taken_before_the_first_part() -> None:
    found = typed(
        "Marsh Lane Pavilion", "07 41 13 METAL ROOF PANELS", "PART 1 GENERAL", "1.1 SCOPE"
    )
    assert (found.number, found.title) == ("07 41 13", "METAL ROOF PANELS")
    assert found.blocks[0].kind == "page"


def test_the_part_number_and_its_title_may_stand_on_two_lines() -> None:
    found = typed("SECTION 07 41 13", "METAL ROOF", "PART 1", "GENERAL", "1.1 SCOPE", "A. Panels.")
    assert places(found)[2:] == [
        ("part", "PART 1"), ("part", ""), ("article", "1.1"), ("paragraph", "1.1.A"),
    ]  # fmt: skip


def test_what_follows_the_end_of_the_section_is_loose() -> None:
    found = typed(*HEADS, "A. Panels.", "END OF SECTION", "Left over from another file")
    assert [block.kind for block in found.blocks][-2:] == ["title", "loose"]
    assert any("Left over" in note.says for note in found.notes)


def test_a_writers_note_before_the_first_part_is_loose() -> None:
    found = typed("SECTION 07 41 13", "METAL ROOF", "This section must be edited for the job.",
                  "PART 1 GENERAL", "1.1 SCOPE", "A. Panels.")  # fmt: skip
    assert found.blocks[2].kind == "loose"


# --------------------------------------------------------------------------- parts and articles


def test_parts_and_articles_without_numbers_are_told_by_their_capitals() -> None:
    found = typed(
        "SECTION 07411", "METAL ROOF", "GENERAL", "SUBMITTALS", "A. Product data.", "WARRANTY",
        "A. Two years.", "PRODUCTS", "PANELS", "A. Steel.", "EXECUTION", "INSTALLATION",
        "A. Clips.",
    )  # fmt: skip
    assert [(b.kind, b.part, b.article) for b in found.blocks if b.kind != "title"] == [
        ("part", 1, ""), ("article", 1, "SUBMITTALS"), ("paragraph", 1, "SUBMITTALS"),
        ("article", 1, "WARRANTY"), ("paragraph", 1, "WARRANTY"), ("part", 2, ""),
        ("article", 2, "PANELS"), ("paragraph", 2, "PANELS"), ("part", 3, ""),
        ("article", 3, "INSTALLATION"), ("paragraph", 3, "INSTALLATION"),
    ]  # fmt: skip


def test_articles_are_told_by_heading_styles_of_any_name() -> None:
    styles = style("X1", '<w:outlineLvl w:val="0"/>', shown="Kopf") + style(
        "X2", '<w:outlineLvl w:val="1"/>', based="X1"
    )
    body = (
        paragraph("SECTION 07411") + styled("General", "X1") + styled("Submittals", "X2")
        + paragraph("Product data.") + styled("Products", "X1") + styled("Panels", "X2")
        + styled("Steel sheet", "X2") + paragraph("24 ga.")
    )  # fmt: skip
    found = outline(body, styles=styles)
    assert [block.article for block in found.blocks if block.kind == "article"] == [
        "Submittals", "Panels", "Steel sheet",
    ]  # fmt: skip
    assert [block.part for block in found.blocks if block.kind == "paragraph"] == [1, 2]


def test_articles_are_told_by_bold_type() -> None:
    def bold(text: str) -> str:
        return f"<w:p><w:r><w:rPr><w:b/></w:rPr><w:t>{text}</w:t></w:r></w:p>"

    body = (
        paragraph("SECTION 07411") + paragraph("PART 1 GENERAL") + bold("Submittals")
        + paragraph("A. Product data.") + bold("Warranty") + paragraph("A. Two years.")
    )  # fmt: skip
    assert [block.article for block in outline(body).said()] == ["Submittals", "Warranty"]


def test_a_numbered_document_takes_no_capitals_for_an_article() -> None:
    found = typed(*HEADS, "A. One.", "1.2 TESTS", "STATIC WATER", "A. Two.")
    assert [block.text for block in found.blocks if block.kind == "article"] == ["SCOPE", "TESTS"]


def test_an_article_in_the_style_of_numbered_ones_needs_no_number() -> None:
    styles = style("Art")
    body = (
        paragraph("PART 1 GENERAL") + styled("1.1 Scope", "Art") + styled("1.2 Tests", "Art")
        + styled("Warranty", "Art") + paragraph("A. Two years.")
    )  # fmt: skip
    assert outline(body, styles=styles).blocks[-1].article == "Warranty"


def test_a_long_sentence_with_an_articles_number_is_a_paragraph() -> None:
    found = typed(
        *HEADS, "1.2 The roofer shall provide all panels, clips and flashings.", "1.3 TESTS"
    )
    assert places(found)[3:] == [("paragraph", "1.2"), ("article", "1.3")]


def test_figures_all_the_way_down_are_places_of_their_own() -> None:
    found = typed(*HEADS, "1.1.1 Panels.", "1.1.1.1 Steel.", "1.1.2 Clips.")
    assert [(b.place, b.level) for b in found.blocks[3:]] == [
        ("1.1.1", 1), ("1.1.1.1", 2), ("1.1.2", 1),
    ]  # fmt: skip


def test_letters_below_a_path_of_figures_count_below_it() -> None:
    found = typed(*HEADS, "1.1.1 Panels:", "A. Steel.", "1. Coated.", "1.1.2 Clips.", "Unpainted.")
    assert [(b.place, b.level) for b in found.blocks[3:]] == [
        ("1.1.1", 1), ("1.1.1.A", 2), ("1.1.1.A.1", 3), ("1.1.2", 1), ("", 1),
    ]  # fmt: skip


def test_typed_entries_of_a_table_of_contents_head_nothing() -> None:
    found = typed("PART 1 - GENERAL ........ 1", "1.1 SCOPE ........ 1", *HEADS, "A. Panels.")
    assert [block.kind for block in found.blocks][:2] == ["page", "page"]
    assert sum(block.kind == "part" for block in found.blocks) == 1


def test_a_second_section_in_one_file_is_told() -> None:
    found = typed(*HEADS, "A. One.", "END OF SECTION", "SECTION 07 62 00", "PART 1 GENERAL")
    assert found.number == "07 41 13"
    assert any("Another section starts here" in note.says for note in found.notes)
    assert [block.kind for block in found.blocks][-2:] == ["title", "part"]


def test_a_title_above_the_number_is_the_sections() -> None:
    found = typed("METAL ROOF PANELS", "SECTION 07 41 13", "PART 1 GENERAL")
    assert found.title == "METAL ROOF PANELS"


def test_a_heading_and_its_text_on_one_line_are_an_article_and_a_paragraph() -> None:
    run_in = "1.01 SUMMARY: This section includes roof panels."
    found = typed("PART 1 GENERAL", run_in, "1.02 TESTS", "A. Air.")
    assert [(b.kind, b.place, b.article, b.text) for b in found.blocks[1:]] == [
        ("article", "1.01", "SUMMARY", "SUMMARY"),
        ("paragraph", "", "SUMMARY", "This section includes roof panels."),
        ("article", "1.02", "TESTS", "TESTS"), ("paragraph", "1.02.A", "TESTS", "Air."),
    ]  # fmt: skip


def test_articles_may_carry_letters() -> None:
    found = typed("PART 1 GENERAL", "A. SUMMARY", "1. Panels.", "B. TESTS", "1. Air:", "a. 20 psf.")
    assert [(block.kind, block.place) for block in found.blocks[1:]] == [
        ("article", "A"), ("paragraph", "A.1"), ("article", "B"), ("paragraph", "B.1"),
        ("paragraph", "B.1.a"),
    ]  # fmt: skip


def test_a_number_in_a_table_above_the_first_part_is_the_sections() -> None:
    lines = ("METAL ROOF PANELS", "PART 1 GENERAL", "1.1 SCOPE", "A. Panels.")
    head = table(row("Quarry Street School", "Section 07 41 13"), row("Issue 2", "May 2027"))
    body = head + "".join(map(paragraph, lines))
    found = outline(body)
    assert (found.number, found.title) == ("07 41 13", "METAL ROOF PANELS")


def test_an_article_of_the_next_part_opens_that_part() -> None:
    found = typed(*HEADS, "A. One.", "2.1 PANELS", "A. Steel.")
    assert [block.part for block in found.said()] == [1, 2]


# -------------------------------------------------------------------------------------- levels


@pytest.mark.parametrize(
    "labels",
    [
        # each is a list of (label, place below the article)
        [("A.", "A"), ("1.", "A.1"), ("a.", "A.1.a"), ("1)", "A.1.a.1"), ("a)", "A.1.a.1.a"),
         ("2.", "A.2"), ("B.", "B"), ("1.", "B.1")],
        [("1.", "1"), ("a.", "1.a"), ("b.", "1.b"), ("2.", "2"), ("a.", "2.a")],
        [("A.", "A"), ("1.", "A.1"), ("a.", "A.1.a"), ("1.", "A.1.a.1"), ("2.", "A.1.a.2"),
         ("b.", "A.1.b"), ("2.", "A.2")],
        [("A.", "A"), ("(1)", "A.1"), ("(a)", "A.1.a"), ("(i)", "A.1.a.i"), ("(ii)", "A.1.a.ii"),
         ("(b)", "A.1.b"), ("(2)", "A.2"), ("B.", "B")],
        [("a.", "a"), ("b.", "b"), ("c.", "c"), ("d.", "d"), ("e.", "e"), ("f.", "f"), ("g.", "g"),
         ("h.", "h"), ("i.", "i"), ("j.", "j")],
        [("A.", "A"), ("1.", "A.1"), ("3.", "A.3"), ("C.", "C")],
        [("I.", "I"), ("A.", "I.A"), ("B.", "I.B"), ("II.", "II"), ("A.", "II.A")],
    ],
)  # fmt: skip
def test_typed_labels_are_followed_as_a_reader_follows_them(labels: list[tuple[str, str]]) -> None:
    found = typed(*HEADS, *(f"{label} Text of it." for label, _ in labels))
    assert [block.place for block in found.blocks[3:]] == [f"1.1.{place}" for _, place in labels]


def test_indents_part_labels_of_one_kind() -> None:
    def at(text: str, left: int) -> str:
        return paragraph(text, f'<w:ind w:left="{left}"/>')

    body = "".join(map(paragraph, HEADS)) + "".join(
        at(text, left)
        for text, left in ((".1 One", 0), (".1 Two", 400), (".2 Three", 400), (".2 Four", 0))
    )
    assert [block.place for block in outline(body).blocks[3:]] == [
        "1.1.1", "1.1.1.1", "1.1.1.2", "1.1.2",
    ]  # fmt: skip


def test_a_bullet_has_a_level_and_no_place() -> None:
    found = typed(*HEADS, "A. Panels:", "• steel", "• zinc", "B. Clips.")
    assert [(b.number, b.level, b.place) for b in found.blocks[3:]] == [
        ("A.", 1, "1.1.A"), ("•", 2, ""), ("•", 2, ""), ("B.", 1, "1.1.B"),
    ]  # fmt: skip


def test_a_paragraph_without_a_number_stands_at_the_level_of_the_one_it_goes_on() -> None:
    found = typed(*HEADS, "A. Panels:", "1. Steel sheet.", "It is coated.")
    assert (found.blocks[-1].number, found.blocks[-1].level) == ("", 2)


def test_lines_broken_by_hand_are_paragraphs_where_each_has_a_number() -> None:
    broken = (
        "<w:p><w:r><w:t>A. Panels:</w:t><w:br/><w:t>1. Steel of</w:t><w:br/><w:t>24 ga.</w:t>"
        "<w:br/><w:t>2. Zinc.</w:t></w:r></w:p>"
    )
    found = outline("".join(map(paragraph, HEADS)) + broken)
    assert [(block.place, block.text) for block in found.blocks[3:]] == [
        ("1.1.A", "Panels:"), ("1.1.A.1", "Steel of 24 ga."), ("1.1.A.2", "Zinc."),
    ]  # fmt: skip


def test_a_section_of_our_own_reads_as_its_document_does(tmp_path: object) -> None:
    from pathlib import Path

    from specgen.assemble import assemble
    from specgen.brief import read_brief
    from specgen.loading import load_library
    from specgen.review.reading import read_document
    from specgen.review.section_outline import outline_of_section
    from specgen.scope import Scope
    from specgen.writers.docx import write_docx
    from tests.support import EXAMPLES

    library = load_library()
    brief = read_brief(EXAMPLES / "snow-country-lodge.yaml", library)
    section = assemble(Scope(library, brief.answers))
    path = Path(str(tmp_path)) / "a.docx"
    path.write_bytes(write_docx(section, brief))
    ours, read = outline_of_section(section), read_document(path)
    assert (read.number, read.title) == (ours.number, ours.title)

    def key(found: Outline) -> list[tuple[object, ...]]:
        return [
            (b.kind, b.number, b.place, b.level, b.part, b.article, b.text.replace("\u2011", "-"))
            for b in found.blocks if b.kind != "page"
        ]  # fmt: skip

    assert key(read) == key(ours)
