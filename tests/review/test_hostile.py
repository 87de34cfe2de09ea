"""Files made to do harm, damaged files and files that are something else: a sentence, quickly."""

from __future__ import annotations

import io
import random
import struct
import subprocess
import sys
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from specgen.faults import BadInput
from specgen.review import docx_package
from specgen.review.annotating import annotate
from specgen.review.outline import Outline
from specgen.review.reading import read_document
from specgen.review.shapes import Anchor, Found
from tests.review.findings import finding
from tests.review.packages import package, paragraph, row, table, written

BODY = "".join(map(paragraph, ("SECTION 07 41 13", "PART 1 GENERAL", "1.1 SCOPE", "A. Panels.")))


def repacked(content: bytes, change: Callable[[str, bytes], bytes]) -> bytes:
    """A package with each part changed."""
    stream = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            new.writestr(name, change(name, old.read(name)))
    return stream.getvalue()


def with_body(content: bytes, body: bytes) -> bytes:
    """A package with another main part."""
    return repacked(content, lambda name, part: body if name == "word/document.xml" else part)


def refused(path: Path) -> str:
    with pytest.raises(BadInput) as caught:
        read_document(path)
    assert len(caught.value.faults) == 1
    assert str(path) in str(caught.value)
    return caught.value.faults[0].says


def timed(path: Path) -> tuple[Outline | None, float]:
    """The outline, or None for a refused file, and the seconds that it took."""
    started = time.perf_counter()
    try:
        found = read_document(path)
    except BadInput:
        found = None
    return found, time.perf_counter() - started


# ------------------------------------------------------------------------------- something else


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("a.docx", b"", "empty"),
        ("a.docx", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600, "older kind"),
        ("a.docx", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"),
         "password"),
        ("a.docx", b"{\\rtf1 hello}", "rich text"),
        ("a.docx", b"<html><body>x</body></html>", "web page"),
        ("a.docx", b"<?xml version='1.0'?><a/>", "XML"),
        ("a.txt", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" + b"\0\1\2" * 99, "not a text"),
        ("a.pdf", b"%PDF-1.7\nnothing of the kind", "damaged"),
        ("a.docx", b"PK\x03\x04 and then nothing", "damaged"),
        ("a.docx", b"PK\x05\x06" + b"\0" * 18, "not a Word document"),
    ],
)  # fmt: skip
def test_what_is_no_document_is_named_for_what_it_is(
    tmp_path: Path, name: str, content: bytes, told: str
) -> None:
    assert told in refused(written(tmp_path, content, name))


def test_a_folder_a_missing_file_and_a_pipe_are_refused(tmp_path: Path) -> None:
    import os

    assert "folder" in refused(tmp_path)
    assert "no such file" in refused(tmp_path / "none.docx")
    os.mkfifo(tmp_path / "pipe.docx")
    assert "ordinary file" in refused(tmp_path / "pipe.docx")


@pytest.mark.parametrize(
    ("part", "told"),
    [("xl/workbook.xml", "workbook"), ("ppt/presentation.xml", "presentation"),
     ("content.xml", "OpenDocument")],
)  # fmt: skip
def test_other_packages_are_named_for_what_they_are(tmp_path: Path, part: str, told: str) -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as packed:
        packed.writestr("mimetype", "x")
        packed.writestr(part, "<a/>")
    assert told in refused(written(tmp_path, stream.getvalue()))


def test_a_docx_is_read_whatever_its_name_says(tmp_path: Path) -> None:
    for name in ("a.txt", "a.pdf", "a", "a.xlsx"):
        assert read_document(written(tmp_path, package(BODY), name)).number == "07 41 13"


def test_a_document_with_macros_is_read_and_they_are_not(tmp_path: Path) -> None:
    stream = io.BytesIO(package(BODY))
    with zipfile.ZipFile(stream, "a") as packed:
        packed.writestr("word/vbaProject.bin", b"\0macro")
    found = read_document(written(tmp_path, stream.getvalue(), "a.docm"))
    assert any("macros" in note.says for note in found.notes)


# ------------------------------------------------------------------------------------- too large


def test_a_part_that_unpacks_to_more_than_its_bound_is_refused(tmp_path: Path) -> None:
    bomb = with_body(package(BODY), b" " * (docx_package.LARGEST_PART + 1))
    assert len(bomb) < 100_000
    assert "MB" in refused(written(tmp_path, bomb))


