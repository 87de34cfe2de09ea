"""A copy with comments: each on its words, and nothing else changed."""

from __future__ import annotations

import io
import shutil
import subprocess
import zipfile
from pathlib import Path

import docx
import pytest
from lxml import etree

from specgen.faults import BadInput
from specgen.review.annotating import annotate, comment_text
from specgen.review.outline import Outline
from specgen.review.reading import read_document
from specgen.review.shapes import Anchor, Found
from tests.review.findings import finding
from tests.review.packages import W, package, paragraph, row, table, written
from tests.review.test_reading_docx import HEADED, _box, run, runs
from tests.reviewed_documents.make import write_document
from tests.reviewed_documents.source import CLEAN, read_source


def on(found: Outline, words: str, says: str = "x") -> Found:
    """A finding on the first place of those words."""
    for block in found.blocks:
        at = block.text.find(words)
        if at >= 0:
            return Found(finding(says), Anchor(block.index, at, at + len(words)))
    raise AssertionError(words)


def commented(path: Path) -> dict[str, str]:
    """The words that each comment of a document stands on, by what the comment says first."""
    document = docx.Document(str(path))
    comments = {str(comment.comment_id): comment.text for comment in document.comments}
    found: dict[str, str] = {}
    open_: dict[str, list[str]] = {}
    for element in document.element.body.iter():
        name = etree.QName(element).localname
        if name == "commentRangeStart":
            open_[element.get(f"{{{W}}}id")] = []
        elif name == "commentRangeEnd":
            number = element.get(f"{{{W}}}id")
            found[comments[number].split("\n")[0]] = "".join(open_.pop(number))
        elif name in ("t", "tab", "br"):
            for words in open_.values():
                words.append(element.text or " ")
    return found


def annotated(body: str, *words: str, tmp_path: Path, **pieces: str) -> dict[str, str]:
    path = written(tmp_path, package(body, **pieces))  # type: ignore[arg-type]
    outline = read_document(path)
    before = path.read_bytes()
    annotate(path, outline, [on(outline, one, one) for one in words], tmp_path / "out.docx")
    assert path.read_bytes() == before
    same = [(b.kind, b.place, b.text) for b in read_document(tmp_path / "out.docx").blocks]
    assert same == [(b.kind, b.place, b.text) for b in outline.blocks]
    return commented(tmp_path / "out.docx")


def test_a_comment_stands_on_its_words_alone(tmp_path: Path) -> None:
    body = HEADED + paragraph("A.\tPanels of 24 ga steel sheet.")
    assert annotated(body, "24 ga", tmp_path=tmp_path) == {"Conflict: 24 ga": "24 ga"}


def test_words_over_several_runs_tabs_and_links_are_found(tmp_path: Path) -> None:
    body = HEADED + runs(
        run("A. Panels of "), run("24", "<w:b/>"), "<w:r><w:noBreakHyphen/></w:r>", run("ga"),
        f'<w:hyperlink w:anchor="x">{run(" steel")}</w:hyperlink>', run(" sheet."),
    )  # fmt: skip
    assert annotated(body, "24-ga steel", tmp_path=tmp_path) == {
        "Conflict: 24-ga steel": "24ga steel"
    }


def test_several_comments_on_one_paragraph_each_find_their_words(tmp_path: Path) -> None:
    body = HEADED + paragraph("A. Panels of 24 ga steel sheet with sealed seams.")
    words = ("24 ga", "steel", "24 ga steel sheet", "seams", "ga")
    found = annotated(body, *words, tmp_path=tmp_path)
    assert found == {f"Conflict: {one}": one for one in words}


def test_inserted_words_carry_comments_and_deleted_ones_do_not(tmp_path: Path) -> None:
    body = HEADED + runs(
        run("A. Panels of "),
        "<w:del w:id='1'><w:r><w:delText>22 ga</w:delText></w:r></w:del>"
        f"<w:ins w:id='2'>{run('24 ga')}</w:ins>",
        run(" steel."),
    )
    assert annotated(body, "24 ga steel", tmp_path=tmp_path) == {
        "Conflict: 24 ga steel": "24 ga steel"
    }


