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
from collections.abc import Callable, Iterator
from dataclasses import dataclass
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
from specgen.section import Article, Paragraph, Reason, Section, numbered
from specgen.spans import ArticleReference, Gap, Span
from specgen.writers.docx_pieces import (
    MARGIN,
    OPEN_RUN,
    PAGE_HEIGHT,
    PAGE_WIDTH,
    TEXT_WIDTH,
    bookmark_of,
    field,
    marked,
    reference,
    run,
    table,
)
from specgen.writers.docx_pieces import paragraph as paragraph_xml
from specgen.writers.docx_styles import (
    LEVELS,
    NAMESPACE,
    RULE,
    W,
    numbering_xml,
    styles_xml,
)

RECORD_NAMESPACE = "urn:specgen:section:1"
NOTE_AUTHOR = "specgen"
_OLD_STYLES = "http://schemas.microsoft.com/office/2007/relationships/stylesWithEffects"


def write_docx(
    section: Section, brief: Brief, *, notes: bool = False, findings: tuple[Finding, ...] = ()
) -> bytes:
    """The bytes of the document.

    ``notes`` adds each paragraph's reason as a comment; each of ``findings`` becomes a comment at
    its place, or at the title where it has none.
    """

    def body(document: Document) -> WrittenBody:
        writer = _Body(section, document, notes, findings)
        return WrittenBody(writer.xml(), writer.bookmarks)

    heads = (section.project, section.place, section.issue, section.date)
    return build_docx(section, brief, body, PageHeads(*map(_shown, heads)))


Bookmarks = list[tuple[str, Paragraph]]


@dataclass(frozen=True, slots=True)
class WrittenBody:
    """A body as XML, and the paragraph at each of its bookmarks."""

    xml: str
    bookmarks: Bookmarks


@dataclass(frozen=True, slots=True)
class PageHeads:
    """The runs that head and foot the pages, as XML."""

    project: str
    place: str
    issue: str
    date: str


@dataclass(frozen=True, slots=True)
class Titles:
    """The number and title of a section, and the name of its project."""

    number: str
    title: str
    project: str


def build_docx(
    section: Section, brief: Brief, body: Callable[[Document], WrittenBody], heads: PageHeads
) -> bytes:
    """A document around a body: styles, numbering, page heads, properties and the record."""
    titles = Titles(section.number, section.title, section.plain_span(section.project))
    document = _bare_document(titles)
    written = body(document)
    _fill_body(document, written.xml)
    _fill_heads(document, titles, heads)
    _add_record(document, section, brief, written.bookmarks)
    return _saved(document)


def plain_docx(body: str, titles: Titles, heads: PageHeads) -> bytes:
    """A document around a body's XML that carries no record of a brief or of clauses."""
    document = _bare_document(titles)
    _fill_body(document, body)
    _fill_heads(document, titles, heads)
    return _saved(document)


def _bare_document(titles: Titles) -> Document:
    document = docx.Document()
    _replace_children(document.styles.element, styles_xml())
    _replace_children(document.part.numbering_part.element, numbering_xml())
    _drop_leftovers(document)
    _fill_properties(document, titles)
    _fill_settings(document)
    return document


def _saved(document: Document) -> bytes:
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
        self.bookmarks: Bookmarks = []

    def xml(self) -> str:
        section = self.section
        pieces = [
            paragraph_xml("SectionNumber", run(f"SECTION {section.number}")),
            paragraph_xml("SectionTitle", self._commented("", run(section.title), "")),
        ]
        for part in section.parts:
            pieces.append(paragraph_xml("Part", run(part.title)))
            for article in part.articles:
                pieces.append(self._article(article))
        pieces.append(paragraph_xml("SectionEnd", run("END OF SECTION")))
        return "".join(pieces)

    def _article(self, article: Article) -> str:
        name = bookmark_of(article.id)
        heading = marked(name, 1_000_000 + len(self.bookmarks), run(article.title))
        pieces = [paragraph_xml("Article", heading)]
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
        content = marked(name, index, runs)
        content = self._commented(number, content, note_on(paragraph) if self.notes else "")
        style = LEVELS[paragraph.level + 1].style
        keep = "<w:keepNext/>" if paragraph.children or paragraph.tables else ""
        text = paragraph_xml(style, content, keep)
        left = LEVELS[paragraph.level + 1].left
        return text + "".join(table(shown, left) for shown in paragraph.tables)

    def _span(self, span: Span) -> str:
        if isinstance(span, ArticleReference):
            return reference(span.article, self.section.article_numbers[span.article])
        if isinstance(span, Gap):
            return run(span.text, OPEN_RUN)
        return run(span.text)


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