def test_a_package_that_unpacks_to_more_than_its_bound_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(docx_package, "LARGEST_UNPACKED", 100_000)
    stream = io.BytesIO(package(BODY))
    with zipfile.ZipFile(stream, "a", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("word/media/a.png", b"\0" * 200_000)
    assert "unpacks to more" in refused(written(tmp_path, stream.getvalue()))


def test_a_package_of_very_many_parts_is_refused(tmp_path: Path) -> None:
    stream = io.BytesIO(package(BODY))
    with zipfile.ZipFile(stream, "a") as packed:
        for number in range(docx_package.MOST_ENTRIES):
            packed.writestr(f"x/{number}", b"")
    assert "parts" in refused(written(tmp_path, stream.getvalue()))


def test_a_million_empty_paragraphs_are_read_or_refused_in_a_few_seconds(tmp_path: Path) -> None:
    body = BODY + "<w:p/>" * 1_000_000
    path = written(tmp_path, package(body))
    script = (
        "import resource, sys, pathlib; from specgen.review.reading import read_document;"
        "print(len(read_document(pathlib.Path(sys.argv[1])).blocks),"
        "resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)"
    )
    started = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", script, str(path)], capture_output=True, text=True, check=True
    )
    blocks, kilobytes = map(int, done.stdout.split())
    assert blocks == 4
    assert time.perf_counter() - started < 20
    assert kilobytes < 800 * 2**10


def test_more_tags_than_any_section_has_are_refused(tmp_path: Path) -> None:
    path = written(tmp_path, package("<w:p><w:pPr/></w:p>" * 1_000_000))
    assert "tags" in refused(path)


@pytest.mark.parametrize("depth", [60, 5_000])
def test_deep_nesting_ends_in_an_outline_or_a_sentence(tmp_path: Path, depth: int) -> None:
    for body in (
        BODY + "<w:tbl><w:tr><w:tc>" * depth + "</w:tc></w:tr></w:tbl>" * depth,
        BODY + "<w:p>" + "<w:ins>" * depth + "<w:r><w:t>x</w:t></w:r>"
        + "</w:ins>" * depth + "</w:p>",
        BODY + "<w:sdt><w:sdtContent>" * depth + paragraph("x") + "</w:sdtContent></w:sdt>" * depth,
        BODY + "<w:p><w:r><w:pict><w:txbxContent>" * depth
        + "</w:txbxContent></w:pict></w:r></w:p>" * depth,
    ):  # fmt: skip
        found, took = timed(written(tmp_path, package(body)))
        assert took < 5
        assert (found is None) == (depth == 5_000)


def test_a_very_long_paragraph_is_read_in_bounded_time(tmp_path: Path) -> None:
    for text in ("1." * 200_000, "[" * 400_000, "A. " + "\t" * 400_000 + "x", "-" * 400_000):
        assert timed(written(tmp_path, package(BODY + paragraph(text))))[1] < 5
        assert timed(written(tmp_path, text.encode(), "a.txt"))[1] < 5
        assert timed(written(tmp_path, text.encode(), "a.md"))[1] < 5


def test_many_rows_and_many_line_breaks_are_read_in_bounded_time(tmp_path: Path) -> None:
    rows = table(*(row("A.", "x", "y") for _ in range(10_000)))
    assert timed(written(tmp_path, package(BODY + rows)))[1] < 20
    breaks = "<w:p><w:r>" + "<w:t>1. x</w:t><w:br/>" * 10_000 + "</w:r></w:p>"
    assert timed(written(tmp_path, package(BODY + breaks)))[1] < 20


# -------------------------------------------------------------------------------------- entities


def test_entities_are_refused_before_they_grow(tmp_path: Path) -> None:
    lines = ['<!ENTITY a0 "ha">'] + [f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 12)]
    bomb = (
        f'<?xml version="1.0"?><!DOCTYPE w [{"".join(lines)}]>'
        f'<w:document xmlns:w="{docx_package.W}"><w:body><w:p><w:r><w:t>&a11;</w:t></w:r></w:p>'
        "</w:body></w:document>"
    )
    path = written(tmp_path, with_body(package(BODY), bomb.encode()))
    assert timed(path)[1] < 2
    assert "entities" in refused(path) or "damaged" in refused(path)


