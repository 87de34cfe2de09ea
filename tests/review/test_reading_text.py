"""Plain text, Markdown and PDF: the same section in another form gives the same outline."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from specgen.faults import BadInput
from specgen.review.outline import Outline
from specgen.review.reading import read_document
from tests.review.packages import written
from tests.reviewed_documents.make import write_document
from tests.reviewed_documents.source import CLEAN, read_source
from tests.support import EXAMPLES, specgen

TYPED = """\
SECTION 07 41 13
METAL ROOF PANELS

PART 1 - GENERAL

1.1  SCOPE

     A.   Panels of steel sheet, 24 ga, on clips whose travel is not less than
          1.5 inches either way, with sealed seams.

     B.   Self-
          adhering underlayment.
          1.   Below the panels.
          2.   At the eaves, to a line 24 in. inside the face of the
               wall below.

     C.   Schedule:

          Zone        Spacing     Uplift
          ----        -------     ------
          1           24 in       45 psf
          2           12 in       90 psf

END OF SECTION
"""


# The other forms write tables in ways of their own.
TYPED_ALIKE = [
    path
    for path in CLEAN
    if (source := read_source(path)).style != "tables"
    and not any(line.kind == "row" for line in source.lines)
]


def key(found: Outline) -> list[tuple[object, ...]]:
    """All that two forms of one document have in common."""
    return [
        (block.kind, block.place, block.level, block.part, block.article, block.text)
        for block in found.blocks
        if block.kind in ("part", "article", "paragraph", "row")
    ]


def read(folder: Path, text: str | bytes, name: str = "a.txt") -> Outline:
    return read_document(written(folder, text.encode() if isinstance(text, str) else text, name))


def test_wrapped_lines_are_joined_into_paragraphs(tmp_path: Path) -> None:
    found = read(tmp_path, TYPED)
    assert (found.number, found.title) == ("07 41 13", "METAL ROOF PANELS")
    assert [(b.kind, b.place, b.text) for b in found.blocks[4:]] == [
        ("paragraph", "1.1.A",
         "Panels of steel sheet, 24 ga, on clips whose travel is not less than 1.5 inches either "
         "way, with sealed seams."),
        ("paragraph", "1.1.B", "Self-adhering underlayment."),
        ("paragraph", "1.1.B.1", "Below the panels."),
        ("paragraph", "1.1.B.2",
         "At the eaves, to a line 24 in. inside the face of the wall below."),
        ("paragraph", "1.1.C", "Schedule:"),
        ("row", "1.1.C", "Zone\tSpacing\tUplift"), ("row", "1.1.C", "1\t24 in\t45 psf"),
        ("row", "1.1.C", "2\t12 in\t90 psf"), ("title", "", "END OF SECTION"),
    ]  # fmt: skip


def test_a_block_of_a_text_knows_its_lines(tmp_path: Path) -> None:
    found = read(tmp_path, TYPED)
    block = next(block for block in found.blocks if block.place == "1.1.A")
    lines = TYPED.splitlines()
    assert [lines[number - 1].split()[0] for number in block.origin[1]] == ["A.", "1.5"]


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32"]
)
def test_every_usual_encoding_is_told(tmp_path: Path, encoding: str) -> None:
    text = TYPED.replace("24 ga", "24 ga ± 5 °")
    assert key(read(tmp_path, text.encode(encoding))) == key(read(tmp_path, text))


def test_a_text_of_windows_is_read_with_a_note(tmp_path: Path) -> None:
    found = read(
        tmp_path, TYPED.replace("24 ga", "24 ga \x96 5 °".replace("\x96", "–")).encode("cp1252")
    )
    assert any("24 ga – 5 °" in block.text for block in found.blocks)
    assert any("Windows-1252" in note.says for note in found.notes)


@pytest.mark.parametrize("ends", ["\r\n", "\r"])
def test_line_ends_of_other_systems_are_read(tmp_path: Path, ends: str) -> None:
    assert key(read(tmp_path, TYPED.replace("\n", ends))) == key(read(tmp_path, TYPED))


def test_paragraphs_that_are_one_line_each_are_not_joined(tmp_path: Path) -> None:
    lines = ["PART 1 GENERAL", "1.1 SCOPE", "A. " + "Panels of steel. " * 12,
             "Sealed at the eaves.", "Clipped at the ridge.", "B. Clips."]  # fmt: skip
    found = read(tmp_path, "\n".join(lines))
    assert [block.text for block in found.blocks][3:] == [
        "Sealed at the eaves.", "Clipped at the ridge.", "Clips.",
    ]  # fmt: skip


def test_running_heads_of_pages_are_taken_out_of_the_text(tmp_path: Path) -> None:
    pages = [
        f"Quarry Street School          07 41 13\n\n{body}\n\n07 41 13 - {number}"
        for number, body in enumerate(
            ("PART 1 GENERAL\n\n1.1 SCOPE\n\nA. Panels of steel sheet that are laid\n"
             "   from the eaves", "   up to the ridge.\n\nB. Clips.", "C. Screws."), start=1
        )
    ]  # fmt: skip
    found = read(tmp_path, "\f".join(pages))
    assert [block.text for block in found.blocks if block.kind == "page"] == [
        "Quarry Street School 07 41 13", "07 41 13 - 1",
    ]  # fmt: skip
    assert [b.text for b in found.said()] == [
        "Panels of steel sheet that are laid from the eaves up to the ridge.", "Clips.", "Screws.",
    ]  # fmt: skip


# ------------------------------------------------------------------------------------ Markdown


def test_markdown_is_read_as_its_page_shows_it(tmp_path: Path) -> None:
    text = (
        "# SECTION 07 41 13 METAL ROOF\n\n## PART 1 - GENERAL\n\n### 1.1 SCOPE\n\n"
        "A. **Panels** of *steel* `24 ga`, see [the schedule](http://example.invalid/a).\n"
        "B. Clips &amp; screws:\n   1. clips\n   2. screws\n\n- loose bullet\n  - and below it\n\n"
        "| Zone | Spacing |\n| --- | --- |\n| 1 | **24 in** |\n\n<!-- ask the owner -->\n\n"
        "<div>Words in markup.</div>\n\n```\nC. Set apart.\n```\n\nEND OF SECTION\n"
    )
    found = read(tmp_path, text, "a.md")
    assert [(b.number, b.text) for b in found.said()] == [
        ("A.", "Panels of steel 24 ga, see the schedule."), ("B.", "Clips & screws:"),
        ("1.", "clips"), ("2.", "screws"), ("•", "loose bullet"), ("•", "and below it"),
        ("", "Zone\tSpacing"), ("", "1\t24 in"), ("", "ask the owner"), ("", "Words in markup."),
        ("C.", "Set apart."),
    ]  # fmt: skip
    assert [block.text for block in found.blocks if block.hidden] == ["ask the owner"]


def test_an_ordered_list_shows_the_numbers_that_a_page_would(tmp_path: Path) -> None:
    text = "## PART 1\n\n### 1.1 SCOPE\n\n3. three\n3. four\n\n1) one\n"
    found = read(tmp_path, text, "a.md")
    assert [block.number for block in found.said()] == ["3.", "4.", "1)"]


# ------------------------------------------------------------------------------------ the forms


@pytest.mark.parametrize("suffix", [".txt", ".md", ".pdf"])
@pytest.mark.parametrize("path", TYPED_ALIKE, ids=lambda path: path.stem)
def test_a_document_in_another_form_gives_the_same_outline(
    path: Path, suffix: str, tmp_path: Path
) -> None:
    source = read_source(path)
    one = read_document(write_document(source, tmp_path))
    other = read_document(write_document(source, tmp_path, suffix))

    def bare(found: Outline) -> list[tuple[object, ...]]:
        return [tuple(str(v).replace("\t", " ") for v in entry) for entry in key(found)]

    assert bare(other) == bare(one)


@pytest.mark.parametrize("suffix", [".txt", ".md"])
def test_a_draft_of_our_own_in_another_form_gives_the_same_outline(
    suffix: str, tmp_path: Path
) -> None:
    for name in ("a.docx", f"a{suffix}"):
        specgen("draft", EXAMPLES / "snow-country-lodge.yaml", "-o", tmp_path / name)
    assert key(read_document(tmp_path / f"a{suffix}")) == key(read_document(tmp_path / "a.docx"))


@pytest.mark.libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_a_pdf_that_libreoffice_makes_gives_the_same_paragraphs(tmp_path: Path) -> None:
    path = tmp_path / "a.docx"
    specgen("draft", EXAMPLES / "snow-country-lodge.yaml", "-o", path)
    subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile",
         "--convert-to", "pdf", "--outdir", str(tmp_path), str(path)],
        check=True, capture_output=True, timeout=180,
    )  # fmt: skip
    ours = [entry for entry in key(read_document(path)) if entry[0] != "row"]
    theirs = set(key(read_document(tmp_path / "a.pdf")))
    same = sum(entry in theirs for entry in ours)
    assert same >= 0.99 * len(ours)


def test_a_pdf_without_text_is_refused_with_a_sentence(tmp_path: Path) -> None:
    from pypdf import PdfWriter

    writer = PdfWriter()
    writer.add_blank_page(612, 792)
    writer.write(tmp_path / "a.pdf")
    with pytest.raises(BadInput, match="no text"):
        read_document(tmp_path / "a.pdf")


def test_a_protected_pdf_is_refused_with_a_sentence(tmp_path: Path) -> None:
    from pypdf import PdfReader, PdfWriter

    source = read_source(CLEAN[0])
    plain = write_document(source, tmp_path, ".pdf")
    writer = PdfWriter(clone_from=PdfReader(plain))
    writer.encrypt("secret", algorithm="RC4-128")
    writer.write(tmp_path / "b.pdf")
    with pytest.raises(BadInput, match="protected"):
        read_document(tmp_path / "b.pdf")
