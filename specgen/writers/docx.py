"""A section as a Word document.

The body is written as one piece of WordprocessingML and parsed once: python-docx opens the package,
holds its parts and saves it, and its slow per-paragraph look-ups are not on the way. Numbers come
from the list bound to the styles, cross-references are REF fields to bookmarks on the articles.
"""

from __future__ import annotations

import datetime
import html
import io
import json
from collections.abc import Iterator
from typing import Any

import docx
from docx.document import Document
from docx.opc.constants import RELATIONSHIP_TYPE
from docx.opc.packuri import PackURI
from docx.opc.part import Part as PackagePart
from docx.oxml import parse_xml

import specgen
from specgen.brief import Brief
from specgen.checks import Finding
from specgen.section import Article, Paragraph, Reason, Section, Table, numbered
from specgen.spans import ArticleReference, Gap, Span
from specgen.writers.docx_styles import (
    LEVELS,
    NAMESPACE,
    OPEN_SHADE,
    RULE,
    TWIPS,
    W,
    numbering_xml,
    styles_xml,
)

RECORD_NAMESPACE = "urn:specgen:section:1"
PAGE_WIDTH, PAGE_HEIGHT, MARGIN = int(8.5 * TWIPS), 11 * TWIPS, TWIPS
TEXT_WIDTH = PAGE_WIDTH - 2 * MARGIN
NOTE_AUTHOR = "specgen"
_OLD_STYLES = "http://schemas.microsoft.com/office/2007/relationships/stylesWithEffects"
_OPEN_RUN = f'<w:rPr><w:rStyle w:val="OpenDecision"/><w:highlight w:val="{OPEN_SHADE}"/></w:rPr>'


def write_docx(
    section: Section, brief: Brief, *, notes: bool = False, findings: tuple[Finding, ...] = ()
) -> bytes:
    """The bytes of the document.

    ``notes`` adds each paragraph's reason as a comment; each of ``findings`` becomes a comment at
    its place, or at the title where it has none.
    """
    document = docx.Document()
    _replace_children(document.styles.element, styles_xml())
    _replace_children(document.part.numbering_part.element, numbering_xml())
    _drop_leftovers(document)
    _fill_properties(document, section)
    _fill_settings(document)
    body = _Body(section, document, notes, findings)
    _fill_body(document, body.xml())
    _fill_heads(document, section)
    _add_record(document, section, brief, body.bookmarks)
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


# -------------------------------------------------------------------------------------------- body


class _Body:
    """Writes the body's XML, counting bookmarks and comments as it goes."""

    def __init__(
        self, section: Section, document: Document, notes: bool, findings: tuple[Finding, ...]
    ) -> None:
        self.section = section
        self.document = document
        self.notes = notes
        self.findings: dict[str, list[Finding]] = {}
        for finding in findings:
            self.findings.setdefault(finding.place, []).append(finding)
        self.bookmarks: list[tuple[str, Paragraph]] = []

    def xml(self) -> str:
        section = self.section
        pieces = [
            _plain("SectionNumber", _run(f"SECTION {section.number}")),
            _plain("SectionTitle", self._commented("", _run(section.title), "")),
        ]
        for part in section.parts:
            pieces.append(_plain("Part", _run(part.title)))
            for article in part.articles:
                pieces.append(self._article(article))
        pieces.append(_plain("SectionEnd", _run("END OF SECTION")))
        return "".join(pieces)

    def _article(self, article: Article) -> str:
        name = bookmark_of(article.id)
        heading = self._marked(name, 1_000_000 + len(self.bookmarks), _run(article.title))
        pieces = [_plain("Article", heading)]
        for paragraph, number in numbered(article):
            pieces.append(self._paragraph(paragraph, number))
        return "".join(pieces)

    def _commented(self, number: str, content: str, note: str) -> str:
        """The content with the findings that stand there, and its own note, as comments."""
        for finding in self.findings.get(number, ()):
            lines = (finding.says, finding.because, f"Source: {finding.source}.", finding.id)
            text = "\n".join(lines)
            content = _commented(self.document, content, text)
        return _commented(self.document, content, note) if note else content

    def _paragraph(self, paragraph: Paragraph, number: str) -> str:
        index = len(self.bookmarks)
        name = f"_P{index + 1}"
        self.bookmarks.append((name, paragraph))
        runs = "".join(self._span(span) for span in paragraph.spans)
        content = self._marked(name, index, runs)
        content = self._commented(number, content, note_on(paragraph) if self.notes else "")
        style = LEVELS[paragraph.level + 1].style
        keep = "<w:keepNext/>" if paragraph.children or paragraph.tables else ""
        text = _plain(style, content, keep)
        left = LEVELS[paragraph.level + 1].left
        return text + "".join(_table(table, left) for table in paragraph.tables)

    def _span(self, span: Span) -> str:
        if isinstance(span, ArticleReference):
            number = self.section.article_numbers[span.article]
            return _run("Article ") + _field(f"REF {bookmark_of(span.article)} \\r \\h", number)
        if isinstance(span, Gap):
            return _run(span.text, _OPEN_RUN)
        return _run(span.text)

    def _marked(self, name: str, number: int, runs: str) -> str:
        start = f'<w:bookmarkStart w:id="{number}" w:name="{name}"/>'
        return f'{start}{runs}<w:bookmarkEnd w:id="{number}"/>'


