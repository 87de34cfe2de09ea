"""The layouts: each lays one source out as a word processor's file, in a manner of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

from docx.document import Document as Docx
from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls
from docx.shared import Inches, Pt
from docx.table import Table, _Row

from tests.reviewed_documents.docx_parts import (
    Style,
    add_list,
    add_num,
    add_style,
    head_and_foot,
    new_document,
    num_pr,
    write_pieces,
)
from tests.reviewed_documents.source import Line, Source

# Of a table's reference, heading and requirement, in inches.
WIDTHS = (0.7, 1.5, 4.6)


def typed(source: Source) -> Docx:
    """Every number typed, a tab after it; headings in styles of the office's own."""
    document = new_document("Arial", 10)
    for style in (
        Style("Section Name", 13, True, after=2, center=True),
        Style("Part Line", 11, True, before=12, after=6),
        Style("Article Line", 10, True, indent=0.6, hang=0.6, before=8),
        Style("Line 1", indent=0.6, hang=0.4),
        Style("Line 2", indent=1.0, hang=0.4, after=2),
        Style("Line 3", indent=1.4, hang=0.4, after=2),
    ):
        add_style(document, style)
    head_and_foot(document, source, f"{source.number} {source.title}")
    document.add_paragraph(f"SECTION {source.number}", "Section Name")
    document.add_paragraph(source.title, "Section Name")
    for line in source.lines:
        if line.kind == "part":
            document.add_paragraph(f"{line.number} - {line.text}", "Part Line")
        elif line.kind == "article":
            document.add_paragraph(f"{line.number}\t{line.text}", "Article Line")
        else:
            document.add_paragraph(f"{line.number}\t{line.text}", f"Line {line.level}")
    document.add_paragraph("END OF SECTION", "Section Name")
    return document


def automatic(source: Source) -> Docx:
    """One list of many levels, each linked to a style that names it."""
    document = new_document("Calibri", 11)
    levels = [
        ("decimal", "PART %1 -", "Division of Section", 0.9, 0.9),
        ("decimal", "%1.%2", "Subject", 0.6, 0.6),
        ("upperLetter", "%3.", "Requirement", 0.9, 0.3),
        ("decimal", "%4.", "Item", 1.3, 0.3),
    ]
    add_list(document, 40, levels)
    looks = ((12, True, 14.0), (11, True, 8.0), (11, False, 2.0), (11, False, 0.0))
    for at, (_, _, name, indent, hang) in enumerate(levels):
        size, bold, before = looks[at]
        add_style(
            document,
            Style(name, size, bold, indent, hang, before, 4, num=(40, at), color="1F3864" * bold),
        )
    add_style(document, Style("Cover Line", 16, True, after=0, color="1F3864"))
    head_and_foot(document, source, f"Section {source.number}")
    document.add_paragraph(f"SECTION {source.number} - {source.title}", "Cover Line")
    names = {"part": "Division of Section", "article": "Subject"}
    table: Table | None = None
    for line in source.lines:
        if line.kind == "row":
            table = _row(document, table, line.cells, "Light Grid Accent 1", 0.9)
            continue
        table = None
        name = names.get(line.kind) or ("Requirement" if line.level == 1 else "Item")
        document.add_paragraph(line.text, name)
    document.add_paragraph("END OF SECTION")
    return document


def pointed(source: Source) -> Docx:
    """Metric practice: points and figures, numbered paragraph by paragraph in one plain style."""
    document = new_document("Times New Roman", 11)
    add_list(
        document,
        47,
        [
            ("decimal", "Part %1", "", 0.8, 0.8),
            ("decimal", "%1.%2", "", 0.8, 0.8),
            ("decimal", ".%3", "", 1.3, 0.5),
            ("decimal", ".%4", "", 1.8, 0.5),
        ],
    )
    head_and_foot(document, source, f"{source.number} {source.title.title()}")
    title = document.add_paragraph()
    title.alignment = WD_ALIGN_PARAGRAPH.CENTER
    title.add_run(f"Section {source.number}\n{source.title}").bold = True
    for line in source.lines:
        level = {"part": 0, "article": 1}.get(line.kind, line.level + 1)
        paragraph = document.add_paragraph()
        paragraph.add_run(line.text).bold = level < 2
        paragraph.paragraph_format.space_after = Pt(4)
        paragraph.paragraph_format.space_before = Pt(10 if level < 2 else 0)
        paragraph._p.get_or_add_pPr().append(num_pr(47, level))
    last = document.add_paragraph("END OF SECTION")
    last.alignment = WD_ALIGN_PARAGRAPH.CENTER
    return document


