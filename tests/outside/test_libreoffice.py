"""What LibreOffice shows of a drafted document, held against what the program says is in it.

Source: LibreOffice Writer's own numbering, fields and layout, read back from its PDF with poppler's
pdftotext. The whole text must agree, character for character, spaces aside.
"""

from __future__ import annotations

import io
import os
import re
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from specgen.assemble import assemble
from specgen.brief import read_brief
from specgen.library import Library
from specgen.scope import Scope
from specgen.section import Section
from specgen.spans import Gap, Words
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


def _expected(section: Section) -> Iterator[tuple[str, str]]:
    """Every number and word of the body, in order; with a row of a table, its head.

    A cell that wraps comes out of the PDF with its lines between those of its neighbours, so of a
    row only the characters are held to agree and not their order. The head stands again where a
    table goes on to another page.
    """
    yield f"SECTION {section.number} {section.title}", ""
    for part in section.parts:
        yield f"PART {part.number} - {part.title}", ""
        for article in part.articles:
            yield f"{article.number} {article.title}", ""
            for paragraph in article.walk():
                text = "".join(
                    span.text if isinstance(span, Gap) else section.plain_span(span)
                    for span in paragraph.spans
                )
                yield f"{paragraph.label} {text}", ""
                for table in paragraph.tables:
                    for row in (table.head, *table.rows):
                        yield "".join(row), "".join(table.head)
    yield "END OF SECTION", ""


def _agree(section: Section, pages: list[list[str]]) -> None:
    """Fail at the first paragraph that LibreOffice shows otherwise than the program has it."""
    shown = _bare("".join(line for page in pages for line in page[HEAD_LINES:-FOOT_LINES]))
    position = 0
    for text, head in _expected(section):
        wanted = _bare(text)
        if head and not _same_letters(shown[position : position + len(wanted)], wanted):
            repeated = _bare(head)
            assert _same_letters(shown[position : position + len(repeated)], repeated), text
            position += len(repeated)
        found = shown[position : position + len(wanted)]
        position += len(wanted)
        assert _same_letters(found, wanted) if head else (found == wanted), text
    assert position == len(shown)


def _same_letters(one: str, other: str) -> bool:
    return sorted(one) == sorted(other)


def _bare(text: str) -> str:
    return re.sub(r"\s+", "", text)


def test_libreoffice_shows_the_numbers_references_heads_and_pages_that_the_program_has(
    library: Library, example: Path, tmp_path: Path
) -> None:
    section, document = _draft(example, library, tmp_path)
    pages = _pages(document, tmp_path)
    _agree(section, pages)
    project = section.project
    name = project.text if isinstance(project, Words | Gap) else ""
    for number, page in enumerate(pages, 1):
        head, foot = _bare("".join(page[:HEAD_LINES])), _bare(page[-1])
        assert _bare(name) in head
        assert _bare(section.number + section.title) in head
        assert foot.endswith(_bare(f"{section.number} - {number} of {len(pages)}"))


def test_libreoffice_computes_the_references_and_does_not_copy_them(
    library: Library, tmp_path: Path
) -> None:
    """With every stored result of a reference made wrong, the right number is still shown."""
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
    _agree(section, pages)