def bookmark_of(article: str) -> str:
    """The name of the bookmark on an article's heading."""
    return "_Article_" + article.replace("-", "_")[:31]


def note_on(paragraph: Paragraph) -> str:
    """A paragraph's reason in a few lines, as a comment carries it."""
    reason: Reason = paragraph.reason
    lines = [reason.why]
    if paragraph.decision is not None:
        lines.append(f"Waiting: {', '.join(paragraph.decision.clauses)}.")
    if reason.answers:
        shown = "; ".join(f"{name} = {value}" for name, value in reason.answers)
        lines.append(f"Answers: {shown}.")
    if reason.calculations:
        shown = "; ".join(f"{name} = {value}" for name, value in reason.calculations)
        lines.append(f"Computed: {shown}.")
    if reason.needs:
        lines.append(f"Goes with: {', '.join(reason.needs)}.")
    if reason.source:
        lines.append(f"Source: {reason.source}.")
    if reason.clause:
        owner = " (the office's)" if reason.office else ""
        lines.append(f"Clause: {reason.clause}{owner}.")
    return "\n".join(lines)


def _plain(style: str, content: str, properties: str = "") -> str:
    return f'<w:p><w:pPr><w:pStyle w:val="{style}"/>{properties}</w:pPr>{content}</w:p>'


def _run(text: str, properties: str = "") -> str:
    return f'<w:r>{properties}<w:t xml:space="preserve">{html.escape(text)}</w:t></w:r>'


