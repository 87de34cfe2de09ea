"""What LibreOffice shows of a drafted document, held against what the program says is in it.

Source: LibreOffice Writer's own numbering, fields and layout, read back from its PDF with poppler's
pdftotext. The whole text must agree, character for character, spaces aside.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from specgen.assemble import assemble
from specgen.brief import read_brief
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section
from specgen.writers.docx import write_docx
from tests.support import EXAMPLES

REQUIRED = bool(os.environ.get("SPECGEN_REQUIRE_LIBREOFFICE"))
MISSING = not (shutil.which("soffice") and shutil.which("pdftotext"))
HEAD_LINES, FOOT_LINES = 2, 1

pytestmark = [
    pytest.mark.libreoffice,
    pytest.mark.skipif(MISSING and not REQUIRED, reason="LibreOffice or poppler is not installed"),
]


def _pages(document: Path, folder: Path) -> list[list[str]]:
    """The lines of each page as LibreOffice lays the document out."""
    profile = (folder / "profile").as_uri()
    subprocess.run(
        ["soffice", f"-env:UserInstallation={profile}", "--headless", "--convert-to", "pdf",
         "--outdir", str(folder), str(document)],
        check=True,
        capture_output=True,
        timeout=300,
    )  # fmt: skip
    text = subprocess.run(
        ["pdftotext", "-layout", str(folder / f"{document.stem}.pdf"), "-"],
        check=True,
        capture_output=True,
        timeout=60,
    ).stdout.decode()
    pages = text.rstrip("\f").split("\f")
    return [[line for line in page.splitlines() if line.strip()] for page in pages]


def _draft(brief: Path, library: Library, folder: Path) -> tuple[Section, Path]:
    answers = read_brief(brief, library)
    section = assemble(Scope(library, answers.answers))
    document = folder / f"{brief.stem}.docx"
    document.write_bytes(write_docx(section, answers))
    return section, document


def _expected(section: Section) -> str:
    """Every number and word of the body, in order."""
    pieces = [f"SECTION {section.number}", section.title]
    for part in section.parts:
        pieces.append(f"PART {part.number} - {part.title}")
        for article in part.articles:
            pieces.append(f"{article.number} {article.title}")
            for paragraph in article.walk():
                text = "".join(
                    section.plain_span(span) if not hasattr(span, "question") else span.text
                    for span in paragraph.spans
                )
                pieces.append(f"{paragraph.label} {text}")
                for table in paragraph.tables:
                    for row in (table.head, *table.rows):
                        pieces.extend(row)
    pieces.append("END OF SECTION")
    return "".join(pieces)


def _bare(text: str) -> str:
    return re.sub(r"\s+", "", text)


def test_libreoffice_shows_the_numbers_references_heads_and_pages_that_the_program_has(
    library: Library, example: Path, tmp_path: Path
) -> None:
    section, document = _draft(example, library, tmp_path)
    pages = _pages(document, tmp_path)
    shown = _bare("".join(line for page in pages for line in page[HEAD_LINES:-FOOT_LINES]))
    assert shown == _bare(_expected(section))
    project = section.project
    for number, page in enumerate(pages, 1):
        head, foot = _bare("".join(page[:HEAD_LINES])), _bare(page[-1])
        assert _bare(getattr(project, "text", "")) in head
        assert _bare(section.number + section.title) in head
        assert foot.endswith(_bare(f"{section.number} - {number} of {len(pages)}"))


def test_libreoffice_computes_the_references_and_does_not_copy_them(
    library: Library, tmp_path: Path
) -> None:
    """With every stored result of a reference made wrong, the right number is still shown."""
    import io
    import zipfile

    brief = EXAMPLES / "low-slope-library.yaml"
    section, document = _draft(brief, library, tmp_path)
    with zipfile.ZipFile(io.BytesIO(document.read_bytes())) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    body = parts["word/document.xml"].decode()
    stored = r'(REF _Article_\w+ .*?<w:t xml:space="preserve">)\d+\.\d+(</w:t>)'
    spoiled, count = re.subn(stored, r"\g<1>9.99\g<2>", body)
    assert count > 5
    parts["word/document.xml"] = spoiled.encode()
    with zipfile.ZipFile(document, "w") as package:
        for name, content in parts.items():
            package.writestr(name, content)
    pages = _pages(document, tmp_path)
    shown = _bare("".join(line for page in pages for line in page[HEAD_LINES:-FOOT_LINES]))
    assert shown == _bare(_expected(section))
