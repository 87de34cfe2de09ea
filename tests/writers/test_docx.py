"""The Word document: what a word processor will number, link, mark and keep."""

from __future__ import annotations

import io
import json
import re
import warnings
import zipfile
from pathlib import Path

import docx
import pytest
from lxml import etree

from specgen.assemble import assemble
from specgen.brief import Brief
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section
from specgen.spans import ArticleReference
from specgen.writers.docx import RECORD_NAMESPACE, write_docx
from specgen.writers.docx_pieces import bookmark_of
from tests.support import brief_of
from tests.test_assemble import COMPLETE

W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def _drafted(
    text: str, library: Library, folder: Path, *, notes: bool = False
) -> tuple[Section, bytes]:
    brief: Brief = brief_of(text, library, folder)
    section = assemble(Scope(library, brief.answers))
    return section, write_docx(section, brief, notes=notes)


def _words(element: etree._Element) -> str:
    return "".join(str(text) for text in element.itertext())


def _part(content: bytes, name: str) -> etree._Element:
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        return etree.fromstring(package.read(name))


@pytest.fixture
def complete(small: Library, tmp_path: Path) -> tuple[Section, bytes]:
    return _drafted(COMPLETE, small, tmp_path)


def test_every_paragraph_stands_in_order_in_the_style_of_its_level(
    complete: tuple[Section, bytes],
) -> None:
    section, content = complete
    document = docx.Document(io.BytesIO(content))
    names = [(p.style.name if p.style else "", p.text) for p in document.paragraphs if p.text]
    expected = [("Section Number", "SECTION 07 41 13.16"), ("Section Title", "SMALL")]
    for part in section.parts:
        expected.append(("Part", part.title))
        for article in part.articles:
            expected.append(("Article", article.title))
            expected += [(f"Paragraph {p.level}", section.plain(p.spans)) for p in article.walk()]
    expected.append(("Section End", "END OF SECTION"))
    assert names == expected


def test_numbers_come_from_one_list_whose_levels_and_styles_name_each_other(
    complete: tuple[Section, bytes],
) -> None:
    _, content = complete
    numbering = _part(content, "word/numbering.xml")
    levels = {
        level.find(f"{W}pStyle").get(f"{W}val"): (  # type: ignore[union-attr]
            level.get(f"{W}ilvl"),
            level.find(f"{W}lvlText").get(f"{W}val"),  # type: ignore[union-attr]
        )
        for level in numbering.iter(f"{W}lvl")
    }
    assert [text for _, text in levels.values()] == [
        "PART %1 -",
        "%1.%2",
        "%3.",
        "%4.",
        "%5.",
        "%6)",
    ]
    styles = _part(content, "word/styles.xml")
    for style in styles.iter(f"{W}style"):
        bound = style.find(f"{W}pPr/{W}numPr/{W}ilvl")
        if bound is not None:
            assert levels[str(style.get(f"{W}styleId"))][0] == bound.get(f"{W}val")
    body = _part(content, "word/document.xml")
    assert not list(body.iter(f"{W}numPr"))


def test_references_are_fields_to_bookmarks_on_the_articles_and_carry_their_numbers(
    complete: tuple[Section, bytes],
) -> None:
    section, content = complete
    body = _part(content, "word/document.xml")
    bookmarks = [mark.get(f"{W}name") for mark in body.iter(f"{W}bookmarkStart")]
    assert len(bookmarks) == len(set(bookmarks))
    numbers = [mark.get(f"{W}id") for mark in body.iter(f"{W}bookmarkStart")]
    assert len(numbers) == len(set(numbers))
    fields = [code.text.split()[1] for code in body.iter(f"{W}instrText") if code.text]
    wanted = [
        bookmark_of(span.article)
        for paragraph in section.paragraphs()
        for span in paragraph.spans
        if isinstance(span, ArticleReference)
    ]
    assert fields == wanted
    assert set(wanted) <= set(bookmarks)
    text = _words(body)
    assert re.search(r"Article .{0,60}REF _Article_panels .{0,20}2\.1", text)


def test_open_places_are_highlighted_and_decided_ones_are_not(
    small: Library, tmp_path: Path, complete: tuple[Section, bytes]
) -> None:
    _, content = _drafted("metal: steel\n", small, tmp_path)
    body = _part(content, "word/document.xml")
    marked = [_words(run) for run in body.iter(f"{W}r") if list(run.iter(f"{W}highlight"))]
    assert any(text.startswith("Open decision: lowest slope") for text in marked)
    assert "open: coating" in marked
    assert not list(_part(complete[1], "word/document.xml").iter(f"{W}highlight"))