def _field(instruction: str, shown: str) -> str:
    """A field that carries its last result, for a reader that does not update fields."""
    return (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f'<w:r><w:instrText xml:space="preserve"> {instruction} </w:instrText></w:r>'
        '<w:r><w:fldChar w:fldCharType="separate"/></w:r>'
        f"{_run(shown)}"
        '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    )


def _commented(document: Document, content: str, note: str) -> str:
    comment = document.comments.add_comment(text=note, author=NOTE_AUTHOR, initials="sg")
    number = comment.comment_id
    return (
        f'<w:commentRangeStart w:id="{number}"/>{content}<w:commentRangeEnd w:id="{number}"/>'
        '<w:r><w:rPr><w:rStyle w:val="CommentReference"/></w:rPr>'
        f'<w:commentReference w:id="{number}"/></w:r>'
    )


def _table(table: Table, indent: int) -> str:
    """A ruled table, as wide as the text it stands under, its head repeated on each page."""
    width = TEXT_WIDTH - indent
    widths = _column_widths(table, width)
    grid = "".join(f'<w:gridCol w:w="{w}"/>' for w in widths)
    edges = "".join(
        f'<w:{edge} w:val="single" w:sz="4" w:space="0" w:color="{RULE}"/>'
        for edge in ("top", "left", "bottom", "right", "insideH", "insideV")
    )

    def row(cells: tuple[str, ...], style: str, properties: str) -> str:
        boxes = "".join(
            f'<w:tc><w:tcPr><w:tcW w:w="{w}" w:type="dxa"/></w:tcPr>'
            f"{_plain(style, _run(cell))}</w:tc>"
            for cell, w in zip(cells, widths, strict=True)
        )
        return f"<w:tr><w:trPr><w:cantSplit/>{properties}</w:trPr>{boxes}</w:tr>"

    head = row(table.head, "ScheduleHead", "<w:tblHeader/>")
    rows = "".join(row(cells, "ScheduleCell", "") for cells in table.rows)
    return (
        f'<w:tbl><w:tblPr><w:tblW w:w="{width}" w:type="dxa"/>'
        f'<w:tblInd w:w="{indent}" w:type="dxa"/>'
        f'<w:tblBorders>{edges}</w:tblBorders><w:tblLayout w:type="fixed"/></w:tblPr>'
        f"<w:tblGrid>{grid}</w:tblGrid>{head}{rows}</w:tbl>"
        '<w:p><w:pPr><w:spacing w:after="120" w:line="120" w:lineRule="exact"/></w:pPr></w:p>'
    )


def _column_widths(table: Table, width: int) -> list[int]:
    """Columns in proportion to their longest cell, none narrower than half of an even share."""
    longest = [
        max(len(row[i]) for row in (table.head, *table.rows)) for i in range(len(table.head))
    ]
    least = max(longest) / 2 if len(longest) < 4 else max(longest) / 2.5
    weights = [max(size, least) for size in longest]
    return [int(width * weight / sum(weights)) for weight in weights]


# ------------------------------------------------------------------------------ rest of the file


def _replace_children(element: Any, xml: str) -> None:
    new = parse_xml(xml)
    element[:] = []
    element.extend(list(new))


def _fill_body(document: Document, xml: str) -> None:
    new = parse_xml(f"<w:body {NAMESPACE}>{xml}{_page_setup()}</w:body>")
    document.element.replace(document.element.body, new)


def _page_setup() -> str:
    return (
        f'<w:sectPr><w:pgSz w:w="{PAGE_WIDTH}" w:h="{PAGE_HEIGHT}"/>'
        f'<w:pgMar w:top="{MARGIN + 240}" w:right="{MARGIN}" w:bottom="{MARGIN}" w:left="{MARGIN}" '
        'w:header="720" w:footer="576" w:gutter="0"/></w:sectPr>'
    )


def _fill_heads(document: Document, section: Section) -> None:
    """The page's head (project and section) and foot (issue and page)."""
    page = document.sections[0]
    _replace_children(
        page.header._element,  # noqa: SLF001 - python-docx has no public way to the part's XML
        f"<w:hdr {NAMESPACE}>"
        + _head_line(_shown(section.project), _shown(section.place), "")
        + _head_line(_run(section.number), _run(section.title), _ruled("bottom"))
        + "</w:hdr>",
    )
    issue = f"{_shown(section.issue)}{_run(', ')}{_shown(section.date)}"
    page_number = (
        _run(f"{section.number} - ") + _field("PAGE", "1") + _run(" of ") + _field("NUMPAGES", "1")
    )
    foot = _head_line(issue, page_number, _ruled("top"), style="Footer")
    _replace_children(
        page.footer._element,  # noqa: SLF001
        f"<w:ftr {NAMESPACE}>{foot}</w:ftr>",
    )


def _head_line(left: str, right: str, border: str, style: str = "Header") -> str:
    tabs = f'<w:tabs><w:tab w:val="right" w:pos="{TEXT_WIDTH}"/></w:tabs>'
    return _plain(style, f"{left}<w:r><w:tab/></w:r>{right}", border + tabs)


def _ruled(edge: str) -> str:
    rule = f'<w:{edge} w:val="single" w:sz="6" w:space="4" w:color="{RULE}"/>'
    return f"<w:pBdr>{rule}</w:pBdr>"


def _shown(span: Span) -> str:
    if isinstance(span, Gap):
        return _run(span.text, _OPEN_RUN)
    return "" if isinstance(span, ArticleReference) else _run(span.text)


def _drop_leftovers(document: Document) -> None:
    """What python-docx's template carries of another document: picture, record, older styles."""
    leftovers = (RELATIONSHIP_TYPE.THUMBNAIL, RELATIONSHIP_TYPE.CUSTOM_XML, _OLD_STYLES)
    for relationships in (document.part.package.rels, document.part.rels):
        for name, relationship in list(relationships.items()):
            if relationship.reltype in leftovers:
                del relationships[name]


def _fill_properties(document: Document, section: Section) -> None:
    properties = document.core_properties
    project = section.plain_span(section.project)
    now = datetime.datetime.now(datetime.UTC).replace(tzinfo=None, microsecond=0)
    properties.title = f"{section.number} {section.title}"
    properties.subject = project[:255]
    properties.author = NOTE_AUTHOR
    properties.last_modified_by = NOTE_AUTHOR
    properties.category = "Specification section"
    properties.comments = ""
    properties.keywords = "standing seam metal roof panels"
    properties.revision = 1
    properties.language = "en-US"
    properties.created = now
    properties.modified = now
    properties.version = specgen.__version__


def _fill_settings(document: Document) -> None:
    """Let a word processor lay the page out by its present rules, not those of an older one."""
    uri = "http://schemas.microsoft.com/office/word"
    mode = f'<w:compatSetting w:name="compatibilityMode" w:uri="{uri}" w:val="15"/>'
    settings = document.settings.element
    for old in settings.findall(f"{{{W}}}compat"):
        position = settings.index(old)
        settings.remove(old)
        settings.insert(position, parse_xml(f"<w:compat {NAMESPACE}>{mode}</w:compat>"))


# ---------------------------------------------------------------------------------- the record


def _add_record(
    document: Document, section: Section, brief: Brief, bookmarks: list[tuple[str, Paragraph]]
) -> None:
    """The brief and each paragraph's clause, as a custom XML part that other tools leave alone."""
    part = PackagePart(
        PackURI("/customXml/item1.xml"),
        "application/xml",
        _record_xml(section, brief, bookmarks).encode(),
        document.part.package,
    )
    document.part.relate_to(part, RELATIONSHIP_TYPE.CUSTOM_XML)


def _record_xml(section: Section, brief: Brief, bookmarks: list[tuple[str, Paragraph]]) -> str:
    answers = json.dumps(brief.whole, ensure_ascii=True, sort_keys=True)
    head = _element(
        "section", xmlns=RECORD_NAMESPACE, program=specgen.__version__, number=section.number
    )
    lines = "".join(_record_lines(bookmarks))
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<{head}>'
        f"<brief>{html.escape(answers)}</brief>{lines}</section>"
    )


def _record_lines(bookmarks: list[tuple[str, Paragraph]]) -> Iterator[str]:
    for name, paragraph in bookmarks:
        decision = paragraph.decision
        if decision is not None:
            clauses = " ".join(decision.clauses)
            entry = _element("open", bookmark=name, question=decision.question, clauses=clauses)
        elif paragraph.reason.clause:
            entry = _element("paragraph", bookmark=name, clause=paragraph.reason.clause)
        else:
            entry = _element("computed", bookmark=name)
        yield f"<{entry}/>"


def _element(name: str, **attributes: str) -> str:
    return name + "".join(f' {key}="{html.escape(value)}"' for key, value in attributes.items())