def test_words_of_a_row_are_found_in_their_cells(tmp_path: Path) -> None:
    body = HEADED + table(row("Zone", "Spacing"), row("1", "24 in"))
    assert annotated(body, "24 in", tmp_path=tmp_path) == {"Conflict: 24 in": "24 in"}
    assert annotated(body, "Zone\tSpacing", tmp_path=tmp_path) == {
        "Conflict: Zone\tSpacing": "ZoneSpacing"
    }


def test_a_finding_on_a_text_box_stands_on_the_nearest_paragraph_of_the_body(
    tmp_path: Path,
) -> None:
    body = HEADED + runs(run("A. One."), _box(paragraph("Boxed."))) + paragraph("B. Two.")
    assert annotated(body, "Boxed.", tmp_path=tmp_path) == {"Conflict: Boxed.": "A. One."}


def test_a_finding_on_the_whole_document_stands_on_its_first_line(tmp_path: Path) -> None:
    path = written(tmp_path, package(HEADED))
    annotate(path, read_document(path), [Found(finding("all of it"))], tmp_path / "out.docx")
    assert commented(tmp_path / "out.docx") == {"Conflict: all of it": "SECTION 07 41 13"}


def test_a_whole_block_is_commented_where_no_words_are_named(tmp_path: Path) -> None:
    path = written(tmp_path, package(HEADED + paragraph("A. One.")))
    annotate(path, read_document(path), [Found(finding("it"), Anchor(3))], tmp_path / "out.docx")
    assert commented(tmp_path / "out.docx") == {"Conflict: it": "One."}


def test_a_comment_says_what_why_and_what_would_settle_it() -> None:
    text = comment_text(Found(finding("Wrong."), fills="a-clause", fills_with="Panels: steel."))
    assert text.split("\n") == [
        "Conflict: Wrong.", "It is so.", "This would say it: Panels: steel.",
        "Source: common practice.",
    ]  # fmt: skip


