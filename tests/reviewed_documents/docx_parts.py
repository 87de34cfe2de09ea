"""What every layout needs of a word processor's file: styles, lists, running heads, marked text."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from docx import Document
from docx.document import Document as Docx
from docx.enum.style import WD_STYLE_TYPE
from docx.enum.text import WD_ALIGN_PARAGRAPH, WD_TAB_ALIGNMENT
from docx.oxml import OxmlElement, parse_xml
from docx.oxml.ns import nsdecls, qn
from docx.shared import Inches, Length, Pt, RGBColor
from docx.text.paragraph import Paragraph

from tests.reviewed_documents.source import Source, pieces

WHO = "Reviser"
WHEN = "2027-04-20T09:00:00Z"


@dataclass(frozen=True, slots=True)
class Style:
    """A paragraph style: ``indent`` and ``hang`` in inches, ``num`` the list and level it names."""

    name: str
    size: float = 10
    bold: bool = False
    indent: float = 0.0
    hang: float = 0.0
    before: float = 0.0
    after: float = 4.0
    center: bool = False
    color: str = ""
    num: tuple[int, int] | None = None
    based_on: str = "Normal"


def new_document(font: str, size: float, margin: float = 1.0) -> Docx:
    """An empty document in one font."""
    document = Document()
    normal = document.styles["Normal"]
    normal.font.name, normal.font.size = font, Pt(size)
    normal.element.rPr.rFonts.set(qn("w:eastAsia"), font)
    for section in document.sections:
        section.page_width, section.page_height = Inches(8.5), Inches(11)
        section.left_margin = section.right_margin = Inches(margin)
        section.top_margin = section.bottom_margin = Inches(0.9)
    return document


def add_style(document: Docx, style: Style) -> None:
    made = document.styles.add_style(style.name, WD_STYLE_TYPE.PARAGRAPH)
    made.base_style = document.styles[style.based_on]
    made.font.size, made.font.bold = Pt(style.size), style.bold
    if style.color:
        made.font.color.rgb = RGBColor.from_string(style.color)
    shape = made.paragraph_format
    shape.left_indent, shape.first_line_indent = Inches(style.indent), Inches(-style.hang)
    shape.space_before, shape.space_after = Pt(style.before), Pt(style.after)
    shape.keep_with_next = style.bold
    if style.hang:
        shape.tab_stops.add_tab_stop(Inches(style.indent))
    if style.center:
        shape.alignment = WD_ALIGN_PARAGRAPH.CENTER
    if style.num:
        made.element.get_or_add_pPr().append(num_pr(*style.num))


def num_pr(num: int, level: int) -> Any:
    return parse_xml(
        f'<w:numPr {nsdecls("w")}><w:ilvl w:val="{level}"/><w:numId w:val="{num}"/></w:numPr>'
    )


def add_list(
    document: Docx, list_id: int, levels: list[tuple[str, str, str, float, float]]
) -> None:
    """A list definition; each level a format, a text, the style it names, its indent and hang."""
    numbering = document.part.numbering_part.element
    made = []
    for at, (form, text, style, indent, hang) in enumerate(levels):
        named = f'<w:pStyle w:val="{style.replace(" ", "")}"/>' if style else ""
        made.append(
            f'<w:lvl w:ilvl="{at}"><w:start w:val="1"/><w:numFmt w:val="{form}"/>{named}'
            f'<w:suff w:val="tab"/><w:lvlText w:val="{text}"/><w:lvlJc w:val="left"/><w:pPr><w:ind'
            f' w:left="{round(indent * 1440)}" w:hanging="{round(hang * 1440)}"/></w:pPr></w:lvl>'
        )
    definition = parse_xml(
        f'<w:abstractNum {nsdecls("w")} w:abstractNumId="{list_id}">'
        f'<w:multiLevelType w:val="multilevel"/>{"".join(made)}</w:abstractNum>'
    )
    first = numbering.find(qn("w:num"))
    numbering.insert(list(numbering).index(first) if first is not None else 0, definition)
    add_num(document, list_id, list_id)


def add_num(document: Docx, num: int, list_id: int, restart: bool = False) -> None:
    """A list of the definition ``list_id``; with ``restart`` its first level starts again."""
    again = '<w:lvlOverride w:ilvl="0"><w:startOverride w:val="1"/></w:lvlOverride>'
    document.part.numbering_part.element.append(
        parse_xml(
            f'<w:num {nsdecls("w")} w:numId="{num}"><w:abstractNumId w:val="{list_id}"/>'
            f"{again if restart else ''}</w:num>"
        )
    )


def head_and_foot(document: Docx, source: Source, foot: str) -> None:
    """The running head, its items apart, and the foot with the page's number."""
    section = document.sections[0]
    line = section.header.paragraphs[0]
    line.text = "\t".join([source.running[0], " | ".join(source.running[1:])])
    line = section.footer.paragraphs[0]
    line.add_run(f"{foot}\t")
    line.add_run("Page ")
    for kind, text in (("begin", ""), ("", "PAGE"), ("end", "")):
        run = line.add_run()
        if kind:
            char = OxmlElement("w:fldChar")
            char.set(qn("w:fldCharType"), kind)
            run._r.append(char)
        else:
            code = OxmlElement("w:instrText")
            code.text = text
            run._r.append(code)
    for name in ("Header", "Footer"):
        document.styles[name].paragraph_format.tab_stops.clear_all()
    page, left, right = section.page_width, section.left_margin, section.right_margin
    assert page is not None
    assert left is not None
    assert right is not None
    for paragraph in (section.header.paragraphs[0], section.footer.paragraphs[0]):
        paragraph.paragraph_format.tab_stops.add_tab_stop(
            Length(page - left - right), WD_TAB_ALIGNMENT.RIGHT
        )
        for run in paragraph.runs:
            run.font.size = Pt(8)


def write_pieces(document: Docx, paragraph: Paragraph, text: str) -> None:
    """A text into its paragraph: tracked changes, hidden and marked words, comments and all."""
    for kind, part in pieces(text):
        if kind == "comment":
            comment = document.add_comment(paragraph.runs, text=part, author=WHO, initials="R")
            comment._comment_elm.set(qn("w:date"), WHEN)
            continue
        run = paragraph.add_run(part)
        if kind == "hidden":
            run.font.hidden = True
        elif kind == "marked":
            run.font.italic, run.font.color.rgb = True, RGBColor(0x1F, 0x4E, 0xA8)
        elif kind in ("inserted", "deleted"):
            _track(document, run._r, kind)


def _track(document: Docx, run: Any, kind: str) -> None:
    known = document.element.xpath("//w:ins | //w:del")
    change = OxmlElement("w:ins" if kind == "inserted" else "w:del")
    change.set(qn("w:id"), str(900 + len(known)))
    change.set(qn("w:author"), WHO)
    change.set(qn("w:date"), WHEN)
    run.addprevious(change)
    change.append(run)
    if kind == "deleted":
        for text in run.findall(qn("w:t")):
            text.tag = qn("w:delText")
            text.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