def test_head_and_foot_carry_project_section_issue_and_page(
    complete: tuple[Section, bytes],
) -> None:
    _, content = complete
    head = _words(_part(content, "word/header1.xml"))
    foot = _words(_part(content, "word/footer1.xml"))
    assert "Mill" in head
    assert "07 41 13.16" in head
    assert "SMALL" in head
    assert "for bid, March 15, 2027" in foot
    assert "PAGE" in foot
    assert "NUMPAGES" in foot


def test_notes_are_comments_with_each_paragraphs_reason(small: Library, tmp_path: Path) -> None:
    section, content = _drafted(COMPLETE, small, tmp_path, notes=True)
    comments = list(docx.Document(io.BytesIO(content)).comments)
    paragraphs = list(section.paragraphs())
    assert len(comments) == len(paragraphs)
    reasons = {p.reason.clause: c.text for p, c in zip(paragraphs, comments, strict=True)}
    assert reasons["seam-sealant"].splitlines() == [
        "The seam stands under water.",
        "Answers: slope = 1:12; sealed = yes.",
        "Goes with: sealing.",
        "Clause: seam-sealant.",
    ]
    body = _part(content, "word/document.xml")
    assert len(list(body.iter(f"{W}commentRangeStart"))) == len(paragraphs)


def test_without_notes_there_is_no_comment(complete: tuple[Section, bytes]) -> None:
    assert not list(_part(complete[1], "word/document.xml").iter(f"{W}commentReference"))


def test_the_record_carries_the_brief_and_each_paragraphs_clause(
    complete: tuple[Section, bytes],
) -> None:
    section, content = complete
    record = _part(content, "customXml/item1.xml")
    space = f"{{{RECORD_NAMESPACE}}}"
    answers = json.loads(record.findtext(f"{space}brief") or "")
    assert answers["slope"] == "1:12"
    clauses = [entry.get("clause") for entry in record.iter(f"{space}paragraph")]
    assert clauses == [p.reason.clause for p in section.paragraphs() if p.reason.clause]


def test_a_table_repeats_its_head_and_keeps_its_rows_whole(
    complete: tuple[Section, bytes],
) -> None:
    document = docx.Document(io.BytesIO(complete[1]))
    (table,) = document.tables
    assert [[cell.text for cell in row.cells] for row in table.rows] == [
        ["Zone", "Spacing"],
        ["field", "24 in"],
    ]
    body = _part(complete[1], "word/document.xml")
    assert len(list(body.iter(f"{W}tblHeader"))) == 1
    assert len(list(body.iter(f"{W}cantSplit"))) == 2


def test_the_package_holds_each_part_once_and_nothing_of_the_templates(
    small: Library, tmp_path: Path
) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        _, content = _drafted(COMPLETE, small, tmp_path)
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        names = package.namelist()
    assert len(names) == len(set(names))
    assert not [name for name in names if "thumbnail" in name or "WithEffects" in name]
    properties = docx.Document(io.BytesIO(content)).core_properties
    assert properties.title == "07 41 13.16 SMALL"
    assert properties.subject == "Mill"
    assert properties.author == "specgen"


def test_drafting_twice_gives_the_same_parts_but_for_the_time_stamp(
    small: Library, tmp_path: Path
) -> None:
    packages = []
    for _ in range(2):
        _, content = _drafted(COMPLETE, small, tmp_path)
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            packages.append(
                {name: package.read(name) for name in package.namelist() if "core" not in name}
            )
    assert packages[0] == packages[1]


def test_markup_in_an_answer_stays_text(small: Library, tmp_path: Path) -> None:
    project = "<w:p/> & \"Sons\" ]]> 'x'"
    text = COMPLETE.replace("project_name: Mill", f"project_name: {json.dumps(project)}")
    _, content = _drafted(text, small, tmp_path)
    assert project in _words(_part(content, "word/header1.xml"))
    record = _part(content, "customXml/item1.xml")
    answers = json.loads(record.findtext(f"{{{RECORD_NAMESPACE}}}brief") or "")
    assert answers["project_name"] == project