def _commented(document: Document, content: str, note: str) -> str:
    comment = document.comments.add_comment(text=note, author=NOTE_AUTHOR, initials="sg")
    number = comment.comment_id
    return (
        f'<w:commentRangeStart w:id="{number}"/>{content}<w:commentRangeEnd w:id="{number}"/>'
        '<w:r><w:rPr><w:rStyle w:val="CommentReference"/></w:rPr>'
        f'<w:commentReference w:id="{number}"/></w:r>'
    )


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


def _fill_heads(document: Document, titles: Titles, heads: PageHeads) -> None:
    """The page's head (project and section) and foot (issue and page)."""
    page = document.sections[0]
    _replace_children(
        page.header._element,  # noqa: SLF001 - python-docx has no public way to the part's XML
        f"<w:hdr {NAMESPACE}>"
        + _head_line(heads.project, heads.place, "")
        + _head_line(run(titles.number), run(titles.title), _ruled("bottom"))
        + "</w:hdr>",
    )
    issue = f"{heads.issue}{run(', ')}{heads.date}"
    page_number = (
        run(f"{titles.number} - ") + field("PAGE", "1") + run(" of ") + field("NUMPAGES", "1")
    )
    foot = _head_line(issue, page_number, _ruled("top"), style="Footer")
    _replace_children(
        page.footer._element,  # noqa: SLF001
        f"<w:ftr {NAMESPACE}>{foot}</w:ftr>",
    )


def _head_line(left: str, right: str, border: str, style: str = "Header") -> str:
    tabs = f'<w:tabs><w:tab w:val="right" w:pos="{TEXT_WIDTH}"/></w:tabs>'
    return paragraph_xml(style, f"{left}<w:r><w:tab/></w:r>{right}", border + tabs)


def _ruled(edge: str) -> str:
    rule = f'<w:{edge} w:val="single" w:sz="6" w:space="4" w:color="{RULE}"/>'
    return f"<w:pBdr>{rule}</w:pBdr>"


def _shown(span: Span) -> str:
    if isinstance(span, Gap):
        return run(span.text, OPEN_RUN)
    return "" if isinstance(span, ArticleReference) else run(span.text)


def _drop_leftovers(document: Document) -> None:
    """What python-docx's template carries of another document: picture, record, older styles."""
    leftovers = (RELATIONSHIP_TYPE.THUMBNAIL, RELATIONSHIP_TYPE.CUSTOM_XML, _OLD_STYLES)
    for relationships in (document.part.package.rels, document.part.rels):
        for name, relationship in list(relationships.items()):
            if relationship.reltype in leftovers:
                del relationships[name]


def _fill_properties(document: Document, titles: Titles) -> None:
    properties = document.core_properties
    now = datetime.datetime.now(datetime.UTC).replace(tzinfo=None, microsecond=0)
    properties.title = f"{titles.number} {titles.title}"
    properties.subject = titles.project[:255]
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


def _add_record(document: Document, section: Section, brief: Brief, bookmarks: Bookmarks) -> None:
    """The brief and each paragraph's clause, as a custom XML part that other tools leave alone."""
    part = PackagePart(
        PackURI("/customXml/item1.xml"),
        "application/xml",
        _record_xml(section, brief, bookmarks).encode(),
        document.part.package,
    )
    document.part.relate_to(part, RELATIONSHIP_TYPE.CUSTOM_XML)


def _record_xml(section: Section, brief: Brief, bookmarks: Bookmarks) -> str:
    answers = json.dumps(brief.whole, ensure_ascii=True, sort_keys=True)
    head = _element(
        "section", xmlns=RECORD_NAMESPACE, program=specgen.__version__, number=section.number
    )
    lines = "".join(_record_lines(bookmarks))
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<{head}>'
        f"<brief>{html.escape(answers)}</brief>{lines}</section>"
    )


def _record_lines(bookmarks: Bookmarks) -> Iterator[str]:
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
