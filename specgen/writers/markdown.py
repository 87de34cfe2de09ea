"""A section as Markdown: numbers written out, open places in bold."""

from __future__ import annotations

import re

from specgen.section import Paragraph, Section, Table
from specgen.spans import Gap

_SPECIAL = re.compile(r"([\\`*_{}\[\]<>#|~&])")


def write_markdown(section: Section) -> str:
    """The whole section as Markdown (CommonMark, with pipe tables)."""
    heads = (section.project, section.place, section.issue, section.date)
    shown = (section.plain_span(head) for head in heads)
    lines = [" · ".join(_escaped(head) for head in shown if head), ""]
    lines += [f"# SECTION {section.number} {_escaped(section.title)}", ""]
    for part in section.parts:
        lines += [f"## PART {part.number} - {_escaped(part.title)}", ""]
        for article in part.articles:
            lines += [f"### {article.number} {_escaped(article.title)}", ""]
            for paragraph in article.paragraphs:
                lines += [*_paragraph(section, paragraph), ""]
    lines.append("END OF SECTION")
    return "\n".join(lines) + "\n"


def _paragraph(section: Section, paragraph: Paragraph) -> list[str]:
    """The paragraph and all below it as one block; hard breaks keep the typed numbers."""
    lines = []
    for step in paragraph.walk():
        indent = "&emsp;" * (step.level - 1)
        label = step.label.replace(".", "\\.").replace(")", "\\)")
        text = "".join(
            f"**{_escaped(section.plain_span(span))}**"
            if isinstance(span, Gap)
            else _escaped(section.plain_span(span))
            for span in step.spans
        )
        lines.append(f"{indent}{label} {text}\\")
        for table in step.tables:
            lines[-1] = lines[-1].removesuffix("\\")
            lines += ["", *_table(table), ""]
    lines[-1] = lines[-1].removesuffix("\\")
    return lines


def _table(table: Table) -> list[str]:
    rows = [table.head, tuple("---" for _ in table.head), *table.rows]
    head, rule, *body = rows
    return [
        "| " + " | ".join(cells if cells == "---" else _escaped(cells) for cells in row) + " |"
        for row in (head, rule, *body)
    ]


def _escaped(text: str) -> str:
    return _SPECIAL.sub(r"\\\1", text)
