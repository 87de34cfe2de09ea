"""DOCX from anywhere: what a reader sees is what the outline holds, and nothing is lost."""

from __future__ import annotations

import re

import pytest

from specgen.review.outline import Outline
from tests.review.packages import (
    abstract,
    level,
    listed,
    num,
    outline,
    paragraph,
    row,
    style,
    styled,
    table,
)

HEADED = paragraph("SECTION 07 41 13") + paragraph("PART 1 - GENERAL") + paragraph("1.1\tSCOPE")


def texts(found: Outline) -> list[str]:
    return [block.text for block in found.blocks]


def last(body: str) -> str:
    """The text of the last block below a section's first headings."""
    return outline(HEADED + body).blocks[-1].text


def says(found: Outline) -> str:
    return " ".join(note.says for note in found.notes)


def run(text: str, properties: str = "") -> str:
    return f"<w:r><w:rPr>{properties}</w:rPr><w:t xml:space='preserve'>{text}</w:t></w:r>"


def runs(*pieces: str, properties: str = "") -> str:
    return f"<w:p><w:pPr>{properties}</w:pPr>{''.join(pieces)}</w:p>"


# ------------------------------------------------------------------------------------- changes


def test_insertions_are_read_and_deletions_are_not() -> None:
    changed = runs(
        run("A.\tPanels: "),
        f'<w:del w:id="1"><w:r><w:delText>24 ga</w:delText></w:r></w:del>'
        f'<w:ins w:id="2">{run("22 ga")}</w:ins>',
        run(" steel."),
    )
    found = outline(HEADED + changed)
    assert found.blocks[-1].text == "A.\tPanels: 22 ga steel.".replace("A.\t", "")
    assert "tracked changes (1 insertion, 1 deletion)" in says(found)


def test_words_that_were_moved_stand_where_they_went() -> None:
    body = runs(run("A. one "), f"<w:moveFrom>{run('two')}</w:moveFrom>") + runs(
        run("B. "), f"<w:moveTo>{run('two')}</w:moveTo>"
    )
    assert texts(outline(HEADED + body))[-2:] == ["one", "two"]


def test_a_paragraph_whose_mark_is_deleted_runs_on_into_the_next() -> None:
    mark = "<w:rPr><w:del w:id='1'/></w:rPr>"
    body = runs(run("A. Panels of "), properties=mark) + runs(run("steel sheet."))
    found = outline(HEADED + body)
    assert found.blocks[-1].text == "Panels of steel sheet."
    assert found.blocks[-1].origin == ("word/document.xml", (3, 4))


def test_a_deleted_row_is_left_out() -> None:
    gone = row("x", "y").replace("<w:tr>", "<w:tr><w:trPr><w:del w:id='1'/></w:trPr>")
    body = table(row("Zone", "Spacing"), gone, row("1", "24 in"))
    assert texts(outline(HEADED + body))[-2:] == ["Zone\tSpacing", "1\t24 in"]


# -------------------------------------------------------------------------------- what is hidden


def test_hidden_text_is_kept_and_flagged() -> None:
    found = outline(HEADED + runs(run("A. Secret.", "<w:vanish/>")))
    assert found.blocks[-1].hidden
    assert "hidden text" in says(found)


def test_words_hidden_within_a_paragraph_are_told() -> None:
    found = outline(
        HEADED + runs(run("A. Panels "), run("secretly", "<w:vanish/>"), run("of zinc"))
    )
    assert not found.blocks[-1].hidden
    assert 'hidden: "secretly"' in says(found)


def test_a_style_may_hide_its_text() -> None:
    found = outline(
        HEADED + styled("Note to whoever writes this.", "Note"),
        styles=style("Note", run="<w:vanish/>"),
    )
    assert found.blocks[-1].hidden


def test_a_toggle_that_is_off_hides_nothing() -> None:
    assert not outline(HEADED + runs(run("A. Seen.", '<w:vanish w:val="0"/>'))).blocks[-1].hidden


def test_a_comment_is_told_at_its_place_and_is_no_text() -> None:
    commented = runs(
        '<w:commentRangeStart w:id="0"/>', run("A. Panels."), '<w:commentRangeEnd w:id="0"/>',
        '<w:r><w:commentReference w:id="0"/></w:r>',
    )  # fmt: skip
    comment = f'<w:comment w:id="0" w:author="x">{paragraph("Ask the owner.")}</w:comment>'
    found = outline(HEADED + commented, parts={"comments.xml": ("comments", comment)})
    assert [note.block for note in found.notes if "Ask the owner." in note.says] == [3]
    assert "Ask" not in " ".join(texts(found))