def test_an_entity_leads_to_no_file_and_to_no_network(tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("the secret")
    for where in (f"file://{secret}", "http://127.0.0.1:9/x"):
        outside = (
            f'<?xml version="1.0"?><!DOCTYPE w [<!ENTITY s SYSTEM "{where}">]>'
            f'<w:document xmlns:w="{docx_package.W}"><w:body><w:p><w:r><w:t>&s;</w:t></w:r></w:p>'
            "</w:body></w:document>"
        )
        says = refused(written(tmp_path, with_body(package(BODY), outside.encode())))
        assert "secret" not in says.replace("secret.txt", "")


def test_a_part_that_leads_out_of_the_package_is_not_followed(tmp_path: Path) -> None:
    tie = (
        '<Relationship Id="rId70" Type="x/header" Target="../../../../etc/hostname"/>'
        '<Relationship Id="rId71" Type="x/footer" TargetMode="External" Target="file:///etc/hosts"/>'
    )
    found = read_document(written(tmp_path, package(BODY, ties=tie)))
    assert [block.kind for block in found.blocks].count("page") == 0


# --------------------------------------------------------------------------------------- damaged


def test_a_protected_part_is_refused(tmp_path: Path) -> None:
    content = bytearray(package(BODY))
    at = 0
    while (at := content.find(b"PK\x01\x02", at)) >= 0:
        flags = struct.unpack_from("<H", content, at + 8)[0]
        struct.pack_into("<H", content, at + 8, flags | 1)
        at += 4
    assert "password" in refused(written(tmp_path, bytes(content)))


def test_a_document_cut_short_anywhere_is_refused(tmp_path: Path) -> None:
    content = package(BODY)
    for size in range(5, len(content) - 1, 97):
        assert refused(written(tmp_path, content[:size]))


def test_a_body_that_is_not_xml_or_holds_nothing_is_refused(tmp_path: Path) -> None:
    for body in (b"", b"not xml", b"<a/>", b"\xff\xfe\x00", b"<w:document/>"):
        assert refused(written(tmp_path, with_body(package(BODY), body)))


def _mutated(content: bytes, chance: random.Random) -> bytes:
    """A package with a few bytes of one part changed, taken out or doubled, or of its own bytes."""
    if chance.random() < 0.3:
        return _spoiled(content, chance)
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        name = chance.choice(packed.namelist())
    return repacked(content, lambda n, part: _spoiled(part, chance) if n == name else part)


def _spoiled(content: bytes, chance: random.Random) -> bytes:
    spoiled = bytearray(content)
    for _ in range(chance.randint(1, 3)):
        if not spoiled:
            break
        at = chance.randrange(len(spoiled))
        kind = chance.randrange(8)
        if kind == 0:
            spoiled[at] = chance.randrange(256)
        elif kind == 1:
            del spoiled[at : at + chance.randint(1, 60)]
        elif kind == 2:
            spoiled[at:at] = spoiled[at : at + chance.randint(1, 400)]
        else:
            # Exchange two attribute values, tags or numbers: well formed more often than not.
            words = bytes(spoiled).split(b'"')
            one, other = chance.randrange(len(words)), chance.randrange(len(words))
            words[one], words[other] = words[other], words[one]
            spoiled = bytearray(b'"'.join(words))
    return bytes(spoiled)


def test_a_thousand_mutated_documents_end_in_an_outline_or_a_sentence(tmp_path: Path) -> None:
    from tests.review.packages import abstract, num, styled
    from tests.review.test_numbering import SECTION, SECTION_STYLES
    from tests.review.test_reading_docx import HEADED, _box, run, runs

    body = (
        HEADED
        + runs(run("A. One."), _box(paragraph("Boxed.")),
               '<w:r><w:footnoteReference w:id="2"/></w:r>')
        + "".join(styled("x", name) for name in ("Pt", "Art", "P1", "P2"))
        + table(row("A.", "text"), row("B.", "more text"))
    )  # fmt: skip
    parts = {
        "footnotes.xml": ("footnotes", f'<w:footnote w:id="2">{paragraph("Foot.")}</w:footnote>'),
        "header1.xml": ("header", paragraph("Head 07 41 13")),
    }
    numbering = abstract(1, *SECTION) + num(1, 1)
    content = package(body, styles=SECTION_STYLES, numbering=numbering, parts=parts)
    chance = random.Random(74113)
    read = 0
    for _ in range(1_000):
        path = written(tmp_path, _mutated(content, chance))
        before = path.read_bytes()
        try:
            found = read_document(path)
        except BadInput as error:
            assert error.faults[0].says.endswith(".")
        else:
            read += 1
            if read % 5 == 0:
                _annotated(path, found, tmp_path / "out.docx")
        assert path.read_bytes() == before
    assert 100 < read < 1_000


def _annotated(path: Path, found: Outline, out: Path) -> None:
    try:
        annotate(path, found, [Found(finding(), Anchor(len(found.blocks) // 2))], out)
    except BadInput as error:
        assert error.faults[0].says.endswith(".")


def test_mutated_pdfs_end_in_an_outline_or_a_sentence(tmp_path: Path) -> None:
    from tests.reviewed_documents.make import write_document
    from tests.reviewed_documents.source import CLEAN, read_source

    content = write_document(read_source(CLEAN[0]), tmp_path, ".pdf").read_bytes()
    chance = random.Random(74113)
    read = 0
    for _ in range(60):
        path = written(tmp_path, _spoiled(content, chance), "b.pdf")
        found, took = timed(path)
        read += found is not None
        assert took < 20
    assert read


@pytest.mark.parametrize("times", [1_000_000, 20_000_000])
def test_a_pdf_whose_text_unpacks_to_very_much_is_refused_in_bounded_time(
    tmp_path: Path, times: int
) -> None:
    import zlib

    packed = zlib.compress(b"BT /F1 9 Tf (a) Tj ET " * times, 9)
    objects = [
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Count 1 /Kids [3 0 R] >>",
        b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R >>",
        b"<< /Filter /FlateDecode /Length %d >>\nstream\n%s\nendstream" % (len(packed), packed),
    ]
    made = bytearray(b"%PDF-1.4\n")
    for number, one in enumerate(objects, start=1):
        made += b"%d 0 obj\n%s\nendobj\n" % (number, one)
    made += b"trailer\n<< /Root 1 0 R >>\nstartxref\n0\n%%EOF\n"
    path = written(tmp_path, bytes(made), "a.pdf")
    started = time.perf_counter()
    assert refused(path)
    assert time.perf_counter() - started < 30
