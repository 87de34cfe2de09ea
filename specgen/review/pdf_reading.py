"""A PDF with text in it as its lines; a scan is refused, since nothing in it can be read."""

from __future__ import annotations

import io
import logging
import time
from typing import Any

from specgen.review.cleaning import upright
from specgen.review.docx_package import Unreadable
from specgen.review.lines import Reading
from specgen.review.running_heads import without_running_heads
from specgen.review.text_reading import words_of
from specgen.review.wrapping import MOST_LINES, Typed, paragraphs_of, typed_lines

MOST_PAGES = 1_000
LONGEST_PAGE = 500_000
# What draws one page; a page full of small type takes a hundredth of it.
LARGEST_PAGE = 8 * 2**20
PATIENCE = 60.0
_LEAST_LETTERS = 20


def read_pdf(content: bytes) -> Reading:
    """The lines of a PDF; Unreadable for a protected, damaged, endless or scanned one."""
    logging.getLogger("pypdf").setLevel(logging.CRITICAL)
    pages = _pages(content)
    letters = sum(sum(map(str.isalpha, page)) for page in pages)
    if letters < _LEAST_LETTERS * max(1, min(len(pages), 3)):
        raise Unreadable("it holds pictures of pages and no text; get the section as DOCX or text.")
    typed: list[list[Typed | None]] = []
    before = 0
    for page in pages:
        lines = typed_lines("\n" * before + page)
        typed.append(lines[before:])
        before += page.count("\n") + 1
        if before > MOST_LINES:
            raise Unreadable(f"it has more than {MOST_LINES:,} lines; no section does.")
    body, heads = without_running_heads(typed)
    says = ["Read from a PDF: bold type, automatic numbers and tables are told by their look."]
    silent = sum(not page.strip() for page in pages)
    if silent:
        says.append(f"{silent} of {len(pages)} pages hold no text, and are not read.")
    return Reading([*paragraphs_of(body, hyphens=words_of(pages)), *heads], says)


def _pages(content: bytes) -> list[str]:
    from pypdf import PdfReader
    from pypdf.errors import DependencyError

    started = time.monotonic()
    try:
        reader = PdfReader(io.BytesIO(content))
        if reader.is_encrypted and not reader.decrypt(""):
            raise Unreadable("the file is protected by a password; save it without one.")
        if len(reader.pages) > MOST_PAGES:
            raise Unreadable(f"it has more than {MOST_PAGES:,} pages; give the section alone.")
        pages = []
        for page in reader.pages:
            pages.append(_text_of(page)[:LONGEST_PAGE])
            if time.monotonic() - started > PATIENCE:
                raise Unreadable("it takes too long to read; save it as PDF anew, or as DOCX.")
    except Unreadable:
        raise
    except DependencyError:
        raise Unreadable("the file is protected; save it without protection.") from None
    except Exception:
        # A damaged PDF makes pypdf raise whatever its broken place leads to.
        raise Unreadable("the PDF is damaged; open it and save it anew.") from None
    return pages


def _text_of(page: Any) -> str:
    """The text of a page with its columns kept, as a typewriter would have set it."""
    drawn = page.get_contents()
    if drawn is not None and len(drawn.get_data()) > LARGEST_PAGE:
        raise Unreadable("one of its pages is drawn with more than any text needs; print it anew.")
    text = page.extract_text(extraction_mode="layout", layout_mode_space_vertically=False)
    return upright(str(text)).replace("\r", "\n")