# ----------------------------------------------------------------------------- fields and signs


def _field(code: str, result: str | None) -> str:
    shown = "" if result is None else f'<w:r><w:fldChar w:fldCharType="separate"/></w:r>{result}'
    return (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f"<w:r><w:instrText>{code}</w:instrText></w:r>{shown}"
        '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    )


@pytest.mark.parametrize(
    ("piece", "shown"),
    [
        (_field(" REF a \\r ", run("Article 2.1")), "See Article 2.1."),
        (_field(" IF 1 = 1 ", _field(" REF a ", run("2.1"))), "See 2.1."),
        (_field(" MACROBUTTON NoMacro (name the metal)", None), "See (name the metal)."),
        (f'<w:fldSimple w:instr="REF a">{run("2.2")}</w:fldSimple>', "See 2.2."),
        ('<w:fldSimple w:instr="MACROBUTTON Any the metal"/>', "See the metal."),
        (f'<w:hyperlink r:id="rId9">{run("there")}</w:hyperlink>', "See there."),
        (f"<w:smartTag>{run('here')}</w:smartTag>", "See here."),
        (f"<w:sdt><w:sdtPr/><w:sdtContent>{run('form')}</w:sdtContent></w:sdt>", "See form."),
        ("<w:r><w:t>a</w:t><w:noBreakHyphen/><w:t>b</w:t></w:r>", "See a-b."),
        ("<w:r><w:t>galva</w:t><w:softHyphen/><w:t>nized</w:t></w:r>", "See galvanized."),
        (run("gal\xadva\u200bnized"), "See galvanized."),
        (run("24\xa0ga\u202fx\u2009y"), "See 24 ga x y."),
        ("<w:r><w:t>a</w:t><w:br/><w:t>b</w:t><w:cr/><w:t>c</w:t></w:r>", "See a b c."),
        ('<w:r><w:sym w:font="Symbol" w:char="F0B0"/></w:r>', "See \xb0."),
        ("<m:oMath><m:r><m:t>x</m:t></m:r></m:oMath>", "See x."),
        (run("\u2018a\u2019 \u201cb\u201d 4\u2033"), "See 'a' \"b\" 4\"."),
        (run("4\u20135 \u2014 \xbd"), "See 4\u20135 \u2014 \xbd."),
        ("<w:ruby><w:rt><w:r><w:t>up</w:t></w:r></w:rt><w:rubyBase><w:r><w:t>low</w:t></w:r>"
         "</w:rubyBase></w:ruby>", "See low."),
    ],
)  # fmt: skip
def test_a_reader_sees_results_and_signs_as_they_are_shown(piece: str, shown: str) -> None:
    assert last(runs(run("A. See "), piece, run("."))) == shown


def test_old_form_fields_show_what_was_chosen() -> None:
    choice = (
        '<w:r><w:fldChar w:fldCharType="begin"><w:ffData><w:ddList><w:result w:val="1"/>'
        '<w:listEntry w:val="copper"/><w:listEntry w:val="zinc"/></w:ddList></w:ffData>'
        "</w:fldChar></w:r><w:r><w:instrText> FORMDROPDOWN </w:instrText></w:r>"
        '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    )
    assert last(runs(run("A. Metal: "), choice)) == "Metal: zinc"


def test_a_field_left_open_swallows_no_later_paragraph() -> None:
    opened = (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r><w:r><w:instrText> REF</w:instrText></w:r>'
    )
    body = runs(run("A. One."), opened) + runs(run("B. Two."))
    assert texts(outline(HEADED + body))[-2:] == ["One.", "Two."]


def test_a_field_that_counts_by_itself_is_told() -> None:
    found = outline(HEADED + runs(_field(" AUTONUM ", None), run("Panels.")))
    assert "counts here is not read" in says(found)


def test_a_form_field_that_nobody_filled_in_is_told() -> None:
    empty = (
        "<w:sdt><w:sdtPr><w:showingPlcHdr/></w:sdtPr>"
        f"<w:sdtContent>{run('Tap to enter text')}</w:sdtContent></w:sdt>"
    )
    found = outline(HEADED + runs(run("A. "), empty))
    assert found.blocks[-1].text == "Tap to enter text"
    assert "has not been filled in" in says(found)


# -------------------------------------------------------------------------- boxes, notes, heads


def _box(inner: str) -> str:
    return (
        '<w:r><mc:AlternateContent><mc:Choice Requires="wps"><w:drawing><wps:wsp><wps:txbx>'
        f"<w:txbxContent>{inner}</w:txbxContent></wps:txbx></wps:wsp></w:drawing></mc:Choice>"
        f"<mc:Fallback><w:pict><v:shape><v:textbox><w:txbxContent>{inner}</w:txbxContent>"
        "</v:textbox></v:shape></w:pict></mc:Fallback></mc:AlternateContent></w:r>"
    )


def test_a_text_box_is_read_once_and_keeps_out_of_the_numbering() -> None:
    box = _box(paragraph("Aside from the office."))
    found = outline(HEADED + runs(run("A. One."), box) + paragraph("B. Two."))
    assert texts(found)[-3:] == ["One.", "Aside from the office.", "Two."]
    assert [block.kind for block in found.blocks[-3:]] == ["paragraph", "loose", "paragraph"]


def test_a_section_that_stands_in_text_boxes_is_read_from_them() -> None:
    inner = HEADED + paragraph("A. Panels of steel sheet.") + paragraph("B. Clips of the same.")
    found = outline(runs(_box(inner)))
    assert [block.place for block in found.blocks][-2:] == ["1.1.A", "1.1.B"]


def test_a_picture_of_old_kind_gives_its_text_box_too() -> None:
    pict = (
        "<w:r><w:pict><v:shape><v:textbox><w:txbxContent>"
        f"{paragraph('Boxed.')}</w:txbxContent></v:textbox></v:shape></w:pict></w:r>"
    )
    assert last(runs(run("A. One."), pict)) == "Boxed."


def test_a_footnote_is_read_after_the_paragraph_that_calls_it() -> None:
    note = f'<w:footnote w:id="2">{paragraph("Not for copper.")}</w:footnote>'
    body = runs(run("A. One."), '<w:r><w:footnoteReference w:id="2"/></w:r>') + paragraph("B. Two.")
    found = outline(HEADED + body, parts={"footnotes.xml": ("footnotes", note)})
    assert texts(found)[-3:] == ["One.", "Not for copper.", "Two."]
    assert found.blocks[-2].origin == ("word/footnotes.xml", (0,))


def test_running_heads_are_read_once_and_as_such() -> None:
    parts = {
        "header1.xml": ("header", paragraph("Quarry Street School\t07 41 13")),
        "header2.xml": ("header", paragraph("Quarry Street School\t07 41 13")),
        "footer1.xml": ("footer", paragraph("07 41 13 - 1")),
    }
    heads = [block.text for block in outline(HEADED, parts=parts).blocks if block.kind == "page"]
    assert heads == ["Quarry Street School 07 41 13", "07 41 13 - 1"]


def test_a_number_that_stands_in_the_heads_alone_is_the_sections() -> None:
    parts = {"header1.xml": ("header", paragraph("Metal Roof Panels 07 41 13 - 2"))}
    body = paragraph("PART 1 GENERAL") + paragraph("1.1 SCOPE") + paragraph("A. Panels.")
    assert outline(body, parts=parts).number == "07 41 13"


def test_a_table_of_contents_is_no_text_of_the_section() -> None:
    body = styled("1.1 SCOPE\t3", "TOC1") + HEADED + paragraph("A. Panels.")
    found = outline(body, styles=style("TOC1", shown="toc 1"))
    assert found.blocks[0].kind == "page"
    assert sum(block.kind == "article" for block in found.blocks) == 1


@pytest.mark.parametrize(
    ("body", "ties", "told"),
    [
        ('<w:altChunk r:id="rId77"/>', "", "takes in another file"),
        ("<w:p><w:r><w:drawing><a:blip xmlns:a='urn:a'/></w:drawing></w:r></w:p>", "",
         "Pictures are not read"),
        ("<w:p><w:r><w:pict><v:textpath string='DRAFT'/></w:pict></w:r></w:p>", "",
         'Word art reads "DRAFT"'),
        ("", '<Relationship Id="rId77" Type="x/attachedTemplate" TargetMode="External" '
         'Target="http://127.0.0.1:9/a.dotm"/>', "none of them is fetched"),
        ("", '<Relationship Id="rId77" Type="x/diagramData" Target="d.xml"/>', "a diagram"),
    ],
)  # fmt: skip
def test_what_is_not_read_is_told(body: str, ties: str, told: str) -> None:
    assert told in says(outline(HEADED + body, ties=ties))


# --------------------------------------------------------------------------------------- tables


def test_each_row_of_a_table_is_a_block_at_the_paragraph_above() -> None:
    body = paragraph("A.\tSchedule:") + table(row("Zone", "Spacing"), row("1", "24 in"))
    rows = [block for block in outline(HEADED + body).blocks if block.kind == "row"]
    assert [(one.text, one.place) for one in rows] == [
        ("Zone\tSpacing", "1.1.A"), ("1\t24 in", "1.1.A"),
    ]  # fmt: skip
    assert rows[1].origin == ("word/document.xml", (6, 7))


def test_empty_cells_keep_the_columns_in_line() -> None:
    body = table(row("Zone", "Where", "Spacing"), row("1", "", "24 in"))
    assert last(body) == "1\t\t24 in"


def test_several_paragraphs_of_a_cell_are_one_cell() -> None:
    body = table(row("Zone", "Where"), row("1", paragraph("eaves") + paragraph("rakes")))
    assert last(body) == "1\teaves rakes"


def test_a_table_within_a_table_is_read_after_its_row() -> None:
    inner = table(row("a", "b")) + paragraph("")
    found = outline(HEADED + table(row("Zone", "x"), row("1", inner)))
    assert texts(found)[-2:] == ["1", "a\tb"]


def test_a_number_in_a_cell_of_its_own_numbers_the_text_beside_it() -> None:
    body = table(
        row("SECTION 07 41 13", ""), row("PART 1", "GENERAL"), row("1.1", "SCOPE"),
        row("A.", "Panels of steel sheet."), row("1.", "Clips of the same."),
        row("B.", paragraph("Sealant.") + paragraph("Not exposed.")),
        row("1.2", "TESTS"), row("A.", "Air leakage."),
    )  # fmt: skip
    found = outline(body)
    assert [(one.kind, one.place, one.text) for one in found.blocks[1:]] == [
        ("part", "PART 1", "GENERAL"), ("article", "1.1", "SCOPE"),
        ("paragraph", "1.1.A", "Panels of steel sheet."),
        ("paragraph", "1.1.A.1", "Clips of the same."), ("paragraph", "1.1.B", "Sealant."),
        ("paragraph", "", "Not exposed."), ("article", "1.2", "TESTS"),
        ("paragraph", "1.2.A", "Air leakage."),
    ]  # fmt: skip


def test_a_frame_of_one_cell_around_the_text_is_looked_through() -> None:
    body = table(row(HEADED + paragraph("A. Panels.") + paragraph("B. Clips.")))
    assert [block.place for block in outline(body).blocks][-2:] == ["1.1.A", "1.1.B"]


def test_automatic_numbers_in_cells_are_part_of_the_row() -> None:
    numbering = abstract(1, level(0, "decimal", "%1.")) + num(1, 1)
    body = table(row("No.", "Item"), row(listed("", 1), "clip"), row(listed("", 1), "screw"))
    found = outline(HEADED + body, numbering=numbering)
    assert texts(found)[-2:] == ["1.\tclip", "2.\tscrew"]


# ---------------------------------------------------------------------------------- wholeness


def test_no_word_of_the_body_is_lost() -> None:
    words = [f"word{number}" for number in range(40)]
    pieces = iter(words)
    body = "".join(
        (
            paragraph(next(pieces)),
            styled(next(pieces), "Unknown"),
            table(row(next(pieces), next(pieces)), row(next(pieces), table(row(next(pieces))))),
            runs(_box(paragraph(next(pieces)))),
            f"<w:sdt><w:sdtContent>{paragraph(next(pieces))}</w:sdtContent></w:sdt>",
            f"<w:customXml>{paragraph(next(pieces))}</w:customXml>",
            f"<w:ins>{paragraph(next(pieces))}</w:ins>",
            runs(f"<w:dir>{run(next(pieces))}</w:dir>", f"<w:bdo>{run(next(pieces))}</w:bdo>"),
            f"<mc:AlternateContent><mc:Choice>{paragraph(next(pieces))}</mc:Choice>"
            "</mc:AlternateContent>",
            paragraph("END OF SECTION"),
            paragraph(next(pieces)),
            *(paragraph(f"{label} {next(pieces)}") for label in ("A.", "1)", "(a)", "iv.", ".3")),
        )
    )
    found = " ".join(texts(outline(HEADED + body)))
    used = words[: len(words) - len(list(pieces))]
    assert re.findall(r"word\d+", found) == used


def test_the_strict_variant_of_the_format_is_read() -> None:
    from specgen.review.docx_reading import read_docx
    from tests.review.packages import W, package
    from tests.review.test_hostile import repacked

    content = repacked(
        package(paragraph("PART 1 GENERAL")),
        lambda name, part: part.replace(
            W.encode(), b"http://purl.oclc.org/ooxml/wordprocessingml/main"
        ),
    )
    assert [line.text for line in read_docx(content).lines] == ["PART 1 GENERAL"]
