"""The pieces of WordprocessingML that documents are put together from, each as a string."""

from __future__ import annotations

import html
from collections.abc import Sequence

from specgen.section import Table
from specgen.writers.docx_styles import OPEN_SHADE, RULE, TWIPS

PAGE_WIDTH, PAGE_HEIGHT, MARGIN = int(8.5 * TWIPS), 11 * TWIPS, TWIPS
TEXT_WIDTH = PAGE_WIDTH - 2 * MARGIN
OPEN_RUN = f'<w:rPr><w:rStyle w:val="OpenDecision"/><w:highlight w:val="{OPEN_SHADE}"/></w:rPr>'


def bookmark_of(article: str) -> str:
    """The name of the bookmark on an article's heading."""
    return "_Article_" + article.replace("-", "_")[:31]


def paragraph(style: str, content: str, properties: str = "") -> str:
    """A paragraph; ``properties`` follow its style."""
    return f'<w:p><w:pPr><w:pStyle w:val="{style}"/>{properties}</w:pPr>{content}</w:p>'


def run(text: str, properties: str = "", element: str = "w:t") -> str:
    """A run of text; ``element`` is ``w:delText`` where it is tracked as deleted."""
    held = f'<{element} xml:space="preserve">{html.escape(text)}</{element}>'
    return f"<w:r>{properties}{held}</w:r>"


def field(instruction: str, shown: str, *, deleted: bool = False) -> str:
    """A field that carries its last result, for a reader that does not update fields."""
    element = "w:delInstrText" if deleted else "w:instrText"
    return (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f'<w:r><{element} xml:space="preserve"> {instruction} </{element}></w:r>'
        '<w:r><w:fldChar w:fldCharType="separate"/></w:r>'
        f"{run(shown, element='w:delText' if deleted else 'w:t')}"
        '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    )


def reference(article: str, number: str, *, deleted: bool = False) -> str:
    """A live cross-reference to an article, with its number."""
    word = run("Article ", element="w:delText" if deleted else "w:t")
    return word + field(f"REF {bookmark_of(article)} \\r \\h", number, deleted=deleted)


def marked(name: str, number: int, runs: str) -> str:
    """Runs between the ends of a bookmark."""
    start = f'<w:bookmarkStart w:id="{number}" w:name="{name}"/>'
    return f'{start}{runs}<w:bookmarkEnd w:id="{number}"/>'


def table(shown: Table, indent: int) -> str:
    """A ruled table, as wide as the text it stands under, its head repeated on each page."""
    widths = column_widths(shown, TEXT_WIDTH - indent)
    head = head_row([paragraph("ScheduleHead", run(cell)) for cell in shown.head], widths)
    rows = "".join(
        row([paragraph("ScheduleCell", run(cell)) for cell in cells], widths)
        for cells in shown.rows
    )
    return table_around(head + rows, widths, indent) + AFTER_TABLE


AFTER_TABLE_SPACING = '<w:spacing w:after="120" w:line="120" w:lineRule="exact"/>'
AFTER_TABLE = f"<w:p><w:pPr>{AFTER_TABLE_SPACING}</w:pPr></w:p>"


def table_around(rows: str, widths: Sequence[int], indent: int) -> str:
    """The rules, indent and columns of a table around its rows."""
    grid = "".join(f'<w:gridCol w:w="{width}"/>' for width in widths)
    edges = "".join(
        f'<w:{edge} w:val="single" w:sz="4" w:space="0" w:color="{RULE}"/>'
        for edge in ("top", "left", "bottom", "right", "insideH", "insideV")
    )
    return (
        f'<w:tbl><w:tblPr><w:tblW w:w="{TEXT_WIDTH - indent}" w:type="dxa"/>'
        f'<w:tblInd w:w="{indent}" w:type="dxa"/>'
        f'<w:tblBorders>{edges}</w:tblBorders><w:tblLayout w:type="fixed"/></w:tblPr>'
        f"<w:tblGrid>{grid}</w:tblGrid>{rows}</w:tbl>"
    )


def head_row(paragraphs: Sequence[str], widths: Sequence[int], properties: str = "") -> str:
    """The row of a table that is repeated on each page."""
    return row(paragraphs, widths, f"<w:tblHeader/>{properties}")


def row(paragraphs: Sequence[str], widths: Sequence[int], properties: str = "") -> str:
    """A row of a table, a paragraph a cell."""
    boxes = "".join(
        f'<w:tc><w:tcPr><w:tcW w:w="{width}" w:type="dxa"/></w:tcPr>{held}</w:tc>'
        for held, width in zip(paragraphs, widths, strict=True)
    )
    return f"<w:tr><w:trPr><w:cantSplit/>{properties}</w:trPr>{boxes}</w:tr>"


def column_widths(shown: Table, width: int) -> list[int]:
    """Columns in proportion to their longest cell, none narrower than half of an even share."""
    longest = [
        max(len(row[i]) for row in (shown.head, *shown.rows)) for i in range(len(shown.head))
    ]
    least = max(longest) / 2 if len(longest) < 4 else max(longest) / 2.5
    weights = [max(size, least) for size in longest]
    return [int(width * weight / sum(weights)) for weight in weights]