@pytest.mark.parametrize("path", CLEAN, ids=lambda path: path.stem)
def test_the_copy_is_otherwise_the_same_paragraph_by_paragraph(path: Path, tmp_path: Path) -> None:
    original = write_document(read_source(path), tmp_path)
    outline = read_document(original)
    found = [
        Found(finding(str(block.index)), Anchor(block.index, len(block.text) // 3, len(block.text)))
        for block in outline.blocks[::3]
    ]
    annotate(original, outline, found, tmp_path / "out.docx")
    one, other = docx.Document(str(original)), docx.Document(str(tmp_path / "out.docx"))
    marks = {
        f"{{{W}}}{name}" for name in ("commentRangeStart", "commentRangeEnd", "commentReference")
    }
    for before, after in zip(
        one.element.body.iter(f"{{{W}}}p"), other.element.body.iter(f"{{{W}}}p"), strict=True
    ):
        assert _text(before) == _text(after)
        properties = [p.find(f"{{{W}}}pPr") for p in (before, after)]
        written_out = [b"" if p is None else etree.tostring(p) for p in properties]
        assert written_out[0] == written_out[1]
        added = {e.tag for e in after.iter()} - {e.tag for e in before.iter()}
        assert added <= marks | {f"{{{W}}}rPr", f"{{{W}}}rStyle", f"{{{W}}}r"}
    with zipfile.ZipFile(original) as old, zipfile.ZipFile(tmp_path / "out.docx") as new:
        assert set(old.namelist()) <= set(new.namelist())


def _text(element: object) -> str:
    return "".join(element.itertext(f"{{{W}}}t"))  # type: ignore[attr-defined]


def test_the_document_itself_is_never_written_over(tmp_path: Path) -> None:
    path = written(tmp_path, package(HEADED))
    with pytest.raises(BadInput, match="the document itself"):
        annotate(path, read_document(path), [], path)


def test_a_copy_that_cannot_be_written_leaves_what_was_there(tmp_path: Path) -> None:
    path = written(tmp_path, package(HEADED))
    with pytest.raises(BadInput, match="does not exist"):
        annotate(path, read_document(path), [], tmp_path / "none" / "out.docx")


def test_a_text_cannot_carry_comments(tmp_path: Path) -> None:
    path = written(tmp_path, b"PART 1 GENERAL", "a.txt")
    with pytest.raises(BadInput, match="DOCX alone"):
        annotate(path, read_document(path), [], tmp_path / "out.docx")


def test_a_copy_of_a_document_with_macros_is_an_ordinary_document_without(tmp_path: Path) -> None:
    stream = io.BytesIO()
    macro = "application/vnd.ms-word.document.macroEnabled.main+xml"
    tie = (
        '<Relationship Id="rId99" Target="vbaProject.bin" '
        'Type="http://schemas.microsoft.com/office/2006/relationships/vbaProject"/>'
    )
    content = package(HEADED, ties=tie)
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(stream, "w") as new:
        for name in old.namelist():
            text = old.read(name).decode()
            plain = (
                "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"
            )
            binary = '<Default Extension="bin" ContentType="application/vnd.ms-office.vbaProject"/>'
            text = text.replace("</Types>", f"{binary}</Types>")
            new.writestr(name, text.replace(plain, macro))
        new.writestr("word/vbaProject.bin", b"macro")
    path = written(tmp_path, stream.getvalue(), "a.docm")
    annotate(path, read_document(path), [Found(finding("it"))], tmp_path / "out.docx")
    with zipfile.ZipFile(tmp_path / "out.docx") as packed:
        assert not [name for name in packed.namelist() if "vba" in name]
        assert b"macroEnabled" not in packed.read("[Content_Types].xml")
    assert commented(tmp_path / "out.docx") == {"Conflict: it": "SECTION 07 41 13"}


@pytest.mark.libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_libreoffice_opens_the_copy_and_shows_each_comment_on_its_words(tmp_path: Path) -> None:
    path = write_document(read_source(CLEAN[0]), tmp_path)
    outline = read_document(path)
    chosen = [block for block in outline.blocks if block.kind == "paragraph"][4:60:7]
    found = [
        Found(finding(f"about {b.index}"), Anchor(b.index, 2, 2 + len(b.text[2:30].rstrip())))
        for b in chosen
    ]  # fmt: skip
    annotate(path, outline, found, tmp_path / "out.docx")
    subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile",
         "--convert-to", "fodt", "--outdir", str(tmp_path), str(tmp_path / "out.docx")],
        check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    shown = _shown_by_libreoffice(tmp_path / "out.fodt")
    wanted = {f"Conflict: about {b.index}": b.text[2:30].rstrip() for b in chosen}
    assert {says: " ".join(words.split()) for says, words in shown.items()} == {
        says: " ".join(words.split()) for says, words in wanted.items()
    }


def _shown_by_libreoffice(path: Path) -> dict[str, str]:
    """The words under each annotation of a flat OpenDocument text, by its first line."""
    office, text = (
        f"urn:oasis:names:tc:opendocument:xmlns:{name}:1.0" for name in ("office", "text")
    )
    found: dict[str, str] = {}
    open_: dict[str, list[str]] = {}
    first: dict[str, str] = {}
    for event, element in etree.iterparse(str(path), events=("start", "end"), huge_tree=True):
        inside = any(one.tag == f"{{{office}}}annotation" for one in element.iterancestors())
        if event == "start":
            if element.tag == f"{{{office}}}annotation-end":
                name = element.get(f"{{{office}}}name")
                found[first[name]] = "".join(open_.pop(name))
            elif not inside and element.tag != f"{{{office}}}annotation":
                for words in open_.values():
                    words.append(element.text or "")
        else:
            if element.tag == f"{{{office}}}annotation":
                name = element.get(f"{{{office}}}name")
                paragraphs = element.findall(f"{{{text}}}p")
                first[name] = "".join(paragraphs[0].itertext())
                open_[name] = []
            if not inside:
                for words in open_.values():
                    words.append(element.tail or "")
    return found
