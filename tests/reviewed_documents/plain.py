"""The documents as plain text, as Markdown, and as a PDF of typed pages."""

from __future__ import annotations

import textwrap

from tests.reviewed_documents.source import Source

PAGE_LINES = 54
_SPACES = (0, 4, 9, 14, 19)


def as_text(source: Source, width: int = 86) -> str:
    """The document typed on a plain page, its numbers before its paragraphs."""
    typed = ["  ".join(source.running), "", f"SECTION {source.number}", "", source.title, ""]
    for line in source.lines:
        if line.kind == "part":
            typed += ["", f"{line.number} - {line.text}", ""]
        elif line.kind == "article":
            typed += ["", f"{line.number}  {line.text}", ""]
        elif line.kind == "row":
            typed += ["    " + "    ".join(line.cells), ""]
        else:
            typed += [*_hung(line.number, line.text, _SPACES[line.level], width), ""]
    return "\n".join([*typed, "END OF SECTION", ""])


def _hung(number: str, text: str, indent: int, width: int) -> list[str]:
    first = " " * indent + number.ljust(5)
    return textwrap.wrap(
        text,
        width,
        initial_indent=first,
        subsequent_indent=" " * len(first),
        break_long_words=False,
    )


def as_markdown(source: Source) -> str:
    """The document in Markdown: headings for parts and articles, its letters and figures typed."""
    typed = [f"# SECTION {source.number} {source.title}", ""]
    for line in source.lines:
        if line.kind == "part":
            typed += [f"## {line.number} {line.text}", ""]
        elif line.kind == "article":
            typed += [f"### {line.number} {line.text}", ""]
        else:
            typed += [f"{'    ' * (line.level - 1)}{line.number} {line.text}", ""]
    return "\n".join([*typed, "END OF SECTION", ""])


def as_pdf(source: Source) -> bytes:
    """The typed pages as a PDF: a page tree, one typewriter font, a text stream a page."""
    lines = as_text(source).splitlines()
    pages = [lines[at : at + PAGE_LINES] for at in range(0, len(lines), PAGE_LINES)]
    numbers = [4 + 2 * at for at in range(len(pages))]
    kids = " ".join(f"{number} 0 R" for number in numbers)
    objects = [
        b"<< /Type /Catalog /Pages 2 0 R >>",
        f"<< /Type /Pages /Count {len(pages)} /Kids [{kids}] >>".encode(),
        b"<< /Type /Font /Subtype /Type1 /BaseFont /Courier /Encoding /WinAnsiEncoding >>",
    ]
    for number, page in zip(numbers, pages, strict=True):
        objects.append(
            f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents {number + 1} 0 R"
            " /Resources << /Font << /F1 3 0 R >> >> >>".encode()
        )
        stream = _stream(page)
        objects.append(b"<< /Length %d >>\nstream\n%s\nendstream" % (len(stream), stream))
    return _file(objects)


def _stream(lines: list[str]) -> bytes:
    shown = [b"BT /F1 9.5 Tf 12.5 TL 60 740 Td"]
    for line in lines:
        raw = line.encode("cp1252", "replace")
        for sign in (b"\\", b"(", b")"):
            raw = raw.replace(sign, b"\\" + sign)
        shown.append(b"(" + raw + b") Tj T*")
    return b"\n".join([*shown, b"ET"])


def _file(objects: list[bytes]) -> bytes:
    made = bytearray(b"%PDF-1.4\n")
    places = []
    for number, content in enumerate(objects, start=1):
        places.append(len(made))
        made += b"%d 0 obj\n%s\nendobj\n" % (number, content)
    start = len(made)
    made += b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1)
    made += b"".join(b"%010d 00000 n \n" % place for place in places)
    made += b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (
        len(objects) + 1,
        start,
    )
    return bytes(made)
