"""A document that somebody else wrote, as an outline: DOCX, text, Markdown or PDF."""

from __future__ import annotations

from pathlib import Path

from specgen.faults import BadInput, Fault
from specgen.review.docx_package import LARGEST_FILE, Unreadable
from specgen.review.lines import Reading
from specgen.review.outline import Outline
from specgen.review.structure import outline_of

SUFFIXES = (".docx", ".docm", ".dotx", ".dotm", ".txt", ".text", ".md", ".markdown", ".pdf")
_OLD_OFFICE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


def read_document(path: Path) -> Outline:
    """The outline of the section that a file holds; its name is the file's.

    What a file is, its content decides. Raises BadInput for one that cannot be read.
    """
    content = _content(path)
    try:
        reading = read_bytes(content, path.suffix.lower())
    except (Unreadable, RecursionError) as error:
        says = str(error) if isinstance(error, Unreadable) else "it is nested too deep to be read."
        raise BadInput([Fault(str(path), None, says)]) from None
    if not any(line.text.strip() for line in reading.lines):
        raise BadInput([Fault(str(path), None, "there is no text in it.")])
    return outline_of(reading, path.name)


def read_bytes(content: bytes, suffix: str) -> Reading:
    """The lines of a file's content; Unreadable for what is no document that is read here."""
    if content[:4] in (b"PK\x03\x04", b"PK\x05\x06"):
        from specgen.review.docx_reading import read_docx

        return read_docx(content)
    if content[:1024].lstrip()[:5] == b"%PDF-":
        from specgen.review.pdf_reading import read_pdf

        return read_pdf(content)
    _refuse_others(content)
    from specgen.review.text_reading import read_text

    return read_text(content, markdown=suffix in (".md", ".markdown"))


def _refuse_others(content: bytes) -> None:
    if content.startswith(_OLD_OFFICE):
        if "EncryptedPackage".encode("utf-16-le") in content:
            raise Unreadable("the file is protected by a password; save it without one.")
        raise Unreadable("this is a Word file of the older kind; save it as DOCX.")
    head = content[:2048].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if head.startswith(b"{\\rtf"):
        raise Unreadable("this is rich text; save it as DOCX.")
    if head.startswith((b"<!doctype html", b"<html")):
        raise Unreadable("this is a web page; save it as DOCX or as text.")
    if head.startswith(b"<?xml"):
        raise Unreadable("this is XML; save the document as DOCX.")


def _content(path: Path) -> bytes:
    def refuse(says: str) -> BadInput:
        return BadInput([Fault(str(path), None, says)])

    try:
        if path.is_dir():
            raise refuse("this is a folder; name the file in it.")
        if path.exists() and not path.is_file():
            raise refuse("this is not an ordinary file.")
        size = path.stat().st_size
        if size > LARGEST_FILE:
            raise refuse(f"the file is larger than {LARGEST_FILE // 2**20} MB.")
        if size == 0:
            raise refuse("the file is empty.")
        return path.read_bytes()
    except FileNotFoundError:
        raise refuse("there is no such file; check the path.") from None
    except ValueError:
        raise refuse("this is not a usable path.") from None
    except OSError as error:
        raise refuse(f"it cannot be read: {error.strerror}.") from None