def typed_plain(source: Source) -> Docx:
    """A typist's page: one font, one style, spaces and tabs before and after the numbers."""
    document = new_document("Courier New", 10, 0.9)
    head_and_foot(document, source, source.number)
    for text in (f"SECTION {source.number}", source.title):
        document.add_paragraph(text).alignment = WD_ALIGN_PARAGRAPH.CENTER
    for line in source.lines:
        if line.kind == "part":
            text = f"{line.number} {line.text}"
        elif line.kind == "article":
            text = f"{line.number}  {line.text}"
        else:
            text = f"{line.number}\t{line.text}"
        paragraph = document.add_paragraph(text)
        shape = paragraph.paragraph_format
        shape.space_after = Pt(6)
        if line.level:
            shape.left_indent = Inches(0.45 * (line.level + 1))
            shape.first_line_indent = Inches(-0.45)
    document.add_paragraph("END OF SECTION").alignment = WD_ALIGN_PARAGRAPH.CENTER
    return document


def tables(source: Source) -> Docx:
    """A table an article: reference, heading, requirement."""
    document = new_document("Verdana", 9, 0.8)
    add_style(document, Style("Work Package Title", 15, True, after=10, color="335C67"))
    add_style(document, Style("Work Package Part", 12, True, before=12, after=6, color="335C67"))
    head_and_foot(document, source, f"{source.number} - revision A")
    document.add_paragraph(f"Section {source.number} {source.title}", "Work Package Title")
    table: Table | None = None
    for line in source.lines:
        if line.kind == "part":
            document.add_paragraph(f"{line.number} - {line.text}", "Work Package Part")
        elif line.kind == "article":
            table = _headed(document, line)
        else:
            assert table is not None
            _fill(table, (line.number, *line.cells))
    document.add_paragraph("END OF SECTION")
    return document


def terse(source: Source) -> Docx:
    """Article numbers typed in headings, letters automatic and restarted in every article."""
    document = new_document("Liberation Sans", 9.5, 1.1)
    add_list(
        document, 12, [("upperLetter", "%1.", "", 0.35, 0.35), ("decimal", "%2.", "", 0.7, 0.3)]
    )
    add_style(document, Style("Sheet Part", 11, True, before=14, after=4))
    add_style(document, Style("Sheet Heading", 9.5, True, before=8, after=2))
    head_and_foot(document, source, f"{source.number}")
    document.add_paragraph(f"SECTION {source.number}: {source.title}", "Sheet Part")
    num = 100
    for line in source.lines:
        if line.kind == "part":
            document.add_paragraph(f"{line.number}: {line.text}", "Sheet Part")
        elif line.kind == "article":
            num += 1
            add_num(document, num, 12, restart=True)
            document.add_paragraph(f"{line.number} {line.text}", "Sheet Heading")
        else:
            paragraph = document.add_paragraph(line.text)
            paragraph.paragraph_format.space_after = Pt(0)
            paragraph._p.get_or_add_pPr().append(num_pr(num, line.level - 1))
    document.add_paragraph("END OF SECTION", "Sheet Heading")
    return document


def typed_office(source: Source) -> Docx:
    """Typed numbers and tabs under serif headings, the title in a rule of its own."""
    document = new_document("Georgia", 10, 1.15)
    for style in (
        Style("Library Title", 14, True, after=14),
        Style("Library Part", 11.5, True, before=16, after=6),
        Style("Library Article", 10, True, indent=0.55, hang=0.55, before=10),
        Style("Library Text", indent=0.55, hang=0.35, after=5),
        Style("Library Subtext", indent=0.9, hang=0.35, after=2),
    ):
        add_style(document, style)
    head_and_foot(document, source, f"{source.number}")
    document.add_paragraph(f"SECTION {source.number}\t{source.title}", "Library Title")
    for line in source.lines:
        if line.kind == "part":
            document.add_paragraph(f"{line.number}\u2003{line.text}", "Library Part")
        elif line.kind == "article":
            document.add_paragraph(f"{line.number}\t{line.text}", "Library Article")
        else:
            name = "Library Text" if line.level == 1 else "Library Subtext"
            document.add_paragraph(f"{line.number}\t{line.text}", name)
    document.add_paragraph("END OF SECTION", "Library Part")
    return document


