"""A section as plain text, wrapped, with hanging numbers; open places in parentheses."""

from __future__ import annotations

import textwrap

from specgen.section import Paragraph, Section, Table

WIDTH = 88
INDENT = 4


def write_text(section: Section) -> str:
    """The whole section as text."""
    heads = (section.project, section.place, section.issue, section.date)
    lines = [*(section.plain_span(head) for head in heads), ""]
    lines += [f"SECTION {section.number}", section.title, ""]
    for part in section.parts:
        lines += [f"PART {part.number} - {part.title}", ""]
        for article in part.articles:
            lines += [f"{article.number} {article.title}", ""]
            for paragraph in article.walk():
                lines += [*_paragraph(section, paragraph), ""]
    lines.append("END OF SECTION")
    return "\n".join(lines) + "\n"


def _paragraph(section: Section, paragraph: Paragraph) -> list[str]:
    margin = " " * (INDENT * paragraph.level)
    lines = textwrap.wrap(
        section.plain(paragraph.spans),
        width=WIDTH,
        initial_indent=f"{margin}{paragraph.label.ljust(INDENT)}",
        subsequent_indent=margin + " " * INDENT,
        break_long_words=False,
        break_on_hyphens=False,
    )
    for table in paragraph.tables:
        lines += ["", *table_lines(table, margin + " " * INDENT)]
    return lines


def table_lines(table: Table, margin: str) -> list[str]:
    """A table as aligned columns under a rule."""
    rows = [table.head, *table.rows]
    widths = [max(len(row[i]) for row in rows) for i in range(len(table.head))]

    def line(cells: tuple[str, ...]) -> str:
        padded = (cell.ljust(width) for cell, width in zip(cells, widths, strict=True))
        return (margin + "  ".join(padded)).rstrip()

    rule = tuple("-" * width for width in widths)
    return [line(table.head), line(rule), *(line(row) for row in table.rows)]