def guide(source: Source) -> Docx:
    """Automatic numbers through styles based on one another; a revision under way."""
    document = new_document("Arial", 10)
    levels = [
        ("decimal", "PART %1 - ", "Chapter", 0.0, 0.0),
        ("decimal", "%1.%2", "Heading of Article", 0.6, 0.6),
        ("upperLetter", "%3.", "Provision", 0.6, 0.4),
        ("decimal", "%4.", "Provision Below", 1.0, 0.4),
    ]
    add_list(document, 21, levels)
    add_style(document, Style("Chapter", 10, True, before=14, num=(21, 0)))
    add_style(document, Style("Heading of Article", 10, True, 0.6, 0.6, 8, 4, num=(21, 1)))
    add_style(document, Style("Provision", 10, False, 0.6, 0.4, 0, 4, num=(21, 2)))
    add_style(
        document,
        Style("Provision Below", 10, False, 1.0, 0.4, 0, 3, num=(21, 3), based_on="Provision"),
    )
    head_and_foot(document, source, f"{source.title} {source.number}")
    head = document.add_paragraph(f"SECTION {source.number} - {source.title}")
    head.runs[0].bold = True
    names = {"part": "Chapter", "article": "Heading of Article"}
    for line in source.lines:
        name = names.get(line.kind) or ("Provision" if line.level == 1 else "Provision Below")
        write_pieces(document, document.add_paragraph(style=name), line.text)
    document.add_paragraph(f"END OF SECTION {source.number}")
    return document


def sheets(source: Source) -> Docx:
    """A public office's form: a title block, then a ruled table an article, letters in it."""
    document = new_document("Liberation Sans Narrow", 10.5, 0.9)
    add_style(document, Style("Form Part", 12, True, before=10, after=4))
    head_and_foot(document, source, f"SECTION {source.number}")
    block = document.add_table(rows=2, cols=2, style="Table Grid")
    texts = (source.running[0], source.running[1], f"SECTION {source.number}", source.title)
    for cell, text in zip((c for row in block.rows for c in row.cells), texts, strict=True):
        cell.paragraphs[0].add_run(text).bold = True
    table: Table | None = None
    for line in source.lines:
        if line.kind == "part":
            document.add_paragraph(f"{line.number} {line.text}", "Form Part")
        elif line.kind == "article":
            table = _headed(document, line)
        else:
            assert table is not None
            _fill(table, (line.number, *line.cells))
    document.add_paragraph("END OF SECTION")
    return document


def _headed(document: Docx, line: Line) -> Table:
    """A table under a row that holds the article's number and title across its columns."""
    if document.element.body[-2].tag.endswith("}tbl"):
        document.add_paragraph().paragraph_format.space_after = Pt(2)
    table: Table = document.add_table(rows=1, cols=3, style="Table Grid")
    _widths(table, WIDTHS)
    merged = table.rows[0].cells[0].merge(table.rows[0].cells[2])
    merged.paragraphs[0].add_run(f"{line.number} {line.text}").bold = True
    merged._tc.get_or_add_tcPr().append(
        parse_xml(f'<w:shd {nsdecls("w")} w:val="clear" w:color="auto" w:fill="E3E8EA"/>')
    )
    return table


def _fill(table: Table, cells: tuple[str, ...]) -> None:
    row: _Row = cast(Any, table).add_row()
    for cell, text, width in zip(row.cells, cells, WIDTHS, strict=True):
        cell.width = Inches(width)
        cell.paragraphs[0].add_run(text)
        cell.paragraphs[0].paragraph_format.space_after = Pt(2)


def _widths(table: Table, widths: tuple[float, ...]) -> None:
    table.autofit = False
    for column, width in zip(table.columns, widths, strict=True):
        column.width = Inches(width)


def _row(
    document: Docx, table: Table | None, cells: tuple[str, ...], style: str, indent: float
) -> Table:
    if table is None:
        table = document.add_table(rows=0, cols=len(cells), style=style)
        _widths(table, (5.5 / len(cells),) * len(cells))
        table._tblPr.append(
            parse_xml(f'<w:tblInd {nsdecls("w")} w:w="{round(indent * 1440)}" w:type="dxa"/>')
        )
    row: _Row = cast(Any, table).add_row()
    for cell, text in zip(row.cells, cells, strict=True):
        cell.paragraphs[0].add_run(text)
        cell.width = Inches(5.5 / len(cells))
    return table


LAYOUTS: dict[str, Callable[[Source], Docx]] = {
    "typed": typed,
    "automatic": automatic,
    "pointed": pointed,
    "typed-plain": typed_plain,
    "tables": tables,
    "terse": terse,
    "typed-office": typed_office,
    "guide": guide,
    "sheets": sheets,
}
